package session

import (
	"context"
	"math"
	"sort"

	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/say"
)

// Pictures are squared to picturePx pixels a mm, and kept small at smallPx;
// colours for the readings are taken in cells of fieldStep mm: half of the
// cells of contrast, so that narrow streaks keep their own colour.
const (
	picturePx = 1.0
	smallPx   = 0.25
	fieldStep = 5.0
)

// pictureKey is all that a squared picture depends on, as finely as the
// project's file has it: what was read is the same after saving and opening.
type pictureKey struct {
	name          string
	corners       [4]struct{ X, Y float64 }
	bow           float64
	length, width float64
}

func keyOfPicture(b *model.Board, face int) (pictureKey, bool) {
	f := &b.Faces[face]
	if f.Photo == "" || f.Corners == nil {
		return pictureKey{}, false
	}
	k := pictureKey{name: f.Photo, bow: filed(f.Bow, 6), length: filed(b.Length, 3), width: filed(b.Width, 3)}
	for i, c := range f.Corners {
		k.corners[i].X, k.corners[i].Y = filed(c.X, 3), filed(c.Y, 3)
	}
	return k, true
}

// filed returns a number with the decimals it has in the project's file.
func filed(v float64, decimals int) float64 {
	k := math.Pow10(decimals)
	if r := math.Round(v * k); r != 0 {
		return r / k
	}
	return 0 // never -0
}

func (k *pictureKey) view() photo.View {
	v := photo.View{Bow: k.bow}
	for i, c := range k.corners {
		v.Corners[i].X, v.Corners[i].Y = c.X, c.Y
	}
	return v
}

// shot is a squared photograph and how it looks in the colours asked for so
// far. It belongs to the goroutine of the session.
type shot struct {
	key    pictureKey
	looks  map[string]*look
	busy   map[string]bool // looks being made
	wanted string          // look of the committed project
	shown  *look           // the latest of that, shown while another is made
	err    error           // the photograph cannot be read
	again  bool            // the picture did not fit into memory and is to be asked for again
	coarse bool            // no finer picture is to be had
}

// ref is what a face of a board says of its picture.
type ref struct {
	key  pictureKey
	ok   bool
	spec lookSpec
}

// pictures loads and keeps the squared photographs of the boards.
type pictures struct {
	s     *Session
	from  Source
	ctx   context.Context
	shots map[pictureKey]*shot
	refs  map[*model.Board]*[2]ref
	shelf *shelf
	queue *queue
	left  int   // looks being made
	plain grade // pictures for the screen
	fine  grade // those of faces seen near by
}

func newPictures(s *Session) *pictures {
	from := s.from
	if from == nil {
		from = Folder("") // pictures named in full, until the project has a folder
	}
	ps := &pictures{
		s: s, from: from, ctx: s.work, shots: map[pictureKey]*shot{}, refs: map[*model.Board]*[2]ref{},
		shelf: newShelf(s.opt.Cache, s.opt.Memory), queue: newQueue(s.work, s.opt.Post),
	}
	ps.plain = grade{picturePx, ps.shelf.memory, map[memoryKey]int64{}}
	ps.fine = grade{finePx, newMemory(mostFine), map[memoryKey]int64{}}
	return ps
}

// ref returns what a board says of the picture of a face, 0 or 1.
func (ps *pictures) ref(b *model.Board, i int) *ref {
	r := ps.refs[b]
	if r == nil {
		if len(ps.refs) > 4*len(ps.s.Committed().Boards)+64 {
			clear(ps.refs)
		}
		r = &[2]ref{}
		for i := range r {
			if r[i].key, r[i].ok = keyOfPicture(b, i); r[i].ok {
				r[i].spec = specOf(b, i)
			}
		}
		ps.refs[b] = r
	}
	return &r[i]
}

// sight is what of a face is seen now: a look, and whether it is that of the
// zones and the white balance the face has.
type sight struct {
	look *look
	own  bool
}

