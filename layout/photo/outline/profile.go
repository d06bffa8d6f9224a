package outline

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

const (
	// Steps on either side of an edge that are compared: wide against noise,
	// narrow where edges run close.
	wideWindow, narrowWindow = 3, 2

	chunks  = 8 // stretches of a side, each judged by itself
	perSide = 96
	lowStep = 1.0 // grey levels: no edge
	midStep = 6.0 // grey levels: an edge half as good as can be
)

// profile holds steps of colour across a line, at places along it.
type profile struct {
	p, q  geom.Point // ends of the line, without bow
	n     geom.Point // across, length 1: out of the face
	step  float64    // pixels between offsets
	reach int        // offsets -reach to reach
	t     []float64  // places along, 0 at p to 1 at q
	d     []sample   // len(t) x (2 reach + 1): colour inside less colour outside
}

// profileOf looks across the line from p to q, places without bow, leaving out
// a little at both ends, where the corner is.
func profileOf(r reader, lens photo.Lens, p, q geom.Point, step float64, reach, window int) *profile {
	long := p.Dist(q)
	dir := q.Sub(p).Mul(1 / max(long, 1e-9))
	// Anticlockwise as seen, y down: the outside lies to the right.
	f := &profile{p: p, q: q, n: geom.Pt(-dir.Y, dir.X), step: step, reach: reach}
	n := int(min(max(long/(2*step)/chunks, 4), perSide/chunks)) * chunks
	wide := 2*reach + 1
	f.t = make([]float64, n)
	f.d = make([]sample, n*wide)
	row := make([]sample, wide+2*window)
	places := make([]place, len(row))
	// Averaging along the line between places.
	sub := int(min(max(long/(float64(n)*step), 1), 3))
	off := f.n.Mul(step)
	for i := range f.t {
		f.t[i] = 0.02 + 0.96*(float64(i)+0.5)/float64(n)
		clear(row)
		for s := 0; s < sub; s++ {
			t := f.t[i] + 0.96*((float64(s)+0.5)/float64(sub)-0.5)/float64(n)
			at := p.Lerp(q, t)
			for k := range places {
				o := float64(k-reach-window) + 0.5
				places[k] = place{at.X + off.X*o, at.Y + off.Y*o}
			}
			bend(lens, places)
			r.add(row, places, 1/float32(sub))
		}
		f.compare(i, row, window)
	}
	return f
}

// compare takes in the colours across the i-th place: at each offset those of
// the window inside less those of the window outside.
func (f *profile) compare(i int, row []sample, window int) {
	wide := 2*f.reach + 1
	for o := range wide {
		var d0, d1, d2 float32
		for k := range window {
			in, out := &row[o+k], &row[o+window+k]
			d0 += in[0] - out[0]
			d1 += in[1] - out[1]
			d2 += in[2] - out[2]
		}
		k := 1 / float32(window)
		f.d[i*wide+o] = sample{d0 * k, d1 * k, d2 * k}
	}
}

// bend moves places to where the lens shows them.
func bend(lens photo.Lens, places []place) {
	if lens.Bow == 0 {
		return
	}
	for i, p := range places {
		v := lens.Bowed(geom.Pt(p.x, p.y))
		places[i] = place{v.X, v.Y}
	}
}

// track is a line through a profile: offsets in steps at its two ends.
type track struct {
	a, b  float64
	edge  [chunks]float64 // how far each stretch is an edge
	dir   [chunks]sample  // which way its colour steps, length 1
	score float64         // mean of edge
}

// along judges one line through the profile.
func (f *profile) along(a, b float64) track {
	tr := track{a: a, b: b}
	wide := 2*f.reach + 1
	per := len(f.t) / chunks
	for c := range tr.edge {
		var s0, s1, s2, sq float32
		for i := c * per; i < (c+1)*per; i++ {
			o := int(math.Floor(a+(b-a)*f.t[i]+0.5)) + f.reach
			v := &f.d[i*wide+min(max(o, 0), wide-1)]
			s0 += v[0]
			s1 += v[1]
			s2 += v[2]
			sq += v[0]*v[0] + v[1]*v[1] + v[2]*v[2]
		}
		var m float64
		tr.edge[c], m = judged(s0*s0+s1*s1+s2*s2, sq, float64(per))
		if m > 0 {
			k := float32(1 / (float64(per) * m))
			tr.dir[c] = sample{s0 * k, s1 * k, s2 * k}
		}
		tr.score += tr.edge[c] / chunks
	}
	return tr
}

