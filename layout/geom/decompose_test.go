package geom

import (
	"math"
	"testing"
)

// areas sums the pieces by label.
func areas(ts []Trapezoid) map[int]float64 {
	m := map[int]float64{}
	for _, t := range ts {
		m[t.Label] += t.Area()
	}
	return m
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func poly(t testing.TB, s string) Polygon {
	t.Helper()
	p, err := ParsePolygon(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Closed-form cases. A piece count of 0 is not checked.
func TestDecomposeKnownAreas(t *testing.T) {
	const board = "0,0 100,0 100,50 0,50"
	// The diagonals of a regular pentagon on a circle of radius R cut one
	// another in the golden ratio phi, so the pentagon within lies on a circle
	// of radius r = R/phi^2. The star is ten triangles from the middle to a tip
	// and to an inner corner, 36 degrees apart: 5 R r sin(36 degrees).
	star, phi := make(Polygon, 5), (1+math.Sqrt(5))/2
	for i := range star {
		s, c := math.Sincos(float64(2*i) * 2 * math.Pi / 5)
		star[i] = Pt(100*c, 100*s)
	}
	r := 100 / (phi * phi)
	starArea := 5 * 100 * r * math.Sin(math.Pi/5)
	pentagon := 2.5 * r * r * math.Sin(2*math.Pi/5)

	type layer struct {
		label int
		ring  string
	}
	cases := []struct {
		name   string
		region string
		layers []layer
		want   map[int]float64
		pieces int
	}{
		{"no layers", board, nil, map[int]float64{0: 5000}, 1},
		{"clockwise region", "0,50 100,50 100,0 0,0", nil, map[int]float64{0: 5000}, 1},
		{"layer is the region", board, []layer{{1, board}}, map[int]float64{1: 5000}, 1},
		{"layer far larger", board, []layer{{1, "-900,-900 900,-900 900,900 -900,900"}}, map[int]float64{1: 5000}, 1},
		{"layer elsewhere", board, []layer{{1, "200,0 300,0 300,50"}, {1, "0,60 100,60 50,70"}, {1, "0,-60 100,-60 50,-70"}}, map[int]float64{0: 5000}, 1},
		{"band along an edge", board, []layer{{1, "0,0 100,0 100,10 0,20"}}, map[int]float64{0: 3500, 1: 1500}, 2},
		{"band in the middle", board, []layer{{1, "0,20 100,20 100,30 0,30"}}, map[int]float64{0: 4000, 1: 1000}, 3},
		{"upright band", board, []layer{{1, "40,-5 60,-5 60,55 40,55"}}, map[int]float64{0: 4000, 1: 1000}, 3},
		{"later layer on top", board, []layer{{1, "0,0 60,0 60,50 0,50"}, {2, "40,0 100,0 100,50 40,50"}}, map[int]float64{1: 2000, 2: 3000}, 2},
		{"covered layer", board, []layer{{1, "10,10 20,10 20,20"}, {2, board}}, map[int]float64{2: 5000}, 1},
		{"two layers of one label side by side", board, []layer{{1, "0,0 30,0 30,50 0,50"}, {1, "30,0 100,0 100,50 30,50"}}, map[int]float64{1: 5000}, 1},
		{"two layers of one label one on another", board, []layer{{1, "0,0 100,0 100,25 0,25"}, {1, "0,25 100,25 100,50 0,50"}}, map[int]float64{1: 5000}, 1},
		{"bits of one label in a collinear edge", board, []layer{{1, "0,0 100,0 100,10 70,10 70,10 33,10 12,10 0,10"}}, map[int]float64{0: 4000, 1: 1000}, 2},
		{"triangle partly outside", board, []layer{{1, "50,-50 150,50 -50,50"}}, map[int]float64{1: 5000}, 1},
		{"corner cut off", board, []layer{{1, "80,0 120,0 120,40"}}, map[int]float64{0: 4800, 1: 200}, 0},
		{"bow-tie layer", board, []layer{{1, "0,0 100,50 100,0 0,50"}}, map[int]float64{0: 2500, 1: 2500}, 6},
		{"bow-tie region", "0,0 100,50 100,0 0,50", nil, map[int]float64{0: 2500}, 2},
		{"ring run twice is empty by even-odd", board, []layer{{1, "10,10 20,10 20,20 10,20 10,10 20,10 20,20 10,20"}}, map[int]float64{0: 5000}, 1},
		{"spike out and back", board, []layer{{1, "0,0 100,0 100,10 50,10 50,40 50,10 0,10"}}, map[int]float64{0: 4000, 1: 1000}, 2},
		{"slanted spike out and back", board, []layer{{1, "0,0 100,0 100,10 50,10 80,40 50,10 0,10"}}, map[int]float64{0: 4000, 1: 1000}, 2},
		{"hole by a bridge", board, []layer{{1, "0,0 100,0 100,50 0,50 0,0 20,10 20,40 80,40 80,10 20,10"}}, map[int]float64{0: 1800, 1: 3200}, 0},
		{"layer of two points", board, []layer{{1, "0,0 100,50"}}, map[int]float64{0: 5000}, 1},
		{"layer flat on a line", board, []layer{{1, "0,25 50,25 100,25"}, {1, "50,0 50,25 50,50"}, {1, "0,0 50,25 100,50"}}, map[int]float64{0: 5000}, 1},
		{"all points the same", board, []layer{{1, "5,5 5,5 5,5"}}, map[int]float64{0: 5000}, 1},
		{"region of no area", "0,0 50,0 100,0", nil, map[int]float64{}, 0},
		{"region of no points", "", []layer{{1, board}}, map[int]float64{}, 0},
		{"L-shaped region", "0,0 100,0 100,20 40,20 40,50 0,50", []layer{{1, "0,10 100,10 100,50 0,50"}}, map[int]float64{0: 1000, 1: 2200}, 0},
		{"region touching itself along an edge", "0,0 100,0 100,25 0,25 0,50 100,50 100,25 0,25", nil, map[int]float64{0: 5000}, 1},
		{"pentagram is hollow by even-odd", star.String(), nil, map[int]float64{0: starArea - pentagon}, 0},
		{"pentagram as a layer", "-200,-200 200,-200 200,200 -200,200", []layer{{1, star.String()}}, map[int]float64{0: 160000 - starArea + pentagon, 1: starArea - pentagon}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var layers []Layer
			for _, l := range c.layers {
				layers = append(layers, Layer{l.label, poly(t, l.ring)})
			}
			var region Polygon
			if c.region != "" {
				region = poly(t, c.region)
			}
			got := Decompose(nil, region, 0, layers)
			sums := areas(got)
			for label, want := range c.want {
				near(t, "area", sums[label], want, 1e-9*(1+want))
				delete(sums, label)
			}
			if len(sums) > 0 {
				t.Errorf("unexpected labels: %v", sums)
			}
			if c.pieces > 0 && len(got) != c.pieces {
				t.Errorf("%d pieces, want %d: %v", len(got), c.pieces, got)
			}
		})
	}
}

func TestDecomposeLeavesOutWhatIsNotFinite(t *testing.T) {
	board := R(0, 0, 100, 50).Polygon()
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64} {
		ring := Polygon{Pt(0, 0), Pt(bad, 0), Pt(10, 10)}
		near(t, "base", areas(Decompose(nil, board, 7, []Layer{{1, ring}}))[7], 5000, 1e-9)
		if got := Decompose(nil, ring, 7, nil); len(got) != 0 {
			t.Errorf("region with %g: %v", bad, got)
		}
	}
}

func TestDecomposeAppends(t *testing.T) {
	head := Trapezoid{X1: 1, Hi0: 1, Hi1: 1, Label: 9}
	got := Decompose([]Trapezoid{head}, R(0, 0, 2, 2).Polygon(), 3, nil)
	if len(got) != 2 || got[0] != head || got[1] != (Trapezoid{X1: 2, Hi0: 2, Hi1: 2, Label: 3}) {
		t.Errorf("got %v", got)
	}
}

// A strip at an angle on a board: sides in line stay one piece, though every
// coordinate is rounded.
func TestDecomposeTurnedStripIsFewPieces(t *testing.T) {
	for _, degrees := range []float64{3, 17, 45, 60, 89} {
		m := Rotate(degrees).Then(Translate(311.7, 42.3))
		region := m.ApplyTo(R(0, 0, 930, 92).Polygon())
		zone := m.ApplyTo(Polygon{{-10, 30}, {300, 30}, {600, 30}, {940, 30}, {940, 60}, {470, 60}, {-10, 60}})
		got := Decompose(nil, region, 0, []Layer{{1, zone}})
		sums := areas(got)
		near(t, "band", sums[1], 930*30, 1e-6)
		near(t, "rest", sums[0], 930*62, 1e-6)
		if len(got) > 9 {
			t.Errorf("%g degrees: %d pieces, want at most 9 for three parallel bands", degrees, len(got))
		}
	}
}

func TestDecomposerSteadyUseAllocatesNothing(t *testing.T) {
	region, layers := benchStrip(10)
	var d Decomposer
	out := d.Decompose(nil, region, 0, layers)
	if n := testing.AllocsPerRun(50, func() { out = d.Decompose(out[:0], region, 0, layers) }); n != 0 {
		t.Errorf("%g allocations a run", n)
	}
}

// benchStrip is a strip with three zones of n points each: sapwood along both
// edges, wavy, and a knot.
func benchStrip(n int) (Polygon, []Layer) {
	wave := func(y, amp, phase, outer float64) Polygon {
		var p Polygon
		for i := range n - 2 {
			x := -20 + 970*float64(i)/float64(n-3)
			p = append(p, Pt(x, y+amp*math.Sin(x/90+phase)))
		}
		return append(p, Pt(950, outer), Pt(-20, outer))
	}
	return R(0, 0, 930, 92).Polygon(), []Layer{
		{1, wave(20, 6, 0, -15)}, {1, wave(75, 9, 1, 110)}, {2, Ellipse(R(400, 10, 440, 40), n)},
	}
}

func benchDecompose(b *testing.B, n int) {
	region, layers := benchStrip(n)
	var d Decomposer
	out := d.Decompose(nil, region, 0, layers)
	b.ReportAllocs()
	for b.Loop() {
		out = d.Decompose(out[:0], region, 0, layers)
	}
}

func BenchmarkDecompose10(b *testing.B)  { benchDecompose(b, 10) }
func BenchmarkDecompose200(b *testing.B) { benchDecompose(b, 200) }
