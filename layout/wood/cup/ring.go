package cup

import (
	"math"

	"heartside/layout/geom"
)

// steps is into how many parts a strip's width is cut; even, so that the
// middle is one of the points.
const steps = 64

// Line is a line across a strip that was straight and level, after the change.
type Line struct {
	// Points run from the strip's front edge to its back edge, turned and
	// moved so that both ends are at Z = 0 and the first at Y = 0.
	Points []geom.Point
	// Sagitta is the greatest departure from the chord, mm; Kappa the mean
	// curvature, 1/mm: 8 times the rise in the middle over the square of the
	// strip's width. Positive: the show face is hollow.
	Sagitta, Kappa float64
	// Chord is the distance between the ends, mm.
	Chord float64

	// how far the strip's edges turn against the chord, anticlockwise, rad
	front, rear float64
}

// Rings is what the rings alone make of a strip.
type Rings struct {
	Show, Back Line
	// Middle stands for the strip in a panel: the line at half the thickness.
	// Where the pith lies in the strip it is the bend of a strip that does
	// not split.
	Middle Line
	// Small is the small-angle curvature of the show face, 2(eR-eT)/h, for
	// comparison only; 0 where the pith lies in the show face's plane.
	Small float64
	// Inside says that the pith lies in the strip. Such wood cannot shrink
	// without stress and mostly splits from the pith to the nearer face.
	Inside  bool
	Working []Step
}

const ringSource = "Derived here: the map of a section to polar strains that leaves it without stress; the same approach as B. Mitchell, Modeling the cupping of lumber, BioResources 11 (2016) 6416"

// Cup returns the lines of a strip whose rings are circles about the pith and
// whose strains are the same everywhere: a point at distance r and angle phi
// goes to r(1+eR) and phi(1+eT)/(1+eR). Angles are counted from the direction
// of the strip; where the pith lies inside, from straight up for the show face
// and straight down for the back.
func Cup(s Section, e Strains) (*Rings, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if err := e.Check(); err != nil {
		return nil, err
	}
	inside := s.Inside()
	s = s.near()
	r := &Rings{Inside: inside}
	toward := s.centre().Sub(s.Pith)
	m := polar{s.Pith, math.Atan2(toward.Y, toward.X), e}
	if !inside {
		r.Show, r.Back, r.Middle = m.line(s, s.Thickness), m.line(s, 0), m.line(s, s.Thickness/2)
	} else {
		m.from = math.Pi / 2
		r.Show = m.line(s, s.Thickness)
		m.from = -math.Pi / 2
		r.Back = m.line(s, 0)
		// A strip that does not split: the wedge that the map leaves open
		// below the pith is closed by stress. A plate bends by the first
		// moment of what is closed: the part 3u^2 - 2u^3 of the whole, u the
		// height of the pith as a part of the thickness.
		u := s.Pith.Y / s.Thickness
		r.Middle = r.Show.blend(r.Back, u*u*(3-2*u), s.Width)
	}
	h := s.Thickness - s.Pith.Y
	if h != 0 {
		r.Small = 2 * (e.R - e.T) / h
	}
	r.Working = []Step{{
		Formula: "r' = r (1 + eR), phi' = phi (1 + eT) / (1 + eR)",
		Values: []Value{
			{Name: "eR, across the rings", Number: e.R, Unit: ""}, {Name: "eT, along the rings", Number: e.T, Unit: ""},
			{Name: "pith below the show face", Number: h, Unit: mm}, {Name: "pith from the front edge", Number: s.Pith.X, Unit: mm},
			{Name: "width", Number: s.Width, Unit: mm}, {Name: "thickness", Number: s.Thickness, Unit: mm},
			{Name: "rise of the show face over the strip", Number: r.Show.Sagitta, Unit: mm},
			{Name: "rise of the back over the strip", Number: r.Back.Sagitta, Unit: mm},
			{Name: "curvature", Number: r.Middle.Kappa, Unit: perMM},
		},
		Source: ringSource, Flag: "C",
	}}
	return r, nil
}

