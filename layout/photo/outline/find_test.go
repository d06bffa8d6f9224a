package outline

import (
	"context"
	"errors"
	"image"
	"math"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// The truth of these scenes is what was drawn: a rectangle through a pinhole.
func TestFindDrawnBoards(t *testing.T) {
	grey := flat(170, 168, 160)
	for name, c := range map[string]struct {
		cam           camera
		length, width float64
		bow, noise    float64
		turn          int // corners the end at the left is turned from the drawn one
		more          func(camera, float64, float64) (under, over []shapeOn)
	}{
		"flat":        {cam: camera{w: 800, h: 600, focal: 0.9, distance: 1000}, length: 800, width: 200, noise: 3},
		"tilted":      {cam: camera{w: 800, h: 600, focal: 0.8, pitch: 20, roll: 12, distance: 1000}, length: 700, width: 180, noise: 3},
		"bowed":       {cam: camera{w: 800, h: 600, focal: 0.9, pitch: 10, roll: -8, distance: 1000}, length: 850, width: 300, bow: -0.1, noise: 2},
		"slanted":     {cam: camera{w: 800, h: 600, focal: 0.9, pitch: 8, roll: 40, distance: 1100}, length: 750, width: 150, noise: 3},
		"standing":    {cam: camera{w: 600, h: 800, focal: 0.9, pitch: 8, roll: 85, distance: 1100}, length: 750, width: 150, noise: 3},
		"upside down": {cam: camera{w: 800, h: 600, focal: 0.9, roll: 175, distance: 1000}, length: 700, width: 180, noise: 3, turn: 2},
		"tape beside": {
			cam: camera{w: 800, h: 600, focal: 0.9, pitch: 10, roll: 5, distance: 1000}, length: 700, width: 150, noise: 3,
			more: func(c camera, l, w float64) (under, over []shapeOn) {
				q := c.rect(-l/2-20, w/2+25, l+60, 16)
				return []shapeOn{{q[:], flat(240, 235, 230)}}, nil
			},
		},
		"light sapwood": {
			cam: camera{w: 800, h: 600, focal: 0.9, pitch: 10, roll: 5, distance: 1000}, length: 700, width: 150, noise: 3,
			more: func(c camera, l, w float64) (under, over []shapeOn) {
				q := c.rect(-l/2, w/2-18, l, 18)
				return nil, []shapeOn{{q[:], flat(205, 185, 150)}}
			},
		},
		"side seen": {
			// Of a thick board a dark side shows below the face.
			cam: camera{w: 800, h: 600, focal: 0.9, pitch: 18, roll: 3, distance: 1000}, length: 700, width: 150, noise: 3,
			more: func(c camera, l, w float64) (under, over []shapeOn) {
				q := c.rect(-l/2, -w/2-12, l, 14)
				return []shapeOn{{q[:], flat(95, 65, 42)}}, nil
			},
		},
		"touching boards": {
			// One longer and one shorter, of other colours.
			cam: camera{w: 800, h: 600, focal: 0.9, pitch: 6, roll: 4, distance: 1100}, length: 700, width: 150, noise: 3,
			more: func(c camera, l, w float64) (under, over []shapeOn) {
				a, b := c.rect(-l/2+60, w/2, l, 90), c.rect(-l/2-50, -w/2-110, l-40, 110)
				return []shapeOn{{a[:], flat(186, 150, 110)}, {b[:], flat(120, 76, 60)}}, nil
			},
		},
	} {
		t.Run(name, func(t *testing.T) {
			q := c.cam.rect(-c.length/2, -c.width/2, c.length, c.width)
			s := scene{w: c.cam.w, h: c.cam.h, bow: c.bow, ground: grey, noise: c.noise, seed: 3}
			var over []shapeOn
			if c.more != nil {
				s.shapes, over = c.more(c.cam, c.length, c.width)
			}
			s.shapes = append(append(s.shapes, shapeOn{q[:], wood(-c.cam.roll)}), over...)
			want := q
			for i := range want {
				want[i] = q[(i+c.turn)%4]
			}
			got, err := Find(context.Background(), s.draw(), c.length, c.width)
			if err != nil {
				t.Fatal(err)
			}
			wantCorners(t, s, got.View.Corners, want, 0.7)
			if math.Abs(got.View.Bow-c.bow) > 0.02 {
				t.Errorf("bow %.3f, drawn %.3f", got.View.Bow, c.bow)
			}
			if got.Whole < 0.5 {
				t.Errorf("confidence %.2f in a plain board", got.Whole)
			}
		})
	}
}

func TestFindIsUnsureOfNothing(t *testing.T) {
	s := scene{w: 400, h: 300, ground: flat(150, 150, 150), noise: 8, seed: 1}
	got, err := Find(context.Background(), s.draw(), 800, 150)
	if err == nil && (got.Whole >= 0.5 || got.Confidence[0] >= 0.5) {
		t.Errorf("bare ground is a board: %.2f", got.Whole)
	}
	if err != nil && !strings.Contains(err.Error(), "by hand") {
		t.Errorf("the message does not say what to do: %v", err)
	}
}

func TestFindSaysWhatIsWrong(t *testing.T) {
	ctx := context.Background()
	img := image.NewRGBA(image.Rect(0, 0, 200, 150))
	for _, c := range []struct {
		img           image.Image
		length, width float64
		say           string
	}{
		{nil, 800, 100, "picture"},
		{image.NewRGBA(image.Rectangle{}), 800, 100, "picture"},
		{image.NewRGBA(image.Rect(0, 0, 20, 900)), 800, 100, "picture"},
		{img, 0, 100, "length"},
		{img, 800, -1, "width"},
		{img, math.NaN(), 100, "length"},
		{img, 800, math.Inf(1), "width"},
		{img, 8000, 1, "narrow"},
	} {
		if _, err := Find(ctx, c.img, c.length, c.width); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%g x %g: %v, want word of its %s", c.length, c.width, err, c.say)
		}
	}
	ended, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := Find(ended, img, 800, 100); !errors.Is(err, context.Canceled) {
		t.Errorf("ended: %v", err)
	}
	if _, err := Refine(ctx, img, photo.View{}, 800, 100); err == nil {
		t.Error("corners in one place were laid")
	}
}

