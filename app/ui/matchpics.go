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

// matchPics makes the pictures of pairs beside the window, one after the other,
// and keeps the latest.
type matchPics struct {
	p        *matchPage
	textures *scene.Textures
	got      map[string]*keptPic
	order    []string // of got, the one asked for last at the end
	held     int      // bytes

	mu   sync.Mutex
	jobs map[int]picJob // by tile: what it wants now
	now  string         // key of the one being made, "" none
	busy bool
}

func newMatchPics(p *matchPage) *matchPics {
	return &matchPics{p: p, textures: scene.NewTextures(nil, nil), got: map[string]*keptPic{}, jobs: map[int]picJob{}}
}

// of returns the picture a tile wants, nil while it is made.
func (a *matchPics) of(tile int, panel *face.Panel, w, h int) *image.RGBA {
	if w < 2 || h < 2 || panel == nil {
		return nil
	}
	win := a.p.w
	s := sitter{panel: panel, w: w, h: h,
		sit: scene.Sitting{Faces: win.faces, Theme: win.sceneTheme(), Hatch: a.p.hatch, Joints: true, Textures: a.textures}}
	// Pictures of the faces are asked for here: the session is for this
	// goroutine alone.
	px := min(float64(w)/panel.Length, float64(h)/panel.Width)
	pics := map[string]*photo.Squared{}
	var b strings.Builder
	for i := range panel.Strips {
		if st := &panel.Strips[i]; st.Board != nil {
			k := st.Board.ID + "\x00" + itoa(st.UpFace())
			pics[k] = win.ses.PictureAt(st.Board.ID, st.UpFace(), px)
			fmt.Fprintf(&b, "%p", pics[k])
		}
	}
	s.sit.Picture = func(board string, f int, _ float64) *photo.Squared { return pics[board+"\x00"+itoa(f)] }
	key := woodKey(panel) + b.String() + fmt.Sprint(win.dark(), w, h, a.p.hatch)
	if got := a.got[key]; got != nil {
		a.order = append(slices.DeleteFunc(a.order, func(k string) bool { return k == key }), key)
		a.want(tile, picJob{})
		return got.img
	}
	a.want(tile, picJob{key, s})
	return nil
}

// want has a picture made for a tile in the place of what it wanted before.
func (a *matchPics) want(tile int, j picJob) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if j.key == "" || j.key == a.now {
		delete(a.jobs, tile)
		return
	}
	a.jobs[tile] = j
	if !a.busy {
		a.busy = true
		go a.work(a.p.ctx)
	}
}

// next takes the job of the first tile, false where there is none.
func (a *matchPics) next(ctx context.Context) (picJob, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	tile := -1
	for k := range a.jobs {
		if tile < 0 || k < tile {
			tile = k
		}
	}
	if tile < 0 || ctx.Err() != nil {
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
func (a *matchPics) work(ctx context.Context) {
	for j, ok := a.next(ctx); ok; j, ok = a.next(ctx) {
		img := painted(&j.s)
		a.p.w.post(func() {
			if !a.p.gone() {
				a.keep(j.key, img, j.s.panel)
				a.p.gallery.drawn()
			}
		})
	}
}

// keep keeps a picture and lets go those longest unused.
func (a *matchPics) keep(key string, img *image.RGBA, p *face.Panel) {
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
