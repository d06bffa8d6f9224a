package depth

import "math"

// shifts fills in, for each branch and section, how far the line goes over across
// the board from face 1 to face 2: the mean of the sections where both faces show
// it, by how near they lie along the board. NaN where no section does.
func (s *Solid) shifts() {
	n := len(s.x)
	keep := math.Exp(-(s.x[1] - s.x[0]) / blend)
	for b := range 2 {
		sum, weight := make([]float64, n), make([]float64, n)
		for _, down := range [2]bool{false, true} {
			v, w := 0.0, 0.0
			for j := range n {
				i := j
				if down {
					i = n - 1 - j
				}
				v, w = keep*v, keep*w
				if s.lines(i, b) {
					v, w = v+s.faces[1][i].end[b]-s.faces[0][i].end[b], w+1
				}
				sum[i], weight[i] = sum[i]+v, weight[i]+w
			}
		}
		s.shift[b] = make([]float64, n)
		for i := range n {
			s.shift[b][i] = sum[i] / weight[i]
		}
	}
}

// lines reports whether both faces show the line of a branch in section i.
func (s *Solid) lines(i, b int) bool {
	c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
	return c[0].seen && c[1].seen && c[0].line[b] && c[1].line[b]
}

// beyond lays a line that has run off the edge of one face where the sections
// beside it say it would be, past that edge.
func (s *Solid) beyond() {
	for b := range 2 {
		for i, shift := range s.shift[b] {
			for k := range 2 {
				c, o := &s.faces[k][i], &s.faces[1-k][i]
				if math.IsNaN(shift) || !c.seen || c.line[b] || c.bare || c.odd != nil || !o.seen || !o.line[b] {
					continue
				}
				y := o.end[b] + shift*float64(2*k-1)
				if b == lower {
					c.end[b] = math.Min(y, c.y0-thin)
				} else {
					c.end[b] = math.Max(y, c.y1+thin)
				}
				c.line[b] = true
			}
		}
	}
}
