package cup

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/geom"
)

// row returns strips of one width, pith h under the middle of the show face,
// or over it where up is false.
func row(n int, width, thickness, h float64, e Strains, up ...bool) []Strip {
	var out []Strip
	for i := range n {
		s := Strip{ID: fmt.Sprint("S", i+1), Section: under(width, thickness, h), PithKnown: true, Strains: e}
		if len(up) > 0 && !up[i%len(up)] {
			s = s.RolledOver()
		}
		out = append(out, s)
	}
	return out
}

func panel(t *testing.T, strips []Strip) *Panel {
	t.Helper()
	p, err := Of(strips)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// arcs returns a panel of strips that bend by kappa and have no rings.
func arcs(t *testing.T, width float64, kappa ...float64) *Panel {
	var out []Strip
	for i, k := range kappa {
		out = append(out, Strip{ID: fmt.Sprint("S", i+1), Section: Section{width, 20, geom.Pt(0, math.Inf(-1))}, PithKnown: true, Bend: k})
	}
	return panel(t, out)
}

// 4 points drier, pith 100 mm below the show face, curvature 2(eR-eT)/h: one
// strip of 150, its slope at a joint, 600 and 900 mm of strips the same way up
// (derived, C).
func TestPanelConsequence(t *testing.T) {
	for _, c := range []struct {
		name                                string
		wood                                [2]float64
		kappa, one, slope, bow600, bow900   float64
		tolOne, tolSlope, tol600, tolKappaE float64
	}{
		{"sugar maple", maple, 1.50e-4, 0.42, 0.65, 6.8, 15.2, 0.005, 0.005, 0.05, 0.006e-4},
		{"red oak", oak, 1.69e-4, 0.47, 0.73, 7.6, 17.1, 0.006, 0.006, 0.05, 0.006e-4},
		{"cherry", cherry, 9.76e-5, 0.27, 0.42, 4.4, 9.9, 0.006, 0.005, 0.05, 0.006e-4},
		{"walnut", walnut, 6.72e-5, 0.19, 0.29, 3.0, 6.8, 0.005, 0.005, 0.05, 0.006e-4},
	} {
		k := cupped(t, under(150, 20, 100), dried(c.wood)).Small
		near(t, c.name+" curvature", k, c.kappa, c.tolKappaE)
		near(t, c.name+" strip", arcs(t, 150, k).Smooth.Sagitta, c.one, c.tolOne)
		near(t, c.name+" 600", arcs(t, 150, k, k, k, k).Smooth.Sagitta, c.bow600, c.tol600)
		p := arcs(t, 150, k, k, k, k, k, k)
		near(t, c.name+" 900", p.Smooth.Sagitta, c.bow900, c.tol600)
		near(t, c.name+" 900, highest to lowest", p.Smooth.PeakToPeak, c.bow900, c.tol600)
		// Alternated: no bow, a washboard of one strip's cup. The slope at the
		// joints is kappa times half a width, less the line through the wave.
		p = arcs(t, 150, k, -k, k, -k)
		near(t, c.name+" alternate bow", p.Smooth.Sagitta, 0, 1e-4)
		near(t, c.name+" washboard", p.Smooth.Washboard, c.one, c.tolOne)
		j := p.Smooth.Joints
		near(t, c.name+" slope", (j[0].Front-j[1].Front)/2, c.slope, c.tolSlope)
	}
}

// The practice page's two figures: a walnut panel 900 x 20, face 150 mm from
// the pith, 4 points: about 4.5 mm from the rings when every slope is carried
// on; 1 point between its faces: about 14 mm.
func TestWalnutTop(t *testing.T) {
	p := panel(t, row(9, 100, 20, 150, dried(walnut), true))
	near(t, "rings", p.Smooth.Sagitta, 4.5, 0.3)
	if p.Smooth.Sagitta <= 0 {
		t.Error("the bark face hollows when it dries")
	}
	var laid []Laid
	for _, s := range row(9, 100, 20, 150, Strains{}, true) {
		laid = append(laid, Laid{Strip: s, Radial: walnut[0], Tangential: walnut[1]})
	}
	c, err := Compare(laid, nil, OnePoint)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one point", c.Gradient.Smooth.Sagitta, 13.9, 0.05)
	near(t, "one point, glue lines plane", c.Gradient.Glued.Sagitta, 13.9, 0.05)
}

// Plane finite elements of whole glued panels: quadratic quadrilaterals of 2.5
// x 2.5 mm, every joint bonded, E_R 1832, E_T 902, G_RT 150 N/mm2, nu 0.4,
// strains turned with the rings of each strip, small displacements; with E_R =
// E_T and G to match the first rows differ by less than 1 %. Bow is the best
// parabola of the show face, peak its highest to lowest over the best-fit line.
func TestGluedAgainstFiniteElements(t *testing.T) {
	e := dried(maple)
	near(t, "one strip", cupped(t, under(150, 20, 100), e).Show.Sagitta, 0.3629, 0.002)
	for _, c := range []struct {
		name      string
		strips    []Strip
		bow, peak float64
	}{
		{"six of 150 alike", row(6, 150, 20, 100, e), 2.090, 2.334},
		{"four of 150 alike", row(4, 150, 20, 100, e), 0.946, 1.179},
		{"twelve of 75 alike", row(12, 75, 20, 100, e), 0.830, 0.919},
		{"six of 150 alternated", row(6, 150, 20, 100, e, true, false), -0.001, 0.910},
		{"nine of 100 walnut, 150 away", row(9, 100, 20, 150, dried(walnut)), 0.181, 0.232},
		{"mixed", []Strip{
			{Section: Section{100, 20, geom.Pt(20, -60)}, PithKnown: true, Strains: e},
			{Section: Section{80, 20, geom.Pt(60, 90)}, PithKnown: true, Strains: e},
			{Section: Section{120, 20, geom.Pt(60, -40)}, PithKnown: true, Strains: e},
			{Section: Section{100, 20, geom.Pt(130, -70)}, PithKnown: true, Strains: e},
		}, -0.074, 0.483},
	} {
		g := panel(t, c.strips).Glued
		near(t, c.name+" bow", g.Sagitta, c.bow, 0.005+0.02*math.Abs(c.bow))
		// The shape here is that of the middle of the wood, where each strip
		// cups up to 0.03 mm more than on its show face.
		near(t, c.name+" peak", g.PeakToPeak, c.peak, 0.035)
	}
}

// A wide board ripped and glued again in the same order is the same board:
// strips of unlike width, one common pith, against the whole, point by point.
func TestRippedAndGluedAgain(t *testing.T) {
	for _, pith := range []geom.Point{{X: 150, Y: -60}, {X: 40, Y: -80}, {X: 210, Y: 130}, {X: -70, Y: -30}} {
		e := dried(beech)
		whole := panel(t, []Strip{{Section: Section{300, 25, pith}, PithKnown: true, Strains: e}})
		var strips []Strip
		at := 0.0
		for _, w := range []float64{60, 110, 40, 90} {
			strips = append(strips, Strip{Section: Section{w, 25, pith.Sub(geom.Pt(at, 0))}, PithKnown: true, Strains: e})
			at += w
		}
		again := panel(t, strips)
		for i := 0; i <= steps; i++ {
			p := whole.Glued.Points[i]
			near(t, "height", again.Glued.at(p.X), p.Y, 0.015*whole.Glued.PeakToPeak) // strains are that large, and widths those before
		}
		near(t, "no kink", again.Glued.Joints[1].Kink(), 0, 0.02)
	}
}

func anyStrips(t *rapid.T) []Strip {
	var out []Strip
	thick := rapid.Float64Range(10, 40).Draw(t, "thickness")
	for i := range rapid.IntRange(1, 6).Draw(t, "strips") {
		s := anySection(t)
		s.Thickness = thick
		if math.Min(math.Abs(s.Pith.Y), math.Abs(s.Pith.Y-thick)) < 1e-6 || math.Min(math.Abs(s.Pith.X), math.Abs(s.Pith.X-s.Width)) < 1e-6 {
			t.Skip("the pith on the border: in or out by the last digit")
		}
		out = append(out, Strip{ID: fmt.Sprint(i), Section: s, PithKnown: rapid.Bool().Draw(t, "known"),
			Bark:    rapid.SampledFrom([]Bark{BarkUnknown, BarkUp, BarkDown, BarkBeside}).Draw(t, "bark"),
			Strains: Strains{rapid.Float64Range(-0.02, 0.02).Draw(t, "eR"), rapid.Float64Range(-0.03, 0.03).Draw(t, "eT")},
			Bend:    rapid.Float64Range(-2e-4, 2e-4).Draw(t, "bend")})
	}
	return out
}

func TestPanelProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strips := anyStrips(t)
		p, err := Of(strips)
		if err != nil {
			t.Fatal(err)
		}
		same := func(what string, a, b, tol float64) {
			if !(math.Abs(a-b) <= tol) {
				t.Fatalf("%s: %g and %g", what, a, b)
			}
		}
		var mirror, over, still, turned []Strip
		for _, s := range strips {
			mirror = append([]Strip{s.Turned()}, mirror...)
			over = append(over, s.RolledOver().Turned()) // upside down, the front edge where it was
			turned = append(turned, s.Turned())
			s.Strains, s.Bend = Strains{}, 0
			still = append(still, s)
		}
		for k, shape := range []func(*Panel) *Shape{func(p *Panel) *Shape { return &p.Smooth }, func(p *Panel) *Shape { return &p.Glued }} {
			a := shape(p)
			m, _ := Of(mirror)
			b := shape(m)
			same("mirrored bow", b.Sagitta, a.Sagitta, 1e-6)
			n := len(a.Points)
			for i := range a.Points {
				same("mirrored shape", b.Points[n-1-i].Y, a.Points[i].Y, 1e-6)
				same("mirrored place", p.Width-b.Points[n-1-i].X, a.Points[i].X, 1e-6)
			}
			o, _ := Of(over)
			c := shape(o)
			for i := range a.Points {
				same("upside down", c.Points[i].Y, -a.Points[i].Y, 1e-5)
			}
			f, _ := Of(still)
			same("still", shape(f).PeakToPeak, 0, 1e-9)
			for i := 1; i < n; i++ {
				step := a.Points[i].Sub(a.Points[i-1])
				if math.Abs(step.Y) > 0.3*step.X { // heights meet: no leap between points
					t.Fatalf("a leap of %v", step)
				}
			}
			if k == 0 { // an end for end turn leaves every arc as it was
				u, _ := Of(turned)
				for i, q := range shape(u).Points {
					same("turned", q.Y, a.Points[i].Y, 1e-6)
				}
			}
		}
		if g := p.GluedRange; g.Lo > g.Best || g.Best > g.Hi || g.Best != p.Glued.Sagitta {
			t.Fatalf("glued range %v of %g", g, p.Glued.Sagitta)
		}
		if p.Range.Lo > p.Range.Best || p.Range.Best > p.Range.Hi || p.Range.Best != p.Smooth.Sagitta {
			t.Fatalf("range %v of %g", p.Range, p.Smooth.Sagitta)
		}
	})
}

