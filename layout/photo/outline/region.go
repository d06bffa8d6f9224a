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
// colours and those outside of the ground's: for each side asked for -1 to 1, 0
// where they do not tell. Densities of colour by kernels (Parzen 1962).
func regions(r reader, lens photo.Lens, c [4]geom.Point, asked ...int) (sides [4]float64) {
	long := c[0].Dist(c[1]) + c[3].Dist(c[2])
	short := c[0].Dist(c[3]) + c[1].Dist(c[2])
	// The share of each direction that one width is.
	w := min(long, short)
	du, dv := w/max(long, 1), w/max(short, 1)
	var spots []place
	look := func(u, v float64) {
		p := c[0].Lerp(c[1], u).Lerp(c[3].Lerp(c[2], u), v)
		spots = append(spots, place{p.X, p.Y})
	}
	// colours reads the places gathered so far that lie in the picture.
	colours := func(in []bool) []sample {
		bend(lens, spots)
		kept := spots[:0]
		for i, p := range spots {
			ok := p.x >= 0 && p.y >= 0 && p.x <= 2*lens.Middle.X && p.y <= 2*lens.Middle.Y
			if ok {
				kept = append(kept, p)
			}
			if in != nil {
				in[i] = ok
			}
		}
		out := make([]sample, len(kept))
		r.add(out, kept, 1)
		spots = spots[:0]
		return out
	}
	// side i's point at t along, out widths beyond.
	beyond := func(i int, t, out float64) {
		switch i {
		case 0:
			look(t, -out*dv)
		case 1:
			look(1+out*du, t)
		case 2:
			look(1-t, 1+out*dv)
		default:
			look(-out*du, 1-t)
		}
	}
	const nu, nv = 10, 6
	const along, deep = 8, 2
	spots = make([]place, 0, max(nu*nv, 4*along*deep))
	for k := 0; k < nu*nv; k++ {
		look((float64(k%nu)+0.5)/nu, (float64(k/nu)+0.5)/nv)
	}
	wood := colours(nil)
	for i := range c {
		for k := 0; k < along*deep; k++ {
			beyond(i, (float64(k%along)+0.5)/along, outFrom+(outTo-outFrom)*(float64(k/along)+0.5)/deep)
		}
	}
	ground := colours(nil)
	if len(wood) == 0 || len(ground) == 0 {
		return sides
	}
	for _, i := range asked {
		var in [4 * along]bool
		for k := 0; k < 2*along; k++ {
			t := (float64(k/2) + 0.5) / along
			for _, way := range [...]float64{-1, 1} {
				beyond(i, t, way*(0.03+0.04*float64(k%2)))
			}
		}
		near, n := colours(in[:]), 0
		for k, ok := range in {
			if !ok {
				continue
			}
			way := float64(2*(k%2) - 1)
			a, b := likeness(near[n], wood), likeness(near[n], ground)
			sides[i] -= way * (a - b) / (a + b + 2*unknown)
			n++
		}
		sides[i] /= max(float64(n), 1)
	}
	return sides
}

// likeness is the density of colours at one, 1 where all are the same.
func likeness(s sample, of []sample) float64 {
	n := float64(len(of))
	const per = 1 / (alike * alike)
	s0, s1, s2 := s[0], s[1], s[2]
	off := func(o *sample) float32 {
		d0, d1, d2 := s0-o[0], s1-o[1], s2-o[2]
		k := 1 + per*(d0*d0+d1*d1+d2*d2)
		return k * k
	}
	sum := float32(0)
	for ; len(of) > 1; of = of[2:] {
		// 1/k + 1/m by one division.
		k, m := off(&of[0]), off(&of[1])
		sum += (k + m) / (k * m)
	}
	for i := range of {
		sum += 1 / off(&of[i])
	}
	return float64(sum) / n
}

// regionScore is what the colours about a candidate add to its score.
func (s *seeker) regionScore(c *candidate) float64 {
	sum := 0.0
	for _, v := range regions(scaled{s.base}, s.lens(c.bow), c.c, 0, 1, 2, 3) {
		sum += v - usualRegion
	}
	return regionWeight * sum
}
