package outline

import (
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

const (
	mostBow   = 0.25
	bowSpread = 0.08 // what lenses have, about 0; engineering choice
	sideCount = 16.0 // independent places a side is worth: marks share blur, light and crook
	leastOff  = 0.2  // pixels: no edge is known better
)

// fitted is four straight edges under one lens.
type fitted struct {
	lines [4]line // without bow
	bow   float64
	cost  float64
	rms   float64 // pixels, of the marks that fit
	ok    bool
}

// fit lays four lines through marks and finds the bow under which they are
// straightest: the division model of Fitzgibbon (2001), joint least squares of
// the four sides, outliers held down (Tukey), and the bow drawn to 0 as far as
// the marks do not tell.
func fit(marks *[4][]mark, wide, high int, scale float64) fitted {
	off := leastOff * scale
	best := fitWith(marks, wide, high, 0, 4*scale)
	for pass := 0; pass < 2; pass++ {
		noise := max(off, best.rms)
		try := func(bow float64) float64 { return fitWith(marks, wide, high, bow, noise).cost }
		at, least := 0.0, math.Inf(1)
		const cells = 20
		for i := 0; i <= cells; i++ {
			bow := mostBow * (2*float64(i)/cells - 1)
			if c := try(bow); c < least {
				at, least = bow, c
			}
		}
		for step := mostBow / cells; step > 1e-4; step /= 2 {
			for _, bow := range []float64{at - step, at + step} {
				if c := try(bow); c < least {
					at, least = bow, c
				}
			}
		}
		best = fitWith(marks, wide, high, at, noise)
	}
	return best
}

// fitWith lays the lines for one bow; noise is the usual miss in pixels.
func fitWith(marks *[4][]mark, wide, high int, bow, noise float64) fitted {
	lens := photo.LensOf(wide, high, bow)
	f := fitted{bow: bow, ok: true}
	f.cost = bow * bow / (bowSpread * bowSpread)
	sum, n := 0.0, 0.0
	for s, ms := range marks {
		if len(ms) < 6 {
			f.ok = false
			f.cost += 1e3
			continue
		}
		pts := make([]geom.Point, len(ms))
		gain := make([]float64, len(ms))
		w := make([]float64, len(ms))
		total := 0.0
		for i, m := range ms {
			pts[i] = lens.Straight(m.at)
			d := m.at.Sub(lens.Middle)
			gain[i] = 1 + bow*d.Dot(d)/(lens.Half*lens.Half)
			w[i] = m.weight
			total += m.weight
		}
		l := lay(pts, w)
		cut := 4.7 * noise
		for pass := 0; pass < 4; pass++ {
			// The first looks are wide, so that a bad start is left behind.
			c := cut * math.Exp2(float64(max(0, 2-pass)))
			for i := range pts {
				r := l.off(pts[i]) * gain[i] / c
				w[i] = 0
				if r*r < 1 {
					w[i] = ms[i].weight * (1 - r*r) * (1 - r*r)
				}
			}
			l = lay(pts, w)
		}
		f.lines[s] = l
		cost := 0.0
		for i := range pts {
			r := l.off(pts[i]) * gain[i]
			u := min(r*r/(cut*cut), 1)
			cost += ms[i].weight * cut * cut / 3 * (1 - (1-u)*(1-u)*(1-u)) / (noise * noise)
			if u < 1 {
				sum += w[i] * r * r
				n += w[i]
			}
		}
		f.cost += cost / total * min(sideCount, float64(len(ms)))
	}
	if n > 0 {
		f.rms = math.Sqrt(sum / n)
	}
	return f
}

// lay returns the line nearest to points, each with its weight.
func lay(pts []geom.Point, w []float64) line {
	var c geom.Point
	total := 0.0
	for i, p := range pts {
		c = c.Add(p.Mul(w[i]))
		total += w[i]
	}
	if total <= 0 {
		return through(pts[0], pts[len(pts)-1])
	}
	c = c.Mul(1 / total)
	var xx, xy, yy float64
	for i, p := range pts {
		d := p.Sub(c)
		xx += w[i] * d.X * d.X
		xy += w[i] * d.X * d.Y
		yy += w[i] * d.Y * d.Y
	}
	sin, cos := math.Sincos(0.5 * math.Atan2(2*xy, xx-yy))
	return line{-sin, cos, sin*c.X - cos*c.Y}
}

// corners returns where neighbouring lines cross, without bow: corner i lies
// between the side before and side i.
func (f *fitted) corners() (c [4]geom.Point, ok bool) {
	for i := range c {
		p, ok := f.lines[(i+3)%4].meet(f.lines[i])
		if !ok {
			return c, false
		}
		c[i] = p
	}
	return c, true
}

// Bow returns the bow of a lens, as photo.Lens has it, under which points
// along each of several straight edges lie straightest in a picture of wide x
// high pixels (division model, Fitzgibbon 2001). It is drawn to 0 as far as
// the points do not tell: edges near the middle of a picture bend little. 0
// with fewer than six points on every edge.
func Bow(edges [4][]geom.Point, wide, high int) float64 {
	var marks [4][]mark
	for s, e := range edges {
		for _, p := range e {
			marks[s] = append(marks[s], mark{at: p, weight: 1})
		}
	}
	if !slices.ContainsFunc(marks[:], func(m []mark) bool { return len(m) >= 6 }) || wide <= 0 || high <= 0 {
		return 0
	}
	return fit(&marks, wide, high, 1).bow
}