func (ps *pictures) sight(b *model.Board, i int) (sight, *shot, *ref) {
	r := ps.ref(b, i)
	if !r.ok {
		return sight{}, nil, r
	}
	sh := ps.shots[r.key]
	if sh == nil {
		return sight{}, nil, r
	}
	if l := sh.looks[r.spec.digest]; l != nil {
		return sight{l, l.own}, sh, r
	}
	return sight{look: sh.shown}, sh, r
}

// fields returns the colours measured on a board's pictures.
func (ps *pictures) fields(b *model.Board) (out lookedAt) {
	for i := range out {
		out[i], _, _ = ps.sight(b, i)
	}
	return out
}

// want starts loading what the pictures of p need and is not there yet.
func (ps *pictures) want(p *model.Project) {
	used := map[*shot]bool{}
	for _, b := range p.Boards {
		for i := range b.Faces {
			r := ps.ref(b, i)
			if !r.ok {
				continue
			}
			sh := ps.shots[r.key]
			if sh == nil {
				sh = &shot{key: r.key, looks: map[string]*look{}, busy: map[string]bool{}}
				ps.shots[r.key] = sh
			}
			used[sh] = true
			sh.wanted = r.spec.digest
			if l := sh.looks[sh.wanted]; l != nil {
				sh.shown = l
			} else if sh.err == nil && !sh.busy[sh.wanted] {
				ps.see(b.ID, i, sh, r.spec)
			}
		}
	}
	ps.s.viewer.came++
	ps.forget(used)
}

// forget drops pictures of faces that are no longer there, when they are many.
func (ps *pictures) forget(used map[*shot]bool) {
	if before := ps.s.hist.Before(); before != nil {
		for _, b := range before.Boards {
			for i := range b.Faces {
				if r := ps.ref(b, i); r.ok && ps.shots[r.key] != nil {
					used[ps.shots[r.key]] = true
				}
			}
		}
	}
	if len(ps.shots) <= len(used)+mostUnused {
		return
	}
	for k, sh := range ps.shots {
		if !used[sh] {
			delete(ps.shots, k)
			ps.shelf.memory.drop(sh)
			ps.fine.memory.drop(sh)
		}
	}
}

// mostUnused is how many faces of earlier states are held for undoing.
const mostUnused = 32

// rename goes on with the pictures read so far under their new names.
func (ps *pictures) rename(from Source, names map[string]string) {
	shots := map[pictureKey]*shot{}
	for k, sh := range ps.shots {
		if to, ok := names[k.name]; ok {
			k.name = to
		}
		if was := shots[k]; was != nil && was.shown != nil {
			continue
		}
		sh.key = k
		shots[k] = sh
	}
	ps.from, ps.shots = from, shots
	clear(ps.refs)
	ps.s.viewer.came++
}

// Loading returns how many pictures are still being read.
func (s *Session) Loading() int { return s.pics.left }

// PhotoTrouble says which pictures cannot be shown, and why. The project
// works without them: the board is drawn instead.
func (s *Session) PhotoTrouble() []string {
	var out []string
	waiting := 0
	for _, b := range s.Project().Boards {
		for i := range b.Faces {
			f := &b.Faces[i]
			if f.Photo == "" {
				continue
			}
			if f.Open() { // the rack tells of each
				waiting++
				continue
			}
			_, sh, r := s.pics.sight(b, i)
			switch {
			case !r.ok:
				out = append(out, say.F("board %s, face %d: %s has no corners yet, so it is not shown; give its four corners", b.ID, i+1, f.Photo))
			case sh == nil || sh.err == nil:
			default:
				out = append(out, say.F("board %s, face %d: %s", b.ID, i+1, trouble(f.Photo, sh.err)))
			}
		}
	}
	sort.Strings(out)
	if _, left := s.ReadingShare(); waiting > 0 && left == 0 {
		out = append(out, waitingWords(waiting))
	}
	return out
}

// waitingWords tells of photographs that nobody is reading.
func waitingWords(n int) string {
	if n == 1 {
		return say.T("1 photograph waits to be read: the rack of boards reads it")
	}
	return say.F("%d photographs wait to be read: the rack of boards reads them", n)
}
