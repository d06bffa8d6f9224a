package outline

import (
	"context"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// side is a long straight edge, with the sums of its line's pieces.
type side struct {
	b      *beams
	l      line
	foot   geom.Point // of the middle of the picture
	dir    geom.Point // length 1
	sum    []float64  // of pieces before each
	middle float64    // places along, in pieces, of the foot
	from   float64    // where the line comes into the picture, pixels along
	to     float64    // and leaves it
}

func (b *beams) side(s stroke) side {
	cos, sin := b.cos[s.turn], b.sin[s.turn]
	off := float64(s.off)
	row := b.row(s.turn, s.off)
	e := side{
		b: b, dir: geom.Pt(cos, sin), foot: geom.Pt(b.middle.X-sin*off, b.middle.Y+cos*off),
		l:   line{-sin, cos, sin*b.middle.X - cos*b.middle.Y - off},
		sum: make([]float64, len(row)+1), middle: float64(b.pieces/2) + 0.5,
	}
	for k, v := range row {
		e.sum[k+1] = e.sum[k] + float64(v)
	}
	e.from, e.to = math.Inf(-1), math.Inf(1)
	for _, c := range [...][3]float64{{e.foot.X, e.dir.X, 2 * b.middle.X}, {e.foot.Y, e.dir.Y, 2 * b.middle.Y}} {
		if math.Abs(c[1]) > 1e-9 {
			t, u := -c[0]/c[1], (c[2]-c[0])/c[1]
			e.from, e.to = max(e.from, min(t, u)), min(e.to, max(t, u))
		}
	}
	return e
}

// along is the place of a point, pixels from the foot.
func (e *side) along(p geom.Point) float64 { return p.Sub(e.foot).Dot(e.dir) }

// at is the point at a place.
func (e *side) at(u float64) geom.Point { return e.foot.Add(e.dir.Mul(u)) }

// upTo sums the pieces before a place.
func (e *side) upTo(t float64) float64 {
	t = t/beamStep + e.middle
	t = min(max(t, 0), float64(len(e.sum)-1))
	k := min(int(t), len(e.sum)-2)
	return e.sum[k] + (t-float64(k))*(e.sum[k+1]-e.sum[k])
}

// mean is how far the stretch between two places is an edge, 0 to 1.
func (e *side) mean(from, to float64) float64 {
	return (e.upTo(to) - e.upTo(from)) / max(to-from, 1e-9) * beamStep
}

// window judges the stretch between two points of the line: how far it is an
// edge, and how far the edge runs on beyond both its ends, 0 to 2.
func (e *side) window(p, q geom.Point) (in, beyond float64) {
	return e.stretch(e.along(p), e.along(q))
}

func (e *side) stretch(a, b float64) (in, beyond float64) {
	if a > b {
		a, b = b, a
	}
	in = e.mean(a, b)
	return in, e.beyond(a, b, in)
}

// beyond tells how far an edge runs on beyond both ends of a stretch.
func (e *side) beyond(a, b, in float64) float64 {
	// Blur and corners off by a piece are no run.
	const gap = beamStep
	far := max(2*beamStep, 0.15*(b-a))
	return e.runs(a-gap-far, a-gap, in) + e.runs(b+gap, b+gap+far, in)
}

// runs tells how far a stretch beyond an end is as much an edge as within. One
// that leaves the picture is more likely a line of the ground than a board.
func (e *side) runs(from, to, in float64) float64 {
	from, to = max(from, e.from), min(to, e.to)
	if to-from < beamStep {
		return 0.3
	}
	return min(e.mean(from, to)/(in+0.05), 1)
}

// pair is two long edges that may be those of the board.
type pair struct {
	s, t  *side
	c     [4]geom.Point // about where: along the one, and back along the other
	l     [2]line       // the edges laid anew on the finer picture
	edge  [2]float64    // how far they are edges there, 0 to 1
	score float64
}

// pairs lists the two long edges that a board may have, best first: somewhere
// along them both are edges for as long as their distance asks, and end there.
func (b *beams) pairs(ctx context.Context, want *wanted, most int) ([]pair, error) {
	strokes, err := b.strokes(ctx, mostStrokes, leastLong*want.longer())
	if err != nil {
		return nil, err
	}
	sides := make([]side, len(strokes))
	for i, s := range strokes {
		sides[i] = b.side(s)
	}
	ratio := max(want.length, want.width) / min(want.length, want.width)
	out := make([][]pair, len(sides))
	if err := photo.Each(ctx, len(sides), func(i int) {
		for j := i + 1; j < len(sides); j++ {
			s, t := &sides[i], &sides[j]
			if math.Abs(s.dir.Dot(t.dir)) < 0.9 { // 25 degrees
				continue
			}
			if p := apart(s, t, ratio, want); !math.IsInf(p.score, -1) {
				out[i] = append(out[i], p)
			}
		}
	}); err != nil {
		return nil, err
	}
	return distinctPairs(slices.Concat(out...), most, pairSlack), nil
}

// pairSlack is how far the edges of a pair may lie off, pixels of its plane.
const pairSlack = 2.5

// distinctPairs sorts pairs and drops those within near pixels of a better one.
func distinctPairs(all []pair, most int, near float64) []pair {
	var kept []pair
next:
	for _, i := range ranked(len(all), func(i int) float64 { return all[i].score }) {
		if len(kept) >= most {
			break
		}
		for k := range kept {
			if kept[k].beside(all[i].c, near) {
				continue next
			}
		}
		kept = append(kept, all[i])
	}
	return kept
}

// beside tells whether corners lie as good as on the lines of a pair.
func (p *pair) beside(c [4]geom.Point, near float64) bool {
	on := func(l line, p, q geom.Point) bool { return math.Abs(l.off(p)) < near && math.Abs(l.off(q)) < near }
	return on(p.l[0], c[0], c[1]) && on(p.l[1], c[2], c[3]) || on(p.l[1], c[0], c[1]) && on(p.l[0], c[2], c[3])
}

// apart scores two edges by the best stretch of them that a board fills.
func apart(s, t *side, ratio float64, want *wanted) pair {
	best := pair{s: s, t: t, l: [2]line{s.l, t.l}, score: math.Inf(-1)}
	n := geom.Pt(s.l.a, s.l.b)
	across := n.X*t.l.a + n.Y*t.l.b
	diag := math.Hypot(want.w, want.h)
	// From each place of the one straight across to the other.
	over := func(u float64) (h, v float64, ok bool) {
		p := s.foot.Add(s.dir.Mul(u))
		h = -t.l.off(p) / across
		q := p.Add(n.Mul(h))
		return h, t.along(q), want.inside(p) && want.inside(q)
	}
	for u := -diag / 2; u < diag/2; u += 1.5 * beamStep {
		h, _, ok := over(u)
		if !ok || math.Abs(h) < 4 {
			continue
		}
		// Foreshortened either way.
		for _, k := range [...]float64{0.8, 1, 1.25} {
			long := math.Abs(h) * ratio * k
			if long > diag || long < leastLong*want.longer()*(0.5+0.5*want.fills) {
				continue
			}
			h0, v0, ok0 := over(u - long/2)
			h1, v1, ok1 := over(u + long/2)
			if !ok0 || !ok1 || h0*h1 <= 0 {
				continue
			}
			a, b := s.mean(u-long/2, u+long/2), t.mean(min(v0, v1), max(v0, v1))
			v := math.Log((0.05+a)*(0.05+b)) - want.fills*smallness(long/want.longer())
			if v <= best.score { // running on only costs
				continue
			}
			if v -= runOn * (s.beyond(u-long/2, u+long/2, a) + t.beyond(min(v0, v1), max(v0, v1), b)) / 2; v > best.score {
				best.score = v
				best.c = [4]geom.Point{s.at(u - long/2), s.at(u + long/2), t.at(v1), t.at(v0)}
			}
		}
	}
	return best
}

// laid lays the edges of a pair on a picture that shows scale times what the
// pair's plane does, and gives the pairs of the edges found there. Each is
// scored by how good its edges are, their run, and the colours beside them.
func (p *pair) laid(base *plane, scale float64, want *wanted) []pair {
	const ways = 2
	reach := int(math.Ceil(pairSlack * scale))
	c := scaledBy(p.c, scale)
	var tracks [2][]track
	var f [2]*profile
	for i := range f {
		f[i] = profileOf(base, photo.Lens{}, c[2*i], c[2*i+1], 1, reach, wideWindow)
		tracks[i] = f[i].tracks(reach, reach, ways, 2)
	}
	_, beyondS := p.s.window(p.c[0], p.c[1])
	_, beyondT := p.t.window(p.c[2], p.c[3])
	lens := photo.LensOf(base.w, base.h, 0)
	var out []pair
	for _, a := range tracks[0] {
		for _, b := range tracks[1] {
			n := *p
			var q [4]geom.Point
			q[0], q[1] = f[0].ends(a)
			q[2], q[3] = f[1].ends(b)
			n.c = scaledBy(q, 1/scale)
			n.l = [2]line{through(n.c[0], n.c[1]), through(n.c[2], n.c[3])}
			n.edge = [2]float64{a.score, b.score}
			r := regions(base, lens, q, 0, 2)
			n.score = math.Log((0.05+a.score)*(0.05+b.score)) - runOn*(beyondS+beyondT)/2 -
				want.fills*smallness(longest(n.c)/want.longer()) + regionWeight*(r[0]+r[2])
			out = append(out, n)
		}
	}
	return out
}
