package wane

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// A picture from square above, 2 mm a pixel: the rectangle lies from (100, 300)
// to (600, 500) pixels and is 1000 x 400 mm; the board in it reaches from y =
// 50 to 350 mm.
func TestFitByHand(t *testing.T) {
	f := &Framed{
		View:  photo.View{Corners: [4]geom.Point{{X: 100, Y: 500}, {X: 600, Y: 500}, {X: 600, Y: 300}, {X: 100, Y: 300}}},
		Width: 400,
		Ring:  geom.Polygon{{X: 0, Y: 60}, {X: 500, Y: 50}, {X: 1000, Y: 70}, {X: 1000, Y: 340}, {X: 500, Y: 350}, {X: 0, Y: 330}},
	}
	for _, c := range []struct {
		name                string
		width, want, lowPix float64 // pixel row of the lower corners
		ring                geom.Point
	}{
		// 300 mm are 150 pixels about the middle at row 400.
		{"measured", 0, 300, 475, geom.Pt(0, 10)},
		// The maker measured 306: all is 2 in a hundred wider.
		{"set right", 306, 306, 475, geom.Pt(0, 10.2)},
		// The narrower face of a board of 360: 30 mm to either side, 15 pixels.
		{"narrower face", 360, 360, 490, geom.Pt(0, 40)},
	} {
		g, err := f.Fit(800, 600, 1000, c.width)
		if err != nil {
			t.Fatal(err)
		}
		if g.Width != c.want || math.Abs(g.View.Corners[0].Y-c.lowPix) > 1e-6 || math.Abs(g.View.Corners[2].Y-(800-c.lowPix)) > 1e-6 ||
			g.Ring[0].Dist(c.ring) > 1e-6 || g.Measured != 300 {
			t.Errorf("%s: %+v", c.name, g)
		}
	}
	if _, err := (&Framed{View: f.View, Width: 400}).Fit(800, 600, 1000, 0); err == nil {
		t.Error("no outline: no error")
	}
}
