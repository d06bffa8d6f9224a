package snapshot

import (
	"math"

	"heartside/layout/photo"
)

// palette is what shading needs of a kind, turned into light once.
type palette struct{ heart, sap, bark rgb }

func (b *Board) ready() {
	b.paint = palette{light(b.Kind.Heart), light(b.Kind.Sap), lab(27, 6, 10)}
}

// wood returns the colour of the bare wood at a place, with grain as fine as
// px pixels a mm show. end is true where the fibres are seen end on.
func (b *Board) wood(p *spot, px float64, end bool) rgb {
	k, n := &b.Kind, b.n
	if p.label == photo.Flaw {
		if p.knot < 1 && p.eff <= p.wood {
			return b.knot(p)
		}
		return b.bark(p)
	}
	heart := ramp((p.heart+p.rag-p.eff)/math.Max(b.Log.Band, 0.05), -0.5, 0.5)
	ring, part := b.Log.phase(p.eff + 0.5*n.sub(21).at(p.x/70, p.y/14) + 0.25*n.sub(22).at(p.x/22, p.y/5))
	t := b.paint.sap.mix(b.paint.heart, heart)

	// Rings finer than pixels melt away.
	slope := 1.0
	if !end {
		slope = math.Abs(p.py)/math.Max(p.r, 1) + 0.03
	}
	fine := ramp(k.Ring/slope*px, 0.8, 2.6)
	dark := k.Rings * (0.55 + 0.45*heart) * (profile(part, k.Late) - 1/(k.Late+1)) * fine * (1 + 0.4*n.cell(ring, 5))
	dark += 0.05 * n.cell(ring, 9) * fine
	v := 0.87*(p.y+p.side) + 0.49*p.d
	// Several rings together run darker or paler in the heart.
	if heart > 0 {
		s := n.sub(23).at(p.eff/7, p.x/1500) + 0.4*n.sub(24).at(p.eff/2.2, p.x/600)
		dark += 0.5 * heart * k.Streaks * (math.Max(0, s-0.15) - 0.11)
		dark += 0.25 * heart * k.Edge * ramp(p.heart-p.eff, 22, 0)
		if g := b.pale(p); g > 0 {
			t = t.mix(b.paint.sap, g*heart)
		}
	}
	if end {
		dark += 0.06*n.sub(25).at(p.y/1.7, p.d/1.7) + 0.08*n.sub(26).at(p.y/0.7, p.d/0.7) + 0.10
	} else {
		dark += 0.055*n.sub(25).at(p.x/130, v/3.8) + 0.055*n.sub(26).at(p.x/44, v/1.3)*math.Min(1, 1.2*px)
		if px > 0.5 {
			dark += 0.05 * n.sub(27).at(p.x/19, v/0.6) * math.Min(1, 0.8*px)
		}
		dark += b.pores(p.x, v, part, px)
	}
	dark += 0.045*n.sub(28).at(p.x/500, v/70) + 0.02*n.sub(29).at(p.x/60, v/30)
	return t.darker(dark)
}

// profile is how dark a ring is at a part of its width.
func profile(part, late float64) float64 {
	return math.Pow(part, late)
}

// pores returns their darkness, about nothing in the mean.
func (b *Board) pores(x, v, part, px float64) float64 {
	k := &b.Kind
	if k.Pores <= 0 {
		return 0
	}
	long, wide := 7.0, 0.5
	if px < 1.2 {
		long, wide = long*1.2/px, wide*1.2/px
	}
	a := k.Pores * math.Min(1, 0.4+0.35*px)
	if k.Porous {
		a *= 0.3 + 1.4*(1-ramp(part, 0.15, 0.5))
	}
	return a * (0.5*math.Max(0, b.n.sub(30).at(x/long, v/wide)-0.25) - 0.05)
}

// pale returns how far a pale streak of the heart goes towards the sap's
// colour.
func (b *Board) pale(p *spot) float64 {
	most := [6]float64{0, 0.15, 0.25, 0.4, 0.58, 0.75}[b.level()]
	s := b.n.sub(31).at(p.eff/13+7, p.x/900) + 0.3*b.n.sub(32).at(p.eff/4, p.x/300)
	core := 0.6 * ramp(p.eff, 26, 8) * math.Min(1, b.Kind.Pale*1.5)
	return most * math.Max(b.Kind.Pale*ramp(s, 0.5, 0.85), core)
}

// knot returns the colour inside a knot: rings of its own, darker at the rim.
func (b *Board) knot(p *spot) rgb {
	t := b.paint.heart.darker(0.2)
	a := b.n.sub(33).at(p.knotU*1.5+float64(9*p.which), p.knotV*1.5)
	t = t.darker(0.10 * math.Sin(18*p.knot+2*a))
	t = t.darker(0.30*ramp(p.knot, 0.7, 0.95) + 0.1*a)
	crack := 1 - ramp(math.Abs(p.knotV+0.25*a), 0.02, 0.12)
	return t.darker(0.45 * crack * ramp(p.knot, 0.8, 0.5))
}

func (b *Board) bark(p *spot) rgb {
	t := b.paint.bark.mix(lab(42, 10, 18), 0.5*ramp(p.eff-p.wood, 4, 0))
	return t.darker(0.3*b.n.sub(34).at(p.x/14, p.y/5) + 0.3*b.n.sub(35).at(p.x/4, p.y/1.8))
}
