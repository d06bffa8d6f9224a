package grain

import (
	"math"

	"heartside/layout/geom"
)

// rough returns the colour of a sawn surface nobody has looked at: greyed,
// with the marks of the saw across it. share is how much of it is unseen.
func (d *drawer) rough(w tone, p geom.Point, share float64) tone {
	k := ramp(share, 0.3, 0.7)
	grey := tone{150, 139, 124}
	t := w.mix(grey, 0.72)
	// A band saw leaves lines across the board, each a little aslant and of
	// its own depth.
	u := (p.X + 0.10*p.Y + 1.5*d.n[0].at1(p.Y/60)) / 4.6
	f := math.Floor(u)
	deep := 0.35 + 0.65*math.Abs(d.n[1].cell(int64(f), 3))
	mark := deep * (1 - ramp(math.Abs(u-f-0.5), 0.05, 0.30)) * ramp(d.px*4.6, 1.2, 3.5)
	band := d.n[2].at1((p.X + 0.1*p.Y) / 47)
	fuzz := d.n[3].at2(p.X/2.2, p.Y/1.6)*math.Min(1, d.px) + 0.7*d.n[3].at2(p.X/30+9, p.Y/12)
	return w.mix(t.darker(0.16*mark+0.05*band+0.05*fuzz), k)
}

// flawed returns the colour inside a flaw: a knot with rings of its own, or
// the dark of bark, wane or a split.
func (d *drawer) flawed(w tone, p geom.Point, share float64) tone {
	for i := range d.knots {
		if r := d.knots[i].depth(p); r < 1.25 {
			return d.knots[i].colour(d, w, p, r)
		}
	}
	k := ramp(share, 0.25, 0.75)
	bark := tone{74, 62, 52}
	v := 0.25*d.n[5].at2(p.X/14, p.Y/3.2) + 0.22*d.n[5].at2(p.X/4+60, p.Y/1.3)
	return w.mix(bark.darker(0.1+v), k)
}

// colour returns the colour of a knot at a share r of its radius: its own
// rings, darker towards a rim of bark, with a check through the middle.
func (k *knot) colour(d *drawer, w tone, p geom.Point, r float64) tone {
	u, v := (p.X-k.c.X)/k.a, (p.Y-k.c.Y)/k.b
	angle := math.Atan2(v, u)
	r *= 1 + 0.07*k.n.at1(angle*1.6+20)
	core := toneOf(d.s.Heart).darker(0.40)
	rings := 0.5 + 0.5*math.Sin(2*math.Pi*(r*4.2+0.3*k.n.at2(u*2, v*2)))
	t := core.darker(0.20*rings*ramp(d.px*k.b/4.2, 0.5, 1.6) + 0.22*ramp(r, 0.1, 0.95))
	t = t.darker(0.5 * ramp(r, 0.78, 0.93) * (1 - ramp(r, 0.98, 1.06)))
	bend := 0.22 * k.n.at1(u*2.5+7)
	check := (1 - ramp(math.Abs(v-bend), 0.02, 0.10)) * (1 - ramp(math.Abs(u), 0.25, 0.55))
	t = t.darker(0.55 * check)
	// Outside the rim a halo of darkened wood.
	halo := w.darker(0.22 * (1 - ramp(r, 1, 1.25)))
	return t.mix(halo, ramp(r, 0.97, 1.04))
}
