package figure

import (
	"context"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
)

// drawn is a face of 600 x 210 mm at perMM pixels a mm whose lightness at (x, y)
// is f, in the face's own coordinates.
func drawn(perMM float64, f func(x, y float64) float64) Grid {
	g := Grid{W: int(600 * perMM), H: int(210 * perMM)}
	for j := range g.H {
		for i := range g.W {
			g.Pix = append(g.Pix, float32(f((float64(i)+0.5)/perMM, 210-(float64(j)+0.5)/perMM)))
		}
	}
	return g
}

func mapOf(t *testing.T, g Grid) *Map {
	t.Helper()
	m, err := FromGrid(context.Background(), g, 600, 210, 30)
	if err != nil {
		t.Fatal(err)
	}
	if m.NX != 20 || m.NY != 7 {
		t.Fatalf("%d by %d cells, want 20 by 7", m.NX, m.NY)
	}
	return m
}

// between two directions of lines, degrees.
func differ(a, b float64) float64 { return math.Abs(within(a - b)) }

func TestWithin(t *testing.T) {
	for _, c := range [][2]float64{{0, 0}, {90, 90}, {-90, 90}, {91, -89}, {-91, 89}, {180, 0}, {270, 90}, {-450, 90}, {360 + 45, 45}} {
		if got := within(c[0]); got != c[1] {
			t.Errorf("%g becomes %g, want %g", c[0], got, c[1])
		}
	}
}

// Lines of a wave of length w at an angle: sin(2 pi (y cos a - x sin a) / w) is
// the same along the direction a. Exact at every place and at any scale.
func TestGratings(t *testing.T) {
	for _, perMM := range []float64{1, 1.5} {
		for _, wave := range []float64{5, 8, 15} {
			for _, angle := range []float64{0, 2, 7.5, 30, 45, 60, 85, 90, -1, -12, -45, -80} {
				sin, cos := math.Sincos(angle * math.Pi / 180)
				m := mapOf(t, drawn(perMM, func(x, y float64) float64 { return math.Sin(2 * math.Pi * (y*cos - x*sin) / wave) }))
				for k, c := range m.Cells {
					if differ(c.Angle, angle) > 1 || c.Coherence < 0.98 {
						t.Errorf("wave %g at %g degrees, %g px a mm: cell %d has %+v", wave, angle, perMM, k, c)
						break
					}
				}
			}
		}
	}
}

// The same as an 8-bit picture whose left half lies in shade, with the lines a
// tenth of the light: rows of a picture run down, directions up.
func TestGratingAsPicture(t *testing.T) {
	const angle = 12.0
	sin, cos := math.Sincos(angle * math.Pi / 180)
	img := image.NewRGBA(image.Rect(0, 0, 600, 210))
	for j := range 210 {
		for i := range 600 {
			x, y := float64(i)+0.5, 210-(float64(j)+0.5)
			v := 120 * (1 + 0.1*math.Sin(2*math.Pi*(y*cos-x*sin)/8))
			if i < 300 {
				v *= 0.6
			}
			img.SetRGBA(i, j, color.RGBA{uint8(v), uint8(v), uint8(v), 255})
		}
	}
	m, err := FromImage(context.Background(), img, 600, 210, 30)
	if err != nil {
		t.Fatal(err)
	}
	for k, c := range m.Cells {
		if i := k % m.NX; i != 9 && i != 10 && (differ(c.Angle, angle) > 1 || c.Coherence < 0.9) {
			t.Errorf("cell %d has %+v", k, c)
		}
	}
	// Where the picture is clear nothing is known.
	for j := range 210 {
		for i := 300; i < 600; i++ {
			img.SetRGBA(i, j, color.RGBA{})
		}
	}
	if m, err = FromImage(context.Background(), img, 600, 210, 30); err != nil {
		t.Fatal(err)
	}
	if c := m.Cells[2*m.NX+15]; c != (Cell{}) {
		t.Errorf("clear: %+v", c)
	}
	if c := m.Cells[2*m.NX+5]; differ(c.Angle, angle) > 1 {
		t.Errorf("not clear: %+v", c)
	}
}

