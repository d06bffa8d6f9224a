package cutting

import (
	"heartside/layout/face"
	"heartside/layout/geom"
)

// finished is the part of a strip that stays in the finished panel, in place
// coordinates: u along and v across from the strip's left front corner.
type finished struct {
	ring geom.Polygon // empty where nothing stays
	box  geom.Rect
	left float64 // panel X of u = 0
	at   float64 // panel Y of v = 0
}

// finishedOf returns what stays of strip i of p, whose v = 0 lies at y.
func finishedOf(p *face.Panel, i int, y float64) finished {
	s := &p.Strips[i]
	f := finished{left: p.Left(i), at: y}
	own := geom.Rect{Max: geom.Pt(s.L, s.W)}
	f.box = own.Intersect(geom.Rect{Min: geom.Pt(-f.left, -y), Max: geom.Pt(p.Length-f.left, p.Width-y)})
	if f.box.Empty() {
		f.box = geom.Rect{}
		return f
	}
	if len(p.Shape) < 3 {
		f.ring = f.box.Polygon()
		return f
	}
	f.ring = geom.Translate(-f.left, -y).ApplyTo(p.Shape).ClipRect(f.box)
	f.box = f.ring.Bounds()
	return f
}

// inPanel returns a place of the strip in panel coordinates as seen on the
// given side.
func (f *finished) inPanel(p *face.Panel, r geom.Rect, side face.Side) geom.Rect {
	d := geom.Pt(f.left, f.at)
	r = geom.Rect{Min: r.Min.Add(d), Max: r.Max.Add(d)}
	if side == face.Back {
		r.Min.Y, r.Max.Y = p.Width-r.Max.Y, p.Width-r.Min.Y
	}
	return r
}

// place is where the strip lies in the panel, trimmed where anything stays.
func (f *finished) place(p *face.Panel, s *face.Strip) geom.Rect {
	if f.box.Empty() {
		return f.inPanel(p, geom.Rect{Max: geom.Pt(s.L, s.W)}, face.Show)
	}
	return f.inPanel(p, f.box, face.Show)
}
