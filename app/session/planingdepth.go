package session

import (
	"math"

	"heartside/layout/face"
)

// hundredths are the steps in which depths are kept, mm.
func hundredths(off [2]float64) [2]float64 {
	for i := range off {
		off[i] = math.Round(off[i]*100) / 100
	}
	return off
}

// soon returns both faces with off mm taken from them where that is known by
// now. Else it is worked out in the background, one depth of a board at a time
// and of those asked for meanwhile the last, and ready is called on that
// goroutine. Where there is no background the call waits.
func (k *belowFaces) soon(off [2]float64, ready func()) *opened {
	off = hundredths(off)
	k.keep.Lock()
	got := k.got[off]
	if got != nil || ready == nil || k.hopeless {
		k.keep.Unlock()
		if got == nil && ready == nil {
			got = k.find(off)
		}
		return got
	}
	k.next = &off
	if k.busy {
		k.keep.Unlock()
		return nil
	}
	k.busy = true
	k.keep.Unlock()
	go k.follow(ready)
	return nil
}

// follow works out what is asked for until nothing more is.
func (k *belowFaces) follow(ready func()) {
	for {
		k.keep.Lock()
		off := k.next
		k.next = nil
		if off == nil {
			k.busy = false
			k.keep.Unlock()
			return
		}
		k.keep.Unlock()
		k.all.slots <- struct{}{}
		got := k.find(*off)
		k.settle(*off, got)
		<-k.all.slots
		if got != nil {
			ready()
		}
	}
}

// settle bounds how many depths are kept; got stays. A board that cannot be
// read at all is not asked again.
func (k *belowFaces) settle(off [2]float64, got *opened) {
	k.keep.Lock()
	defer k.keep.Unlock()
	switch {
	case got == nil:
		k.hopeless = true
	case len(k.got) > mostDepths:
		clear(k.got)
		k.got[off] = got
	}
}

// look returns the board with off mm taken from its faces, to be looked at:
// it has no measured colours for readings. While that is being worked out it is
// the one looked at last, or the board as sawn.
func (d *deep) look(off [2]float64, ready func()) *face.Board {
	off = hundredths(off)
	if off == [2]float64{} {
		return d.sawn
	}
	d.mu.Lock()
	got, last := d.views[off], d.seen
	d.mu.Unlock()
	if got == nil {
		faces := d.belowFaces.soon(off, ready)
		if faces == nil {
			if last == nil {
				return d.sawn
			}
			return last
		}
		got = d.plain(off, faces)
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.views) >= mostDepths {
		clear(d.views)
	}
	d.views[off], d.seen = got, got
	return got
}

// plain is the board with its faces as opened, without measured cells.
func (d *deep) plain(off [2]float64, faces *opened) *face.Board {
	b := *d.sawn
	b.Deep, b.Sawn, b.Thickness = nil, d.sawn, max(0, b.Thickness-off[0]-off[1])
	for i := range b.Faces {
		f := d.sawn.Faces[i]
		now := &faces.faces[i]
		f.Base, f.Outline, f.Zones, f.Field = now.Base, within(&b, now.Outline), now.Zones, nil
		b.Faces[i] = f
	}
	return &b
}

// depthReady is what to call when a depth that was looked for is there; nil
// where every call waits.
func (s *Session) depthReady() func() {
	if s.opt.Post == nil {
		return nil
	}
	ctx := s.work
	return func() {
		if ctx.Err() != nil || !s.looking.CompareAndSwap(false, true) {
			return
		}
		s.opt.Post(func() {
			s.looking.Store(false)
			if ctx.Err() == nil && s.onDepth != nil {
				s.onDepth()
			}
		})
	}
}

// OnDepth sets the function that is called when a depth looked for by
// DepthView has been worked out. Nothing of the project has changed then.
func (s *Session) OnDepth(f func()) { s.onDepth = f }
