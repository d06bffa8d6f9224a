package geom

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// stretch is a length of an upright line with one label.
type stretch struct {
	lo, hi float64
	label  int
}

// lineBrute labels the upright line at x by testing the middle of each stretch
// between crossings against every ring: slow, and nothing of the sweep in it.
func lineBrute(x float64, region Polygon, base int, layers []Layer) []stretch {
	var ys []float64
	crossings := func(p Polygon) {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.X > x) != (b.X > x) {
				ys = append(ys, a.Y+(x-a.X)*(b.Y-a.Y)/(b.X-a.X))
			}
		}
	}
	crossings(region)
	for _, l := range layers {
		crossings(l.Polygon)
	}
	slices.Sort(ys)
	var out []stretch
	for i := 0; i+1 < len(ys); i++ {
		q := Pt(x, (ys[i]+ys[i+1])/2)
		if ys[i+1]-ys[i] < 1e-7 || !region.Contains(q) {
			continue
		}
		label := base
		for _, l := range layers {
			if l.Polygon.Contains(q) {
				label = l.Label
			}
		}
		out = append(out, stretch{ys[i], ys[i+1], label})
	}
	return joined(out)
}

func lineOf(x float64, ts []Trapezoid) []stretch {
	var out []stretch
	for _, t := range ts {
		if x < t.X0 || x >= t.X1 {
			continue
		}
		s := (x - t.X0) / (t.X1 - t.X0)
		lo, hi := t.Lo0+s*(t.Lo1-t.Lo0), t.Hi0+s*(t.Hi1-t.Hi0)
		if hi-lo >= 1e-7 {
			out = append(out, stretch{lo, hi, t.Label})
		}
	}
	slices.SortFunc(out, func(a, b stretch) int {
		if a.lo < b.lo {
			return -1
		}
		return 1
	})
	return joined(out)
}

// joined makes neighbours of one label one, over gaps that were too thin.
func joined(in []stretch) []stretch {
	var out []stretch
	for _, s := range in {
		if n := len(out); n > 0 && out[n-1].label == s.label && s.lo-out[n-1].hi < 1e-6 {
			out[n-1].hi = s.hi
			continue
		}
		out = append(out, s)
	}
	return out
}

// drawRing draws a ring of one of several manners: on a coarse grid, so that
// points, edges and crossings coincide, or anywhere; reaching outside.
func drawRing(t *rapid.T, name string) Polygon {
	n := rapid.IntRange(3, 9).Draw(t, name+" points")
	manner := rapid.IntRange(0, 2).Draw(t, name+" manner")
	p := make(Polygon, n)
	for i := range p {
		switch manner {
		case 0:
			p[i] = Pt(float64(rapid.IntRange(-2, 12).Draw(t, "x")*10), float64(rapid.IntRange(-2, 7).Draw(t, "y")*10))
		case 1:
			p[i] = Pt(rapid.Float64Range(-30, 130).Draw(t, "x"), rapid.Float64Range(-30, 80).Draw(t, "y"))
		default: // one point a hair off another now and then
			p[i] = Pt(float64(rapid.IntRange(0, 5).Draw(t, "x")*20)+rapid.SampledFrom([]float64{0, 1e-13, -1e-9, 1e-6}).Draw(t, "hair"),
				float64(rapid.IntRange(0, 5).Draw(t, "y")*10))
		}
	}
	return p
}

func drawLayers(t *rapid.T) []Layer {
	var layers []Layer
	for range rapid.IntRange(0, 4).Draw(t, "layers") {
		layers = append(layers, Layer{rapid.IntRange(0, 3).Draw(t, "label"), drawRing(t, "layer")})
	}
	return layers
}

func TestDecomposeAgreesWithBruteForceOnLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		region, layers := drawRing(t, "region"), drawLayers(t)
		got := Decompose(nil, region, 0, layers)
		for range 12 {
			x := rapid.Float64Range(-25, 125).Draw(t, "line")
			if nearPoint(x, region, layers) {
				continue
			}
			have, want := lineOf(x, got), lineBrute(x, region, 0, layers)
			if len(have) != len(want) {
				t.Fatalf("at x = %g: %v, want %v", x, have, want)
			}
			for i := range want {
				if have[i].label != want[i].label || math.Abs(have[i].lo-want[i].lo) > 1e-6 || math.Abs(have[i].hi-want[i].hi) > 1e-6 {
					t.Fatalf("at x = %g: %v, want %v", x, have, want)
				}
			}
		}
	})
}

// nearPoint reports whether x lies so near a point of a ring that rounding of
// steep edges would decide.
func nearPoint(x float64, region Polygon, layers []Layer) bool {
	hit := func(p Polygon) bool {
		return slices.ContainsFunc(p, func(q Point) bool { return math.Abs(q.X-x) < 1e-4 })
	}
	return hit(region) || slices.ContainsFunc(layers, func(l Layer) bool { return hit(l.Polygon) })
}

func TestDecomposePiecesAreWellFormedAndDisjoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		region, layers := drawRing(t, "region"), drawLayers(t)
		got := Decompose(nil, region, 0, layers)
		for i, a := range got {
			if !(a.X0 < a.X1 && a.Lo0 <= a.Hi0 && a.Lo1 <= a.Hi1) {
				t.Fatalf("piece %d is turned inside out: %v", i, a)
			}
			if i > 0 && a.X0 < got[i-1].X0 {
				t.Fatalf("piece %d begins before the one in front of it", i)
			}
		}
	})
}

// The whole is the sum of its parts: what layers do inside never changes how
// much there is, to 1e-9. The region here does not cross itself, so the
// shoelace formula knows its area.
func TestDecomposeKeepsTheAreaOfTheRegion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		region := make(Polygon, n)
		for i := range region {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(5, 60).Draw(t, "radius")
			region[i] = Pt(50+r*c, 25+r*s)
		}
		var d Decomposer
		var sum float64
		for _, p := range d.Decompose(nil, region, 0, drawLayers(t)) {
			sum += p.Area()
		}
		if want := region.Area(); math.Abs(sum-want) > 1e-9*want {
			t.Fatalf("pieces sum to %.12g, the region measures %.12g", sum, want)
		}
	})
}

// Upside down, mirrored or moved, the same drawing measures the same.
func TestDecomposeDoesNotCareWhichWayItLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		region, layers := drawRing(t, "region"), drawLayers(t)
		want := areas(Decompose(nil, region, 0, layers))
		m := rapid.SampledFrom([]Affine{Scale(-1, 1), Scale(1, -1), Rotate(90), Rotate(33), Translate(2000, -700), Scale(3, 3)}).Draw(t, "map")
		moved := make([]Layer, len(layers))
		for i, l := range layers {
			moved[i] = Layer{l.Label, m.ApplyTo(l.Polygon)}
		}
		got := areas(Decompose(nil, m.ApplyTo(region), 0, moved))
		for label := range 4 {
			if k := math.Abs(m.Det()); math.Abs(got[label]-k*want[label]) > 1e-4 {
				t.Fatalf("label %d: %g, want %g", label, got[label], k*want[label])
			}
		}
	})
}

func TestDecomposerForgetsTheLastCall(t *testing.T) {
	var d Decomposer
	rapid.Check(t, func(t *rapid.T) {
		region, layers := drawRing(t, "region"), drawLayers(t)
		if got, want := d.Decompose(nil, region, 2, layers), Decompose(nil, region, 2, layers); !slices.Equal(got, want) {
			t.Fatalf("used again: %v, want %v", got, want)
		}
	})
}
