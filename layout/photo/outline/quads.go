package outline

import (
	"context"
	"math"
	"slices"

	"heartside/layout/geom"
)

// quad is a board that may lie in the picture: corners of a plane in the order
// of the face, and how well it does.
type quad struct {
	c     [4]geom.Point
	sides [4]float64 // from corner i to the next, 0 to 1
	shape shape
	score float64
}

// wanted is what is looked for, in the plane's pixels.
type wanted struct {
	w, h          float64 // of the plane
	length, width float64 // mm
}

func (w *wanted) middle() geom.Point { return geom.Pt(w.w/2, w.h/2) }
func (w *wanted) longer() float64    { return math.Max(w.w, w.h) }

// inside tells whether a corner may lie at p: in the picture, or as far out as
// a line's error takes it.
func (w *wanted) inside(p geom.Point) bool {
	const out = 3
	return p.X > -out && p.Y > -out && p.X < w.w+out && p.Y < w.h+out
}

// Engineering choices.
const (
	mostStrokes = 60
	mostPairs   = 200
	mostEnds    = 12
	leastEnd    = 0.1  // an end that is hardly to be seen
	leastLong   = 0.15 // of the picture's longer side: the least a board's long edge shows
	roughSpread = 0.05 // of shape: lines on the small plane, a lens not yet known
)

// pairScore adds what four sides say: one bad side spoils the rest.
func sidesScore(s [4]float64) float64 {
	sum := 0.0
	for _, v := range s {
		sum += math.Log(0.05 + v)
	}
	return sum
}

// misshape is what a shape's squared deviations cost. It grows slowly: a maker
// may have measured wrongly.
func misshape(cost float64) float64 { return 2 * math.Log1p(cost/4) }

// quadsOf lists the boards that may lie in the picture, best first.
func quadsOf(ctx context.Context, b *beams, want *wanted, most int) ([]quad, error) {
	strokes := b.strokes(mostStrokes, leastLong*want.longer())
	longSide, shortSide := math.Max(want.length, want.width), math.Min(want.length, want.width)
	type pair struct {
		s, t  line
		dir   geom.Point
		score float64
	}
	var pairs []pair
	for i, s := range strokes {
		for _, t := range strokes[i+1:] {
			ds, dt := s.b.Sub(s.a), t.b.Sub(t.a)
			if ds.Dot(dt) < 0 {
				dt = dt.Mul(-1)
			}
			ds, dt = ds.Mul(1/ds.Len()), dt.Mul(1/dt.Len())
			if ds.Dot(dt) < 0.9 { // 25 degrees
				continue
			}
			// How far apart they lie tells how long the board would be.
			ls, lt := through(s.a, s.b), through(t.a, t.b)
			apart := math.Abs(lt.off(s.a.Lerp(s.b, 0.5))+ls.off(t.a.Lerp(t.b, 0.5))*sign(ls.a*lt.a+ls.b*lt.b)*-1) / 2
			long := apart * longSide / shortSide
			if apart < 5 || long > 1.5*math.Hypot(want.w, want.h) || long < 0.5*leastLong*want.longer() {
				continue
			}
			pairs = append(pairs, pair{ls, lt, ds.Add(dt), s.score + t.score})
		}
	}
	slices.SortStableFunc(pairs, func(x, y pair) int { return compare(y.score, x.score) })
	var out []quad
	for _, p := range pairs[:min(len(pairs), mostPairs)] {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		ends := b.ends(p.s, p.t, p.dir, want)
		for i, e := range ends {
			for _, f := range ends[i+1:] {
				if q, ok := b.judge([4]geom.Point{e.a, f.a, f.b, e.b}, want); ok {
					out = append(out, q)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(x, y quad) int { return compare(y.score, x.score) })
	return thin(out, most, 4), nil
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

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}

// thin drops quads within near pixels of a better one.
func thin(all []quad, most int, near float64) []quad {
	var kept []quad
next:
	for _, q := range all {
		if len(kept) >= most {
			break
		}
		for _, k := range kept {
			if farthest(q.c, k.c) < near {
				continue next
			}
		}
		kept = append(kept, q)
	}
	return kept
}

// farthest is how far the corners of two quadrilaterals lie apart at most.
func farthest(a, b [4]geom.Point) float64 {
	d := 0.0
	for i := range a {
		d = math.Max(d, a[i].Dist(b[i]))
	}
	return d
}

// ends returns the edges that may end a board between two long ones: from the
// first to the second.
func (b *beams) ends(s, t line, dir geom.Point, want *wanted) []stroke {
	var all []stroke
	square := math.Atan2(dir.Y, dir.X)*180/math.Pi + 90
	v := make([]float64, 2*b.reach+1)
	at := make([]stroke, 2*b.reach+1)
	for lean := -30; lean <= 30; lean += 2 {
		turn := ((int(math.Round(square))+lean)%beamTurns + beamTurns) % beamTurns
		cos, sin := b.cos[turn], b.sin[turn]
		clear(v)
		for k := range v {
			off := k - b.reach
			l := line{-sin, cos, sin*b.middle.X - cos*b.middle.Y - float64(off)}
			p, ok := l.meet(s)
			if !ok || !want.inside(p) {
				continue
			}
			q, ok := l.meet(t)
			if !ok || !want.inside(q) {
				continue
			}
			tp := cos*(p.X-b.middle.X) + sin*(p.Y-b.middle.Y)
			tq := cos*(q.X-b.middle.X) + sin*(q.Y-b.middle.Y)
			v[k] = b.stretch(turn, off, math.Min(tp, tq), math.Max(tp, tq))
			at[k] = stroke{p, q, v[k]}
		}
		for k := 1; k+1 < len(v); k++ {
			if v[k] > leastEnd && v[k] >= v[k-1] && v[k] >= v[k+1] {
				all = append(all, at[k])
			}
		}
	}
	slices.SortStableFunc(all, func(x, y stroke) int { return compare(y.score, x.score) })
	var kept []stroke
next:
	for _, e := range all {
		if len(kept) >= mostEnds {
			break
		}
		for _, k := range kept {
			if k.a.Dist(e.a) < 4 && k.b.Dist(e.b) < 4 {
				continue next
			}
		}
		kept = append(kept, e)
	}
	return kept
}

// judge puts the corners in order and scores the quadrilateral. ok is false
// for what cannot be the board.
func (b *beams) judge(c [4]geom.Point, want *wanted) (quad, bool) {
	c, ok := order(c, want)
	if !ok {
		return quad{}, false
	}
	q := quad{c: c}
	q.shape = shapeOf(c, want.middle(), want.longer(), want.length, want.width, roughSpread)
	if q.shape.cost > 25 {
		return q, false
	}
	for i := range q.sides {
		q.sides[i] = b.support(c[i], c[(i+1)%4])
	}
	q.score = sidesScore(q.sides) - misshape(q.shape.cost)
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
