package cup

import (
	"fmt"
	"math"
	"sort"

	"heartside/layout/geom"
)

// Held is a panel held at lines that run along the grain.
type Held struct {
	// Lines lie this far from the front edge, mm, rising.
	Lines []float64
	// Rest is what is left of the shape between and beside the lines.
	Rest []geom.Point
	// Greatest is the greatest departure from the plane of the lines, mm,
	// with its sign: positive where the panel stands below the plane (hollow)
	// between or beside them.
	Greatest float64
	// Forces are what each line must do to the panel, N per metre of its
	// length, positive upward. They sum to nothing.
	Forces []float64
	// Stress is the greatest bending stress the holding brings, N/mm2.
	Stress  float64
	Working []Step
}

const holdNote = "Beam in bending across the grain, one modulus over the width, held over its whole length; wood gives way with time, so forces and stresses are the greatest"

// Hold returns what is left of a free shape, and the forces, when the panel is
// held in one plane at two lines or more (aprons, edges in a frame, rails).
// modulus is that across the width, N/mm2. Between two lines nothing is
// forced: the shape stays, seen from its chord. With more lines what is taken
// out of the shape is the natural cubic spline through it at the lines.
func Hold(s *Shape, lines []float64, thickness, modulus float64) (*Held, error) {
	if len(s.Points) < 2 || badNumber(thickness, modulus) || thickness <= 0 || modulus <= 0 {
		return nil, fmt.Errorf("holding a panel %g mm thick of modulus %g: both must be above 0", thickness, modulus)
	}
	h := &Held{Lines: append([]float64(nil), lines...)}
	sort.Float64s(h.Lines)
	n := len(h.Lines)
	if n < 2 {
		return nil, fmt.Errorf("held at %d lines: it takes two", n)
	}
	const slack = 1 // mm: a bent panel is a little narrower than its strips
	from, to := s.Points[0].X, s.Points[len(s.Points)-1].X
	z := make([]float64, n)
	for i, y := range h.Lines {
		if badNumber(y) || y < from-slack || y > to+slack {
			return nil, fmt.Errorf("held %g mm from the front edge: the panel reaches from %.0f to %.0f", y, from, to)
		}
		if i > 0 && y-h.Lines[i-1] < 1e-6 {
			return nil, fmt.Errorf("held twice %g mm from the front edge: give each line once", y)
		}
		z[i] = s.at(y)
	}
	c := natural(h.Lines, z)
	for _, p := range s.Points {
		rest := p.Y - c.at(p.X)
		h.Rest = append(h.Rest, geom.Pt(p.X, rest))
		if math.Abs(rest) > math.Abs(h.Greatest) {
			h.Greatest = -rest
		}
	}
	stiff := modulus * thickness * thickness * thickness / 12 // N mm2 per mm of length
	third := func(i int) float64 {                            // of the spline between lines i and i+1
		if i < 0 || i >= n-1 {
			return 0
		}
		return (c.second[i+1] - c.second[i]) / (h.Lines[i+1] - h.Lines[i])
	}
	bend := 0.0
	for i := range n {
		// The panel is moved by minus the spline: the jump of its third
		// derivative is the force.
		h.Forces = append(h.Forces, -stiff*(third(i)-third(i-1))*1000)
		bend = math.Max(bend, math.Abs(c.second[i]))
	}
	h.Stress = modulus * thickness / 2 * bend
	values := []Value{{Name: "modulus across the width", Number: modulus, Unit: "N/mm2"}, {Name: "thickness", Number: thickness, Unit: mm}}
	for i, y := range h.Lines {
		values = append(values, Value{Name: "line from the front edge", Number: y, Unit: mm}, Value{Name: "force on it", Number: h.Forces[i], Unit: "N/m"})
	}
	h.Working = []Step{{
		Formula: "rest = free shape - natural cubic spline through it at the lines; force = jump of (E h^3/12) x third derivative",
		Values:  append(values, Value{Name: "greatest departure left", Number: h.Greatest, Unit: mm}, Value{Name: "greatest stress", Number: h.Stress, Unit: "N/mm2"}),
		Source:  holdNote, Flag: "C",
	}}
	return h, nil
}

// at returns the height at y, straight between points.
func (s *Shape) at(y float64) float64 {
	i := sort.Search(len(s.Points), func(i int) bool { return s.Points[i].X >= y })
	i = min(max(i, 1), len(s.Points)-1)
	a, b := s.Points[i-1], s.Points[i]
	return a.Y + (b.Y-a.Y)*(y-a.X)/(b.X-a.X)
}

// Flat is what it takes to hold a strip or a panel of one curvature quite
// flat, everywhere.
type Flat struct {
	// Moment is the bending moment, N m per metre of length; Stress the
	// stress in both faces, N/mm2.
	Moment, Stress float64
	Working        []Step
}

// HoldFlat returns the moment that holds a curvature flat: M = E kappa h^3/12.
func HoldFlat(kappa, thickness, modulus float64) (*Flat, error) {
	if badNumber(kappa, thickness, modulus) || thickness <= 0 || modulus <= 0 {
		return nil, fmt.Errorf("holding a panel %g mm thick of modulus %g flat: both must be above 0", thickness, modulus)
	}
	f := &Flat{Moment: math.Abs(modulus * kappa * thickness * thickness * thickness / 12), Stress: math.Abs(modulus * kappa * thickness / 2)}
	f.Working = []Step{{
		Formula: "M = E kappa h^3 / 12, stress = E kappa h / 2",
		Values: []Value{{Name: "modulus across the width", Number: modulus, Unit: "N/mm2"}, {Name: "curvature", Number: kappa, Unit: perMM}, {Name: "thickness", Number: thickness, Unit: mm},
			{Name: "moment", Number: f.Moment, Unit: "N m/m"}, {Name: "stress", Number: f.Stress, Unit: "N/mm2"}},
		Source: holdNote, Flag: "C",
	}}
	return f, nil
}

// spline is a natural cubic spline, straight beyond its ends.
type spline struct{ x, y, second []float64 }

func natural(x, y []float64) spline {
	n := len(x)
	s := spline{x, y, make([]float64, n)}
	// Second derivatives by elimination of the tridiagonal equations.
	diag, right := make([]float64, n), make([]float64, n)
	for i := 1; i < n-1; i++ {
		a, b := x[i]-x[i-1], x[i+1]-x[i]
		diag[i] = 2 * (a + b)
		right[i] = 6 * ((y[i+1]-y[i])/b - (y[i]-y[i-1])/a)
		if i > 1 {
			f := a / diag[i-1]
			diag[i] -= f * a
			right[i] -= f * right[i-1]
		}
	}
	for i := n - 2; i > 0; i-- {
		s.second[i] = (right[i] - (x[i+1]-x[i])*s.second[i+1]) / diag[i]
	}
	return s
}

func (s spline) at(v float64) float64 {
	n := len(s.x)
	i := min(max(sort.SearchFloat64s(s.x, v)-1, 0), n-2)
	h := s.x[i+1] - s.x[i]
	slope := (s.y[i+1] - s.y[i]) / h
	switch {
	case v < s.x[0]:
		return s.y[0] + (v-s.x[0])*(slope-h*s.second[1]/6)
	case v > s.x[n-1]:
		return s.y[n-1] + (v-s.x[n-1])*(slope+h*s.second[n-2]/6)
	}
	a, b := (s.x[i+1]-v)/h, (v-s.x[i])/h
	return a*s.y[i] + b*s.y[i+1] + h*h/6*((a*a*a-a)*s.second[i]+(b*b*b-b)*s.second[i+1])
}
