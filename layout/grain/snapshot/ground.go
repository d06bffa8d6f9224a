package snapshot

import "math"

// Grounds returns the names of what a board may lie on.
func Grounds() []string {
	return []string{"concrete", "tiles", "grass", "gravel", "carpet", "dark floor", "bench planks", "plywood", "workshop bench", "earth", "blanket", "cardboard", "asphalt", "white table", "terrazzo"}
}

// ground is what the board lies on.
type ground struct {
	name       string
	n          noise
	sin, cos   float64
	a, b       rgb
	size, gap  float64
	dust, worn float64
}

func planGround(r dice, n noise, name string) ground {
	g := ground{name: name, n: n, dust: r.Float64(), worn: r.Float64()}
	turn := r.in(-0.6, 0.6)
	if r.yes(0.3) {
		turn += math.Pi / 2
	}
	if r.yes(0.2) { // boards often lie along the planks
		turn = r.in(-0.03, 0.03)
	}
	g.sin, g.cos = math.Sincos(turn)
	g.size, g.gap = r.in(80, 150), r.in(1, 4)
	l, a, c := r.in(-6, 6), r.in(-2, 2), r.in(-4, 4)
	pick := func(cs ...rgb) rgb { return cs[r.IntN(len(cs))] }
	switch name {
	case "concrete":
		g.a = pick(lab(58+l, 0+a/2, 5+c/2), lab(68+l, 1, 8), lab(47+l, 0, 3))
	case "tiles":
		g.a = pick(lab(72+l, 3+a, 14+c), lab(55+l, 16+a, 22+c), lab(80+l/2, 0, 3), lab(38+l, 0, 0), lab(62+l, 2, 6))
		g.b, g.size = lab(52+2*l, 1, 5), r.in(150, 400)
	case "grass":
		g.a, g.b = lab(40+l, -14+a, 28+c), lab(58+l, -12+a, 38+c)
	case "gravel":
		g.a, g.b, g.size = lab(52+l, 1, 7), lab(70+l, 3, 12), r.in(8, 26)
	case "carpet":
		g.a = pick(lab(40+l, 2, -12), lab(45+l, 20, 12), lab(60+l, 3, 12), lab(35+l, 0, 0), lab(48+l, -10, 8))
		g.b, g.size = pick(g.a.times(0.7), lab(62+l, 4, 14), g.a.times(1.3)), r.in(30, 120)
	case "dark floor":
		g.a, g.b = lab(34+l, 9+a, 16+c), lab(42+l, 11+a, 20+c)
	case "bench planks":
		g.a, g.b, g.size = lab(70+l, 6+a, 24+c), lab(76+l, 5+a, 24+c), r.in(60, 140)
	case "plywood":
		g.a, g.b = lab(74+l, 6+a, 24+c), lab(66+l, 9+a, 27+c)
	case "workshop bench":
		g.a, g.b, g.size = lab(54+l, 9+a, 24+c), lab(60+l, 9+a, 26+c), r.in(70, 200)
	case "earth":
		g.a, g.b = lab(38+l, 6+a, 15+c), lab(52+l, 6, 17)
	case "blanket":
		g.a = pick(lab(30+l, 4, -22), lab(35+l, 30, 14), lab(58+l, 2, 8), lab(32+l, -12, 6), lab(70+l, 1, 4))
		g.b = g.a.times(0.8)
	case "asphalt":
		g.a, g.b = lab(34+l, 0, 1), lab(58+l, 1, 4)
	case "white table":
		g.a = lab(86+l/2, 0+a/2, 2+c/2)
	case "terrazzo":
		g.a, g.b, g.size = lab(74+l, 1, 6), pick(lab(40, 2, 4), lab(48, 14, 18), lab(60, 2, 8)), r.in(7, 16)
	default:
		g.a = lab(60+l, 8+a, 24+c)
	}
	return g
}

// like gives a ground of wood the colour of the board on it.
func (g *ground) like(c rgb) {
	switch g.name {
	case "dark floor", "bench planks", "plywood", "workshop bench":
		g.a, g.b = c.darker(0.06), c.darker(-0.06)
	}
}

