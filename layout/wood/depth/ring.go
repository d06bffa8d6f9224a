package depth

import "math"

// spread returns how far a ring on a face may lie off, mm across, from how far
// round the pith it was seen.
func (s *Solid) spread(i, b, k int, r, at float64, seen polar, have bool) float64 {
	p := s.polar(i, at, s.level(k))
	v := 1.0
	if have {
		v = 1 - math.Exp(-2*math.Abs(turn(seen.angle, p.angle))/swing)
	}
	side := math.Max(math.Abs(at-s.pith[i].X)/math.Max(r, 1), 0.15)
	return unround * r * math.Sqrt(v) / side
}

// over returns the mean of what is known to be more than 0 and was thought to
// be about v, give or take sd: the mean of a normal distribution cut at 0.
func over(v, sd float64) float64 {
	if !(sd > 1e-9) {
		return math.Max(v, 0)
	}
	q := v / sd
	if q < -4 {
		return sd * 0.22 // the limit sd / |q|, near enough
	}
	return v + sd*math.Exp(-q*q/2)/math.Sqrt(2*math.Pi)/(0.5*math.Erfc(-q/math.Sqrt2))
}

// hit returns where a ring meets face k on a branch.
func (s *Solid) hit(i, b, k int, r float64) (float64, bool) {
	p := s.pith[i]
	h := s.level(k) - p.Y
	if r <= math.Abs(h) {
		return 0, false
	}
	return p.X + float64(2*b-1)*math.Sqrt(r*r-h*h), true
}

// apex returns where the heartwood closes towards face k, from both branches.
func (s *Solid) apex(i, k int, ends [2]polar, ok [2]bool, bare bool, c *column) [2]polar {
	p := s.pith[i]
	h := s.level(k) - p.Y
	dir := math.Copysign(math.Pi/2, h)
	var d, r [2]float64
	for b := range 2 {
		d[b], r[b] = math.Abs(turn(ends[b].angle, dir)), ends[b].r
		if !ok[b] {
			d[b], r[b] = d[1-b], r[1-b]
		}
	}
	span := d[0] + d[1]
	at := r[0]
	if span > 1e-9 {
		at = (r[0]*d[1] + r[1]*d[0]) / span
		if s.mean > 0 {
			all := math.Sinh(span / swing)
			w0, w1 := math.Sinh(d[1]/swing)/all, math.Sinh(d[0]/swing)/all
			at = s.mean + (r[0]-s.mean)*w0 + (r[1]-s.mean)*w1
		}
	}
	top := math.Abs(h)
	if bare && p.X > c.y0 && p.X < c.y1 {
		far := math.Min(math.Min(d[0], d[1]), math.Pi/2) / swing
		at = top - over(top-at, unround*at*math.Sqrt(1-math.Exp(-2*far)))*ramp(s.bareGap(k, i))
	} else {
		at = math.Min(at, top)
	}
	// It reaches at least the other face, if the pith lies beyond that.
	if other := s.level(1-k) - p.Y; other*h > 0 {
		at = math.Max(at, math.Abs(other))
	}
	var out [2]polar
	for b := range out {
		out[b] = polar{dir, at}
	}
	return out
}

// turn returns the angle from a to b, -pi to pi.
func turn(a, b float64) float64 {
	return math.Remainder(b-a, 2*math.Pi)
}
