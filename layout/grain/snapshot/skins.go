package snapshot

import "math"

// sawn is a board lying with a face up.
type sawn struct {
	b    *Board
	face int
	sun  [5]float64 // how light each side is
}

func (s *sawn) colour(side int, u, v, deep, px float64) rgb {
	b := s.b
	x, y, d := b.onFace(s.face, u, v)
	if s.face == 2 {
		d -= deep
	} else {
		d += deep
	}
	p := b.Log.look(x, y, d)
	t := b.wood(&p, px, side == leftSide || side == rightSide)
	switch {
	case side == topSide:
		t = b.Faces[s.face-1].worn(t, x, y, px, b.n)
	case side == leftSide || side == rightSide:
		t = t.darker(0.05 * b.n.sub(60).at(y/2, d/30))
	default:
		t = t.darker(0.06 * b.n.sub(61).line(x/3))
	}
	return t.times(s.sun[side])
}

// section is an end of a board, seen through the board from the marked end:
// its top is face 1 and its left the other edge.
type section struct {
	b *Board
	x float64
	s Surface
}

func (s *section) colour(side int, u, v, deep, px float64) rgb {
	b := s.b
	y, d := b.Width-u, b.Thickness-v
	if side != topSide {
		// The rest of the board runs away from the camera.
		x := math.Abs(s.x - deep)
		p := b.Log.look(x, y, d)
		return b.wood(&p, px, false).times(0.5)
	}
	p := b.Log.look(s.x, y, d)
	t := b.wood(&p, px, true)
	return s.s.worn(t, u, v, px, b.n.sub(80))
}

// plain is one colour with a little unevenness.
type plain struct {
	c    rgb
	n    noise
	cast float64
}

func (s *plain) colour(side int, u, v, deep, px float64) rgb {
	t := s.c.darker(s.cast * s.n.at(u/7, v/7))
	if side != topSide {
		t = t.times(0.6)
	}
	return t
}

// rule is a tape or rule with a line each mm, longer ones each half and whole
// centimetre.
type rule struct {
	c    rgb
	wide float64
}

func (s *rule) colour(side int, u, v, deep, px float64) rgb {
	t := s.c
	if side != topSide {
		return t.times(0.6)
	}
	cm := math.Round(u / 10)
	long := 0.55 * s.wide
	ink := ramp(math.Abs(u-10*cm), 0.55, 0.2)
	if math.Mod(cm, 10) == 0 {
		long = s.wide
		if math.Abs(u-10*cm) < 12 && u-10*cm > 2 && v > 0.3*s.wide && v < 0.8*s.wide {
			return lab(45, 55, 35) // the figure
		}
	}
	if v > long {
		ink = 0
	}
	if mm := math.Round(u); v < 0.25*s.wide {
		ink = math.Max(ink, 0.8*ramp(math.Abs(u-mm), 0.3, 0.1)*ramp(px, 1, 3)+0.2*ramp(px, 3, 1))
	}
	if d := u - 10*cm; d > 1.5 && d < 4.5 && v > 0.6*s.wide && v < 0.85*s.wide {
		ink = math.Max(ink, 0.7)
	}
	return t.mix(lab(12, 0, 0), ink)
}

// card is a white, grey and dark patch side by side.
type card struct{ long float64 }

func (s *card) colour(side int, u, v, deep, px float64) rgb {
	switch k := u / s.long; {
	case k < 1.0/3:
		return rgb{0.87, 0.87, 0.87}
	case k < 2.0/3:
		return rgb{0.18, 0.18, 0.18} // the usual grey card reflects 18 %
	}
	return rgb{0.035, 0.035, 0.035}
}

// chisel is a handle and a blade.
type chisel struct {
	grip, blade rgb
	long        float64
}

func (s *chisel) colour(side int, u, v, deep, px float64) rgb {
	t := s.blade
	if u < 0.45*s.long {
		t = s.grip
	}
	if side != topSide {
		t = t.times(0.6)
	}
	return t
}