// polar is the map of a section with its pith: angles are counted from the
// direction from (rad).
type polar struct {
	pith geom.Point
	from float64
	e    Strains
}

func (m polar) at(p geom.Point) geom.Point {
	d := p.Sub(m.pith)
	phi := math.Remainder(math.Atan2(d.Y, d.X)-m.from, 2*math.Pi)
	r := d.Len() * (1 + m.e.R)
	sin, cos := math.Sincos(m.from + phi*(1+m.e.T)/(1+m.e.R))
	return geom.Pt(m.pith.X+r*cos, m.pith.Y+r*sin)
}

// line returns what becomes of the line at height z.
func (m polar) line(s Section, z float64) Line {
	var l Line
	for k := range steps + 1 {
		l.Points = append(l.Points, m.at(geom.Pt(s.Width*float64(k)/steps, z)))
	}
	chord := l.Points[steps].Sub(l.Points[0])
	tilt := math.Atan2(chord.Y, chord.X)
	lean := func(x float64) float64 {
		d := m.at(geom.Pt(x, s.Thickness)).Sub(m.at(geom.Pt(x, 0)))
		return math.Remainder(math.Atan2(-d.X, d.Y)-tilt, 2*math.Pi)
	}
	l.front, l.rear = lean(0), lean(s.Width)
	first := l.Points[0]
	sin, cos := math.Sincos(-tilt)
	for k, p := range l.Points {
		d := p.Sub(first)
		l.Points[k] = geom.Pt(d.X*cos-d.Y*sin, d.X*sin+d.Y*cos)
	}
	l.measure(s.Width)
	return l
}

// measure fills in what follows from the points.
func (l *Line) measure(width float64) {
	last := len(l.Points) - 1
	l.Chord = l.Points[last].Dist(l.Points[0])
	l.Sagitta = 0
	for _, p := range l.Points {
		if math.Abs(p.Y) > math.Abs(l.Sagitta) {
			l.Sagitta = -p.Y
		}
	}
	l.Kappa = -8 * l.Points[last/2].Y / (width * width)
}

// blend returns the line that is part b and for the rest l.
func (l Line) blend(b Line, part, width float64) Line {
	out := Line{front: l.front + (b.front-l.front)*part, rear: l.rear + (b.rear-l.rear)*part}
	for k, p := range l.Points {
		out.Points = append(out.Points, p.Lerp(b.Points[k], part))
	}
	out.measure(width)
	return out
}

// parabola returns the least-squares a + b y + kappa y^2/2 through points in
// the order of rising Y, y counted from the middle of their extent; each point
// weighs as much as the length it stands for.
func parabola(pts []geom.Point) (a, b, kappa float64) {
	n := len(pts)
	if n < 3 {
		return 0, 0, 0
	}
	mid, half := (pts[0].X+pts[n-1].X)/2, (pts[n-1].X-pts[0].X)/2
	var m [5]float64 // moments of y
	var v [3]float64
	for i, p := range pts {
		w := pts[min(i+1, n-1)].X - pts[max(i-1, 0)].X
		y, pow := (p.X-mid)/half, w
		for k := range m {
			m[k] += pow
			if k < 3 {
				v[k] += pow * p.Y
			}
			pow *= y
		}
	}
	// Orthogonal polynomials on these points: 1, y - c, (y - c)(y - d) - e.
	c := m[1] / m[0]
	q := m[2] - c*m[1]
	b = (v[1] - c*v[0]) / q
	s, t := m[2]/m[0], (m[3]-m[2]*c)/q // y^2 less its line
	p := m[4] - s*m[2] - t*(m[3]-c*m[2])
	k := (v[2] - s*v[0] - t*(v[1]-c*v[0])) / p
	a = v[0]/m[0] + k*(-s+t*c) - b*c
	b -= k * t
	return a, b / half, 2 * k / half / half
}