// Bark side alone: a flat-sawn strip cups from none up to what a pith 50 mm
// from the bark face makes it; rolled over the other way; quarter-sawn and
// unknown strips either way, with no cup as the best guess.
func TestBarkSideAlone(t *testing.T) {
	e := dried(oak)
	at := func(h float64) float64 { return cupped(t, under(120, 20, h), e).Middle.Kappa }
	up, steps, err := FromBark(120, 20, BarkUp, e)
	if err != nil || up.Lo != 0 || up.Best != at(150) || up.Hi != at(50) {
		t.Errorf("bark up: %v, %v", up, err)
	}
	if len(steps) == 0 || steps[0].Flag != "E" {
		t.Errorf("working: %v", steps)
	}
	down, _, _ := FromBark(120, 20, BarkDown, e)
	near(t, "down", down.Lo, -up.Hi, 1e-15)
	near(t, "down, best", down.Best, -up.Best, 1e-15)
	for _, b := range []Bark{BarkBeside, BarkUnknown} {
		r, _, _ := FromBark(120, 20, b, e)
		if r.Best != 0 || r.Lo != -r.Hi || r.Hi <= 0 || r.Hi > up.Hi {
			t.Errorf("%q: %v", b, r)
		}
	}
	wet, _, _ := FromBark(120, 20, BarkUp, ByCoefficient(oak[0], oak[1], 4))
	if wet.Hi != 0 || wet.Lo >= wet.Best || wet.Best >= 0 {
		t.Errorf("getting wet: %v", wet)
	}
	// Over a panel of four alike the range of the bow is that of one arc:
	// kappa 480^2/8, within the little that arcs differ from parabolas.
	var strips []Strip
	for range 4 {
		strips = append(strips, Strip{Section: Section{Width: 120, Thickness: 20}, Bark: BarkUp, Strains: e})
	}
	p := panel(t, strips)
	near(t, "most", p.Range.Hi, up.Hi*480*480/8, 0.01*p.Range.Hi)
	near(t, "least", p.Range.Lo, 0, 0.01*p.Range.Hi)
	if !p.Strips[0].Guessed {
		t.Error("a guess is not said to be one")
	}
	// Within a rectangle of piths: the corners' curvatures are in the range.
	r, err := Within(under(120, 20, 100), geom.R(40, -130, 80, -40), e)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "nearest", r.Hi, at(60), 1e-12)
	if r.Lo > at(150) || r.Best != at(100) {
		t.Errorf("within: %v", r)
	}
}

