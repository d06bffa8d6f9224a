package snapshot

import (
	"math"

	"heartside/layout/geom"
)

// lamp is the light on a scene.
type lamp struct {
	fall    geom.Point // brightening a metre, natural logarithm
	shades  []shade
	leaves  float64 // how dark leaf shadows are
	leafAt  float64 // what share of the light is free
	leafMM  float64
	leafRim float64 // how soft their rims are
	n       noise
	tint    rgb // of what light shadows keep
	sun     geom.Point
	soft    float64 // of the board's shadow, mm
	cast    float64 // how dark the board's shadow is
	contact float64
	glare   []gleam
}

// shade is the shadow of a bar, or of an edge where it is very wide.
type shade struct {
	sin, cos, at, half, soft, deep float64
}

// gleam is a patch of glare.
type gleam struct {
	mid       geom.Point
	sin, cos  float64
	long, wid float64
	most      float64
}

// on returns the light at a place.
func (l *lamp) on(x, y float64) rgb {
	k := math.Exp(clamp((l.fall.X*x+l.fall.Y*y)/1000, -1.5, 1.5))
	dark := 1.0
	for i := range l.shades {
		s := &l.shades[i]
		d := math.Abs(s.cos*x+s.sin*y-s.at) - s.half
		dark *= 1 - s.deep*ramp(d, s.soft/2, -s.soft/2)
	}
	if l.leaves > 0 {
		v := l.n.at(x/l.leafMM, y/l.leafMM) + 0.55*l.n.at(x/l.leafMM*2.3+40, y/l.leafMM*2.3)
		dark *= 1 - l.leaves*ramp(v, l.leafAt-l.leafRim, l.leafAt+l.leafRim)
	}
	if dark == 1 {
		return rgb{k, k, k}
	}
	return rgb{k * (dark + (1-dark)*l.tint[0]), k * (dark + (1-dark)*l.tint[1]), k * (dark + (1-dark)*l.tint[2])}
}

// shine returns the glare at a place.
func (l *lamp) shine(x, y float64) float64 {
	v := 0.0
	for i := range l.glare {
		g := &l.glare[i]
		p := geom.Pt(x, y).Sub(g.mid)
		u, w := (g.cos*p.X+g.sin*p.Y)/g.long, (-g.sin*p.X+g.cos*p.Y)/g.wid
		if q := u*u + w*w; q < 8 {
			v += g.most * math.Exp(-q)
		}
	}
	return v
}

// under returns what light reaches the ground beside boxes.
func (l *lamp) under(boxes []*box, p geom.Point, ground float64) float64 {
	k := 1.0
	for _, b := range boxes {
		h := b.top - ground
		if h < 1 {
			continue
		}
		d := b.away(p, geom.Point{})
		if d > 6*h+3*l.soft {
			continue
		}
		k *= 1 - l.contact*math.Exp(-d/(0.35*h+1.5))
		if l.cast > 0 {
			k *= 1 - l.cast*ramp(b.swept(p, l.sun.Mul(h)), l.soft, 0)
		}
	}
	return k
}

// planLamp lights a scene for a level over a board of a length and width.
func planLamp(r dice, n noise, level int, length, width float64) lamp {
	hard := float64(level-1) / 4
	l := lamp{n: n, tint: rgb{0.02, 0.03, 0.06}, contact: r.in(0.3, 0.65), soft: r.in(3, 40)}
	turn := r.in(0, 2*math.Pi)
	long := r.in(0.05, 0.3+0.5*hard) * 2 * 700 / length
	l.fall = geom.Pt(long*math.Cos(turn), long*math.Sin(turn))
	turn = r.in(0, 2*math.Pi)
	l.sun = geom.Pt(math.Cos(turn), math.Sin(turn)).Mul(r.in(0.2, 1.6))
	if r.yes(0.7) {
		l.cast = r.in(0.15, 0.35+0.35*hard)
	}
	chance := [6]float64{0, 0, 0.15, 0.4, 0.7, 0.9}[level]
	deep := func() float64 { return r.in(0.12, [6]float64{0, 0.1, 0.25, 0.5, 0.65, 0.78}[level]) }
	if r.yes(chance) {
		for range 1 + r.IntN(2) {
			s := shade{deep: deep(), half: r.in(15, 140), soft: r.in(1, 60)}
			a := 0.0
			switch r.IntN(4) {
			case 0: // across
				a = r.in(-0.2, 0.2)
				s.at = length * r.in(-0.4, 0.4)
			case 1: // along the board, like sapwood
				a = math.Pi/2 + r.in(-0.05, 0.05)
				s.at, s.half = width*r.in(-0.5, 0.5), width*r.in(0.1, 0.4)
			default:
				a = r.in(0, math.Pi)
				s.at = length * r.in(-0.3, 0.3)
			}
			if r.yes(0.35) { // an edge
				s.half = 5000
				s.at += r.sign() * 5000
			}
			s.sin, s.cos = math.Sincos(a)
			l.shades = append(l.shades, s)
		}
	}
	if r.yes(chance * 0.25) {
		l.leaves, l.leafAt, l.leafMM, l.leafRim = deep(), r.in(-0.2, 0.5), r.in(30, 140), r.in(0.04, 0.35)
	}
	if level >= 3 && r.yes(0.35) || level == 2 && r.yes(0.15) {
		g := gleam{mid: geom.Pt(length*r.in(-0.4, 0.4), width*r.in(-0.5, 0.5)), long: length * r.in(0.1, 0.4), wid: width * r.in(0.2, 1), most: r.in(0.03, 0.08+0.2*hard)}
		g.sin, g.cos = math.Sincos(r.in(-0.6, 0.6))
		l.glare = append(l.glare, g)
	}
	return l
}
