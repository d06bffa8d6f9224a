package outline

import (
	"context"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// quad is a board that may lie in the picture: corners of a plane in the order
// of the face, and how well it does.
type quad struct {
	c     [4]geom.Point
	shape shape
	score float64
}

// wanted is what is looked for, in the plane's pixels.
type wanted struct {
	w, h          float64 // of the plane
	length, width float64 // mm
	fills         float64 // 1 for what mostly fills the picture, 0 for what need not
}

func (w *wanted) middle() geom.Point { return geom.Pt(w.w/2, w.h/2) }
func (w *wanted) longer() float64    { return max(w.w, w.h) }

// inside tells whether a corner may lie at p: in the picture, or as far out as
// a line's error takes it.
func (w *wanted) inside(p geom.Point) bool {
	const out = 3
	return p.X > -out && p.Y > -out && p.X < w.w+out && p.Y < w.h+out
}

// Engineering choices.
const (
	mostStrokes = 200
	manyPairs   = 300 // whose colours are compared
	mostPairs   = 100 // whose ends are looked for
	mostEnds    = 24
	leastEnd    = 0.1  // an end that is hardly to be seen
	leastLong   = 0.15 // of the picture's longer side: the least a board's long edge shows
	usualLong   = 0.7  // what it mostly shows: a maker fills the picture
	longSpread  = 0.6  // of its natural logarithm
	roughSpread = 0.05 // of shape: lines on the small plane, a lens not yet known
)

// sideScore is what one side says, sidesScore what four say together: one bad
// side spoils the rest.
func sideScore(v float64) float64 { return math.Log(0.05 + v) }

func sidesScore(s [4]float64) float64 {
	sum := 0.0
	for _, v := range s {
		sum += sideScore(v)
	}
	return sum
}

// misshape is what a shape's squared deviations cost. It grows slowly: a maker
// may have measured wrongly.
func misshape(cost float64) float64 { return 2 * math.Log1p(cost/4) }

// smallness is what a long side costs that takes share of the picture's longer
// side; a large one is as good as the usual.
func smallness(share float64) float64 {
	if share < leastLong {
		return 100
	}
	d := math.Log(min(share/usualLong, 1)) / longSpread
	return d * d / 2
}

// quadsOf lists the boards that may lie in the picture, best first: corners of
// the small plane of b. base is the same picture, finer.
func quadsOf(ctx context.Context, b *beams, base *plane, want *wanted, most int) ([]quad, error) {
	scale := float64(base.w) / want.w
	pairs, err := b.pairs(ctx, want, manyPairs)
	if err != nil {
		return nil, err
	}
	laid := make([][]pair, len(pairs))
	if err := photo.Each(ctx, len(pairs), func(i int) { laid[i] = pairs[i].laid(base, scale, want) }); err != nil {
		return nil, err
	}
	pairs = distinctPairs(slices.Concat(laid...), mostPairs, 0.7)
	found := make([][]quad, len(pairs))
	if err := photo.Each(ctx, len(pairs), func(i int) {
		p := &pairs[i]
		ends := stripOf(base, photo.Lens{}, scale, p, want).ends(mostEnds)
		for k, e := range ends {
			for _, f := range ends[k+1:] {
				if q, ok := p.judge(e, f, want); ok {
					found[i] = append(found[i], q)
				}
			}
		}
	}); err != nil {
		return nil, err
	}
	return thin(slices.Concat(found...), most, 1.5), nil
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// thin keeps the best quads, each farther than near pixels from a better one.
func thin(all []quad, most int, near float64) []quad {
	var kept []quad
next:
	for _, i := range ranked(len(all), func(i int) float64 { return all[i].score }) {
		if len(kept) >= most {
			break
		}
		for k := range kept {
			if farthest(all[i].c, kept[k].c) < near {
				continue next
			}
		}
		kept = append(kept, all[i])
	}
	return kept
}

// longest is the longest side of a quadrilateral.
func longest(q [4]geom.Point) float64 {
	return max(max(q[0].Dist(q[1]), q[1].Dist(q[2])), max(q[2].Dist(q[3]), q[3].Dist(q[0])))
}

// farthest is how far the corners of two quadrilaterals lie apart at most.
func farthest(a, b [4]geom.Point) float64 {
	d := 0.0
	for i := range a {
		d = max(d, a[i].Dist(b[i]))
	}
	return d
}

// judge scores the board between two ends of a pair. ok is false for what
// cannot be the board.
func (p *pair) judge(e, f end, want *wanted) (quad, bool) {
	c, ok := order([4]geom.Point{e.a, f.a, f.b, e.b}, want)
	if !ok {
		return quad{}, false
	}
	q := quad{c: c}
	q.shape = shapeOf(c, want.middle(), want.longer(), want.length, want.width, roughSpread)
	if q.shape.cost > 25 {
		return q, false
	}
	s, beyondS := p.s.window(e.a, f.a)
	t, beyondT := p.t.window(e.b, f.b)
	q.score = sidesScore([4]float64{(s + p.edge[0]) / 2, (t + p.edge[1]) / 2, e.score, f.score}) - misshape(q.shape.cost) -
		want.fills*smallness(longest(c)/want.longer()) -
		runOn*(beyondS+beyondT+e.beyond+f.beyond)
	return q, true
}

// order turns the corners, given in order round the board with the first two
// along one long side, into those of the face.
func order(c [4]geom.Point, want *wanted) ([4]geom.Point, bool) {
	area := geom.Polygon(c[:]).SignedArea()
	if math.Abs(area) < 50 {
		return c, false
	}
	if area > 0 { // y is down: anticlockwise as seen has a negative area
		c = [4]geom.Point{c[3], c[2], c[1], c[0]}
	}
	for i := range c {
		if c[(i+1)%4].Sub(c[i]).Cross(c[(i+2)%4].Sub(c[(i+1)%4])) >= 0 {
			return c, false
		}
	}
	if want.width > want.length {
		c = [4]geom.Point{c[1], c[2], c[3], c[0]}
	}
	return facing(c), true
}

// facing starts the corners, anticlockwise and with the length from the first
// to the second, at the end that is the left one.
func facing(c [4]geom.Point) [4]geom.Point {
	d := c[1].Add(c[2]).Sub(c[0]).Sub(c[3])
	turned := d.X < 0
	if math.Abs(d.Y) > math.Abs(d.X) {
		turned = d.Y > 0
	}
	if turned {
		c = [4]geom.Point{c[2], c[3], c[0], c[1]}
	}
	return c
}
