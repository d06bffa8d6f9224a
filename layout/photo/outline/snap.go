package outline

import (
	"image"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// mostRadius bounds what a dragged corner looks at, pixels.
const mostRadius = 60

// spot reads the picture about a point.
type spot struct {
	src *source
	r   float64
}

func spotOf(img image.Image, at geom.Point, radius float64) (spot, bool) {
	if img == nil || img.Bounds().Empty() || !(radius >= 2) || math.IsNaN(at.X+at.Y) {
		return spot{}, false
	}
	b := img.Bounds()
	if at.X < 0 || at.Y < 0 || at.X > float64(b.Dx()) || at.Y > float64(b.Dy()) {
		return spot{}, false
	}
	s := sourceOf(img)
	return spot{&s, min(radius, mostRadius)}, true
}

// edge judges the stretch from p to q: 0 none to 1.
func (s *spot) edge(p, q geom.Point) float64 {
	d := q.Sub(p)
	long := d.Len()
	if long < 2 {
		return 0
	}
	n := geom.Pt(-d.Y/long, d.X/long)
	looks := max(4, int(long))
	var sum sample
	var sq float32
	for k := 0; k < looks; k++ {
		at := p.Lerp(q, (float64(k)+0.5)/float64(looks))
		a, b := at.Add(n.Mul(1.5)), at.Sub(n.Mul(1.5))
		v := s.src.at(a.X, a.Y).sub(s.src.at(b.X, b.Y))
		for ch := range v {
			sum[ch] += v[ch]
		}
		sq += v.dot(v)
	}
	f := float64(looks)
	mean2 := float64(sum.dot(sum)) / (f * f)
	m := math.Sqrt(mean2)
	noise := 4 * (max(float64(sq)/f-mean2, 0)/f + lowStep*lowStep/4)
	return mean2 / (mean2 + noise) * m / (m + midStep)
}

// strong is the least edge that something snaps to. Engineering choice.
const strong = 0.4

// lines returns the straight edges that pass within radius of a point, best
// first: each at its place nearest to the point, with its direction. half
// takes edges that stop at the point too.
func (s *spot) lines(at geom.Point, half bool, most int) (feet []geom.Point, turns []float64) {
	type found struct {
		foot  geom.Point
		turn  float64
		score float64
	}
	var all []found
	const turnSteps = 36
	for k := 0; k < turnSteps; k++ {
		turn := float64(k) * math.Pi / turnSteps
		d := geom.Pt(math.Cos(turn), math.Sin(turn))
		n := geom.Pt(-d.Y, d.X)
		for off := -math.Floor(s.r); off <= s.r; off++ {
			foot := at.Add(n.Mul(off))
			a := s.edge(foot.Sub(d.Mul(s.r)), foot)
			b := s.edge(foot, foot.Add(d.Mul(s.r)))
			v := (a + b) / 2
			if half {
				v = max(a, b)
			}
			if v >= strong/2 {
				all = append(all, found{foot, turn, v * (1 - 0.2*math.Abs(off)/s.r)})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y found) int { return compare(y.score, x.score) })
next:
	for _, f := range all {
		if len(feet) >= most {
			break
		}
		for i := range feet {
			if math.Abs(math.Sin(f.turn-turns[i])) < 0.2 && f.foot.Dist(feet[i]) < 3 {
				continue next
			}
		}
		feet, turns = append(feet, f.foot), append(turns, f.turn)
	}
	return feet, turns
}

// settle lays a line on the edge between two places, to a part of a pixel.
func (s *spot) settle(p, q geom.Point) (line, float64) {
	f := profileOf(s.src, photo.Lens{}, p, q, 1, 7, narrowWindow)
	t := f.nearest(3)
	marks := f.marks(t, photo.Lens{}, 2)
	if len(marks) < 6 {
		return through(p, q), 0
	}
	pts, w := make([]geom.Point, len(marks)), make([]float64, len(marks))
	for i, m := range marks {
		pts[i], w[i] = m.at, m.weight
	}
	l := lay(pts, w)
	for range 3 {
		for i, m := range marks {
			r := l.off(pts[i])
			w[i] = m.weight / (1 + r*r)
		}
		l = lay(pts, w)
	}
	return l, t.score
}

// SnapEdge moves a point onto the strongest straight edge within radius
// pixels of it, at the place nearest to the point. ok is false where there is
// none; the point then comes back as it was.
func SnapEdge(img image.Image, at geom.Point, radius float64) (_ geom.Point, ok bool) {
	s, ok := spotOf(img, at, radius)
	if !ok {
		return at, false
	}
	feet, turns := s.lines(at, false, 1)
	if len(feet) == 0 {
		return at, false
	}
	d := geom.Pt(math.Cos(turns[0]), math.Sin(turns[0])).Mul(s.r)
	l, score := s.settle(feet[0].Sub(d), feet[0].Add(d))
	to := at.Sub(geom.Pt(l.a, l.b).Mul(l.off(at)))
	if score < strong || to.Dist(at) > radius {
		return at, false
	}
	return to, true
}

// SnapCorner moves a point to where two strong edges end or cross within
// radius pixels of it. ok is false where there is no such place; the point
// then comes back as it was.
func SnapCorner(img image.Image, at geom.Point, radius float64) (_ geom.Point, ok bool) {
	s, ok := spotOf(img, at, radius)
	if !ok {
		return at, false
	}
	feet, turns := s.lines(at, true, 10)
	var best geom.Point
	var rays [2]geom.Point
	top := 0.0
	ln := make([]line, len(feet))
	for i := range feet {
		ln[i] = through(feet[i], feet[i].Add(geom.Pt(math.Cos(turns[i]), math.Sin(turns[i]))))
	}
	for i := range feet {
		for j := range feet[:i] {
			if math.Abs(math.Sin(turns[i]-turns[j])) < 0.35 { // 20 degrees
				continue
			}
			c, ok := ln[i].meet(ln[j])
			if !ok || c.Dist(at) > radius {
				continue
			}
			score := 1.0
			var r [2]geom.Point
			for k, turn := range []float64{turns[i], turns[j]} {
				d := geom.Pt(math.Cos(turn), math.Sin(turn)).Mul(s.r)
				a, b := s.edge(c.Add(d.Mul(0.15)), c.Add(d)), s.edge(c.Sub(d.Mul(0.15)), c.Sub(d))
				r[k] = d
				if b > a {
					a, b, r[k] = b, a, d.Mul(-1)
				}
				// An edge that stops there is a corner's.
				score *= a * (1 - 0.3*b)
			}
			if score *= 1 - 0.3*c.Dist(at)/radius; score > top {
				top, best, rays = score, c, r
			}
		}
	}
	if top < strong*strong/2 {
		return at, false
	}
	a, sa := s.settle(best.Add(rays[0].Mul(0.1)), best.Add(rays[0]))
	b, sb := s.settle(best.Add(rays[1].Mul(0.1)), best.Add(rays[1]))
	to, ok := a.meet(b)
	if !ok || sa < strong/2 || sb < strong/2 || to.Dist(at) > radius {
		return at, false
	}
	return to, true
}
