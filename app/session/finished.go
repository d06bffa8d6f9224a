package session

import (
	"context"
	"sync"

	"heartside/layout/face"
	"heartside/layout/wood/depth"
	"heartside/model"
)

// depths keeps what is known of boards below their faces. What was never
// asked before is worked out in the background where there is one, so that a
// project opens at once; a board that is edited is worked out in the call.
type depths struct {
	mu   sync.Mutex
	of   map[*model.Board]*belowFaces
	seen map[string]bool // boards, by id, that were worked out before
	// ready is called when something asked for is there, nil where every call
	// waits for it. It may come from any goroutine.
	ready func()
	slots chan struct{} // how many boards are worked on at once
}

func newDepths(ready func()) *depths {
	return &depths{of: map[*model.Board]*belowFaces{}, seen: map[string]bool{}, ready: ready, slots: make(chan struct{}, 2)}
}

// belowFaces is one board below its faces.
type belowFaces struct {
	all   *depths
	board *model.Board
	mu    sync.Mutex // held while it is worked on
	solid *depth.Solid
	bad   bool
	keep  sync.Mutex
	got   map[[2]float64]*opened // nil while it is being found
	next  *[2]float64            // the depth a view asked for last
	busy  bool                   // one is worked out for a view
	// hopeless: nothing can be worked out of the board.
	hopeless bool
}

// opened is a board with stock taken off both faces.
type opened struct {
	faces [2]face.BoardFace
	notes [2]depth.Note
}

// under returns the belowFaces of a board, nil where both of its faces must be
// known and are not.
func (g *depths) under(b *model.Board) *belowFaces {
	known := looked(&b.Faces[0]) && looked(&b.Faces[1])
	if !known && (len(b.Pith) == 0 || b.Heart == 0 || !looked(&b.Faces[0]) && !looked(&b.Faces[1])) {
		return nil
	}
	g.mu.Lock()
	defer g.mu.Unlock()
	k := g.of[b]
	if k == nil {
		k = &belowFaces{all: g, board: b, got: map[[2]float64]*opened{}}
		g.of[b] = k
	}
	return k
}

// deepened returns what to call when boards were worked out below their faces:
// readings are made anew from them, and fixes sought anew. Nil where every call
// waits.
func (s *Session) deepened(ctx context.Context) func() {
	if s.opt.Post == nil {
		return nil
	}
	var mu sync.Mutex
	posted := false
	return func() {
		mu.Lock()
		defer mu.Unlock()
		if posted || ctx.Err() != nil {
			return
		}
		posted = true
		s.opt.Post(func() {
			mu.Lock()
			posted = false
			mu.Unlock()
			if ctx.Err() != nil {
				return
			}
			s.viewer.came++
			for _, r := range s.readers {
				r.reading = nil
			}
			for _, r := range s.before {
				r.reading = nil
			}
			clear(s.sets)
			s.findFixes()
			s.changed()
		})
	}
}

// forget drops boards that keep does not name.
func (g *depths) forget(keep func(*model.Board) bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for b := range g.of {
		if !keep(b) {
			delete(g.of, b)
		}
	}
}

// mostDepths is how many depths of a board are kept: those of the panels it is
// in, and of a slider moved through them.
const mostDepths = 64

// at returns both faces with off mm taken from them, nil where that is not
// known, or not yet.
func (k *belowFaces) at(off [2]float64) *opened {
	off = hundredths(off)
	k.keep.Lock()
	got, asked := k.got[off]
	if !asked {
		if len(k.got) >= mostDepths {
			clear(k.got)
		}
		k.got[off] = nil
	}
	k.keep.Unlock()
	if got != nil {
		return got
	}
	if k.waits() {
		return k.find(off)
	}
	if !asked {
		go func() {
			k.all.slots <- struct{}{}
			k.find(off)
			<-k.all.slots
			k.all.ready()
		}()
	}
	return nil
}

// waits reports whether the caller is to wait.
func (k *belowFaces) waits() bool {
	k.all.mu.Lock()
	defer k.all.mu.Unlock()
	return k.all.ready == nil || k.all.seen[k.board.ID]
}

func (k *belowFaces) find(off [2]float64) *opened {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.keep.Lock()
	got := k.got[off]
	k.keep.Unlock()
	if got != nil {
		return got
	}
	if k.solid == nil && !k.bad {
		var err error
		k.solid, err = depth.New(solidOf(k.board))
		k.bad = err != nil
	}
	if k.bad {
		return nil
	}
	out := &opened{}
	for i := range out.faces {
		out.faces[i], out.notes[i] = k.solid.At(i+1, off[i])
	}
	k.keep.Lock()
	k.got[off] = out
	k.keep.Unlock()
	k.all.mu.Lock()
	k.all.seen[k.board.ID] = true
	k.all.mu.Unlock()
	return out
}

// solidOf is a board as it is known below its faces.
func solidOf(b *model.Board) depth.Board {
	out := depth.Board{Length: b.Length, Width: b.Width, Thickness: b.Thickness, Heart: b.Heart}
	for i := range out.Faces {
		f := faceOf(&b.Faces[i])
		out.Faces[i] = depth.Face{Base: f.Base, Outline: f.Outline, Zones: f.Zones, Known: looked(&b.Faces[i])}
	}
	for _, p := range b.Pith {
		out.Pith = append(out.Pith, depth.Pith{X: p.X, Across: p.Across, Depth: p.Depth})
	}
	return out
}

// deep is a board as the readings see it, below its faces.
type deep struct {
	belowFaces *belowFaces
	sawn       *face.Board
	mu         sync.Mutex
	made       map[[2]float64]*face.Board
	views      map[[2]float64]*face.Board // without their colours, to be looked at
	seen       *face.Board                // of views, the latest
}

// Finished implements face.Deep.
func (d *deep) Finished(off [2]float64) *face.Board {
	d.mu.Lock()
	got := d.made[off]
	d.mu.Unlock()
	if got != nil {
		return got
	}
	faces := d.belowFaces.at(off)
	if faces == nil {
		return nil
	}
	b := *d.sawn
	b.Deep, b.Sawn, b.Thickness = nil, d.sawn, max(0, b.Thickness-off[0]-off[1])
	for i := range b.Faces {
		was, now := &d.sawn.Faces[i], &faces.faces[i]
		f := *was
		f.Base, f.Outline, f.Zones = now.Base, within(&b, now.Outline), now.Zones
		f.Field = face.PlanedField(was, &f)
		b.Faces[i] = f
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if got := d.made[off]; got != nil {
		return got
	}
	if len(d.made) >= mostDepths {
		clear(d.made)
	}
	d.made[off] = &b
	return &b
}
