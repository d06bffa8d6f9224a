package split

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// What a mark says of a cell.
const (
	unmarked uint8 = iota
	markHeart
	markSap
)

// leastStroke is the least width a stroke is given, mm: one cell of the mask.
const leastStroke = 1.0

// under calls do for each cell of a grid of nx x ny over the face whose middle
// lies under the stroke, or that it crosses where cells are larger than it.
func (s *Stroke) under(length, width float64, nx, ny int, do func(i, j int)) {
	dx, dy := length/float64(nx), width/float64(ny)
	r := s.Width / 2
	if !(r > leastStroke/2) { // too thin or no number
		r = leastStroke / 2
	}
	r = math.Min(r, length+width)
	ok := func(p geom.Point) bool {
		return !math.IsNaN(p.X) && !math.IsNaN(p.Y) && !math.IsInf(p.X, 0) && !math.IsInf(p.Y, 0)
	}
	for k := range s.Points {
		a := s.Points[max(k-1, 0)]
		b := s.Points[k]
		if k == 0 && len(s.Points) > 1 || !ok(a) || !ok(b) {
			continue
		}
		a, b, hit := clip(a, b, geom.R(-r, -r, length+r, width+r))
		if !hit {
			continue
		}
		// Cells are reached in their own half size along and across.
		rx, ry := math.Max(r, dx/2), math.Max(r, dy/2)
		i0, i1 := span(math.Min(a.X, b.X)-rx, math.Max(a.X, b.X)+rx, dx, nx)
		j0, j1 := span(width-math.Max(a.Y, b.Y)-ry, width-math.Min(a.Y, b.Y)+ry, dy, ny)
		d := b.Sub(a)
		l2 := d.X*d.X/(rx*rx) + d.Y*d.Y/(ry*ry)
		for j := j0; j <= j1; j++ {
			y := width - (float64(j)+.5)*dy
			for i := i0; i <= i1; i++ {
				x := (float64(i) + .5) * dx
				t := 0.0
				if l2 > 0 {
					t = math.Min(math.Max(((x-a.X)*d.X/(rx*rx)+(y-a.Y)*d.Y/(ry*ry))/l2, 0), 1)
				}
				ex, ey := (x-a.X-t*d.X)/rx, (y-a.Y-t*d.Y)/ry
				if ex*ex+ey*ey <= 1 {
					do(i, j)
				}
			}
		}
	}
}

// span returns the cells between two places, within n.
func span(a, b, d float64, n int) (i0, i1 int) {
	return int(math.Min(math.Max(math.Floor(a/d), 0), float64(n))), int(math.Max(math.Min(math.Floor(b/d), float64(n-1)), -1))
}

// clip cuts the line from a to b to a rectangle (Liang and Barsky 1984).
func clip(a, b geom.Point, r geom.Rect) (geom.Point, geom.Point, bool) {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, e := range [4][2]float64{{-d.X, a.X - r.Min.X}, {d.X, r.Max.X - a.X}, {-d.Y, a.Y - r.Min.Y}, {d.Y, r.Max.Y - a.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return a, b, false
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	if !(t0 <= t1) {
		return a, b, false
	}
	return a.Add(d.Mul(t0)), a.Add(d.Mul(t1)), true
}

// marks returns what the strokes say of each cell of a grid, the last one
// last; nil where they say nothing of heart or sap.
func (f *Face) marks(g *grid, strokes []Stroke) []uint8 {
	var out []uint8
	for k := range strokes {
		s := &strokes[k]
		m := unmarked
		switch s.Kind {
		case photo.Heart:
			m = markHeart
		case photo.Sap:
			m = markSap
		}
		s.under(f.length, f.width, g.nx, g.ny, func(i, j int) {
			if out == nil {
				out = make([]uint8, g.nx*g.ny)
			}
			out[j*g.nx+i] = m
		})
	}
	for _, m := range out {
		if m != unmarked {
			return out
		}
	}
	return nil
}

// paint puts the strokes on a mask.
func (f *Face) paint(m *photo.Mask, strokes []Stroke) {
	for k := range strokes {
		s := &strokes[k]
		if s.Kind > photo.Unseen {
			continue
		}
		s.under(f.length, f.width, m.W, m.H, func(i, j int) {
			if at := j*m.W + i; f.empty == nil || !f.empty[at] {
				m.Pix[at] = s.Kind
			}
		})
	}
}
