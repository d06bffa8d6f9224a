package snapshot

import (
	"math"

	"heartside/layout/geom"
)

// Surface is what saw, weather and maker left on a face.
type Surface struct {
	Saw      float64 // depth of saw marks, 0 to 1
	SawStep  float64 // mm
	SawArc   float64 // radius of a circular saw's marks, mm; 0 a band saw's lines
	Fuzz     float64 // rough fibres, 0 to 1
	Damp     float64 // damp patches, 0 to 1
	Grey     float64 // weathering, 0 to 1
	Stickers float64 // pale bars where sticks lay, 0 to 1
	Paint    float64 // against checking, over the last mm at an end; 0 none
	Tin      rgb     // its colour
	Far      float64 // x of the end that is painted
	Checks   []Stroke
	Marks    []Stroke
}

// Stroke is a line on a face, in the board's own x and y.
type Stroke struct {
	Line   []geom.Point
	Wide   float64 // mm
	Colour rgb
	Cover  float64 // 0 to 1
	Rough  float64 // how broken the line is, as chalk on rough wood, 0 to 1
	box    geom.Rect
}

func (s *Stroke) bound() {
	s.box = geom.R(s.Line[0].X, s.Line[0].Y, s.Line[0].X, s.Line[0].Y)
	for _, p := range s.Line {
		s.box.Min.X, s.box.Max.X = math.Min(s.box.Min.X, p.X), math.Max(s.box.Max.X, p.X)
		s.box.Min.Y, s.box.Max.Y = math.Min(s.box.Min.Y, p.Y), math.Max(s.box.Max.Y, p.Y)
	}
	m := geom.Pt(s.Wide+1, s.Wide+1)
	s.box.Min, s.box.Max = s.box.Min.Sub(m), s.box.Max.Add(m)
}

// cover returns how much of the wood the stroke hides at a place.
func (s *Stroke) cover(p geom.Point, n noise) float64 {
	if p.X < s.box.Min.X || p.X > s.box.Max.X || p.Y < s.box.Min.Y || p.Y > s.box.Max.Y {
		return 0
	}
	d := math.Inf(1)
	for i := 1; i < len(s.Line); i++ {
		a, b := s.Line[i-1], s.Line[i]
		v := b.Sub(a)
		t := clamp(p.Sub(a).Dot(v)/math.Max(v.Dot(v), 1e-9), 0, 1)
		d = math.Min(d, p.Dist(a.Add(v.Mul(t))))
	}
	k := s.Cover * ramp(d, s.Wide/2+0.4, math.Max(s.Wide/2-0.4, 0))
	if s.Rough > 0 && k > 0 {
		k *= 1 - s.Rough*ramp(n.at(p.X/1.6, p.Y/1.1), -0.2, 0.4)
	}
	return k
}

// worn returns the colour of a face at a place, from that of its wood.
func (s *Surface) worn(t rgb, x, y, px float64, n noise) rgb {
	if s.Grey > 0 {
		g := s.Grey * (0.6 + 0.5*n.sub(50).at(x/160, y/60))
		lum := 0.3*t[0] + 0.6*t[1] + 0.1*t[2]
		t = t.mix(rgb{lum * 1.02, lum, lum * 0.92}, clamp(g, 0, 1))
	}
	dark := 0.0
	if s.Saw > 0 {
		u := (x + 0.12*y) / s.SawStep
		if s.SawArc > 0 {
			u = math.Hypot(x*1+s.SawArc*0.8, y-s.SawArc*0.6) / s.SawStep
		}
		u += 0.15 * n.sub(51).line(y/70)
		f := floor(u)
		deep := 0.4 + 0.6*math.Abs(n.cell(f, 52))
		q := u - float64(f)
		dark += s.Saw * (0.13*deep*(ramp(q, 0, 0.3)*ramp(q, 0.7, 0.3)*2-0.6) + 0.05*n.sub(53).line(u/6)) * ramp(px*s.SawStep, 1.5, 4)
	}
	if s.Fuzz > 0 {
		dark += s.Fuzz * (0.07*n.sub(54).at(x/2.6, y/1.2)*math.Min(1, px) + 0.05*n.sub(55).at(x/12, y/5))
		t = t.mix(rgb{0.42, 0.37, 0.30}, 0.10*s.Fuzz)
	}
	if s.Damp > 0 {
		v := n.sub(56).at(x/150, y/90) + 0.35*n.sub(57).at(x/40, y/24)
		dark += 0.16 * s.Damp * ramp(v, 0.25, 0.5)
	}
	if s.Stickers > 0 {
		u := x/430 + 0.35
		q := math.Abs(u-math.Round(u)) * 430
		dark -= s.Stickers * 0.06 * ramp(q, 14, 11)
	}
	t = t.darker(dark)
	if s.Paint > 0 {
		d := math.Abs(x-s.Far) + 0.5*s.Paint*n.sub(59).line(y/9) + 0.2*s.Paint*n.sub(59).line(y/2.5)
		t = t.mix(s.Tin, 0.85*ramp(d, s.Paint+0.7, s.Paint-0.7))
	}
	p := geom.Pt(x, y)
	for i := range s.Checks {
		if k := s.Checks[i].cover(p, n); k > 0 {
			t = t.mix(t.times(0.22), k)
		}
	}
	for i := range s.Marks {
		m := &s.Marks[i]
		if k := m.cover(p, n.sub(58)); k > 0 {
			t = t.mix(m.Colour, k)
		}
	}
	return t
}

