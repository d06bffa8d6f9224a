package depth

import "math"

// Engineering choices, no source; held to boards of two generators, of which one
// is the project's own.
const (
	// rest is the tilt, across to depth, under which a line that stands upright
	// is left as the nearer face shows it, about 15 degrees: a plane takes it
	// less far than its own teeth are long.
	rest = 0.27
	// shallow is the share of the thickness to which it rests there.
	shallow = 0.3
	// arc is the radius of the heartwood, mm, that a line is bent to where no
	// pith is told: that of a middling log.
	arc = 90.0
	// steepest is the tilt beyond which a line is bent no more.
	steepest = 2.0
)

// bend bends the lines of section i outwards at a share t of the thickness, as
// the arc of a log lies outside its chord, where both faces show them. A parabola
// of the arc's height will do: heartwood is not round.
func (s *Solid) bend(p *profile, i int, t float64) {
	for b, y := range [2]*float64{&p.lo[i], &p.hi[i]} {
		if p.bare[i] || !s.lines(i, b) || !(*y > p.y0[i] && *y < p.y1[i]) {
			continue
		}
		tilt := math.Min(math.Abs(s.shift[b][i])/s.b.Thickness, steepest)
		// The height of a shallow arc over its chord, square to it, is what lies
		// to both sides of its foot, multiplied, over twice the radius.
		chord := s.b.Thickness * math.Hypot(1, tilt)
		height := chord * chord * t * (1 - t) / (2 * arc)
		*y += float64(2*b-1) * height * math.Hypot(1, tilt)
	}
}

// stand leaves lines of section i that stand upright as the nearer face shows
// them; they go over in the middle of the board.
func (s *Solid) stand(p *profile, i int, t float64) {
	u := ease(math.Min(math.Max((t-shallow)/(1-2*shallow), 0), 1))
	for b, y := range [2]*float64{&p.lo[i], &p.hi[i]} {
		if !p.bare[i] && s.upright(i, b) {
			*y = s.faces[0][i].end[b] + u*(s.faces[1][i].end[b]-s.faces[0][i].end[b])
		}
	}
}

// upright reports whether a line that both faces show stands upright there.
func (s *Solid) upright(i, b int) bool {
	return s.lines(i, b) && math.Abs(s.shift[b][i]) < rest*s.b.Thickness
}

// stands reports whether nothing moves near the faces: every line stands upright
// from end to end of a board sawn square.
func (s *Solid) stands() bool {
	if s.outline || !s.b.Faces[0].Known || !s.b.Faces[1].Known {
		return false
	}
	any := false
	for i := range s.x {
		c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
		if c[0].odd != nil || c[1].odd != nil || c[0].bare || c[1].bare || !c[0].seen || !c[1].seen {
			return false
		}
		for b := range 2 {
			if c[0].line[b] != c[1].line[b] || c[0].line[b] && !s.upright(i, b) {
				return false
			}
			any = any || c[0].line[b]
		}
	}
	return any
}
