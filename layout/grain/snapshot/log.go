package snapshot

import (
	"math"

	"heartside/layout/photo"
)

// Log is the tree about the board, as fields of space. Radii are those of a
// ring's mean; the ovals turn them into the outline.
type Log struct {
	Across, Depth float64    // of the pith halfway along, mm
	Wander        float64    // of the pith, mm
	Lean          [2]float64 // of the pith, mm a metre: across and depth
	Taper         float64    // how much heart and wood draw in, mm a metre
	Heart, Wood   float64    // radii halfway along, mm
	Oval          [3]float64 // share by which rings swell twice, three and four times a turn
	Turn          [3]float64 // of those, radians
	Vary          float64    // of the heart radius with angle and length, mm
	Rag           float64    // of the heart's border, mm
	Band          float64    // over which heart turns into sap, mm
	Dents         []Dent
	Knots         []Knot

	length float64
	n      noise
	starts []float64 // radius at which each ring begins
	ring   []uint16  // by quarter millimetres of radius
}

// Dent is where the heart stays back from its circle.
type Dent struct {
	Y, D       float64 // direction from the pith, of length 1
	Wide       float64 // share of the radius
	Deep       float64 // mm
	From, Upto float64 // along the length, mm
}

// Knot is a branch from the pith outwards.
type Knot struct {
	X    float64 // where it leaves the pith
	Y, D float64 // direction, of length 1
	Rise float64 // mm along for each mm out
	Size float64 // radius at 100 mm from the pith
	Ends float64 // how far out it reaches
}

// most is the greatest radius with rings of its own, mm.
const most = 900

// grow lays the rings: their widths change slowly from year to year (a first
// order autoregression).
func (l *Log) grow(mean, length float64, n noise, r dice) {
	l.length, l.n = length, n
	l.starts = l.starts[:0]
	v := 0.0
	for at := 0.0; at < most+10; {
		l.starts = append(l.starts, at)
		v = 0.75*v + 0.28*(r.Float64()+r.Float64()+r.Float64()-1.5)*1.6
		// Rings near the pith are wider.
		w := mean * (1 + 0.5*math.Exp(-at/60)) * math.Exp(v)
		at += clamp(w, 0.45, 14)
	}
	l.ring = make([]uint16, 4*most+1)
	k := 0
	for i := range l.ring {
		for k+1 < len(l.starts) && l.starts[k+1] <= float64(i)/4 {
			k++
		}
		l.ring[i] = uint16(k)
	}
}

// phase returns which ring lies at a radius, and how far through it.
func (l *Log) phase(r float64) (ring int, part float64) {
	r = clamp(r, 0, most-1)
	k := int(l.ring[int(4*r)])
	for k+2 < len(l.starts) && l.starts[k+1] <= r {
		k++
	}
	return k, (r - l.starts[k]) / (l.starts[k+1] - l.starts[k])
}

// Pith returns where the pith passes at x.
func (l *Log) Pith(x float64) (across, depth float64) {
	m := (x - l.length/2) / 1000
	across, depth = l.Across+l.Lean[0]*m, l.Depth+l.Lean[1]*m
	if l.Wander > 0 {
		a, b := l.n.sub(1), l.n.sub(2)
		across += l.Wander * (a.line(x/520) + 0.2*a.line(x/170+40))
		depth += l.Wander * (b.line(x/560) + 0.2*b.line(x/190+40))
	}
	return across, depth
}

// spot is a place of the solid.
type spot struct {
	x, y, d      float64
	py, pd       float64 // from the pith
	r            float64 // from the pith
	eff          float64 // radius of the ring that passes here
	heart, wood  float64 // radii the ring is compared with
	rag          float64 // what is ragged of heart
	knot         float64 // 0 in the middle of a knot, 1 at its rim, 9 far from any
	which        int     // knot
	side         float64 // fibre is pushed aside by this, mm
	label        photo.Label
	knotU, knotV float64
}

// oval returns by what share the outline stands out in a direction.
func (l *Log) oval(c, s float64) float64 {
	v := 1.0
	ck, sk := c, s
	for k := range l.Oval {
		ck, sk = ck*c-sk*s, sk*c+ck*s // next multiple of the angle
		if l.Oval[k] != 0 {
			v += l.Oval[k] * (ck*math.Cos(l.Turn[k]) + sk*math.Sin(l.Turn[k]))
		}
	}
	return v
}

// heartAt returns the heart radius in a direction, without what is ragged.
func (l *Log) heartAt(x, c, s float64) float64 {
	h := l.Heart - l.Taper*(x-l.length/2)/1000
	if l.Vary > 0 {
		h += l.Vary * (l.n.sub(3).at(1.6*c+x/420, 1.6*s+x/610) + 0.3*l.n.sub(4).at(5*c+x/150, 5*s-x/130))
	}
	for _, e := range l.Dents {
		q := ((c-e.Y)*(c-e.Y) + (s-e.D)*(s-e.D)) / (e.Wide * e.Wide)
		if q < 9 {
			h -= e.Deep * math.Exp(-q) * ramp(x, e.From-60, e.From+60) * ramp(x, e.Upto+60, e.Upto-60)
		}
	}
	return h
}

// look fills in what is at a place.
func (l *Log) look(x, y, d float64) spot {
	p := spot{x: x, y: y, d: d, knot: 9}
	a, b := l.Pith(x)
	p.py, p.pd = y-a, d-b
	p.r = math.Hypot(p.py, p.pd)
	c, s := 1.0, 0.0
	if p.r > 1e-9 {
		c, s = p.py/p.r, p.pd/p.r
	}
	p.eff = p.r / l.oval(c, s)
	p.heart = l.heartAt(x, c, s)
	p.wood = l.Wood - l.Taper*(x-l.length/2)/1000
	for i := range l.Knots {
		l.Knots[i].touch(&p, i)
	}
	if l.Rag > 0 {
		v := 0.83*y + 0.57*d
		p.rag = l.Rag * (0.62*l.n.sub(5).at(x/34, v/11) + 0.5*l.n.sub(6).at(x/9, v/3.6) + 0.28*l.n.sub(7).at(x/3, v/1.4))
	}
	switch {
	case p.eff > p.wood+1.2*l.n.sub(8).at(x/20, y/9)*math.Min(l.Rag, 1):
		p.label = photo.Flaw
	case p.knot < 1:
		p.label = photo.Flaw
	case p.eff < p.heart+p.rag:
		p.label = photo.Heart
	default:
		p.label = photo.Sap
	}
	return p
}

// touch says how a knot changes a place: inside it the wood is the knot's,
// round it the rings are lifted along the branch and fibre parts.
func (k *Knot) touch(p *spot, i int) {
	out := p.py*k.Y + p.pd*k.D
	if out <= 0 || out > k.Ends+40 {
		return
	}
	aside := p.py*k.D - p.pd*k.Y
	along := p.x - k.X - k.Rise*out
	size := k.Size * math.Min(0.35+0.65*out/100, 1.3) * ramp(out, k.Ends+k.Size, k.Ends-k.Size)
	if size < 0.3 {
		size = 0.3
	}
	q := math.Hypot(aside, along) / size
	if q > 6 {
		return
	}
	if q < p.knot {
		p.knot, p.which, p.knotU, p.knotV = q, i, along/size, aside/size
	}
	lift := math.Exp(-q * q / 5)
	p.eff -= 0.8 * size * lift
	p.side -= aside * 0.85 * math.Exp(-(along*along/9+aside*aside/3)/(size*size))
}