func TestRefineSnapsRoughCorners(t *testing.T) {
	cam := camera{w: 1000, h: 750, focal: 0.9, pitch: 12, roll: 7, distance: 1000}
	q := cam.rect(-350, -90, 700, 180)
	s := scene{w: cam.w, h: cam.h, bow: -0.06, ground: flat(120, 130, 110), noise: 4, seed: 9, shapes: []shapeOn{{q[:], wood(-7)}}}
	lens := photo.LensOf(s.w, s.h, s.bow)
	var v photo.View
	for i, d := range []geom.Point{{X: 6, Y: -5}, {X: -4, Y: 6}, {X: 5, Y: 5}, {X: -7, Y: 3}} {
		v.Corners[i] = lens.Bowed(q[i]).Add(d)
	}
	img := s.draw()
	got, err := Refine(context.Background(), img, v, 700, 180)
	if err != nil {
		t.Fatal(err)
	}
	wantCorners(t, s, got.View.Corners, q, 0.5)
	// Far from any board nothing moves.
	far := photo.View{Corners: [4]geom.Point{{X: 40, Y: 200}, {X: 300, Y: 200}, {X: 300, Y: 100}, {X: 40, Y: 100}}}
	got, err = Refine(context.Background(), img, far, 260, 100)
	if err != nil {
		t.Fatal(err)
	}
	for i := range far.Corners {
		if d := got.View.Corners[i].Dist(far.Corners[i]); d > Reach*1000 {
			t.Errorf("corner %d moved %.1f px, more than said", i, d)
		}
	}
	if got.Whole > 0.5 {
		t.Errorf("bare ground is a board: %.2f", got.Whole)
	}
}

