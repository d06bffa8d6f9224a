package stock

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// frame is a board turned so that strips cut at an angle lie square to it.
type frame struct {
	board   *face.Board // as it is
	turned  *face.Board // as seen in the frame; the board itself where not turned
	angle   float64     // of strips on the board, degrees
	toBoard geom.Affine
	toFrame geom.Affine
}

// frameOf turns a board so that strips at the angle lie along x. The turned
// board fills the first quadrant from the origin.
func frameOf(b *face.Board, angle float64) frame {
	if angle == 0 {
		return frame{b, b, 0, geom.Identity, geom.Identity}
	}
	rect := geom.R(0, 0, b.Length, b.Width).Polygon()
	turn := geom.Rotate(-angle)
	box := turn.ApplyTo(rect).Bounds()
	to := turn.Then(geom.Translate(-box.Min.X, -box.Min.Y))
	back, _ := to.Inverse()
	t := *b
	t.Length, t.Width = box.W(), box.H()
	t.Cut = [2]float64{} // the outlines end there
	other := t.Other()
	for f := range t.Faces {
		bf := &t.Faces[f]
		m := to
		if f == 1 {
			m = b.Other().Then(to).Then(other)
		}
		switch {
		case len(bf.Outline) >= 3:
			bf.Outline = m.ApplyTo(bf.Outline.ClipRect(geom.R(0, 0, b.Length, b.Width)))
		case f == 0:
			bf.Outline = to.ApplyTo(rect)
		}
		zones := make([]face.Zone, len(bf.Zones))
		for i, z := range bf.Zones {
			zones[i] = face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)}
		}
		bf.Zones = zones
	}
	return frame{b, &t, angle, back, to}
}

// strip returns a rectangle of the frame as a strip of the board.
func (f *frame) strip(r geom.Rect) face.Strip {
	p := f.toBoard.Apply(r.Min)
	return face.Strip{Board: f.board, X: p.X, Y: p.Y, L: r.W(), W: r.H(), Angle: f.angle, Up: 1}
}

// into returns a strip of the board as it lies in the frame.
func (f *frame) into(s face.Strip) face.Strip {
	p := f.toFrame.Apply(geom.Pt(s.X, s.Y))
	s.X, s.Y, s.Board = p.X, p.Y, f.turned
	s.Angle -= f.angle
	return s
}

// Candidate angles: no less than the first is worth a slanted cut, and no more
// than the second is cut, degrees. Engineering choices with no published source.
const (
	leastAngle = 0.3
	mostAngle  = 5.0
	mostAngles = 3 // beside none
)

// Angles returns the angles worth trying for strips of a board, degrees: 0
// first, then those that follow a border between heartwood and sapwood or a
// waney edge, the longest such border first.
func Angles(b *face.Board) []float64 {
	type run struct{ d geom.Point }
	var runs []run
	rim := geom.R(0, 0, b.Length, b.Width)
	follow := func(p geom.Polygon, edges []geom.Polygon) {
		// The borders towards either edge of the board are followed apart.
		var sum [2]geom.Point
		turn := math.Copysign(1, p.SignedArea())
		for i, q := range p {
			d := p[(i+1)%len(p)].Sub(q)
			mid := q.Lerp(p[(i+1)%len(p)], 0.5)
			if math.Abs(d.Y) > math.Abs(d.X)/4 || onRim(mid, rim, edges) {
				continue
			}
			side := 0
			if d.X*turn < 0 {
				side = 1
			}
			if d.X < 0 {
				d = d.Mul(-1)
			}
			sum[side] = sum[side].Add(d)
		}
		for _, d := range sum {
			if d.Len() >= b.Length/4 && d.Len() > 0 {
				runs = append(runs, run{d})
			}
		}
	}
	for f := range b.Faces {
		bf := &b.Faces[f]
		m := geom.Identity
		if f == 1 {
			if bf.Guessed {
				continue
			}
			m = b.Other()
		}
		var edges []geom.Polygon
		if len(bf.Outline) >= 3 {
			edges = append(edges, m.ApplyTo(bf.Outline))
			follow(edges[0], nil)
		}
		for _, z := range bf.Zones {
			if (z.Kind == face.Sap || z.Kind == face.Heart) && len(z.Polygon) >= 3 {
				follow(m.ApplyTo(z.Polygon), edges)
			}
		}
	}
	out := []float64{0}
	used := make([]bool, len(runs))
	for len(out) <= mostAngles {
		best := -1
		for i := range runs {
			if !used[i] && (best < 0 || runs[i].d.Len() > runs[best].d.Len()+1e-9) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		used[best] = true
		a := math.Atan2(runs[best].d.Y, runs[best].d.X) * 180 / math.Pi
		a = math.Round(a*20) / 20 // a twentieth of a degree is 0.8 mm over a metre
		near := math.Abs(a) > mostAngle
		for _, o := range out {
			near = near || math.Abs(a-o) < leastAngle
		}
		if !near {
			out = append(out, a)
		}
	}
	return out
}

// onRim reports whether a point lies on the rim of the board or on one of the
// rings.
func onRim(p geom.Point, rim geom.Rect, rings []geom.Polygon) bool {
	const tol = 1.0
	if !rim.Inset(tol).Contains(p) {
		return true
	}
	for _, r := range rings {
		if _, _, d := r.Nearest(p); d < tol {
			return true
		}
	}
	return false
}