// Noise has no direction, and an even surface none at all. In a cell of 30 x
// 30 smoothed by s = 1.2 there are about 900 / (4 pi s^2) = 50 places that
// know nothing of each other, so that the two parts of the tensor's direction
// scatter by about 1 / sqrt(50) = 0.14.
func TestNoise(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	m := mapOf(t, drawn(1, func(_, _ float64) float64 { return rng.NormFloat64() }))
	mean := 0.0
	for _, c := range m.Cells {
		mean += c.Coherence / float64(len(m.Cells))
		if c.Coherence > 0.6 {
			t.Errorf("noise is coherent: %+v", c)
		}
	}
	if mean > 0.25 {
		t.Errorf("mean coherence of noise %g", mean)
	}
	for _, c := range mapOf(t, drawn(1, func(_, _ float64) float64 { return 3 })).Cells {
		if c != (Cell{}) {
			t.Errorf("an even surface has %+v", c)
		}
	}
}

// Noise as strong as the grain leaves its direction, and lowers coherence.
func TestGratingInNoise(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 1))
	sin, cos := math.Sincos(6 * math.Pi / 180)
	m := mapOf(t, drawn(1, func(x, y float64) float64 {
		return math.Sin(2*math.Pi*(y*cos-x*sin)/7) + 0.7*rng.NormFloat64()
	}))
	sum := vector{}
	for _, c := range m.Cells {
		sum.add(c, 1)
		if c.Coherence > 0.95 || c.Coherence < 0.4 || differ(c.Angle, 6) > 6 {
			t.Errorf("cell %+v", c)
		}
	}
	if differ(sum.angle(), 6) > 1 {
		t.Errorf("mean direction %g", sum.angle())
	}
}

// A few bright scratches across do not turn the grain.
func TestScratches(t *testing.T) {
	m := mapOf(t, drawn(1, func(x, y float64) float64 {
		if math.Mod(x, 60) > 15 && math.Mod(x, 60) < 16 {
			return 3
		}
		return math.Sin(2 * math.Pi * y / 8)
	}))
	for _, c := range m.Cells {
		if differ(c.Angle, 0) > 1 {
			t.Errorf("cell %+v", c)
		}
	}
}

func TestAt(t *testing.T) {
	m := &Map{Length: 200, Width: 100, NX: 2, NY: 1, Cells: []Cell{{80, 1}, {-80, 1}}}
	// Over the right angle, not through nothing.
	c := m.At(geom.Pt(100, 20))
	if differ(c.Angle, 90) > 1e-9 || c.Coherence < 0.9 {
		t.Errorf("halfway %+v", c)
	}
	if c := m.At(geom.Pt(10, 20)); differ(c.Angle, 80) > 1e-9 {
		t.Errorf("at the end %+v", c)
	}
	if c := m.At(geom.Pt(-1, 20)); c != (Cell{}) {
		t.Errorf("outside %+v", c)
	}
	var none *Map
	if c := none.At(geom.Pt(1, 1)); c != (Cell{}) {
		t.Errorf("no map %+v", c)
	}
}

func TestBadInput(t *testing.T) {
	ctx := context.Background()
	if _, err := FromImage(ctx, nil, 100, 100, 30); err == nil {
		t.Error("no picture")
	}
	if _, err := FromGrid(ctx, Grid{W: 10, H: 10, Pix: make([]float32, 9)}, 100, 100, 30); err == nil {
		t.Error("too few numbers")
	}
	if _, err := FromGrid(ctx, Grid{W: 1, H: 1, Pix: make([]float32, 1)}, math.NaN(), 100, 30); err == nil {
		t.Error("no length")
	}
	if _, err := FromGrid(ctx, Grid{W: 1, H: 1, Pix: make([]float32, 1)}, 1e4, 1e4, 1); err == nil {
		t.Error("too many cells")
	}
	if _, err := FromLines(nil, 100, 100, 30); err == nil {
		t.Error("no lines")
	}
	// A picture of one pixel tells nothing, and does not fail.
	if m, err := FromGrid(ctx, Grid{W: 1, H: 1, Pix: make([]float32, 1)}, 100, 100, 30); err != nil || m.Cells[0] != (Cell{}) {
		t.Errorf("%+v, %v", m, err)
	}
	done, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := FromGrid(done, drawn(1, func(_, _ float64) float64 { return 0 }), 600, 210, 30); err == nil {
		t.Error("went on after the end")
	}
}
