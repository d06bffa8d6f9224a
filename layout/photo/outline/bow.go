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
	l := newLaying(marks, wide, high)
	const cells = 20
	best := l.under(0, 4*scale)
	for pass := 0; pass < 2; pass++ {
		noise := max(off, best.rms)
		try := func(bow float64) float64 { return l.under(bow, noise).cost }
		at, least := 0.0, math.Inf(1)
		from, to := 0, cells
		if pass > 0 { // the noise has changed, not the marks
			k := int(math.Round((best.bow/mostBow + 1) * cells / 2))
			from, to = max(k-bowCells, 0), min(k+bowCells, cells)
		}
		for i := from; i <= to; i++ {
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
		best = l.under(at, noise)
	}
	return best
}

// bowCells is how many cells to either side the bow is looked for again.
const bowCells = 3

// laying lays lines through marks under one bow after another.
type laying struct {
	middle geom.Point
	sides  [4][]markUnder
}

// markUnder is a mark about the middle of the picture: as it is seen and, under the
// bow tried last, without it.
type markUnder struct {
	x, y, r2   float64 // r2 in half diagonals
	weight     float64
	u, v, gain float64
}

func newLaying(marks *[4][]mark, wide, high int) *laying {
	lens := photo.LensOf(wide, high, 0)
	l := &laying{middle: lens.Middle}
	for s, ms := range marks {
		l.sides[s] = make([]markUnder, len(ms))
		for i, m := range ms {
			d := m.at.Sub(lens.Middle)
			l.sides[s][i] = markUnder{x: d.X, y: d.Y, r2: d.Dot(d) / (lens.Half * lens.Half), weight: m.weight}
		}
	}
	return l
}

// under lays the lines for one bow; noise is the usual miss in pixels.
func (l *laying) under(bow, noise float64) fitted {
	f := fitted{bow: bow, ok: true}
	f.cost = bow * bow / (bowSpread * bowSpread)
	sum, n := 0.0, 0.0
	for s, ms := range l.sides {
		if len(ms) < 6 {
			f.ok = false
			f.cost += 1e3
			continue
		}
		var all moments
		for i := range ms {
			m := &ms[i]
			m.gain = 1 + bow*m.r2
			m.u, m.v = m.x/m.gain, m.y/m.gain
			all.add(m.u, m.v, m.weight)
		}
		at := all.line()
		cut := 4.7 * noise
		for pass := 0; pass < 4; pass++ {
			// The first looks are wide, so that a bad start is left behind.
			k := 1 / (cut * math.Exp2(float64(max(0, 2-pass))))
			var near moments
			for i := range ms {
				m := &ms[i]
				r := (at.a*m.u + at.b*m.v + at.c) * m.gain * k
				if r *= r; r < 1 {
					near.add(m.u, m.v, m.weight*(1-r)*(1-r))
				}
			}
			if near.w <= 0 {
				at = through(geom.Pt(ms[0].u, ms[0].v), geom.Pt(ms[len(ms)-1].u, ms[len(ms)-1].v))
				continue
			}
			before := at
			at = near.line()
			if pass == 3 {
				// The weights are those of the line before.
				for i := range ms {
					m := &ms[i]
					was, r := (before.a*m.u+before.b*m.v+before.c)*m.gain*k, (at.a*m.u+at.b*m.v+at.c)*m.gain
					if was *= was; was < 1 && r*r*k*k < 1 {
						w := m.weight * (1 - was) * (1 - was)
						sum += w * r * r
						n += w
					}
				}
			}
		}
		cost := 0.0
		for i := range ms {
			m := &ms[i]
			r := (at.a*m.u + at.b*m.v + at.c) * m.gain / cut
			if r *= r; r < 1 {
				cost += m.weight * (1 - (1-r)*(1-r)*(1-r))
			} else {
				cost += m.weight
			}
		}
		f.cost += cost * cut * cut / 3 / (noise * noise) / all.w * min(sideCount, float64(len(ms)))
		f.lines[s] = line{at.a, at.b, at.c - at.a*l.middle.X - at.b*l.middle.Y}
	}
	if n > 0 {
		f.rms = math.Sqrt(sum / n)
	}
	return f
}

// moments are weighted sums over points.
type moments struct{ w, x, y, xx, xy, yy float64 }

func (m *moments) add(x, y, w float64) {
	m.w += w
	x1, y1 := w*x, w*y
	m.x += x1
	m.y += y1
	m.xx += x1 * x
	m.xy += x1 * y
	m.yy += y1 * y
}

// line returns the line nearest to the points.
func (m *moments) line() line {
	cx, cy := m.x/m.w, m.y/m.w
	xx, xy, yy := m.xx-m.x*cx, m.xy-m.x*cy, m.yy-m.y*cy
	sin, cos := math.Sincos(0.5 * math.Atan2(2*xy, xx-yy))
	return line{-sin, cos, sin*cx - cos*cy}
}

// lay returns the line nearest to points, each with its weight.
func lay(pts []geom.Point, w []float64) line {
	var m moments
	for i, p := range pts {
		m.add(p.X-pts[0].X, p.Y-pts[0].Y, w[i])
	}
	if m.w <= 0 {
		return through(pts[0], pts[len(pts)-1])
	}
	l := m.line()
	l.c -= l.a*pts[0].X + l.b*pts[0].Y
	return l
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