// planSurface wears a face for a level.
func planSurface(r dice, level int, length, width float64) Surface {
	var s Surface
	hard := float64(level-1) / 4
	if r.yes(0.15 + 0.75*hard) {
		s.Saw, s.SawStep = r.in(0.2, 1)*(0.3+0.7*hard), r.in(2.5, 7)
		if r.yes(0.35) {
			s.SawArc = r.in(180, 420)
		}
		s.Fuzz = r.in(0, 0.4+0.6*hard)
	}
	if r.yes(0.5 * hard) {
		s.Damp = r.in(0.3, 1)
	}
	if r.yes(0.6 * hard) {
		s.Grey = r.in(0.05, 0.15+0.35*hard)
	}
	if r.yes(0.3 * hard) {
		s.Stickers = r.in(0.3, 1) * r.sign()
	}
	if r.yes(0.2 * hard) {
		s.Paint, s.Far = r.in(2, 16), length*float64(r.IntN(2))
		s.Tin = []rgb{lab(48, 45, 28), lab(40, 0, -35), lab(85, 0, 4), lab(50, -35, 20), lab(75, 6, 50), lab(20, 0, 0)}[r.IntN(6)]
	}
	for range r.IntN(1 + 2*level) {
		s.Checks = append(s.Checks, planCheck(r, length, width))
	}
	if r.yes(0.15 + 0.5*hard) {
		for range 1 + r.IntN(1+level/2) {
			s.Marks = append(s.Marks, planMark(r, length, width)...)
		}
	}
	for i := range s.Checks {
		s.Checks[i].bound()
	}
	for i := range s.Marks {
		s.Marks[i].bound()
	}
	return s
}

// planCheck opens a crack from an end along the grain.
func planCheck(r dice, length, width float64) Stroke {
	x, dir := 0.0, 1.0
	if r.yes(0.5) {
		x, dir = length, -1
	}
	y := width * r.in(0.05, 0.95)
	s := Stroke{Wide: r.in(0.3, 1.1), Cover: r.in(0.5, 0.95)}
	for range 4 + r.IntN(8) {
		s.Line = append(s.Line, geom.Pt(x, y))
		x += dir * r.in(6, 18)
		y += r.in(-0.9, 0.9)
	}
	return s
}

// planMark writes something on a face.
func planMark(r dice, length, width float64) []Stroke {
	ink := []struct {
		c           rgb
		wide, cover float64
		rough       float64
	}{
		{lab(92, 0, 2), 6, .75, .7}, {lab(88, 2, 8), 5, .6, .8}, // chalk
		{lab(45, 55, 32), 5, .8, .5}, {lab(38, 8, -45), 5, .8, .5}, {lab(25, 2, 2), 5, .8, .4}, {lab(80, 5, 70), 6, .75, .5}, // crayon
		{lab(35, 0, 0), 0.9, .6, .2}, {lab(35, 0, 0), 0.9, .6, .2}, // pencil
	}[r.IntN(8)]
	stroke := func(line ...geom.Point) Stroke {
		return Stroke{Line: line, Wide: ink.wide * r.in(0.7, 1.3), Colour: ink.c, Cover: ink.cover, Rough: ink.rough}
	}
	x, y := length*r.in(0.08, 0.8), width*r.in(0.25, 0.75)
	h := math.Min(width*0.35, r.in(25, 70))
	switch r.IntN(5) {
	case 0: // a cross
		return []Stroke{stroke(geom.Pt(x, y-h/2), geom.Pt(x+h, y+h/2)), stroke(geom.Pt(x, y+h/2), geom.Pt(x+h, y-h/2))}
	case 1: // a line across, where to cut
		return []Stroke{stroke(geom.Pt(x, 0), geom.Pt(x+r.in(-6, 6), width))}
	case 2: // a line along
		return []Stroke{stroke(geom.Pt(x, y), geom.Pt(math.Min(x+r.in(100, 500), length), y+r.in(-10, 10)))}
	case 3: // a figure
		return []Stroke{stroke(geom.Pt(x, y+h/2), geom.Pt(x+h/2, y+h/2), geom.Pt(x+h/5, y), geom.Pt(x+h/2, y-h/3), geom.Pt(x, y-h/2)),
			stroke(geom.Pt(x+h, y+h/2), geom.Pt(x+0.8*h, y-h/2))}
	}
	// a scribble
	var s Stroke = stroke()
	for i := range 7 {
		s.Line = append(s.Line, geom.Pt(x+float64(i)*h/5, y+h/2*float64(i%2*2-1)+r.in(-5, 5)))
	}
	return []Stroke{s}
}
