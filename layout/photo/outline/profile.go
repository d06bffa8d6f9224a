package outline

import (
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// reader gives the colour at a place of the photograph, pixels.
type reader interface {
	at(x, y float64) sample
}

// scaled reads a plane by places of the photograph.
type scaled struct{ p *plane }

func (s scaled) at(x, y float64) sample { return s.p.at(x/s.p.factor, y/s.p.factor) }

// at reads between pixels by their distance.
func (s *source) at(x, y float64) sample {
	x, y = min(max(x-0.5, 0), float64(s.w-1)), min(max(y-0.5, 0), float64(s.h-1))
	i, j := int(x), int(y)
	fx, fy := float32(x-float64(i)), float32(y-float64(j))
	r, d := min(i+1, s.w-1), min(j+1, s.h-1)
	a, b, c, e := s.pixel(i, j), s.pixel(r, j), s.pixel(i, d), s.pixel(r, d)
	return between(&a, &b, &c, &e, fx, fy)
}

// between mixes four neighbours: a and b above, c and e below.
func between(a, b, c, e *sample, fx, fy float32) sample {
	return sample{mixed(a[0], b[0], c[0], e[0], fx, fy), mixed(a[1], b[1], c[1], e[1], fx, fy), mixed(a[2], b[2], c[2], e[2], fx, fy)}
}

func mixed(a, b, c, e, fx, fy float32) float32 {
	top := a + fx*(b-a)
	low := c + fx*(e-c)
	return top + fy*(low-top)
}

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
	// Averaging along the line between places.
	sub := int(min(max(long/(float64(n)*step), 1), 3))
	for i := range f.t {
		f.t[i] = 0.02 + 0.96*(float64(i)+0.5)/float64(n)
		clear(row)
		for s := 0; s < sub; s++ {
			t := f.t[i] + 0.96*((float64(s)+0.5)/float64(sub)-0.5)/float64(n)
			at := p.Lerp(q, t)
			for k := range row {
				v := lens.Bowed(at.Add(f.n.Mul(step * (float64(k-reach-window) + 0.5))))
				c := r.at(v.X, v.Y)
				for ch := range c {
					row[k][ch] += c[ch] / float32(sub)
				}
			}
		}
		for o := 0; o < wide; o++ {
			var in, out sample
			for k := 0; k < window; k++ {
				for ch := range in {
					in[ch] += row[o+k][ch]
					out[ch] += row[o+window+k][ch]
				}
			}
			for ch := range in {
				f.d[i*wide+o][ch] = (in[ch] - out[ch]) / float32(window)
			}
		}
	}
	return f
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
	for c := 0; c < chunks; c++ {
		var sum sample
		var sq float32
		for i := c * per; i < (c+1)*per; i++ {
			o := int(math.Round(a+(b-a)*f.t[i])) + f.reach
			v := &f.d[i*wide+min(max(o, 0), wide-1)]
			sum[0] += v[0]
			sum[1] += v[1]
			sum[2] += v[2]
			sq += v.dot(*v)
		}
		n := float64(per)
		mean2 := float64(sum.dot(sum)) / (n * n)
		scatter := max(float64(sq)/n-mean2, 0)
		m := math.Sqrt(mean2)
		noise := 4 * (scatter/n + lowStep*lowStep/4)
		tr.edge[c] = mean2 / (mean2 + noise) * m / (m + midStep)
		if m > 0 {
			k := float32(1 / (n * m))
			tr.dir[c] = sample{sum[0] * k, sum[1] * k, sum[2] * k}
		}
		tr.score += tr.edge[c] / chunks
	}
	return tr
}

// tracks returns the best lines through the profile, best first: those better
// than all that lie a step from them, within reach steps of the profile's
// line, leaning at most lean steps and apart steps from each other.
func (f *profile) tracks(reach, lean, most int, apart float64) []track {
	wide := 2*reach + 1
	grid := make([]track, wide*wide)
	for a := -reach; a <= reach; a++ {
		for b := max(-reach, a-lean); b <= min(reach, a+lean); b++ {
			grid[(a+reach)*wide+b+reach] = f.along(float64(a), float64(b))
		}
	}
	var all []track
	for i, t := range grid {
		peak := t.score > 0
		for _, d := range steps {
			a, b := i/wide+d[0], i%wide+d[1]
			if a >= 0 && b >= 0 && a < wide && b < wide && grid[a*wide+b].score > t.score {
				peak = false
				break
			}
		}
		if peak {
			all = append(all, t)
		}
	}
	slices.SortStableFunc(all, func(x, y track) int { return compare(y.score, x.score) })
	var kept []track
next:
	for _, t := range all {
		if len(kept) >= most {
			break
		}
		for _, k := range kept {
			if math.Abs(t.a+t.b-k.a-k.b)/2 < apart && math.Abs(t.a-k.a) < 2*apart && math.Abs(t.b-k.b) < 2*apart {
				continue next
			}
		}
		kept = append(kept, t)
	}
	return kept
}

// steps are the neighbours of a line whose ends move by whole steps.
var steps = [...][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, -1}, {1, -1}, {-1, 1}}

// nearest climbs from the profile's own line to the best line about it, at
// most reach steps away. Stronger edges farther off are left alone.
func (f *profile) nearest(reach int) track {
	at := f.along(0, 0)
	for range 4 * reach {
		best := at
		for _, d := range steps {
			a, b := at.a+float64(d[0]), at.b+float64(d[1])
			if math.Abs(a) > float64(reach) || math.Abs(b) > float64(reach) {
				continue
			}
			if t := f.along(a, b); t.score > best.score {
				best = t
			}
		}
		if best.score <= at.score {
			break
		}
		at = best
	}
	return at
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
			v[o] = float64(f.d[i*wide+o].dot(tr.dir[c]))
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
