package trace

import (
	"image"
	"image/color"
	_ "image/png"
	"math/rand/v2"
	"os"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// The true mask of a modelled walnut board: its zones keep to it, take few
// points, and cover what the truth says.
func TestPolygonsOfABoard(t *testing.T) {
	f, err := os.Open("../../../testdata/photos/walnut-mask.png")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	m := photo.NewMask(835, 237, 1)
	if img.Bounds().Dx() != m.W || img.Bounds().Dy() != m.H {
		t.Fatalf("the mask is %v", img.Bounds())
	}
	for k := range m.Pix {
		m.Pix[k] = photo.Label(color.GrayModel.Convert(img.At(k%m.W, k/m.W)).(color.Gray).Y)
	}
	zones, base, err := Polygons(m, Options{Tolerance: 1})
	if err != nil {
		t.Fatal(err)
	}
	checkTraced(t, m, zones, base, 1)
	points, area := 0, 0.0
	for _, z := range zones {
		points += len(z.Polygon)
		if z.Kind == photo.Sap {
			area += z.Polygon.Area()
		}
	}
	if points > 60 {
		t.Errorf("%d points", points)
	}
	// walnut.json: a share of 0.0909, all of it along one edge.
	if share := area / (835 * 237); share < 0.0889 || share > 0.0929 {
		t.Errorf("sap covers %.4f, want 0.0909", share)
	}
}

func FuzzPolygons(f *testing.F) {
	f.Add(uint64(1), 1.0)
	f.Add(uint64(425), float64(11)) // borders that change their order where four meet
	f.Fuzz(func(t *testing.T, seed uint64, tol float64) {
		r := rand.New(rand.NewPCG(seed, 1))
		m := noise(seed, 1+r.IntN(24), 1+r.IntN(24), 1+r.IntN(4))
		for k := range m.Pix { // larger patches
			if k > 0 && r.IntN(3) > 0 {
				m.Pix[k] = m.Pix[k-1]
			}
		}
		if !(tol >= 0 && tol < 20) {
			if _, _, err := Polygons(m, Options{Tolerance: tol}); err == nil && !(tol >= 20) {
				t.Errorf("a tolerance of %g passed", tol)
			}
			return
		}
		zones, base, err := Polygons(m, Options{Tolerance: tol, SapBase: seed%2 == 0})
		if err != nil {
			t.Fatal(err)
		}
		checkTraced(t, m, zones, base, tol)
		// Edits take any places.
		p := func() geom.Point { return geom.Pt(r.Float64()*60-20, r.Float64()*60-20) }
		ring := geom.Polygon{p(), p(), p(), p()}
		out, err := Brush(m, ring, 0.1+3*r.Float64(), photo.Sap)
		if err == nil {
			out, err = Fill(out, ring, photo.Heart)
		}
		if err == nil {
			out, err = Smooth(out, 0.1+5*r.Float64())
		}
		if err != nil {
			t.Fatal(err)
		}
		if line, err := StraightLine(out, p(), p(), 30); err == nil && len(line.Pix) != len(m.Pix) {
			t.Error("cells were lost")
		}
	})
}
