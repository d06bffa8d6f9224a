package cup

import (
	"math"

	"heartside/layout/geom"
)

// How far a pith nobody measured may lie from the bark face, mm. Engineering
// choices: boards much nearer split, and farther ones hardly cup.
const (
	nearest  = 50.0
	usual    = 150.0
	farthest = 300.0
)

// guess returns the section with the pith where it most likely is from the
// bark side alone: midway under flat-sawn strips; level with a strip that is
// quarter-sawn or unknown and so far off that it does not cup.
func (s Section) guess(b Bark) Section {
	switch b {
	case BarkUp:
		s.Pith = geom.Pt(s.Width/2, s.Thickness-usual)
	case BarkDown:
		s.Pith = geom.Pt(s.Width/2, usual)
	default:
		s.Pith = geom.Pt(math.Inf(1), s.Thickness/2)
	}
	return s
}

// flat returns a pith h from the bark face of a flat-sawn strip; of a quarter-
// sawn one h from its edge and as far below as that allows.
func (s Section) flat(b Bark, h float64) geom.Point {
	switch b {
	case BarkDown:
		return geom.Pt(s.Width/2, h)
	case BarkBeside:
		away := s.Width/2 + h
		return geom.Pt(s.Width/2-away, s.Thickness/2-quarterSawn*away)
	}
	return geom.Pt(s.Width/2, s.Thickness-h)
}

// possible returns places where the pith may lie and that make most of the
// strip's cup, one way or another: the corners and the middles of the sides of
// known bounds; or, from the bark side alone, near and far, in the middle or
// as much to a side as deep, and so far that rings are straight.
func (s Strip) possible() []geom.Point {
	var out []geom.Point
	if s.PithKnown {
		if b := s.Bounds; b != (geom.Rect{}) {
			for i := range 3 {
				for j := range 3 {
					out = append(out, geom.Pt(b.Min.X+b.W()*float64(i)/2, b.Min.Y+b.H()*float64(j)/2))
				}
			}
		}
		return out
	}
	box := s.Section
	out = append(out, geom.Pt(box.Width/2, math.Inf(1)))
	for _, h := range []float64{max(nearest, box.Thickness), usual} {
		p := box.flat(s.Bark, h)
		if s.Bark != BarkBeside {
			out = append(out, p, geom.Pt(p.X-h, p.Y), geom.Pt(p.X+h, p.Y))
		}
		if s.Bark != BarkUp && s.Bark != BarkDown {
			for _, p := range []geom.Point{p, box.flat(BarkBeside, h)} {
				box.Pith = p
				turned, over := box.Turned(), box.RolledOver()
				out = append(out, p, turned.Pith, over.Pith, over.Turned().Pith)
			}
		}
	}
	return out
}

// FromBark returns the curvature of a strip of which no more is known than the
// bark side: from none (its rings may stand upright) to that of a pith in the
// middle, 50 mm from the bark face; best guess 150 mm. Quarter-sawn it may bend
// either way as much as a pith beside it, up to 1 above or below in 2 across,
// makes it; unknown, as much as flat-sawn strips either way.
func FromBark(width, thickness float64, b Bark, e Strains) (Range, []Step, error) {
	s := Section{Width: width, Thickness: thickness}.guess(b)
	best, err := Cup(s, e)
	if err != nil {
		return Range{}, nil, err
	}
	r := Range{best.Middle.Kappa, best.Middle.Kappa, best.Middle.Kappa}
	if b == BarkUnknown || b == BarkBeside {
		r = Range{} // none, and not the last digit of a pith far off
	}
	from := max(nearest, thickness)
	for _, h := range []float64{from, usual, farthest} {
		s.Pith = s.flat(b, h)
		c, _ := Cup(s, e) // the section and the strains are checked
		k := c.Middle.Kappa
		r.Lo, r.Hi = min(r.Lo, k, 0), max(r.Hi, k, 0)
		if b != BarkUp && b != BarkDown { // or as much the other way
			r.Lo, r.Hi = min(r.Lo, -k), max(r.Hi, -k)
		}
	}
	return r, []Step{{
		Formula: "curvature of the same strip with its pith at the least, the usual and the greatest distance",
		Values: []Value{{Name: "nearest pith", Number: from, Unit: mm}, {Name: "usual pith", Number: usual, Unit: mm}, {Name: "farthest pith", Number: farthest, Unit: mm},
			{Name: "least curvature", Number: r.Lo, Unit: perMM}, {Name: "best guess", Number: r.Best, Unit: perMM}, {Name: "greatest curvature", Number: r.Hi, Unit: perMM}},
		Source: "Distances chosen for this program; the pith of the strip is not known", Flag: "E",
	}}, nil
}

// Within returns the curvature of a strip whose pith lies somewhere in a
// rectangle of the section's axes (the bounds of a reading), Best at the pith
// of s.
func Within(s Section, where geom.Rect, e Strains) (Range, error) {
	best, err := Cup(s, e)
	if err != nil {
		return Range{}, err
	}
	r := Range{best.Middle.Kappa, best.Middle.Kappa, best.Middle.Kappa}
	const n = 4
	for i := range n + 1 {
		for j := range n + 1 {
			s.Pith = geom.Pt(where.Min.X+where.W()*float64(i)/n, where.Min.Y+where.H()*float64(j)/n)
			c, err := Cup(s, e)
			if err != nil {
				return Range{}, err
			}
			r.Lo, r.Hi = min(r.Lo, c.Middle.Kappa), max(r.Hi, c.Middle.Kappa)
		}
	}
	return r, nil
}
