package sheet

import (
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// snapped is the line cuts are measured from, on face 1: straight along the
// board at a distance y from the marked edge's own line.
type snapped struct {
	y        float64
	near     [2]float64 // from the wood's edge in to the line, at the marked and the other end
	straight bool       // along the marked edge itself, corner to corner
	zero     float64    // where the board is squared off: lengths are measured from there
	end      float64    // where the marked end is now
}

// snapLine is the line of the cutting rules: along a square marked edge from
// corner to corner, else along the wane, where all of it lies on wood.
func snapLine(bd *face.Board) snapped {
	l := snapped{y: cutting.Line(bd), end: bd.Cut[0]}
	out := bd.Faces[0].Outline
	if squareEdged(bd) {
		l.straight = true
		return l
	}
	for i, x := range [2]float64{0, bd.Length} {
		if lo, _, ok := extentAt(out, x, bd.Length); ok {
			l.near[i] = math.Max(l.y-lo, 0)
		}
	}
	return l
}

// squareEdged reports whether a board has no waney outline: nothing is cut away
// but at its ends.
func squareEdged(bd *face.Board) bool {
	for i := range bd.Faces {
		if out := bd.Faces[i].Outline; out != nil {
			from, to := bd.Left()
			if bd.Cut == [2]float64{} || out.Area() < (to-from)*bd.Width-1e-3 {
				return false
			}
		}
	}
	return true
}

// extentAt returns between which heights the wood lies at x, looking a little
// further in where an end is not square.
func extentAt(p geom.Polygon, x, length float64) (lo, hi float64, ok bool) {
	step := length / 1000
	if x > length/2 {
		step = -step
	}
	for n := 0; n < 100; n++ {
		at := x + step*(float64(n)+0.5)
		lo, hi = math.Inf(1), math.Inf(-1)
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.X > at) != (b.X > at) {
				y := a.Y + (at-a.X)/(b.X-a.X)*(b.Y-a.Y)
				lo, hi = math.Min(lo, y), math.Max(hi, y)
			}
		}
		if lo < hi {
			return lo, hi, true
		}
	}
	return 0, 0, false
}

// describe says how the line is found on the board.
func (l snapped) describe(w words) string {
	if l.straight {
		return say.T("along the marked edge, from corner to corner")
	}
	if math.Abs(l.near[0]-l.near[1]) < 0.5 {
		return say.F("from end to end, %s in from the wood's edge on the marked side at both ends", w.len(l.near[0]))
	}
	return say.F("from end to end: in from the wood's edge on the marked side %s at the marked end, %s at the other", w.len(l.near[0]), w.len(l.near[1]))
}

func (l snapped) signed() bool { return !l.straight }

// along writes how far from the squared end x lies.
func (l snapped) along(w words, x float64) string { return w.bare(math.Max(x-l.zero, 0)) }

// offset writes how far p lies off the line.
func (l snapped) offset(w words, p geom.Point) string {
	v := p.Y - l.y
	switch {
	case v < -0.05 && l.signed():
		return "−" + w.bare(-v)
	case l.signed():
		return "+" + w.bare(math.Max(v, 0))
	case v < 0:
		return "−" + w.bare(-v)
	}
	return w.bare(v)
}
