package depth

import "math"

// Branches: the heartwood of a section ends towards the marked edge and
// towards the other one.
const (
	lower = 0
	upper = 1
)

// Heartwood is not round: its radius about the pith swings by a share of
// itself, and keeps alike over an angle (a Gaussian process whose memory fades
// exponentially, after Ornstein and Uhlenbeck 1930). Engineering choices, of
// the size package wood reckons with.
const (
	unround = 0.06 // of the radius
	swing   = 1.0  // radians
)

func (s *Solid) polar(i int, y, z float64) polar {
	p := s.pith[i]
	return polar{math.Atan2(z-p.Y, y-p.X), math.Hypot(y-p.X, z-p.Y)}
}

// section is the heartwood across the board at one place along it.
type section struct {
	edge  [2]curve
	none  bool // no heartwood at all
	flip  bool // one face all heartwood, the other all sapwood, and nothing known between
	bare  int  // which face is, of a flip
	close [2]float64
}

// ramp is how much of its way past a face's edge a ring is let go, from how far
// along the next section is that shows the line: there it has none, so that the
// line does not jump.
func ramp(gap float64) float64 { return 1 - math.Exp(-gap/blend) }

// section works out section i.
func (s *Solid) section(i int) section {
	c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
	known := [2]bool{c[0].seen, c[1].seen}
	var out section
	out.close = [2]float64{0, s.b.Thickness}
	if s.how == Assumed {
		k := 0
		if !known[0] {
			k = 1
		}
		out.none = c[k].bare || !known[k]
		for b := range 2 {
			y := c[k].end[b]
			out.edge[b].plain = [2]float64{y, y}
		}
		return out
	}
	bare := [2]bool{known[0] && c[0].bare, known[1] && c[1].bare}
	if bare[0] && bare[1] {
		out.none = true
		return out
	}
	s.straight(&out, c, known, bare)
	if s.pith != nil {
		s.about(i, &out, c, known, bare)
	}
	return out
}

// straight sets where the line goes without a pith.
func (s *Solid) straight(out *section, c [2]*column, known, bare [2]bool) {
	for k := range 2 {
		if !known[k] {
			continue
		}
		o := c[1-k]
		for b := range 2 {
			y := c[k].end[b]
			if bare[k] && known[1-k] {
				switch {
				case o.line[lower] == o.line[upper]:
					y = (o.end[lower] + o.end[upper]) / 2
				case o.line[lower]:
					y = c[k].y1
				default:
					y = c[k].y0
				}
			}
			out.edge[b].plain[k] = y
		}
		if bare[k] && known[1-k] && !o.line[lower] && !o.line[upper] {
			out.flip, out.bare = true, k
		}
	}
	for k := range 2 {
		if !known[k] {
			for b := range 2 {
				out.edge[b].plain[k] = out.edge[b].plain[1-k]
			}
		}
	}
}

// about sets the curves about the pith.
func (s *Solid) about(i int, out *section, c [2]*column, known, bare [2]bool) {
	p := s.pith[i]
	for k := range 2 {
		// A face with no heartwood lies farther from the pith than one with.
		if bare[k] && (math.Abs(s.level(k)-p.Y) <= math.Abs(s.level(1-k)-p.Y)) {
			return
		}
	}
	var ends [2][2]polar // face, branch
	var ok, loose [2][2]bool
	for b := range 2 {
		for k := range 2 {
			if known[k] && c[k].line[b] {
				ends[k][b], ok[k][b] = s.polar(i, c[k].end[b], s.level(k)), true
			}
		}
		if !ok[0][b] && !ok[1][b] && known[0] && known[1] && !bare[0] && !bare[1] {
			continue // heartwood to the edge all the way through
		}
		for k := range 2 {
			if ok[k][b] {
				continue
			}
			loose[k][b] = true
			r, have := s.radius[b][i], 0
			if ok[1-k][b] && !loose[1-k][b] {
				r, have = ends[1-k][b].r, 1
			}
			if r <= 0 {
				return
			}
			at, hits := s.hit(i, b, k, r)
			if hits && have == 1 && s.mean > 0 {
				// Farther round, the radius is less that of the line seen.
				w := math.Exp(-math.Abs(turn(ends[1-k][b].angle, s.polar(i, at, s.level(k)).angle)) / swing)
				at, hits = s.hit(i, b, k, s.mean+(r-s.mean)*w)
			}
			sign := float64(2*b - 1)
			switch {
			case !known[k]:
			case bare[k]:
				// The ring must miss the face.
				switch {
				case hits && b == lower && p.X >= c[k].y1:
					at = c[k].y1 + over(at-c[k].y1, s.spread(i, b, k, r, at, ends[1-k][b], have == 1))*ramp(s.bareGap(k, i))
				case hits && b == upper && p.X <= c[k].y0:
					at = c[k].y0 - over(c[k].y0-at, s.spread(i, b, k, r, at, ends[1-k][b], have == 1))*ramp(s.bareGap(k, i))
				case hits && p.X > c[k].y0 && p.X < c[k].y1:
					hits = false
				}
			default:
				if !hits {
					at, hits = c[k].end[b], true
				}
				past := over(sign*(at-c[k].end[b]), s.spread(i, b, k, r, at, ends[1-k][b], have == 1))
				at = c[k].end[b] + sign*past*ramp(s.gap[k][b][i])
			}
			if hits {
				ends[k][b], ok[k][b] = s.polar(i, at, s.level(k)), true
			}
		}
	}
	var top [2]polar
	closes := -1
	for k := range 2 {
		if ok[k][lower] && ok[k][upper] || known[k] && !bare[k] {
			continue
		}
		if !ok[1-k][lower] && !ok[1-k][upper] {
			if known[1-k] {
				return
			}
			out.none = true
			return
		}
		closes = k
		top = s.apex(i, k, ends[1-k], ok[1-k], bare[k], c[k])
	}
	for b := range 2 {
		e := &out.edge[b]
		e.from, e.to, e.z, e.loose = ends[0][b], ends[1][b], [2]float64{0, s.b.Thickness}, [2]bool{loose[0][b], loose[1][b]}
		e.round = ok[0][b] && ok[1][b]
		if closes >= 0 && !ok[closes][b] && ok[1-closes][b] {
			z := s.pith[i].Y + top[b].r*math.Sin(top[b].angle)
			e.round = true
			if closes == 0 {
				e.from, e.z[0] = top[b], z
			} else {
				e.to, e.z[1] = top[b], z
			}
			if !ok[closes][1-b] {
				out.close[closes] = z
			}
		}
		if e.round {
			out.flip = false
		}
	}
}

func (s *Solid) bareGap(k, i int) float64 { return math.Min(s.gap[k][0][i], s.gap[k][1][i]) }
