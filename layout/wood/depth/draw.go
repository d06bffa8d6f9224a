package depth

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// fine is how far what is drawn may lie off what was worked out, mm across.
const fine = 0.15

// draw makes a face of a profile.
func (s *Solid) draw(k int, z float64, p *profile) face.BoardFace {
	f, far := &s.b.Faces[k], &s.b.Faces[1-k]
	out := face.BoardFace{Base: f.Base}
	if !f.Known {
		out.Base = far.Base
	}
	if out.Base > face.Sap {
		out.Base = face.Heart
	}
	n := len(s.x)
	if s.outline {
		d := drawer{x: s.x, lo: p.y0, hi: p.y1}
		for _, r := range d.bands() {
			if len(r) > len(out.Outline) {
				out.Outline = r
			}
		}
	}
	edge0, edge1 := p.y0, p.y1
	if s.outline { // zones may reach past the outline
		edge0, edge1 = make([]float64, n), make([]float64, n)
		for i := range edge1 {
			edge1[i] = s.b.Width
		}
	}
	add := func(kind face.Kind, lo, hi []float64) {
		d := drawer{x: s.x, lo: lo, hi: hi}
		for _, r := range d.bands() {
			out.Zones = append(out.Zones, face.Zone{Kind: kind, Polygon: r})
		}
	}
	lo, hi := make([]float64, n), make([]float64, n)
	if out.Base == face.Heart {
		for i := range n {
			lo[i], hi[i] = p.lo[i], p.hi[i]
			if p.bare[i] {
				lo[i], hi[i] = edge1[i], edge1[i]
			}
			if lo[i] <= p.y0[i] {
				lo[i] = math.Min(lo[i], edge0[i])
			}
			if hi[i] >= p.y1[i] {
				hi[i] = math.Max(hi[i], edge1[i])
			}
			lo[i], hi[i] = math.Min(lo[i], edge1[i]), math.Max(hi[i], edge0[i])
		}
		if s.told(k, lower, edge0, lo) {
			add(face.Sap, edge0, lo)
		}
		if s.told(k, upper, hi, edge1) {
			add(face.Sap, hi, edge1)
		}
	} else {
		for i := range n {
			lo[i], hi[i] = math.Max(p.lo[i], edge0[i]), math.Min(p.hi[i], edge1[i])
			if p.bare[i] {
				hi[i] = math.Min(hi[i], lo[i])
				lo[i] = hi[i]
			}
		}
		add(face.Heart, lo, hi)
	}
	for i := range p.odd {
		if r := p.odd[i].ring(s.x); r != nil {
			out.Zones = append(out.Zones, face.Zone{Kind: p.odd[i].kind, Polygon: r})
		}
	}
	if k == 1 {
		m := geom.Affine{A: 1, E: -1, F: s.b.Width}
		out.Outline = turned(m, out.Outline)
		for i := range out.Zones {
			out.Zones[i].Polygon = turned(m, out.Zones[i].Polygon)
		}
	}
	s.carry(&out, k, z)
	return out
}

// turned maps a ring and keeps its winding.
func turned(m geom.Affine, p geom.Polygon) geom.Polygon {
	if p == nil {
		return nil
	}
	out := m.ApplyTo(p)
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// carry puts flaws and places not seen on top: those of the nearer face.
func (s *Solid) carry(out *face.BoardFace, k int, z float64) {
	f := &s.b.Faces[k]
	m := geom.Identity
	if !f.Known || z > s.b.Thickness/2 && s.b.Faces[1-k].Known {
		f, m = &s.b.Faces[1-k], geom.Affine{A: 1, E: -1, F: s.b.Width}
	}
	for i, q := range f.Zones {
		if q.Kind != face.Flaw && q.Kind != face.Unseen || painted(f.Zones, i) {
			continue
		}
		ring := q.Polygon
		if m != geom.Identity {
			ring = turned(m, ring)
		}
		out.Zones = append(out.Zones, face.Zone{Kind: q.Kind, Polygon: ring})
	}
}

// drawer makes rings of the band between two lines.
type drawer struct {
	x, lo, hi []float64
}

// bands returns the rings where hi lies over lo, anticlockwise. Where the
// lines meet between two sections the ring ends in a point.
func (d *drawer) bands() []geom.Polygon {
	var out []geom.Polygon
	n := len(d.x)
	for i := 0; i < n; {
		if !(d.hi[i]-d.lo[i] > thin) {
			i++
			continue
		}
		j := i
		for j+1 < n && d.hi[j+1]-d.lo[j+1] > thin {
			j++
		}
		var low, high []geom.Point
		if i > 0 {
			low = append(low, d.meet(i, i-1))
		}
		for m := i; m <= j; m++ {
			low = append(low, geom.Pt(d.x[m], d.lo[m]))
		}
		for m := i; m <= j; m++ {
			high = append(high, geom.Pt(d.x[m], d.hi[m]))
		}
		if j+1 < n {
			high = append(high, d.meet(j, j+1))
		}
		i = j + 1
		if len(low)+len(high) < 3 {
			continue
		}
		low, high = thinned(low), thinned(high)
		for a, b := 0, len(high)-1; a < b; a, b = a+1, b-1 {
			high[a], high[b] = high[b], high[a]
		}
		out = append(out, append(low, high...))
	}
	return out
}

// meet returns where the two lines meet between section i and its neighbour j,
// where they have crossed.
func (d *drawer) meet(i, j int) geom.Point {
	a, b := d.hi[i]-d.lo[i], d.hi[j]-d.lo[j]
	t := math.Min(a/math.Max(a-b, 1e-9), 1)
	lo, hi := d.lo[i]+t*(d.lo[j]-d.lo[i]), d.hi[i]+t*(d.hi[j]-d.hi[i])
	return geom.Pt(d.x[i]+t*(d.x[j]-d.x[i]), (lo+hi)/2)
}

// thinned returns points of a line along x so that none left out lies farther
// than fine above or below what is left.
func thinned(p []geom.Point) []geom.Point {
	if len(p) < 3 {
		return p
	}
	out := p[:1:1]
	from := 0
	least, greatest := math.Inf(-1), math.Inf(1)
	for i := 1; i < len(p); i++ {
		dx := p[i].X - p[from].X
		slope := (p[i].Y - p[from].Y) / math.Max(dx, 1e-9)
		if slope < least || slope > greatest {
			out = append(out, p[i-1])
			from = i - 1
			least, greatest = math.Inf(-1), math.Inf(1)
			dx = p[i].X - p[from].X
		}
		dx = math.Max(dx, 1e-9)
		least = math.Max(least, (p[i].Y-fine-p[from].Y)/dx)
		greatest = math.Min(greatest, (p[i].Y+fine-p[from].Y)/dx)
	}
	return append(out, p[len(p)-1])
}