func TestSnap(t *testing.T) {
	cam := camera{w: 400, h: 300, focal: 0.9, pitch: 10, roll: 15, distance: 1000}
	q := cam.rect(-300, -100, 600, 200)
	s := scene{w: 400, h: 300, ground: flat(90, 90, 95), noise: 3, seed: 2, shapes: []shapeOn{{q[:], wood(-15)}}}
	img := s.draw()
	for i, c := range q {
		for _, d := range []geom.Point{{X: 5, Y: 3}, {X: -6, Y: 4}, {X: 2, Y: -8}} {
			got, ok := SnapCorner(img, c.Add(d), 14)
			if !ok || got.Dist(c) > 0.8 {
				t.Errorf("corner %d from %v off: %.2f, want %.2f (%v)", i, d, got, c, ok)
			}
		}
		mid := c.Lerp(q[(i+1)%4], 0.5)
		l := through(c, q[(i+1)%4])
		got, ok := SnapEdge(img, mid.Add(geom.Pt(l.a, l.b).Mul(6)), 12)
		if !ok || math.Abs(l.off(got)) > 0.4 || got.Dist(mid) > 2 {
			t.Errorf("side %d: %.2f, want %.2f (%v)", i, got, mid, ok)
		}
	}
	bare := geom.Pt(30, 30)
	if p, ok := SnapCorner(img, bare, 12); ok || p != bare {
		t.Errorf("snapped to bare ground at %v", p)
	}
	if p, ok := SnapEdge(img, bare, 12); ok || p != bare {
		t.Errorf("snapped to bare ground at %v", p)
	}
	if _, ok := SnapCorner(nil, bare, 12); ok {
		t.Error("snapped in no picture")
	}
	if _, ok := SnapEdge(img, geom.Pt(-1, math.NaN()), 12); ok {
		t.Error("snapped to no place")
	}
}

// The bow is recovered from points put through the lens model itself.
func TestBowOfStraightEdges(t *testing.T) {
	for _, bow := range []float64{-0.15, -0.05, 0, 0.08} {
		lens := photo.LensOf(2000, 1500, bow)
		var e [4][]geom.Point
		q := [4]geom.Point{{X: 150, Y: 1200}, {X: 1850, Y: 1150}, {X: 1800, Y: 350}, {X: 200, Y: 300}}
		for i := range e {
			for k := 0; k < 40; k++ {
				e[i] = append(e[i], lens.Bowed(lens.Straight(q[i]).Lerp(lens.Straight(q[(i+1)%4]), float64(k)/39)))
			}
		}
		if got := Bow(e, 2000, 1500); math.Abs(got-bow) > 0.004 {
			t.Errorf("bow %.4f, want %.4f", got, bow)
		}
	}
	if Bow([4][]geom.Point{}, 2000, 1500) != 0 {
		t.Error("bow of nothing")
	}
	// Lines through the middle stay straight under any bow: nothing is told.
	var e [4][]geom.Point
	for k := 0; k < 40; k++ {
		e[0] = append(e[0], geom.Pt(float64(50*k), 750+0.3*math.Sin(float64(k*k))))
		e[2] = append(e[2], geom.Pt(float64(50*k), 750-0.3*math.Sin(float64(k*k))))
	}
	if got := Bow(e, 2000, 1500); math.Abs(got) > 0.02 {
		t.Errorf("bow %.3f told by lines through the middle", got)
	}
}

func BenchmarkFind12MP(b *testing.B) {
	cam := camera{w: 800, h: 600, focal: 0.9, pitch: 10, roll: 5, distance: 1000}
	q := cam.rect(-350, -75, 700, 150)
	small := scene{w: 800, h: 600, ground: flat(170, 168, 160), noise: 3, seed: 3, shapes: []shapeOn{{q[:], wood(-5)}}}.draw()
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	src := sourceOf(small)
	for y := 0; y < 3000; y++ {
		for x := 0; x < 4000; x++ {
			c := src.at(float64(x)/5, float64(y)/5)
			img.Y[img.YOffset(x, y)] = uint8(c[0])
			o := img.COffset(x, y)
			img.Cb[o], img.Cr[o] = uint8(c[1]/chroma+128), uint8(c[2]/chroma+128)
		}
	}
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		if _, err := Find(context.Background(), img, 700, 150); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSnapCorner(b *testing.B) {
	cam := camera{w: 400, h: 300, focal: 0.9, pitch: 10, roll: 15, distance: 1000}
	q := cam.rect(-300, -100, 600, 200)
	img := scene{w: 400, h: 300, ground: flat(90, 90, 95), noise: 3, seed: 2, shapes: []shapeOn{{q[:], wood(-15)}}}.draw()
	b.ReportAllocs()
	for b.Loop() {
		SnapCorner(img, q[0].Add(geom.Pt(4, 3)), 14)
	}
}
