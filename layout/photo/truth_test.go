package photo

import (
	"context"
	"encoding/json"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"
	"os"
	"testing"

	"heartside/layout/geom"
)

// The photograph is of a modelled walnut board through a modelled camera; the
// mask is the truth of its face at 1 pixel a mm: 1 heart, 2 sap, row 0 at the
// other edge.
func truth(t testing.TB) (s *Squared, mask image.Image) {
	t.Helper()
	var meta struct {
		Length, Width float64
		Corners       [4][2]float64
	}
	raw, err := os.ReadFile("../../testdata/photos/walnut.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &meta); err != nil {
		t.Fatal(err)
	}
	var q [4]geom.Point
	for i, c := range meta.Corners {
		q[i] = geom.Pt(c[0], c[1])
	}
	s, err = Square(context.Background(), decode(t, "../../testdata/photos/walnut.jpg"), View{Corners: q}, meta.Length, meta.Width, 1)
	if err != nil {
		t.Fatal(err)
	}
	return s, decode(t, "../../testdata/photos/walnut-mask.png")
}

func decode(t testing.TB, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// Split by the lightness halfway between the two woods, the squared picture
// agrees with the truth.
func TestSapLineLandsWhereItIs(t *testing.T) {
	s, mask := truth(t)
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	if mask.Bounds().Dx() != nx || mask.Bounds().Dy() != ny {
		t.Fatalf("mask %v, squared %v", mask.Bounds(), s.Pix.Rect)
	}
	kind := func(x, y int) uint32 { r, _, _, _ := mask.At(x, y).RGBA(); return r >> 8 }
	light := func(x, y int) float64 {
		c := s.Pix.RGBAAt(x, y)
		return 0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B)
	}
	var sum, n [3]float64
	for y := 0; y < ny; y++ {
		for x := 0; x < nx; x++ {
			if k := kind(x, y); k == 1 || k == 2 {
				sum[k] += light(x, y)
				n[k]++
			}
		}
	}
	limit := (sum[1]/n[1] + sum[2]/n[2]) / 2
	right, all := 0.0, 0.0
	for y := 3; y < ny-3; y++ {
		for x := 3; x < nx-3; x++ {
			k := kind(x, y)
			if k != 1 && k != 2 {
				continue
			}
			// Away from the border by 2 mm, the transition band.
			if kind(x, y-2) != k || kind(x, y+2) != k {
				continue
			}
			// A mean over 5 x 3 mm sets the grain aside.
			var v float64
			for d := 0; d < 15; d++ {
				v += light(x+d%5-2, y+d/5-1) / 15
			}
			all++
			if (v > limit) == (k == 2) {
				right++
			}
		}
	}
	if share := right / all; share < 0.99 || math.IsNaN(share) {
		t.Errorf("%.2f %% of the face agrees with the truth, want 99", 100*share)
	}
}

func BenchmarkSquare(b *testing.B) {
	img := decode(b, "../../testdata/photos/walnut.jpg")
	q := [4]geom.Point{{X: 20, Y: 700}, {X: 980, Y: 690}, {X: 970, Y: 60}, {X: 30, Y: 50}}
	for b.Loop() {
		if _, err := Square(context.Background(), img, View{Corners: q}, 2400, 210, 1); err != nil {
			b.Fatal(err)
		}
	}
}
