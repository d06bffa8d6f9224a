package ui

import (
	"context"
	"fmt"
	"image"
	"slices"
	"strings"
	"sync"

	"heartside/app/scene"
	"heartside/layout/face"
	"heartside/layout/photo"
)

// woodPics makes the pictures of a gallery beside the window, one after the
// other, and keeps the latest.
type woodPics struct {
	w        *Window
	ctx      context.Context
	gone     func() bool // the page was left; nothing is done for it then
	ready    func()      // a picture has come
	textures *scene.Textures
	got      map[string]*keptPic
	order    []string // of got, the one asked for last at the end
	held     int      // bytes

	mu   sync.Mutex
	jobs map[int]picJob // by tile: what it wants now
	now  string         // key of the one being made, "" none
	busy bool
}

type keptPic struct {
	img   *image.RGBA
	panel *face.Panel // held, so that its boards keep their addresses
}

type picJob struct {
	key string
	s   sitter
}

// mostPics bounds what is kept, bytes: a gallery on a large screen in all ways
// of seeing. An engineering choice.
const mostPics = 64 << 20

func newWoodPics(w *Window, ctx context.Context, gone func() bool, ready func()) *woodPics {
	return &woodPics{w: w, ctx: ctx, gone: gone, ready: ready, textures: scene.NewTextures(nil, nil), got: map[string]*keptPic{}, jobs: map[int]picJob{}}
}

// woodKey tells one picture of wood from another, of the same panel.
func woodKey(p *face.Panel) string {
	var b strings.Builder
	for i := range p.Strips {
		s := &p.Strips[i]
		fmt.Fprint(&b, s.ID, "\x00", s.UpFace(), s.Turned, s.X, s.Y, s.L, s.W, s.Angle, s.Shift)
		fmt.Fprintf(&b, "%p %p\x01", s.Board, s.Planed)
	}
	return b.String()
}

// of returns the picture a tile wants, nil while it is made. look tells apart
// what the sitter does not say of how it is drawn.
func (a *woodPics) of(tile int, s sitter, look string) *image.RGBA {
	if s.w < 2 || s.h < 2 || s.panel == nil {
		return nil
	}
	// Pictures of the faces are asked for here: the session is for this
	// goroutine alone.
	px := min(float64(s.w)/s.panel.Length, float64(s.h)/s.panel.Width)
	if s.seen == seenChair {
		px = float64(2*s.w) / s.panel.Length
	}
	type side struct {
		board string
		face  int
	}
	pics := map[side]*photo.Squared{}
	var b strings.Builder
	for i := range s.panel.Strips {
		if st := &s.panel.Strips[i]; st.Board != nil {
			k := side{st.Board.ID, st.UpFace()}
			pics[k] = a.w.ses.PictureAt(k.board, k.face, px)
			fmt.Fprintf(&b, "%p", pics[k])
		}
	}
	s.sit.Textures = a.textures
	s.sit.Picture = func(board string, f int, _ float64) *photo.Squared { return pics[side{board, f}] }
	key := woodKey(s.panel) + b.String() + look + fmt.Sprint(s.seen, s.w, s.h, s.marks, s.role, s.sit.Hatch)
	if got := a.got[key]; got != nil {
		a.order = append(slices.DeleteFunc(a.order, func(k string) bool { return k == key }), key)
		a.want(tile, picJob{})
		return got.img
	}
	a.want(tile, picJob{key, s})
	return nil
}

// want has a picture made for a tile in the place of what it wanted before.
func (a *woodPics) want(tile int, j picJob) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if j.key == "" || j.key == a.now {
		delete(a.jobs, tile)
		return
	}
	a.jobs[tile] = j
	if !a.busy {
		a.busy = true
		go a.work()
	}
}

// next takes the job of the first tile, false where there is none.
func (a *woodPics) next() (picJob, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	tile := -1
	for k := range a.jobs {
		if tile < 0 || k < tile {
			tile = k
		}
	}
	if tile < 0 || a.ctx.Err() != nil {
		a.busy, a.now = false, ""
		return picJob{}, false
	}
	j := a.jobs[tile]
	a.now = j.key
	for k := range a.jobs { // one picture does for all tiles that want it
		if a.jobs[k].key == j.key {
			delete(a.jobs, k)
		}
	}
	return j, true
}

// work makes what is wanted.
func (a *woodPics) work() {
	for j, ok := a.next(); ok; j, ok = a.next() {
		img := painted(&j.s)
		a.w.post(func() {
			if !a.gone() {
				a.keep(j.key, img, j.s.panel)
				a.ready()
			}
		})
	}
}

// painted makes a picture; one that cannot be made is empty.
func painted(s *sitter) (img *image.RGBA) {
	defer func() {
		if recover() != nil {
			img = image.NewRGBA(image.Rect(0, 0, 1, 1))
		}
	}()
	return s.paint()
}

// keep keeps a picture and lets go those longest unused.
func (a *woodPics) keep(key string, img *image.RGBA, p *face.Panel) {
	if a.got[key] != nil {
		return
	}
	a.got[key] = &keptPic{img, p}
	a.order = append(a.order, key)
	for a.held += len(img.Pix); a.held > mostPics && len(a.order) > 1; {
		a.held -= len(a.got[a.order[0]].img.Pix)
		delete(a.got, a.order[0])
		a.order = a.order[1:]
	}
}
