package outline

import (
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Engineering choices of what is compared, in widths of the board: the ground
// is looked at from outFrom to outTo beyond its sides, the strips along its
// sides from 0.02 to 0.08 in and out.
const (
	outFrom, outTo = 0.15, 0.6
	alike          = 8.0  // grey levels at which two colours are half alike
	unknown        = 0.01 // likeness that colours of neither have anyway
	regionWeight   = 1.0
	usualRegion    = 0.4
)

// regions tells how far the strips inside a board's sides are of the board's
// colours and those outside of the ground's: for each side -1 to 1, 0 where
// they do not tell. Densities of colour by kernels (Parzen 1962).
func regions(r reader, lens photo.Lens, c [4]geom.Point) (sides [4]float64) {
	long := c[0].Dist(c[1]) + c[3].Dist(c[2])
	short := c[0].Dist(c[3]) + c[1].Dist(c[2])
	// The share of each direction that one width is.
	w := min(long, short)
	du, dv := w/max(long, 1), w/max(short, 1)
	look := func(u, v float64) (sample, bool) {
		p := c[0].Lerp(c[1], u).Lerp(c[3].Lerp(c[2], u), v)
		p = lens.Bowed(p)
		if p.X < 0 || p.Y < 0 || p.X > 2*lens.Middle.X || p.Y > 2*lens.Middle.Y {
			return sample{}, false
		}
		return r.at(p.X, p.Y), true
	}
	var wood, ground []sample
	const nu, nv = 10, 6
	for k := 0; k < nu*nv; k++ {
		u, v := (float64(k%nu)+0.5)/nu, (float64(k/nu)+0.5)/nv
		if s, ok := look(u, v); ok {
			wood = append(wood, s)
		}
	}
	// side i's point at t along, out widths beyond.
	beyond := func(i int, t, out float64) (sample, bool) {
		switch i {
		case 0:
			return look(t, -out*dv)
		case 1:
			return look(1+out*du, t)
		case 2:
			return look(1-t, 1+out*dv)
		}
		return look(-out*du, 1-t)
	}
	const along, deep = 8, 2
	for i := range c {
		for k := 0; k < along*deep; k++ {
			t := (float64(k%along) + 0.5) / along
			if s, ok := beyond(i, t, outFrom+(outTo-outFrom)*(float64(k/along)+0.5)/deep); ok {
				ground = append(ground, s)
			}
		}
	}
	if len(wood) == 0 || len(ground) == 0 {
		return sides
	}
	likeness := func(s sample, of []sample) float64 {
		sum := float32(0)
		s0, s1, s2 := s[0], s[1], s[2]
		for i := range of {
			o := &of[i]
			d0, d1, d2 := s0-o[0], s1-o[1], s2-o[2]
			k := 1 / (1 + (d0*d0+d1*d1+d2*d2)/(alike*alike))
			sum += k * k
		}
		return float64(sum) / float64(len(of))
	}
	for i := range sides {
		n := 0.0
		for k := 0; k < 2*along; k++ {
			t := (float64(k/2) + 0.5) / along
			for _, way := range [...]float64{-1, 1} {
				s, ok := beyond(i, t, way*(0.03+0.04*float64(k%2)))
				if !ok {
					continue
				}
				a, b := likeness(s, wood), likeness(s, ground)
				sides[i] -= way * (a - b) / (a + b + 2*unknown)
				n++
			}
		}
		sides[i] /= max(n, 1)
	}
	return sides
}

// regionScore is what the colours about a candidate add to its score.
func (s *seeker) regionScore(c *candidate) float64 {
	sum := 0.0
	for _, v := range regions(scaled{s.base}, s.lens(c.bow), c.c) {
		sum += v - usualRegion
	}
	return regionWeight * sum
}
