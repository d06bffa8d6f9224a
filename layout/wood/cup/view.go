package cup

import (
	"fmt"
	"math"

	"heartside/layout/geom"
)

// View is a panel's end drawn with its change of form made greater: Y across
// from the front edge, Z up, the back face of the flat panel at 0.
type View struct {
	Width, Thickness float64
	// Factor is how many times the departure from flat is drawn.
	Factor float64
	Strips []StripView
}

// StripView is one strip to draw.
type StripView struct {
	ID      string
	Outline geom.Polygon
	// Rings are open lines, about four to a thickness.
	Rings [][]geom.Point
	// Guessed says that the rings are drawn about a pith nobody measured;
	// Inside that the pith lies in the strip, at Pith.
	Guessed, Inside bool
	Pith            geom.Point
}

// How much is made of the form, for the eye only: the departure is drawn no
// higher than this part of the width, and no more than 200 times.
const (
	drawnHigh  = 0.08
	mostFactor = 200
	ringsEvery = 0.25 // of the thickness
	mostRings  = 60
)

// RoundFactor returns the greatest of 1, 2, 5, 10, 20, 50, 100, 200 that draws
// a departure no higher than a twelfth or so of the width; 1 where there is
// none.
func RoundFactor(peak, width float64) float64 {
	best := 1.0
	if !(peak > 1e-6*width) {
		return best
	}
	for _, f := range []float64{2, 5, 10, 20, 50, 100, mostFactor} {
		if peak*f <= drawnHigh*width {
			best = f
		}
	}
	return best
}

// End returns the end view of one of the panel's shapes. A factor of 0 is
// chosen by RoundFactor.
func (p *Panel) End(s *Shape, factor float64) (*View, error) {
	if len(s.Points) != len(p.Strips)*steps+1 {
		return nil, fmt.Errorf("a shape of %d points for a panel of %d strips: take a shape of this panel", len(s.Points), len(p.Strips))
	}
	if badNumber(factor) || factor < 0 {
		return nil, fmt.Errorf("drawn %g times: want a factor above 0, or 0 to have one chosen", factor)
	}
	if factor == 0 {
		factor = RoundFactor(s.PeakToPeak, p.Width)
	}
	v := &View{Width: p.Width, Thickness: p.Thickness, Factor: factor}
	start := 0.0
	for i, section := range p.sections {
		at := func(q geom.Point) geom.Point {
			t := min(max(q.X/section.Width, 0), 1) * steps
			k := min(int(t), steps-1)
			part := t - float64(k)
			k += i * steps
			high := s.Points[k].Y + (s.Points[k+1].Y-s.Points[k].Y)*part
			lean := s.lean[k] + (s.lean[k+1]-s.lean[k])*part
			return geom.Pt(start+q.X-factor*lean*(q.Y-p.Thickness/2), q.Y+factor*high)
		}
		view := StripView{ID: p.Strips[i].ID, Guessed: p.Strips[i].Guessed, Inside: p.Strips[i].Rings.Inside}
		if view.Inside {
			view.Pith = at(section.Pith)
		}
		for k := range steps + 1 {
			view.Outline = append(view.Outline, at(geom.Pt(section.Width*float64(k)/steps, 0)))
		}
		for k := steps; k >= 0; k-- {
			view.Outline = append(view.Outline, at(geom.Pt(section.Width*float64(k)/steps, p.Thickness)))
		}
		for _, ring := range section.rings() {
			for k, q := range ring {
				ring[k] = at(q)
			}
			view.Rings = append(view.Rings, ring)
		}
		v.Strips = append(v.Strips, view)
		start += section.Width
	}
	return v, nil
}

// rings returns arcs about the pith within the section.
func (s Section) rings() [][]geom.Point {
	s = s.near()
	box := geom.R(0, 0, s.Width, s.Thickness)
	toward := s.centre().Sub(s.Pith)
	from := math.Atan2(toward.Y, toward.X)
	nearest, far, lo, hi := math.Inf(1), 0.0, 0.0, 0.0
	corners := box.Polygon()
	for i, c := range corners {
		nearest = min(nearest, geom.SegmentDistance(s.Pith, c, corners[(i+1)%4]))
		d := c.Sub(s.Pith)
		far = max(far, d.Len())
		a := math.Remainder(math.Atan2(d.Y, d.X)-from, 2*math.Pi)
		lo, hi = min(lo, a), max(hi, a)
	}
	if s.Inside() {
		nearest, lo, hi = 0, -math.Pi, math.Pi
	}
	step := max(ringsEvery*s.Thickness, (far-nearest)/mostRings)
	var out [][]geom.Point
	for r := nearest + step/2; r < far; r += step {
		var run []geom.Point
		n := int(min(max((hi-lo)*min(r, 10*far)/3, 8), 400)) // a point about every 3 mm
		last := geom.Point{}
		for k := range n + 1 {
			sin, cos := math.Sincos(from + lo + (hi-lo)*float64(k)/float64(n))
			q := geom.Pt(s.Pith.X+r*cos, s.Pith.Y+r*sin)
			if k > 0 {
				a, b, ok := within(box, last, q)
				if ok && (len(run) == 0 || run[len(run)-1] != a) {
					if len(run) > 1 {
						out = append(out, run)
					}
					run = []geom.Point{a}
				}
				if ok {
					run = append(run, b)
				}
			}
			last = q
		}
		if len(run) > 1 {
			out = append(out, run)
		}
	}
	return out
}

// within returns the part of a segment inside a rectangle (Liang and Barsky
// 1984).
func within(box geom.Rect, a, b geom.Point) (from, to geom.Point, ok bool) {
	t0, t1 := 0.0, 1.0
	d := b.Sub(a)
	for _, e := range [4][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return from, to, false
			}
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		default:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t0 >= t1 {
		return from, to, false
	}
	from, to = a, b
	if t0 > 0 {
		from = a.Add(d.Mul(t0))
	}
	if t1 < 1 {
		to = a.Add(d.Mul(t1))
	}
	return from, to, true
}
