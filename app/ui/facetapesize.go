package ui

import (
	"reflect"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/say"
)

// sizeAct is a board made another size on this page, so that undo on the page
// takes it back in its turn.
type sizeAct struct {
	past          int // acts on the corners before it
	before, after *model.Project
}

// useSize makes the board as large as was measured, as one change of the
// project. What is drawn on its faces stays where it is on the wood.
func (c *faceCorners) useSize(length, width float64, verb string, then func()) {
	p := c.p
	b := p.w.ses.Committed().Board(p.board)
	if b == nil || p.w.page != page(p) {
		return
	}
	if k := p.zones.work; p.making != "" || k != nil && k.busy() {
		p.w.say(say.T("The face is still being made ready; use the size once it is."))
		return
	}
	out, was := boardOfSize(b, length, width), p.w.ses.Committed()
	if !c.resize(out, func() bool { return p.w.setBoard(*out, verb) }) {
		return
	}
	c.sized, c.unsized = append(c.sized, sizeAct{len(c.past), was, p.w.ses.Committed()}), nil
	if then != nil {
		then()
	}
	p.show()
	p.w.say(say.F("Board %s is %s now.", p.board, p.w.sizeOf(length, width)))
}

// resize does what changes the size of the board to that of b, and brings the
// page in step with it.
func (c *faceCorners) resize(b *model.Board, do func() bool) bool {
	p := c.p
	length, width, base := p.length, p.width, p.base
	p.length, p.width, p.base = b.Length, b.Width, b.Faces[p.face-1] // the session tells the page of it at once
	if !do() {
		p.length, p.width, p.base = length, width, base
		return false
	}
	kx, ky := p.length/length, p.width/width
	for _, list := range [][]faceLie{c.past, c.ahead} {
		for i := range list {
			list[i] = list[i].ofSize(kx, ky)
		}
	}
	c.lie, c.used, p.saved.lie = c.lie.ofSize(kx, ky), c.used.ofSize(kx, ky), p.saved.lie.ofSize(kx, ky)
	if k := p.zones.work; k != nil {
		drawn := k.now.mask != p.saved.mask
		mask := p.oldMask()
		if drawn {
			mask = maskOfSize(k.now.mask, p.length, p.width)
			p.ready = func() { p.saved.mask = nil } // it is still to be kept
		}
		p.make(c.used, mask)
	}
	return true
}

// undoSize and redoSize take the size back and make it so again; false where
// that is not what was done last, or the project went on since.
func (c *faceCorners) undoSize() bool {
	n := len(c.sized)
	if !c.canUndoSize() {
		return false
	}
	a := c.sized[n-1]
	if c.resize(a.before.Board(c.p.board), c.p.w.ses.Undo) {
		c.sized, c.unsized = c.sized[:n-1], append(c.unsized, a)
		c.shown()
	}
	return true
}

func (c *faceCorners) redoSize() bool {
	n := len(c.unsized)
	if !c.canRedoSize() {
		return false
	}
	a := c.unsized[n-1]
	if c.resize(a.after.Board(c.p.board), c.p.w.ses.Redo) {
		c.unsized, c.sized = c.unsized[:n-1], append(c.sized, a)
		c.shown()
	}
	return true
}

func (c *faceCorners) canUndoSize() bool {
	n := len(c.sized)
	return n > 0 && c.sized[n-1].past == len(c.past) && c.p.w.ses.Committed() == c.sized[n-1].after && c.p.making == ""
}

func (c *faceCorners) canRedoSize() bool {
	n := len(c.unsized)
	return n > 0 && c.unsized[n-1].past == len(c.past) && c.p.w.ses.Committed() == c.unsized[n-1].before && c.p.making == ""
}

// ofSize returns the lie on a board whose sides are so many times as long.
func (l faceLie) ofSize(kx, ky float64) faceLie {
	l.size = geom.Pt(l.size.X*kx, l.size.Y*ky)
	l.ring = stretched(l.ring, kx, ky)
	l.measured = false // it was in mm of the other size
	return l
}

// stretched returns points with their coordinates multiplied.
func stretched(list []geom.Point, kx, ky float64) []geom.Point {
	out := slices.Clone(list)
	for i, q := range out {
		out[i] = geom.Pt(q.X*kx, q.Y*ky)
	}
	return out
}

// boardOfSize returns a board of another size. What is drawn on its faces goes
// with the wood; widths of sapwood that were taken with a tape stay what they
// are.
func boardOfSize(b *model.Board, length, width float64) *model.Board {
	out := *b
	kx, ky := length/b.Length, width/b.Width
	out.Length, out.Width = length, width
	out.Pith = slices.Clone(b.Pith)
	for i, q := range out.Pith {
		out.Pith[i].X, out.Pith[i].Across = q.X*kx, q.Across*ky
	}
	for i := range out.Faces {
		f := &out.Faces[i]
		f.Outline = stretched(f.Outline, kx, ky)
		f.Grain = slices.Clone(f.Grain)
		for k := range f.Grain {
			f.Grain[k] = stretched(f.Grain[k], kx, ky)
		}
		if f.Photo == "" && len(f.Zones) > 0 {
			marked, other := model.FaceTape(b, i+1)
			if reflect.DeepEqual(f.Zones, model.FaceTapeZones(i+1, b.Length, b.Width, marked, other)) {
				f.Zones = model.FaceTapeZones(i+1, length, width, marked, other)
				continue
			}
		}
		f.Zones = slices.Clone(f.Zones)
		for k := range f.Zones {
			f.Zones[k].Polygon = stretched(f.Zones[k].Polygon, kx, ky)
		}
	}
	return &out
}

// maskOfSize is a mask on a board of another size: what each place is stays
// where it is on the wood.
func maskOfSize(m *photo.Mask, length, width float64) *photo.Mask {
	out := photo.NewMask(length, width, float64(m.W)/m.Length)
	for j := range out.H {
		for i := range out.W {
			out.Pix[j*out.W+i] = m.At(min(i*m.W/out.W, m.W-1), min(j*m.H/out.H, m.H-1))
		}
	}
	return out
}
