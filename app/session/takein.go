package session

import (
	"context"
	"slices"

	"heartside/app/intake"
	"heartside/model"
	"heartside/model/say"
)

// Taking is a picture the maker gives for a part of a board, under the name
// the project is to know it by.
type Taking struct {
	Place intake.Place
	Name  string
}

// takeIn is the reading of photographs in the background. It belongs to the
// goroutine of the session.
type takeIn struct {
	news  map[intake.Place]intake.News
	order []intake.Place // as the work began
	runs  []*run
}

// run is a stack of photographs being read.
type run struct {
	stop   context.CancelFunc
	places map[intake.Place]bool // still to be heard of
}

// abreast is how many photographs are read at once.
const abreast = 2

// TakeIn puts pictures into the project as one entry of the history and reads
// those of faces in the background. A face that was split before starts over.
func (s *Session) TakeIn(list []Taking) error {
	e, err := s.takingEdit(list)
	if err != nil {
		return err
	}
	if err := s.Commit(e); err != nil {
		return err
	}
	var places []intake.Place
	for _, t := range list {
		if t.Place.Part.Face() > 0 {
			places = append(places, t.Place)
		}
	}
	s.ReadFaces(places)
	return nil
}

// takingEdit puts the pictures where they belong; the faces wait to be split.
func (s *Session) takingEdit(list []Taking) (model.Edit, error) {
	changed := map[string]*model.Board{}
	for _, t := range list {
		b := changed[t.Place.Board]
		if b == nil {
			at := s.Committed().Board(t.Place.Board)
			if at == nil {
				return nil, say.Errorf("there is no board %s for %s", t.Place.Board, t.Name)
			}
			c := *at
			b = &c
			changed[at.ID] = b
		}
		switch t.Place.Part {
		case intake.Face1, intake.Face2:
			f := &b.Faces[t.Place.Part.Face()-1]
			reference := f.Reference
			if f.White != nil {
				reference = "" // it was measured on the photograph before
			}
			*f = model.Face{Photo: t.Name, Known: true, Reference: reference, Split: &model.Split{By: model.SplitOpen}}
		case intake.EndA:
			b.Ends[0] = model.End{Photo: t.Name}
		case intake.EndB:
			b.Ends[1] = model.End{Photo: t.Name}
		default:
			return nil, say.Errorf("say what of board %s %s shows", b.ID, t.Name)
		}
	}
	e := model.SetBoards{Verb: say.T("Take in a photograph")}
	if len(list) > 1 {
		e.Verb = say.F("Take in %d photographs", len(list))
	}
	for _, b := range s.Committed().Boards {
		if c := changed[b.ID]; c != nil {
			e.Boards = append(e.Boards, c)
		}
	}
	return e, nil
}

// Waiting lists the faces whose photographs are still to be split.
func (s *Session) Waiting() []intake.Place {
	var out []intake.Place
	for _, b := range s.Committed().Boards {
		for i := range b.Faces {
			if b.Faces[i].Open() {
				out = append(out, intake.Place{Board: b.ID, Part: intake.Part(i + 1)})
			}
		}
	}
	return out
}

// ReadFaces reads the photographs of faces that wait, in the background;
// others are passed over.
func (s *Session) ReadFaces(places []intake.Place) {
	r := &run{places: map[intake.Place]bool{}}
	var jobs []intake.Job
	for _, p := range places {
		b := s.Committed().Board(p.Board)
		if b == nil || p.Part.Face() == 0 || !b.Faces[p.Part.Face()-1].Open() {
			continue
		}
		s.forget(p)
		f := &b.Faces[p.Part.Face()-1]
		j := intake.Job{Place: p, Name: f.Photo, Length: b.Length, Width: b.Width, Corners: f.Corners, Waney: b.Waney()}
		if b.Edges == model.EdgesMeasured {
			j.Width = 0
		}
		jobs = append(jobs, j)
		r.places[p] = true
		s.taken.order = append(s.taken.order, p)
		s.taken.news[p] = intake.News{Job: j}
	}
	if len(jobs) == 0 {
		return
	}
	ctx, stop := context.WithCancel(s.work)
	r.stop = stop
	s.taken.runs = append(s.taken.runs, r)
	read := s.readFunc()
	if s.opt.Post == nil {
		intake.Work(ctx, jobs, 1, read, func(n intake.News) { s.heard(r, n) })
		return
	}
	s.changed()
	go intake.Work(ctx, jobs, abreast, read, func(n intake.News) {
		s.opt.Post(func() { s.heard(r, n) })
	})
}

// readFunc reads with the pictures of the project as it is now.
func (s *Session) readFunc() intake.ReadFunc {
	if s.opt.Read != nil {
		return s.opt.Read
	}
	return intake.Reader(s.pics.from.Open)
}

// heard takes in what the work says.
func (s *Session) heard(r *run, n intake.News) {
	p := n.Job.Place
	if !r.places[p] || s.work.Err() != nil {
		return // begun anew, or the project is another one
	}
	if n.Step.Ended() {
		delete(r.places, p)
		if len(r.places) == 0 {
			r.stop()
			s.taken.runs = slices.DeleteFunc(s.taken.runs, func(q *run) bool { return q == r })
		}
	}
	if n.Step == intake.Done {
		s.readInto(p, n)
	}
	s.taken.news[p] = n
	s.changed()
}

// readInto puts a reading into every state of the history that waits for it.
func (s *Session) readInto(p intake.Place, n intake.News) {
	face := p.Part.Face()
	var was model.Face
	if b := s.Committed().Board(p.Board); b != nil {
		was = b.Faces[face-1]
	}
	value := n.Reading.Face(was, n.Job.Name)
	if n.Reading.Width > 0 {
		s.hist.Amend(model.ReadWaney(p.Board, face, n.Job.Name, value, n.Reading.Width))
	} else {
		s.hist.Amend(model.Read(p.Board, face, n.Job.Name, value))
	}
	s.renew()
}

// forget drops what is known of the reading of a place; work on it is no
// longer heard.
func (s *Session) forget(p intake.Place) {
	for _, r := range s.taken.runs {
		delete(r.places, p)
	}
	s.taken.runs = slices.DeleteFunc(s.taken.runs, func(r *run) bool {
		if len(r.places) == 0 {
			r.stop()
			return true
		}
		return false
	})
	s.taken.order = slices.DeleteFunc(s.taken.order, func(q intake.Place) bool { return q == p })
	delete(s.taken.news, p)
}

// StopReading stops all reading of photographs. The faces that were not read
// wait on.
func (s *Session) StopReading() {
	for _, r := range s.taken.runs {
		r.stop()
	}
}

// News returns what was last heard of the reading of a place's photograph;
// ok is false where none was begun.
func (s *Session) News(p intake.Place) (n intake.News, ok bool) {
	n, ok = s.taken.news[p]
	return n, ok
}

// ReadingShare returns how much of the reading under way is done, 0 to 1, and
// how many photographs are still to come; 1 and 0 where nothing is under way.
func (s *Session) ReadingShare() (share float64, left int) {
	if len(s.taken.runs) == 0 {
		return 1, 0
	}
	sum, n := 0.0, 0
	for _, p := range s.taken.order {
		step := s.taken.news[p].Step
		sum += step.Progress()
		n++
		if !step.Ended() {
			left++
		}
	}
	return sum / float64(max(n, 1)), left
}
