package depth

import (
	"math"
	"slices"
	"sort"

	"heartside/layout/geom"
)

func sorted(ps []Pith) []Pith {
	out := slices.Clone(ps)
	sort.SliceStable(out, func(i, j int) bool { return out[i].X < out[j].X })
	return out
}

// pithAt returns (across, depth) at x: straight between places, the same
// beyond the first and the last.
func pithAt(ps []Pith, x float64) geom.Point {
	for i, p := range ps {
		if x < p.X {
			if i == 0 {
				return geom.Pt(p.Across, p.Depth)
			}
			q := ps[i-1]
			t := (x - q.X) / (p.X - q.X)
			return geom.Pt(q.Across+t*(p.Across-q.Across), q.Depth+t*(p.Depth-q.Depth))
		}
	}
	p := ps[len(ps)-1]
	return geom.Pt(p.Across, p.Depth)
}

// findPith settles how the board is read: about the pith it was told, or by
// the distances to the lines of both faces.
func (s *Solid) findPith() {
	known := [2]bool{s.known(0), s.known(1)}
	told := len(s.b.Pith) > 0
	ps := s.b.Pith
	about := false
	switch {
	case known[0] && known[1] && told:
		s.how, about, s.mean = About, true, s.b.Heart
	case known[0] && known[1]:
		s.how = Between
	case known[0] || known[1]:
		s.how = Assumed
		if told && (s.b.Heart > 0 || s.lined(0) || s.lined(1)) {
			s.how, about, s.mean = OneFace, true, s.b.Heart
		}
	default:
		if !told || s.b.Heart == 0 { // a face that shows no wood at all
			s.how = Assumed
			break
		}
		s.how, about, s.mean = Circle, true, s.b.Heart
	}
	if !about {
		return
	}
	s.pith = make([]geom.Point, len(s.x))
	for i, x := range s.x {
		s.pith[i] = pithAt(ps, x)
	}
}

// known reports whether face k shows any wood.
func (s *Solid) known(k int) bool {
	for i := range s.faces[k] {
		if s.faces[k][i].seen {
			return true
		}
	}
	return false
}

// lined reports whether face k shows where heartwood ends.
func (s *Solid) lined(k int) bool {
	for i := range s.faces[k] {
		if c := &s.faces[k][i]; c.seen && (c.line[lower] || c.line[upper]) {
			return true
		}
	}
	return false
}

// look fills in what sections tell one another: sections a face does not tell
// of are taken from their neighbours, and how far the next line lies.
func (s *Solid) look() {
	n := len(s.x)
	for k := range s.faces {
		fill(s.faces[k])
		for b := range 2 {
			s.gap[k][b] = s.gaps(func(i int) bool { c := &s.faces[k][i]; return c.seen && c.line[b] })
		}
	}
	if s.pith == nil {
		return
	}
	var sum, count float64
	for b := range 2 {
		s.radius[b] = make([]float64, n)
		for i := range n {
			var r, m float64
			for k := range 2 {
				if c := &s.faces[k][i]; c.seen && c.line[b] {
					r += math.Hypot(c.end[b]-s.pith[i].X, s.level(k)-s.pith[i].Y)
					m++
				}
			}
			if m > 0 {
				s.radius[b][i] = r / m
				sum += r / m
				count++
			}
		}
	}
	mean := s.mean
	switch {
	case mean > 0:
	case count > 0:
		mean = sum / count
	}
	for b := range 2 {
		gap := s.gaps(func(i int) bool { return s.radius[b][i] > 0 })
		was := slices.Clone(s.radius[b])
		for i := range n {
			if was[i] > 0 {
				continue
			}
			s.radius[b][i] = mean
			if math.IsInf(gap[i], 1) {
				continue
			}
			d := int(math.Round(gap[i] / (s.x[1] - s.x[0])))
			near := 0.0
			if i-d >= 0 && was[i-d] > 0 {
				near = was[i-d]
			} else if i+d < n {
				near = was[i+d]
			}
			if near > 0 {
				s.radius[b][i] = mean + (near-mean)*math.Exp(-gap[i]/blend)
			}
		}
	}
}

// blend is how far along a board a line has its say about where it would lie
// beyond the board's edge, mm. An engineering choice.
const blend = 150.0

func (s *Solid) level(k int) float64 { return float64(k) * s.b.Thickness }

// gaps returns the distance along to the nearest section that has it.
func (s *Solid) gaps(has func(i int) bool) []float64 {
	out := make([]float64, len(s.x))
	last := math.Inf(-1)
	for i, x := range s.x {
		if has(i) {
			last = x
		}
		out[i] = x - last
	}
	last = math.Inf(1)
	for i := len(s.x) - 1; i >= 0; i-- {
		if has(i) {
			last = s.x[i]
		}
		out[i] = math.Min(out[i], last-s.x[i])
	}
	return out
}

// fill gives sections without a word those of the nearest that has one.
func fill(cs []column) {
	take := func(c *column, from int) {
		f := &cs[from]
		y0, y1 := c.y0, c.y1
		*c = *f
		if y1 > y0 {
			c.y0, c.y1 = y0, y1
		} else {
			c.y0 = (f.y0 + f.y1) / 2
			c.y1 = c.y0
		}
		c.odd = nil
	}
	var seen []int
	for i := range cs {
		if cs[i].seen {
			seen = append(seen, i)
		}
	}
	if len(seen) == 0 {
		return
	}
	j := 0
	for i := range cs {
		for j+1 < len(seen) && abs(seen[j+1]-i) < abs(seen[j]-i) {
			j++
		}
		if seen[j] != i {
			take(&cs[i], seen[j])
		}
	}
}

func abs(i int) int {
	if i < 0 {
		return -i
	}
	return i
}