// Bounds of the pith widen the bow to that of the panels whose piths lie at the
// corners, and go with the strip when it is rolled over or turned.
func TestBounds(t *testing.T) {
	strips := row(4, 120, 20, 90, dried(oak), true)
	var near4, far4 []Strip
	for i := range strips {
		a, b := strips[i], strips[i]
		a.Section.Pith.Y, b.Section.Pith.Y = -40, -120
		near4, far4 = append(near4, a), append(far4, b)
		strips[i].Bounds = geom.R(60, -120, 60.001, -40)
	}
	p, least, most := panel(t, strips), panel(t, far4), panel(t, near4)
	near(t, "most", p.Range.Hi, most.Smooth.Sagitta, 0.01)
	near(t, "least", p.Range.Lo, least.Smooth.Sagitta, 0.01)
	near(t, "most, glued", p.GluedRange.Hi, most.Glued.Sagitta, 0.01)
	near(t, "least, glued", p.GluedRange.Lo, least.Glued.Sagitta, 0.01)
	s := strips[0]
	s.Bounds = geom.R(-10, -120, 70, -40) // by hand: 120 wide, 20 thick
	if got, want := s.RolledOver().Bounds, geom.R(50, 60, 130, 140); got != want {
		t.Errorf("rolled over %v, want %v", got, want)
	}
	if got, want := s.Turned().Bounds, geom.R(50, -120, 130, -40); got != want {
		t.Errorf("turned %v, want %v", got, want)
	}
	// The board of the cut worked by hand: bounds 90 to 120 across, 80 to 40
	// beyond face 1; 3 mm off, from 40: 50 to 80 across, 63 to 103 up.
	c := Cut{From: 40, Width: 80, Off: 3, Thickness: 20, Up: 1}
	if got, want := c.Bounds(geom.R(90, -80, 120, -40)), geom.R(50, 63, 80, 103); got != want {
		t.Errorf("bounds of a cut %v, want %v", got, want)
	}
	strips[0].Bounds = geom.R(0, math.NaN(), 1, 1)
	if _, err := Of(strips); err == nil {
		t.Error("bounds that are no numbers are taken")
	}
}

func TestBadPanels(t *testing.T) {
	good := row(2, 100, 20, 80, dried(oak))
	uneven := row(2, 100, 20, 80, dried(oak))
	uneven[1].Section.Thickness = 22
	wild := row(1, 100, 20, 80, dried(oak))
	wild[0].Bend = 1
	wide := row(1, 0, 20, 80, dried(oak))
	for _, bad := range [][]Strip{nil, uneven, wild, wide} {
		if _, err := Of(bad); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
	p := panel(t, good)
	for _, s := range append(p.Working, p.Strips[0].Rings.Working...) {
		if s.Formula == "" || s.Source == "" || s.Flag == "" || len(s.Values) == 0 {
			t.Errorf("a step of the working says too little: %+v", s)
		}
		for _, v := range s.Values {
			if badNumber(v.Number) || v.Name == "" {
				t.Errorf("value %+v", v)
			}
		}
	}
}
