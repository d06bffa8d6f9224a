package snapshot

import (
	"bytes"
	"context"
	"math"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Pinholes by hand. Straight down from 1000 mm with a focal length of 1000
// pixels a mm of the face is a pixel; 50 mm below it, 1000/1050 of that. Held
// 30 degrees towards the viewer the camera stands at (0, -500, 866.03); a point
// 100 mm up the face is 600 and -866.03 from it, 600 x 0.5 + 866.03 x 0.86603
// = 1050 ahead and 866.03 x 0.5 - 600 x 0.86603 = -86.60 down, at 400 - 82.48.
func TestPinholeByHand(t *testing.T) {
	down := Camera{W: 1000, H: 800, Focal: 1000, Dist: 1000}
	tilted, turned := down, down
	tilted.Tilt, tilted.Towards = 30, 270
	turned.Turn = 90 // the board's x points up the picture
	for _, c := range []struct {
		name string
		cam  Camera
		at   vec
		want geom.Point
	}{
		{"straight", down, vec{100, 50, 0}, geom.Pt(600, 350)},
		{"below", down, vec{105, 0, -50}, geom.Pt(600, 400)},
		{"tilted", tilted, vec{0, 100, 0}, geom.Pt(500, 317.52)},
		{"turned", turned, vec{100, 0, 0}, geom.Pt(500, 300)},
	} {
		v := c.cam.view()
		got := v.project(c.at)
		if got.Dist(c.want) > 0.01 {
			t.Errorf("%s: %v, by hand %v", c.name, got, c.want)
		}
		// The ray through the pixel that shows a point meets it, bowed or not.
		for _, bow := range [3]float64{0, -0.1, 0.1} {
			c.cam.Bow = bow
			v := c.cam.view()
			d := v.ray(v.project(c.at))
			k := (c.at[2] - v.pos[2]) / d[2]
			if x, y := v.pos[0]+k*d[0], v.pos[1]+k*d[1]; math.Hypot(x-c.at[0], y-c.at[1]) > 1e-6 {
				t.Errorf("%s, bow %g: the ray back meets (%g, %g)", c.name, bow, x, y)
			}
		}
	}
}

// The division model: what the picture shows at 0.5 half diagonals lies, with
// a bow of -0.1, at 0.5 / (1 - 0.1 x 0.25) = 0.51282 without it. Half the
// diagonal of 1000 x 800 is 640.31: 328.36 mm to the right of the middle is
// shown 320.16 pixels from it.
func TestBowByHand(t *testing.T) {
	c := Camera{W: 1000, H: 800, Focal: 1000, Dist: 1000, Bow: -0.1}
	if got, want := c.view().project(vec{328.366, 0, 0}), geom.Pt(820.156, 400); got.Dist(want) > 0.01 {
		t.Errorf("shown at %v, by hand %v", got, want)
	}
}

// flat photographs a board under plain light with a perfect camera.
func flat(t *testing.T, b *Board, cam Camera) (*Photo, *Scene) {
	t.Helper()
	s := b.Face(1, 5, 900, 700)
	s.Camera, s.Finish, s.lamp = cam, Finish{}, lamp{n: b.n}
	s.boxes = s.boxes[:1]
	s.boxes[0].skin.(*sawn).sun = [5]float64{1, 1, 1, 1, 1}
	p, err := s.Take(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return p, s
}

// Under plain light the photograph of a wood with strong rings, squared by its corners and bow and split
// by its mask, has the colours of the wood: as stated for heart and sap, in
// the mean. Were mask, corners or bow off by some mm, the zones would mix.
func TestColoursLieWhereTheMaskSays(t *testing.T) {
	b := round(130, 60, 100, 400)
	p, _ := flat(t, b, Camera{W: 900, H: 700, Focal: 900, Dist: 400, Tilt: 18, Towards: 250, Turn: 12, Bow: -0.08})
	sq, err := photo.Square(context.Background(), p.Img, photo.View{Corners: p.Corners, Bow: p.Bow}, b.Length, b.Width, 1)
	if err != nil {
		t.Fatal(err)
	}
	m := b.Mask(1, 1, 0)
	for l, want := range map[photo.Label]colour.Lab{photo.Heart: b.Kind.Heart, photo.Sap: b.Kind.Sap} {
		var sum rgb
		n := 0.0
		for j := 2; j < m.H-2; j++ {
			for i := 2; i < m.W-2; i++ {
				if m.At(i, j) != l || m.At(i, j-1) != l || m.At(i, j+1) != l {
					continue
				}
				c := sq.Pix.RGBAAt(i, j)
				v := colour.FromSRGB(c.R, c.G, c.B)
				sum, n = sum.plus(rgb{v.R, v.G, v.B}), n+1
			}
		}
		sum = sum.times(1 / n)
		got := colour.Linear{R: sum[0], G: sum[1], B: sum[2]}.Lab()
		if d := difference(got, want); d > 2.5 {
			t.Errorf("label %d: mean %v, the wood is %v (%.1f apart)", l, got, want, d)
		}
	}
	// Two rows either side of the border, 4 mm from it, differ by most of the
	// woods' difference: nothing is blurred over.
	row := func(y float64) float64 {
		v := 0.0
		for i := 20; i < 280; i++ {
			c := sq.Pix.RGBAAt(i, int(b.Width-y))
			v += colour.FromSRGB(c.R, c.G, c.B).Lab().L / 260
		}
		return v
	}
	if heart, sap := row(130+80-4), row(130+80+4); sap-heart < 0.7*(72-45) {
		t.Errorf("lightness steps from %.1f to %.1f at the border, the woods have 45 and 72", heart, sap)
	}
}

// Faces of all plans lie inside their pictures and go round anticlockwise.
func TestCornersAreInThePicture(t *testing.T) {
	for seed := uint64(1); seed <= 60; seed++ {
		b := Plan(seed, 1+int(seed%5))
		w, h := 2000, 1500
		if seed%7 == 0 {
			w, h = h, w
		}
		s := b.Face(1+int(seed%2), seed, w, h)
		c := s.Corners()
		for _, p := range c {
			if !geom.R(20, 20, float64(w)-20, float64(h)-20).Contains(p) {
				t.Errorf("seed %d: corner %v of %d x %d", seed, p, w, h)
			}
		}
		if geom.Polygon(c[:]).SignedArea() >= 0 { // y runs down in a picture
			t.Errorf("seed %d: corners run clockwise: %v", seed, c)
		}
		if _, _, err := (photo.View{Corners: c, Bow: s.Camera.Bow}).FromFace(w, h, b.Length, b.Width); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
}

func TestSameSeedSameBytes(t *testing.T) {
	take := func(seed uint64) []byte {
		p, err := Plan(seed, 4).Face(2, seed, 240, 180).Take(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		return p.Img.Pix
	}
	a := take(8)
	if !bytes.Equal(a, take(8)) {
		t.Error("the same seed gives another picture")
	}
	if bytes.Equal(a, take(9)) {
		t.Error("another seed gives the same picture")
	}
}

func TestTakeStopsAndRefuses(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	b := Plan(2, 2)
	if _, err := b.Face(1, 2, 200, 150).Take(ctx); err == nil {
		t.Error("an ended context takes a photograph")
	}
	if _, err := b.Face(1, 2, 8, 8).Take(context.Background()); err == nil {
		t.Error("8 x 8 pixels: no error")
	}
	// A face there is not is taken as face 1, a level out of range as the
	// nearest.
	b.Level = 99
	if p, err := b.Face(7, 2, 64, 48).Take(context.Background()); err != nil || p.Img.Rect.Dx() != 64 {
		t.Errorf("face 7 at level 99: %v", err)
	}
}

func BenchmarkFace3MP(b *testing.B) {
	board := Plan(4, 3)
	for b.Loop() {
		if _, err := board.Face(1, 4, 2000, 1500).Take(context.Background()); err != nil {
			b.Fatal(err)
		}
	}
}

// Every ground is drawn, and no two alike.
func TestGroundsDiffer(t *testing.T) {
	seen := map[rgb]string{}
	for _, name := range Grounds() {
		g := planGround(newDice(4, 4), newNoise(4), name)
		var sum rgb
		for k := range 400 {
			sum = sum.plus(g.at(float64(k%20)*31, float64(k/20)*37, 2).times(1.0 / 400))
		}
		for c, v := range sum {
			if !(v > 0.005 && v < 1) {
				t.Errorf("%s: channel %d is %g in the mean", name, c, v)
			}
		}
		if was, ok := seen[sum]; ok {
			t.Errorf("%s looks like %s", name, was)
		}
		seen[sum] = name
	}
}