// at returns the ground's colour; px is how many pixels show a mm.
func (g *ground) at(x, y, px float64) rgb {
	u, v := g.cos*x+g.sin*y, -g.sin*x+g.cos*y
	n := g.n
	broad := n.at(u/260, v/260) + 0.5*n.at(u/90+31, v/90)
	switch g.name {
	case "concrete":
		t := g.a.darker(0.06*broad + 0.05*n.at(u/11, v/11+9) + 0.05*n.at(u/3.1, v/3.1) + 0.06*n.at(u/1.1, v/1.1)*math.Min(1, px))
		if s := n.at(u/5+70, v/5+20); s > 0.7 {
			t = t.darker(0.25 * (s - 0.6))
		}
		if g.worn > 0.5 { // cracks
			k := math.Abs(n.at(u/330+5, v/330) + 0.3*n.at(u/60, v/60) + 0.06*n.at(u/9, v/9))
			t = t.darker(0.4 * ramp(k, 0.012, 0.003))
		}
		return t
	case "tiles":
		i, j := floor(u/g.size), floor(v/g.size)
		p, q := u-float64(i)*g.size, v-float64(j)*g.size
		d := math.Min(math.Min(p, g.size-p), math.Min(q, g.size-q))
		t := g.a.darker(0.07*n.cell(i, j) + 0.05*broad + 0.05*n.at(u/30, v/30+4) + 0.02*n.at(u/4, v/4))
		return t.mix(g.b.darker(0.1*n.at(u/3, v/3)), ramp(d, g.gap+0.7, g.gap))
	case "grass":
		return g.grass(u, v, broad)
	case "gravel":
		return g.stones(u, v, broad)
	case "carpet":
		loop := 0.5*n.at(u/2.6, v/2.2) + 0.3*n.at(u/1.2, v/1.2)
		t := g.a
		if g.dust > 0.4 {
			t = t.mix(g.b, ramp(math.Sin(2*math.Pi*u/g.size)+0.2*n.at(u/6, v/6), 0.3, 0.45))
		}
		return t.darker(0.25*loop + 0.06*broad)
	case "dark floor", "bench planks", "workshop bench":
		return g.planks(u, v, px, broad)
	case "plywood":
		w := 1.6*n.at(u/700, v/110) + 0.35*n.at(u/180, v/32)
		part := w*6 - float64(floor(w*6))
		t := g.a.mix(g.b, 0.8*part*part)
		return t.darker(0.06*n.at(u/40, v/1.6) + 0.04*n.at(u/13, v/0.9) + 0.03*broad)
	case "earth":
		t := g.a.mix(g.b, ramp(broad+0.5*n.at(u/22, v/22), -0.4, 0.7))
		return t.darker(0.16*n.at(u/6, v/6) + 0.15*n.at(u/2, v/2))
	case "asphalt":
		t := g.a.mix(g.b, 0.8*ramp(n.at(u/2.6, v/2.6)+0.4*n.at(u/1.1, v/1.1), 0.25, 0.7))
		return t.darker(0.12*broad + 0.2*n.at(u/1.4, v/1.4+9))
	case "white table":
		return g.a.darker(0.03*broad + 0.012*n.at(u/3, v/3) + 0.2*ramp(n.at(u/9+3, v/9), 0.86, 0.9))
	case "terrazzo":
		i, j := floor(u/g.size), floor(v/g.size)
		d := math.Hypot(u/g.size-float64(i)-0.5-0.2*n.cell(i, j), v/g.size-float64(j)-0.5-0.2*n.cell(j+50, i))
		d += 0.1 * n.at(u/2.5, v/2.5)
		chip := g.b.mix(lab(88, 0, 4), ramp(n.cell(i+7, j+2), 0, 0.1))
		return g.a.mix(chip, ramp(d, 0.36+0.1*n.cell(i, j+30), 0.30)*ramp(n.cell(i+90, j+9), -0.2, -0.1)).darker(0.04*broad + 0.02*n.at(u, v))
	case "blanket":
		fold := n.at(u/170, v/60) + 0.6*n.at(u/60+8, v/150)
		weave := math.Sin(u*2.4)*math.Sin(v*2.4)*0.08*math.Min(1, px/2) + 0.07*n.at(u/1.5, v/1.5)
		return g.a.darker(0.2*fold + weave)
	}
	flute := math.Sin(2 * math.Pi * u / 7)
	t := g.a.darker(0.03*flute + 0.05*broad + 0.03*n.at(u/2, v/9))
	return t
}

