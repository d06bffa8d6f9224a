package stock

import (
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// By hand: out of 100 x 50 a box from 40, 20 to 60, 50 leaves 40 x 50 left of
// it, 40 x 50 right of it and 100 x 20 under it; together 5000 - 600 mm2.
func TestCarveByHand(t *testing.T) {
	got := carve([]geom.Rect{geom.R(0, 0, 100, 50)}, geom.R(40, 20, 60, 50), 1, 1)
	want := []geom.Rect{geom.R(0, 0, 40, 50), geom.R(60, 0, 100, 50), geom.R(0, 0, 100, 20)}
	if len(got) != len(want) {
		t.Fatalf("rooms %v, want %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("room %d: %v, want %v", i, got[i], want[i])
		}
	}
	layouttest.Near(t, "union", union(got), 4400, 1e-9)
	if got = carve(want, geom.R(0, 0, 100, 50), 1, 1); len(got) != 0 {
		t.Errorf("all taken: %v", got)
	}
}

// Rooms and their union against cells: a rectangle of whole cells that meets no
// box and cannot grow is a room, and the other way round.
func TestCarveAgainstCells(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 8))
	const nx, ny = 9, 6
	for range 60 {
		var taken [nx][ny]bool
		rooms := []geom.Rect{geom.R(0, 0, nx, ny)}
		for range 1 + rng.IntN(4) {
			x, y := rng.IntN(nx), rng.IntN(ny)
			w, h := 1+rng.IntN(3), 1+rng.IntN(3)
			rooms = carve(rooms, geom.R(float64(x), float64(y), float64(x+w), float64(y+h)), 1, 1)
			for i := x; i < min(nx, x+w); i++ {
				for j := y; j < min(ny, y+h); j++ {
					taken[i][j] = true
				}
			}
		}
		clear := func(x0, y0, x1, y1 int) bool {
			if x0 < 0 || y0 < 0 || x1 > nx || y1 > ny {
				return false
			}
			for i := x0; i < x1; i++ {
				for j := y0; j < y1; j++ {
					if taken[i][j] {
						return false
					}
				}
			}
			return true
		}
		want := map[geom.Rect]bool{}
		free := 0.0
		for x0 := range nx {
			for y0 := range ny {
				if !taken[x0][y0] {
					free++
				}
				for x1 := x0 + 1; x1 <= nx; x1++ {
					for y1 := y0 + 1; y1 <= ny; y1++ {
						if clear(x0, y0, x1, y1) && !clear(x0-1, y0, x1, y1) && !clear(x0, y0-1, x1, y1) && !clear(x0, y0, x1+1, y1) && !clear(x0, y0, x1, y1+1) {
							want[geom.R(float64(x0), float64(y0), float64(x1), float64(y1))] = true
						}
					}
				}
			}
		}
		if len(rooms) != len(want) {
			t.Fatalf("%d rooms, want %d", len(rooms), len(want))
		}
		for _, r := range rooms {
			if !want[r] {
				t.Errorf("room %v is none", r)
			}
		}
		layouttest.Near(t, "union", union(rooms), free, 1e-9)
	}
}
