package outline

import (
	"context"
	"image"
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// A sheet drawn on the ground beside a board through a pinhole; both sizes are
// those drawn.
func TestSheetGivesTheScale(t *testing.T) {
	cam := camera{w: 800, h: 600, focal: 0.9, pitch: 12, roll: 4, distance: 1300}
	sheet, board := cam.rect(-200, 120, A4.Long, A4.Short), cam.rect(-400, -200, 820, 160)
	s := scene{w: 800, h: 600, ground: flat(110, 108, 100), noise: 3, seed: 4, shapes: []shapeOn{
		{sheet[:], flat(228, 228, 224)}, {board[:], wood(-4)},
	}}
	got, sure, err := Sheet(context.Background(), s.draw(), A4)
	if err != nil {
		t.Fatal(err)
	}
	if sure < 0.5 {
		t.Errorf("confidence %.2f in a plain sheet", sure)
	}
	wantCorners(t, s, got, sheet, 0.7)
	l, w, err := SizeFromSheet(photo.View{Corners: board}, got, A4, 0, s.w, s.h)
	if err != nil {
		t.Fatal(err)
	}
	// A third of a pixel in 180 of the sheet is 0.2 %; a board beside it, twice that.
	if math.Abs(l-820) > 6 || math.Abs(w-160) > 3 {
		t.Errorf("board of %.1f x %.1f mm, want 820 x 160", l, w)
	}
}

// A face 40 mm above the ground, seen straight down from 1000 mm above the
// sheet, looks 1000/960 as large: worked from similar triangles.
func TestSizeFromSheetReckonsWithThickness(t *testing.T) {
	cam := camera{w: 1000, h: 750, focal: 0.9, distance: 1000}
	sheet := cam.rect(-100, 120, A4.Long, A4.Short)
	cam.distance = 960
	board := cam.rect(-350, -200, 700, 150)
	for _, c := range []struct{ thick, length, width float64 }{{40, 700, 150}, {0, 700 / 0.96, 150 / 0.96}} {
		l, w, err := SizeFromSheet(photo.View{Corners: board}, sheet, A4, c.thick, 1000, 750)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(l-c.length) > 0.5 || math.Abs(w-c.width) > 0.5 {
			t.Errorf("%g mm thick: %.1f x %.1f, want %.1f x %.1f", c.thick, l, w, c.length, c.width)
		}
	}
	if _, _, err := SizeFromSheet(photo.View{Corners: board}, [4]geom.Point{}, A4, 0, 1000, 750); err == nil {
		t.Error("a sheet of no size gave a scale")
	}
}

func TestNoSheet(t *testing.T) {
	cam := camera{w: 400, h: 300, focal: 0.9, distance: 1300}
	board := cam.rect(-400, -100, 820, 160)
	s := scene{w: 400, h: 300, ground: flat(110, 108, 100), noise: 3, seed: 4, shapes: []shapeOn{{board[:], wood(0)}}}
	if _, sure, err := Sheet(context.Background(), s.draw(), A4); err == nil && sure > 0.5 {
		t.Errorf("a board is a sheet: %.2f", sure)
	}
	if _, _, err := Sheet(context.Background(), nil, Letter); err == nil {
		t.Error("a sheet in no picture")
	}
	if _, _, err := Sheet(context.Background(), image.NewRGBA(image.Rect(0, 0, 100, 100)), Paper{}); err == nil {
		t.Error("a sheet of no size")
	}
}