func (g *ground) grass(u, v, broad float64) rgb {
	n := g.n
	deep, blade := 0.0, 0
	for k := range 5 {
		s, c := math.Sincos(float64(k)*1.26 + 0.4*broad)
		p, q := c*u+s*v, -s*u+c*v
		p += 3 * n.at(p/30, q/30)
		if w := n.sub(k).at(p/16, q/1.7); w > deep {
			deep, blade = w, k
		}
	}
	t := g.a.mix(g.b, ramp(deep, 0.2, 0.95))
	if blade == 2 && g.worn > 0.4 { // dry blades
		t = t.mix(lab(62, 3, 28), 0.5)
	}
	t = t.darker(0.55*(0.55-deep) + 0.12*broad)
	if g.dust > 0.7 { // clover and leaves
		if s := n.at(u/26+9, v/26); s > 0.72 {
			t = t.mix(lab(50, 12, 30), ramp(s, 0.72, 0.78)*0.7)
		}
	}
	return t
}

func (g *ground) stones(u, v, broad float64) rgb {
	p, q := u/g.size, v/g.size
	i, j := floor(p), floor(q)
	first, second, ci, cj := 9.0, 9.0, 0, 0
	for b := j - 1; b <= j+1; b++ {
		for a := i - 1; a <= i+1; a++ {
			x, y := float64(a)+0.5+0.42*g.n.cell(a, b)-p, float64(b)+0.5+0.42*g.n.cell(b+77, a)-q
			if d := x*x + y*y; d < first {
				first, second, ci, cj = d, first, a, b
			} else if d < second {
				second = d
			}
		}
	}
	rim := math.Sqrt(second) - math.Sqrt(first)
	t := g.a.mix(g.b, 0.5+0.5*g.n.cell(ci+9, cj+3))
	if h := g.n.cell(ci+40, cj+60); h > 0.6 {
		t = t.mix(lab(45, 9, 14), 0.6)
	}
	t = t.darker(0.35*g.n.cell(ci+5, cj) + 0.08*g.n.at(u/2, v/2) + 0.08*broad)
	return t.times(0.25 + 0.75*ramp(rim, 0, 0.3) + 0.15*(0.5-first))
}

func (g *ground) planks(u, v, px, broad float64) rgb {
	n := g.n
	j := floor(v / g.size)
	shift := 900 * n.cell(j, 40)
	long := 1400.0
	i := floor((u + shift) / long)
	p, q := u+shift-float64(i)*long, v-float64(j)*g.size
	d := math.Min(math.Min(p, long-p), math.Min(q, g.size-q))
	t := g.a.mix(g.b, 0.5+0.5*n.cell(i+3, j+8))
	o := 50 * n.cell(i, j)
	w := 1.2*n.at(u/520+o, v/34+o) + 0.2*n.at(u/120+o, v/9)
	part := w*5 - float64(floor(w*5))
	t = t.darker(0.16*(part*part-0.33) + 0.08*n.at(u/60+o, v/2.2) + 0.06*n.at(u/20, v/0.9)*math.Min(1, px) + 0.04*broad + 0.10*n.cell(j, i))
	gap := g.gap * 0.5
	if g.name == "bench planks" && g.worn > 0.5 {
		gap = 6
	}
	t = t.mix(lab(12, 2, 3), 0.85*ramp(d, gap+0.6, gap*0.5))
	if g.name == "workshop bench" {
		if s := n.at(u/130+60, v/130) + 0.5*n.at(u/30, v/30) + 0.7*n.at(u/1.8, v/1.8); s > 0.5-0.5*g.dust { // sawdust
			t = t.mix(lab(76, 5, 28).darker(0.12*n.at(u/1.2, v/1.2)), 0.75*ramp(s, 0.5-0.5*g.dust, 0.9))
		}
		if s := n.at(u/60+8, v/45+8); s > 0.66 { // stains of glue and oil
			t = t.darker(0.3 * ramp(s, 0.66, 0.74))
		}
	}
	return t
}
