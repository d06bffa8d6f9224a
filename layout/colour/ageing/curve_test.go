package ageing

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/colour"
)

// darkening is a course for tests; its numbers stand for no wood.
func darkening() Course {
	return Course{
		Turns: []Turn{Darkens}, Claim: Claim{Text: "darkens", Flag: Secondary},
		Step: Step{One: Shift{L: -2, A: 1, Spread: 3}, Ten: Shift{L: -6, A: 2, B: 1, Spread: 6}},
	}
}

func curve(t rapid.TB, now colour.Lab, c Course, points ...Point) *Curve {
	t.Helper()
	out, err := New(Today{Lab: now}, c, points)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func near(a, b colour.Lab, tol float64) bool {
	return math.Abs(a.L-b.L) <= tol && math.Abs(a.A-b.A) <= tol && math.Abs(a.B-b.B) <= tol
}

// By hand with a time constant of 2 years: 1 - exp(-t/2) is 0.221199 at half a
// year, 0.393469 at one, 0.917915 at five, 0.993262 at ten, 0.999955 at twenty.
// So L falls by 2 x 0.221199/0.393469 = 1.12436 in half a year, by
// 2 + 4 x 0.524446/0.599793 = 5.49751 in five, and by
// 2 + 4 x 0.606486/0.599793 = 6.04463 in twenty, and no more after.
func TestStepRunsAsASaturatingCurve(t *testing.T) {
	c := curve(t, colour.Lab{L: 60, A: 10, B: 20}, darkening())
	for _, k := range []struct{ years, fall float64 }{
		{0, 0}, {0.5, 1.12436}, {1, 2}, {5, 5.49751}, {10, 6}, {20, 6.04463}, {400, 6.04463}, {-3, 0}, {math.NaN(), 0},
	} {
		if got := 60 - c.At(k.years).Lab.L; math.Abs(got-k.fall) > 1e-4 {
			t.Errorf("after %g years L fell by %.5f, by hand %.5f", k.years, got, k.fall)
		}
	}
	if got := c.At(10); !near(got.Lab, colour.Lab{L: 54, A: 12, B: 21}, 1e-12) || got.Spread != 6 || got.Basis != Direction {
		t.Errorf("after ten years %+v", got)
	}
}

// Of a change done within 1 to 2 years, 95 per cent are done after 1.5: the
// time constant is 1.5 / ln 20 = 0.5007. Where One is in step with that, the
// whole curve is one exponential.
func TestTimeFromTheSource(t *testing.T) {
	c := darkening()
	c.Scale = Scale{From: 1, To: 2}
	tau := 1.5 / math.Log(20)
	done := func(y float64) float64 { return 1 - math.Exp(-y/tau) }
	c.Step = Step{One: Shift{L: -8 * done(1)}, Ten: Shift{L: -8 * done(10)}}
	k := curve(t, colour.Lab{L: 60}, c)
	for _, y := range []float64{0.2, 0.7, 1.5, 3, 8, 15} {
		if got, want := 60-k.At(y).Lab.L, 8*done(y); math.Abs(got-want) > 1e-6 {
			t.Errorf("after %g years L fell by %.6f, by the exponential %.6f", y, got, want)
		}
	}
	if got := 60 - k.At(1.5).Lab.L; math.Abs(got-0.95*8) > 1e-9 {
		t.Errorf("after 1.5 years %.4f of 8, want 95 per cent", got)
	}
}

func TestNoData(t *testing.T) {
	c := curve(t, colour.Lab{L: 60, A: 10, B: 20}, Course{})
	for _, y := range []float64{0, 1, 10} {
		s := c.At(y)
		if s.Lab != (colour.Lab{L: 60, A: 10, B: 20}) || s.Basis != None || !strings.Contains(s.Source, "no measured data") {
			t.Errorf("after %g years %+v", y, s)
		}
		if (s.Spread > 0) != (y > 0) {
			t.Errorf("after %g years the spread is %g: not knowing is not the same as staying", y, s.Spread)
		}
	}
}

// Straight in CIELAB: half way from (60, 10, 20) today to (50, 14, 22) after
// four years is (55, 12, 21); a quarter on from there to (46, 14, 30) after
// eight is (49, 14, 24).
func TestMeasuredOverridesTheCourse(t *testing.T) {
	now := colour.Lab{L: 60, A: 10, B: 20}
	four, eight := Point{4, colour.Lab{L: 50, A: 14, B: 22}}, Point{8, colour.Lab{L: 46, A: 14, B: 30}}
	c := curve(t, now, darkening(), eight, four)
	for _, k := range []struct {
		years float64
		want  colour.Lab
	}{
		{0, now}, {2, colour.Lab{L: 55, A: 12, B: 21}}, {4, four.Lab}, {5, colour.Lab{L: 49, A: 14, B: 24}},
		{8, eight.Lab}, {10, eight.Lab}, {90, eight.Lab},
	} {
		if got := c.At(k.years); !near(got.Lab, k.want, 1e-12) || got.Basis != Measured {
			t.Errorf("after %g years %v (%v), want %v", k.years, got.Lab, got.Basis, k.want)
		}
	}
	if c.At(4).Lab != four.Lab || c.At(8).Lab != eight.Lab || c.At(4).Spread != Scatter {
		t.Error("a measured point is not exact")
	}
	if a, b := c.At(9).Spread, c.At(15).Spread; !(Scatter < a && a < b) {
		t.Errorf("spread after the last point: %g, then %g", a, b)
	}
	if s := c.At(10).Source; !strings.Contains(s, "4, 8 years") || !strings.Contains(s, "held since") {
		t.Errorf("source %q", s)
	}
}

// Measured on another piece: it went from (64, 8, 18) to (56, 11, 19), by
// (-8, 3, 1); this board starts at (60, 10, 20).
func TestMeasuredFromYearZeroGivesTheChange(t *testing.T) {
	c := curve(t, colour.Lab{L: 60, A: 10, B: 20}, Course{},
		Point{0, colour.Lab{L: 64, A: 8, B: 18}}, Point{10, colour.Lab{L: 56, A: 11, B: 19}})
	if got := c.At(10).Lab; !near(got, colour.Lab{L: 52, A: 13, B: 21}, 1e-12) {
		t.Errorf("after ten years %v", got)
	}
	if got := c.At(0).Lab; got != (colour.Lab{L: 60, A: 10, B: 20}) {
		t.Errorf("today %v", got)
	}
	// A colour of today alone says nothing of later.
	alone := curve(t, colour.Lab{L: 60}, darkening(), Point{0, colour.Lab{L: 64}})
	if alone.Basis() != Direction || alone.At(10).Lab.L != 54 {
		t.Errorf("%v, %v", alone.Basis(), alone.At(10))
	}
	// Two measurements of one age are averaged.
	two := curve(t, colour.Lab{L: 60}, Course{}, Point{1, colour.Lab{L: 50}}, Point{1, colour.Lab{L: 54}})
	if got := two.At(1).Lab.L; got != 52 {
		t.Errorf("50 and 54 averaged to %g", got)
	}
}

func TestRefuses(t *testing.T) {
	nan := math.NaN()
	good := Today{Lab: colour.Lab{L: 50}}
	bad := func(one, ten Shift, s Scale) Course {
		return Course{Turns: []Turn{Darkens}, Step: Step{one, ten}, Scale: s}
	}
	for name, k := range map[string]struct {
		now    Today
		c      Course
		points []Point
	}{
		"no colour today":  {Today{Lab: colour.Lab{L: nan}}, Course{}, nil},
		"whiter than snow": {Today{Lab: colour.Lab{L: 101}}, Course{}, nil},
		"negative spread":  {Today{Lab: colour.Lab{L: 50}, Spread: -1}, Course{}, nil},
		"change of none":   {good, bad(Shift{L: nan}, Shift{}, Scale{}), nil},
		"spread falls":     {good, bad(Shift{Spread: 4}, Shift{Spread: 3}, Scale{}), nil},
		"scale backwards":  {good, bad(Shift{}, Shift{}, Scale{From: 3, To: 1}), nil},
		"before today":     {good, Course{}, []Point{{-1, colour.Lab{L: 50}}}},
		"age of none":      {good, Course{}, []Point{{nan, colour.Lab{L: 50}}}},
		"measured none":    {good, Course{}, []Point{{1, colour.Lab{L: 50, A: nan}}}},
	} {
		if _, err := New(k.now, k.c, k.points); err == nil || !strings.HasPrefix(err.Error(), "ageing: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func anyLab(t *rapid.T, name string) colour.Lab {
	return colour.Lab{
		L: rapid.Float64Range(0, 100).Draw(t, name+" L"),
		A: rapid.Float64Range(-20, 45).Draw(t, name+" a"),
		B: rapid.Float64Range(-10, 50).Draw(t, name+" b"),
	}
}

func anyCourse(t *rapid.T) Course {
	part := rapid.Float64Range(-12, 12)
	s := rapid.Float64Range(0, 10)
	c := Course{Turns: []Turn{Darkens}}
	c.Step.Ten = Shift{part.Draw(t, "dL"), part.Draw(t, "da"), part.Draw(t, "db"), s.Draw(t, "spread")}
	share := rapid.Float64Range(0, 1).Draw(t, "share of the first year")
	c.Step.One = Shift{share * c.Step.Ten.L, share * c.Step.Ten.A, share * c.Step.Ten.B, share * c.Step.Ten.Spread}
	c.Scale.To = rapid.Float64Range(0, 40).Draw(t, "scale")
	return c
}

func TestStepProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now, course := anyLab(t, "now"), anyCourse(t)
		c := curve(t, now, course)
		if got := c.At(0); got.Lab != now || got.Spread != 0 {
			t.Fatalf("year 0 gives %v, %g", got.Lab, got.Spread)
		}
		for _, k := range []struct {
			years float64
			s     Shift
		}{{1, course.Step.One}, {10, course.Step.Ten}} {
			want := colour.Lab{L: min(max(now.L+k.s.L, 0), 100), A: now.A + k.s.A, B: now.B + k.s.B}
			if got := c.At(k.years); !near(got.Lab, want, 1e-9) || math.Abs(got.Spread-k.s.Spread) > 1e-9 {
				t.Fatalf("after %g years %v, the step says %v", k.years, got.Lab, want)
			}
		}
		last, way := 0.0, math.Copysign(1, course.Step.Ten.L)
		before := now.L
		for y := 0.0; y <= 24; y += 0.5 {
			s := c.At(y)
			if s.Lab.L < 0 || s.Lab.L > 100 || s.Spread < last-1e-9 || (s.Lab.L-before)*way < -1e-9 {
				t.Fatalf("after %g years %v, spread %g after %g", y, s.Lab, s.Spread, last)
			}
			last, before = s.Spread, s.Lab.L
		}
	})
}

func TestMeasuredPointsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := anyLab(t, "now")
		var points []Point
		years := 0.0
		for range rapid.IntRange(1, 4).Draw(t, "points") {
			years += rapid.Float64Range(0.1, 9).Draw(t, "later")
			points = append(points, Point{years, anyLab(t, "measured")})
		}
		rev := make([]Point, len(points))
		for i, p := range points {
			rev[len(points)-1-i] = p
		}
		a, b := curve(t, now, anyCourse(t), points...), curve(t, now, Course{}, rev...)
		for _, p := range points {
			if got := a.At(p.Years).Lab; got != p.Lab || b.At(p.Years).Lab != p.Lab {
				t.Fatalf("at %g years %v, measured %v", p.Years, got, p.Lab)
			}
		}
		if a.At(0).Lab != now || a.At(years+30).Lab != points[len(points)-1].Lab {
			t.Fatal("today or the last one is not held")
		}
	})
}
