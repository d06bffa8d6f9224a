package session

import (
	"path/filepath"

	"heartside/app/picture"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/say"
)

// NextProject makes a new project whose boards are pieces that are left of this
// one's boards. notes say what could not be taken along.
func (s *Session) NextProject(pieces []Leftover) (p *model.Project, notes []string, err error) {
	if len(pieces) == 0 {
		return nil, nil, say.Error("tick the pieces that the next project is to start from")
	}
	old := s.Project()
	p = model.NewProject()
	set := old.Settings()
	set.Name = say.F("From what is left of %s", old.Name)
	p, err = model.Apply(p, model.SetSettings{Settings: set})
	if err != nil {
		return nil, nil, err
	}
	var boards []*model.Board
	next := *p
	for i := range pieces {
		x := &pieces[i]
		b := old.Board(x.Board)
		if b == nil {
			return nil, nil, say.Errorf("there is no board %s any more", x.Board)
		}
		piece := b.Crop(model.NextBoardID(&next), x.Place)
		piece.Note = say.F("%s, left of board %s of %s: %s", x.Name, b.ID, old.Name, x.At)
		for f := range b.Faces {
			if b.Faces[f].Photo == "" || !piece.Faces[f].Known {
				continue
			}
			if err := s.cropPicture(b, f, x.Place, piece); err != nil {
				notes = append(notes, say.F("Board %s, face %d is without its photograph (%v); heartwood and sapwood are drawn as they were found in it.", piece.ID, f+1, err))
			}
		}
		boards = append(boards, piece)
		next.Boards = boards
	}
	p, err = model.Apply(p, model.AddBoards{Boards: boards})
	return p, notes, err
}

// cropPicture gives a piece the photograph of its board's face, with the corners of
// the piece in it.
func (s *Session) cropPicture(b *model.Board, f int, r geom.Rect, piece *model.Board) error {
	from := &b.Faces[f]
	name := from.Photo
	if f, own := s.from.(Folder); own { // the next project has no folder yet
		abs, err := filepath.Abs(f.path(name))
		if err != nil {
			return err
		}
		name = filepath.ToSlash(abs)
	}
	if from.Corners == nil {
		return say.Error("its corners were never found")
	}
	file, err := s.pics.from.Open(from.Photo)
	if err != nil {
		return plainError(err)
	}
	defer file.Close()
	info, err := picture.Stat(file, picture.Limits{})
	if err != nil {
		return err
	}
	view := photo.View{Corners: *from.Corners, Bow: from.Bow}
	m, lens, err := view.FromFace(info.Width, info.Height, b.Length, b.Width)
	if err != nil {
		return err
	}
	if f == 1 { // as that face lies
		r = geom.R(r.Min.X, b.Width-r.Max.Y, r.Max.X, b.Width-r.Min.Y)
	}
	var corners [4]geom.Point
	for i, q := range [4]geom.Point{r.Min, geom.Pt(r.Max.X, r.Min.Y), r.Max, geom.Pt(r.Min.X, r.Max.Y)} {
		corners[i] = lens.Bowed(m.Apply(q))
	}
	to := &piece.Faces[f]
	to.Photo, to.Corners, to.Bow, to.White = name, &corners, from.Bow, from.White
	to.Reference = from.Reference
	if from.Split != nil { // found, and perhaps never looked at
		split := *from.Split
		to.Split = &split
	}
	return nil
}

// Begin puts a project that NextProject made on screen. It reads its pictures where
// this one does, until it is saved.
func (s *Session) Begin(p *model.Project) {
	from := s.from
	if _, own := from.(Folder); own {
		from = Folder("")
	}
	s.begin(p, "", from)
}
