package depth

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// profile is a face below the surface, section by section, in face-1 across.
type profile struct {
	y0, y1  []float64 // the wood
	lo, hi  []float64 // the heartwood; where it reaches an edge, beyond that
	bare    []bool    // no heartwood
	odd     []chain   // islands
	odds    []span    // those of the section being read
	edges   []edge
	kinks   []float64
	guess   float64 // sum of how far lines may lie off
	guesses float64 // and how many
}

// At returns side 1 or 2 with z mm taken off it, as it then lies open: base,
// outline and zones in that face's own coordinates. At 0 it is the sawn face
// itself. A side that is none is taken for face 1, and z is held between 0 and
// the thickness.
func (s *Solid) At(side int, z float64) (face.BoardFace, Note) {
	k := 0
	if side == 2 {
		k = 1
	}
	if !(z > 0) {
		z = 0
	}
	z = math.Min(z, s.b.Thickness)
	f := &s.b.Faces[k]
	if f.Known && z == 0 {
		return face.BoardFace{Base: f.Base, Outline: f.Outline, Zones: f.Zones}, Note{How: Exact}
	}
	if o := &s.b.Faces[1-k]; o.Known && z == s.b.Thickness {
		return s.through(o), Note{How: Exact}
	}
	if s.how == Assumed {
		out, note := s.assumed(k)
		return out, note
	}
	level := z
	if k == 1 {
		level = s.b.Thickness - z
	}
	p := s.profile(level)
	var out face.BoardFace
	if s.still && z <= shallow*s.b.Thickness {
		out = face.BoardFace{Base: f.Base, Zones: f.Zones}
	} else {
		out = s.draw(k, z, p)
	}
	note := Note{How: s.how}
	if p.guesses > 0 {
		note.Uncertain = p.guess / p.guesses
	}
	return out, note
}

// through returns a face as seen from the other side of the board.
func (s *Solid) through(f *Face) face.BoardFace {
	m := geom.Affine{A: 1, E: -1, F: s.b.Width}
	out := face.BoardFace{Base: f.Base}
	if f.Outline != nil {
		out.Outline = m.ApplyTo(f.Outline)
	}
	for _, z := range f.Zones {
		out.Zones = append(out.Zones, face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
	}
	return out
}

// assumed returns the one face that is known, whatever is taken off.
func (s *Solid) assumed(k int) (face.BoardFace, Note) {
	note := Note{How: Assumed, Uncertain: s.b.Thickness / 2}
	f := &s.b.Faces[k]
	if !f.Known {
		out := s.through(&s.b.Faces[1-k])
		out.Guessed = true
		return out, note
	}
	return face.BoardFace{Base: f.Base, Outline: f.Outline, Zones: f.Zones, Guessed: true}, note
}

// profile reads the solid at a depth below face 1.
func (s *Solid) profile(z float64) *profile {
	n := len(s.x)
	buf := make([]float64, 4*n)
	p := &profile{y0: buf[:n], y1: buf[n : 2*n], lo: buf[2*n : 3*n], hi: buf[3*n:], bare: make([]bool, n)}
	t := z / s.b.Thickness
	for i := range n {
		c := [2]*column{&s.faces[0][i], &s.faces[1][i]}
		p.y0[i], p.y1[i] = c[0].y0+t*(c[1].y0-c[0].y0), c[0].y1+t*(c[1].y1-c[0].y1)
		if !c[0].seen {
			p.y0[i], p.y1[i] = c[1].y0, c[1].y1
		} else if !c[1].seen {
			p.y0[i], p.y1[i] = c[0].y0, c[0].y1
		}
		if !c[0].seen && !c[1].seen {
			p.y0[i], p.y1[i] = 0, s.b.Width
		}
		if s.how == Between {
			s.plain(p, i, t)
			s.bend(p, i, t)
			s.stand(p, i, t)
			if !p.bare[i] {
				for b, y := range [2]float64{p.lo[i], p.hi[i]} {
					if y > p.y0[i] && y < p.y1[i] {
						p.guess += s.roughly(i, b, z)
						p.guesses++
					}
				}
			}
			continue
		}
		sec := s.section(i)
		var at geom.Point
		if s.pith != nil {
			at = s.pith[i]
		}
		p.lo[i], p.hi[i] = sec.edge[lower].at(at, z, t), sec.edge[upper].at(at, z, t)
		switch {
		case sec.none:
			p.bare[i] = true
		case sec.flip:
			p.bare[i] = (t < 0.5) == (sec.bare == 0)
			p.lo[i], p.hi[i] = p.y0[i], p.y1[i]
		case z < sec.close[0] || z > sec.close[1]:
			p.bare[i] = true
		}
		s.stand(p, i, t)
		if math.Max(p.lo[i], p.y0[i]) >= math.Min(p.hi[i], p.y1[i]) {
			p.bare[i] = true
		}
		if !p.bare[i] {
			for b := range 2 {
				y := p.lo[i]
				if b == upper {
					y = p.hi[i]
				}
				if y > p.y0[i] && y < p.y1[i] {
					p.guess += s.doubt(&sec.edge[b], at, z)
					p.guesses++
				}
			}
		}
		if c[0].odd != nil || c[1].odd != nil {
			s.islands(p, i, t)
		}
	}
	return p
}

// doubt returns how far the line may lie off at a depth, mm across.
func (s *Solid) doubt(c *curve, at geom.Point, z float64) float64 {
	near := math.Min(z, s.b.Thickness-z)
	off := teeth * near
	if !c.round {
		return math.Hypot(off, 0.1*math.Abs(c.plain[1]-c.plain[0]))
	}
	y, u := c.about(at, z)
	r := c.from.r + u*(c.to.r-c.from.r)
	span := math.Abs(turn(c.from.angle, c.to.angle)) / swing
	v := 0.0
	switch {
	case c.loose[0] && c.loose[1]:
		v = 1
	case c.loose[1]:
		v = 1 - math.Exp(-2*u*span)
	case c.loose[0]:
		v = 1 - math.Exp(-2*(1-u)*span)
	case span > 1e-6:
		v = 2 * math.Sinh(u*span) * math.Sinh((1-u)*span) / math.Sinh(span)
	}
	side := math.Max(math.Abs(y-at.X)/math.Max(r, 1), 0.15)
	return math.Hypot(off, unround*r*math.Sqrt(v)/side)
}

// roughly returns how far a line of the plain rule may lie off, mm across.
func (s *Solid) roughly(i, b int, z float64) float64 {
	near := math.Min(z, s.b.Thickness-z)
	apart := math.Abs(s.faces[1][i].end[b] - s.faces[0][i].end[b])
	return math.Hypot(teeth*near, 0.1*math.Min(apart, reach))
}

// teeth is how much of its own way the sap line goes for each mm from the
// nearer face. An engineering choice.
const teeth = 0.15
