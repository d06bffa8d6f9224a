package wood

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// EndView is the section of a board as its faces let one draw it: points are
// (across, depth), mm.
type EndView struct {
	Board geom.Rect // 0..width by 0..thickness
	Pith  geom.Point
	Range geom.Rect // where the pith may lie
	// Heart is the heartwood on the section as the best guess has it, Least
	// and Most what it holds nearly always and at most. They may be empty.
	Heart, Least, Most geom.Polygon
	Rings              []Arc
}

// Arc is a ring about the pith, for drawing: whole, to be cut by the board.
type Arc struct{ Radius float64 }

// ringEvery is how far drawn rings lie apart, as a share of the radius; for
// the eye only.
const ringEvery = 0.125

// End returns the section at x mm from the marked end.
func (l *Log) End(x float64) (*EndView, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("the section at %g mm: no place along the board", x)
	}
	v := &EndView{
		Board: geom.R(0, 0, l.width, l.thick),
		Pith:  geom.Pt(l.Across.Best, l.Depth.Best),
		Range: geom.R(l.Across.Lo, l.Depth.Lo, l.Across.Hi, l.Depth.Hi),
	}
	// The outline runs through what the faces show at x.
	points := append([]corner(nil), l.points...)
	for i, p := range points {
		if at, ok := near(l.ls[side(p.depth)], x, p.edge > 0); ok {
			points[i].at = at
		}
	}
	s := newShape(points, v.Pith.X, v.Pith.Y, moods[0].spread)
	ln := math.Log(l.HeartRadius.Best)
	if s.n > 0 {
		ln = s.v1 / s.one // the mean radius the points themselves ask for
	}
	ring := func(by float64) geom.Polygon {
		var p geom.Polygon
		for k := range 180 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 90)
			t := s.toward(cos, sin)
			r := math.Exp(t.mean(ln) + by*t.sd)
			p = append(p, geom.Pt(v.Pith.X+r*cos, v.Pith.Y+r*sin))
		}
		return p.ClipRect(v.Board)
	}
	v.Heart, v.Least, v.Most = ring(0), ring(-2), ring(2)
	far := 0.0
	for _, c := range v.Board.Polygon() {
		far = math.Max(far, c.Dist(v.Pith))
	}
	step := ringEvery * math.Exp(ln)
	for r := step; r < far && len(v.Rings) < 100; r += step {
		v.Rings = append(v.Rings, Arc{r})
	}
	return v, nil
}

func side(depth float64) int {
	if depth > 0 {
		return 1
	}
	return 0
}

// near returns where heartwood ends about x, the middle of the stations within
// 30 mm, so that one ragged tooth does not bend the section.
func near(ls []line, x float64, hi bool) (float64, bool) {
	var sum, n float64
	for _, l := range ls {
		at := l.lo
		if hi {
			at = l.hi
		}
		if math.Abs(l.x-x) <= 30 && !l.bare && !math.IsNaN(at) {
			sum += at
			n++
		}
	}
	return sum / n, n > 0
}
