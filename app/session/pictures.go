package session

import (
	"context"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // pictures of boards
	_ "image/png"
	"io"
	"os"
	"path/filepath"
	"sort"

	"heartside/layout/colour"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/file"
)

// Source gives the bytes of pictures by the name the project knows them by.
type Source interface {
	Open(name string) (io.ReadCloser, error)
}

// Folder is a Source that reads from the folder of the project.
type Folder string

// Open opens a picture by its path from the folder.
func (f Folder) Open(name string) (io.ReadCloser, error) {
	p := filepath.FromSlash(name)
	if !filepath.IsAbs(p) {
		p = filepath.Join(string(f), p)
	}
	return os.Open(p)
}

// Pictures are squared to picturePx pixels a mm; colours for the readings are
// taken in cells of fieldStep mm. No picture of more than mostPixels is
// opened.
const (
	picturePx  = 1.0
	fieldStep  = 5.0
	mostPixels = 100e6
)

// pictureKey is all that a squared picture depends on.
type pictureKey struct {
	name          string
	corners       [4]struct{ X, Y float64 }
	bow           float64
	length, width float64
}

type picture struct {
	squared *photo.Squared
	field   *colour.Field
	err     error
	done    bool
}

// pictures loads and keeps the squared photographs of the boards.
type pictures struct {
	s    *Session
	from Source
	ctx  context.Context
	got  map[pictureKey]*picture
	gate chan struct{} // bounds the decoding done at once
}

func newPictures(s *Session) *pictures {
	from := s.from
	if from == nil {
		from = Folder("") // pictures named in full, until the project has a folder
	}
	return &pictures{s: s, from: from, ctx: s.work, got: map[pictureKey]*picture{}, gate: make(chan struct{}, 2)}
}

func keyOfPicture(b *model.Board, face int) (pictureKey, bool) {
	f := &b.Faces[face]
	if f.Photo == "" || f.Corners == nil {
		return pictureKey{}, false
	}
	k := pictureKey{name: f.Photo, bow: f.Bow, length: b.Length, width: b.Width}
	for i, c := range f.Corners {
		k.corners[i].X, k.corners[i].Y = c.X, c.Y
	}
	return k, true
}

// want starts loading the pictures of p that are not there yet.
func (ps *pictures) want(p *model.Project) {
	for _, b := range p.Boards {
		for i := range b.Faces {
			k, ok := keyOfPicture(b, i)
			if !ok || ps.got[k] != nil {
				continue
			}
			ps.got[k] = &picture{}
			ps.load(k, photo.View{Corners: *b.Faces[i].Corners, Bow: b.Faces[i].Bow}, b)
		}
	}
}

func (ps *pictures) load(k pictureKey, view photo.View, b *model.Board) {
	length, width := b.Length, b.Width
	from, ctx := ps.from, ps.ctx
	work := func() picture {
		sq, err := readPicture(ctx, from, k.name, view, length, width)
		if err != nil {
			return picture{err: err, done: true}
		}
		return picture{squared: sq, field: sq.Field(fieldStep), done: true}
	}
	at := ps.got[k] // its key may change meanwhile
	if ps.s.opt.Post == nil {
		*at = work()
		return
	}
	go func() {
		select {
		case ps.gate <- struct{}{}:
		case <-ctx.Done():
			return
		}
		pic := work()
		<-ps.gate
		ps.s.opt.Post(func() {
			if ctx.Err() != nil {
				return
			}
			*at = pic
			if ps.s.Loading() == 0 {
				ps.s.findFixes()
			}
			ps.s.changed()
		})
	}()
}

// readPicture opens, decodes and squares one photograph.
func readPicture(ctx context.Context, from Source, name string, view photo.View, length, width float64) (*photo.Squared, error) {
	r, err := from.Open(name)
	if err != nil {
		return nil, file.Cause(err)
	}
	cfg, _, err := image.DecodeConfig(r)
	r.Close()
	if err != nil {
		return nil, errors.New("it is no JPEG or PNG picture that can be read: save it as one of these")
	}
	if float64(cfg.Width)*float64(cfg.Height) > mostPixels {
		return nil, fmt.Errorf("%d x %d pixels are more than %.0f million: make it smaller", cfg.Width, cfg.Height, mostPixels/1e6)
	}
	if r, err = from.Open(name); err != nil {
		return nil, file.Cause(err)
	}
	defer r.Close()
	img, _, err := image.Decode(r)
	if err != nil {
		return nil, fmt.Errorf("the picture is damaged: %w", err)
	}
	return photo.Square(ctx, img, view, length, width, picturePx)
}

// rename goes on with the pictures read so far under their new names.
func (ps *pictures) rename(from Source, names map[string]string) {
	got := map[pictureKey]*picture{}
	for k, pic := range ps.got {
		if to, ok := names[k.name]; ok {
			k.name = to
		}
		got[k] = pic
	}
	ps.from, ps.got = from, got
}

// fields returns the colours measured on a board's pictures.
func (ps *pictures) fields(b *model.Board) (out lookedAt) {
	for i := range out {
		if k, ok := keyOfPicture(b, i); ok {
			if pic := ps.got[k]; pic != nil {
				out[i] = pic.field
			}
		}
	}
	return out
}

// Picture returns the squared photograph of a board's face, 1 or 2; nil where
// there is none, it is missing, or it is still being read.
func (s *Session) Picture(board string, face int) *photo.Squared {
	b := s.Project().Board(board)
	if b == nil || face < 1 || face > 2 {
		return nil
	}
	if k, ok := keyOfPicture(b, face-1); ok {
		if pic := s.pics.got[k]; pic != nil {
			return pic.squared
		}
	}
	return nil
}

// Loading returns how many pictures are still being read.
func (s *Session) Loading() int {
	n := 0
	for _, p := range s.pics.got {
		if !p.done {
			n++
		}
	}
	return n
}

// PhotoTrouble says which pictures cannot be shown, and why. The project
// works without them: the board is drawn instead.
func (s *Session) PhotoTrouble() []string {
	var out []string
	for _, b := range s.Project().Boards {
		for i := range b.Faces {
			f := &b.Faces[i]
			if f.Photo == "" {
				continue
			}
			k, ok := keyOfPicture(b, i)
			switch pic := s.pics.got[k]; {
			case !ok:
				out = append(out, fmt.Sprintf("board %s, face %d: %s has no corners yet, so it is not shown; give its four corners", b.ID, i+1, f.Photo))
			case pic == nil || pic.err == nil:
			case errors.Is(pic.err, os.ErrNotExist):
				out = append(out, fmt.Sprintf("board %s, face %d: %s not found; put it back or choose it again, the board is drawn meanwhile", b.ID, i+1, f.Photo))
			default:
				out = append(out, fmt.Sprintf("board %s, face %d: %s: %v", b.ID, i+1, f.Photo, pic.err))
			}
		}
	}
	sort.Strings(out)
	return out
}