// judged tells how far n steps of colour are an edge, 0 to 1, and how large
// their mean is, from the square of their sum and the sum of their squares.
func judged(sum2, sq float32, n float64) (edge, mean float64) {
	mean2 := float64(sum2) / (n * n)
	scatter := max(float64(sq)/n-mean2, 0)
	m := math.Sqrt(mean2)
	noise := 4 * (scatter/n + lowStep*lowStep/4)
	return mean2 / (mean2 + noise) * m / (m + midStep), m
}

// steps are the neighbours of a line whose ends move by whole steps.
var steps = [...][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, -1}, {1, -1}, {-1, 1}}

// nearest climbs from the profile's own line to the best line about it, at
// most reach steps away. Stronger edges farther off are left alone.
func (f *profile) nearest(reach int) track {
	wide := 2*reach + 1
	seen := make([]track, wide*wide)
	known := make([]bool, wide*wide)
	look := func(a, b int) *track {
		k := (a+reach)*wide + b + reach
		if !known[k] {
			seen[k], known[k] = f.along(float64(a), float64(b)), true
		}
		return &seen[k]
	}
	a, b := 0, 0
	for range 4 * reach {
		bestA, bestB := a, b
		for _, d := range steps {
			x, y := a+d[0], b+d[1]
			if max(x, -x) <= reach && max(y, -y) <= reach && look(x, y).score > look(bestA, bestB).score {
				bestA, bestB = x, y
			}
		}
		if bestA == a && bestB == b {
			break
		}
		a, b = bestA, bestB
	}
	return *look(a, b)
}

// ends returns where the track runs, places without bow.
func (f *profile) ends(t track) (geom.Point, geom.Point) {
	return f.p.Add(f.n.Mul(t.a * f.step)), f.q.Add(f.n.Mul(t.b * f.step))
}

// mark is a place of an edge in the photograph, with bow.
type mark struct {
	at     geom.Point
	weight float64
	t      float64 // along the side
}

// marks returns where the edge lies at each place along a track, to a part of
// a step, at most slack steps from it.
func (f *profile) marks(tr track, lens photo.Lens, slack int) []mark {
	wide := 2*f.reach + 1
	per := len(f.t) / chunks
	var out []mark
	v := make([]float64, wide)
	for i, t := range f.t {
		c := min(i/per, chunks-1)
		if tr.edge[c] < 0.1 {
			continue
		}
		for o := range v {
			d, e := &f.d[i*wide+o], &tr.dir[c]
			v[o] = float64(d[0]*e[0] + d[1]*e[1] + d[2]*e[2])
		}
		o := int(math.Round(tr.a+(tr.b-tr.a)*t)) + f.reach
		best := min(max(o, 1), wide-2)
		for k := 0; k < slack; k++ {
			if v[best+1] > v[best] && v[best+1] >= v[best-1] && best+1 <= wide-2 {
				best++
			} else if v[best-1] > v[best] && best-1 >= 1 {
				best--
			}
		}
		if v[best] <= 0 || v[best] < v[best-1] || v[best] < v[best+1] {
			continue
		}
		at := float64(best - f.reach)
		if bend := v[best-1] - 2*v[best] + v[best+1]; bend < 0 {
			at += 0.5 * (v[best-1] - v[best+1]) / bend
		}
		where := f.p.Lerp(f.q, t).Add(f.n.Mul(at * f.step))
		out = append(out, mark{lens.Bowed(where), tr.edge[c] * v[best] / (v[best] + midStep), t})
	}
	return out
}
