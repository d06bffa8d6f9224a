package cutting

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// bare takes nothing but the kerf.
var bare = Allowances{Kerf: 3}

// A blank from 0, 0 to 450, 89 of a board of 1000 x 200, by hand: beyond its
// end and a kerf 547 x 200 = 109400 mm2, above it and a kerf 1000 x 108 =
// 108000 mm2.
func TestFreeByHand(t *testing.T) {
	b := board("A", 1000, 200)
	s := []face.Strip{strip("s", b, 25, 4.5, 400, 80, 0), strip("elsewhere", board("B", 9, 9), 600, 100, 300, 50, 0)}
	want := []geom.Rect{geom.R(453, 0, 1000, 200), geom.R(0, 92, 1000, 200)}
	if got := Free(b, s, plain); !reflect.DeepEqual(got, want) {
		t.Errorf("free %v, want %v", got, want)
	}
	if got := Free(b, nil, plain); !reflect.DeepEqual(got, []geom.Rect{geom.R(0, 0, 1000, 200)}) {
		t.Errorf("an empty board: %v", got)
	}
	if got := Free(b, []face.Strip{strip("all", b, 25, 4.5, 950, 191, 0)}, plain); len(got) != 0 {
		t.Errorf("a full board: %v", got)
	}
	if got := Free(board("Z", 0, 0), nil, plain); len(got) != 0 {
		t.Errorf("no board: %v", got)
	}
}

// The waney outline of face 1 rises to 30 in the middle, that of face 2 takes
// 10 off the other edge: the rectangle over the whole length is 160 high.
func TestFreeKeepsToBothOutlines(t *testing.T) {
	b := board("A", 1000, 200)
	b.Faces[0].Outline = geom.Polygon{{X: 0, Y: 0}, {X: 500, Y: 30}, {X: 1000, Y: 0}, {X: 1000, Y: 200}, {X: 0, Y: 200}}
	b.Faces[1].Outline = b.Other().ApplyTo(geom.R(0, 0, 1000, 190).Polygon())
	got := Free(b, nil, plain)
	if len(got) == 0 || got[0].Min.Dist(geom.Pt(0, 30)) > 1e-6 || got[0].Max.Dist(geom.Pt(1000, 190)) > 1e-6 {
		t.Fatalf("largest %v, want 0, 30 to 1000, 190", got)
	}
	for _, r := range got {
		for _, q := range r.Inset(1e-6).Polygon() {
			if !b.Faces[0].Outline.Contains(q) || q.Y > 190 {
				t.Errorf("%v leaves an outline at %v", r, q)
			}
		}
	}
}

// Rectangles on whole numbers against trying every rectangle of whole numbers.
func TestFreeAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for n := 0; n < 12; n++ {
		const step, nx, ny = 25, 24, 10
		b := board("A", step*nx, step*ny)
		var strips []face.Strip
		var taken [nx][ny]bool
		for k := 0; k < 1+n%4; k++ {
			x, y, w, h := rng.IntN(nx-4), rng.IntN(ny-2), 1+rng.IntN(4), 1+rng.IntN(2)
			strips = append(strips, strip("s", b, float64(x*step), float64(y*step), float64(w*step), float64(h*step), 0))
			for i := x; i < x+w; i++ {
				for j := y; j < y+h; j++ {
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
		for x0 := 0; x0 < nx; x0++ {
			for x1 := x0 + 1; x1 <= nx; x1++ {
				for y0 := 0; y0 < ny; y0++ {
					for y1 := y0 + 1; y1 <= ny; y1++ {
						if clear(x0, y0, x1, y1) && !clear(x0-1, y0, x1, y1) && !clear(x0, y0-1, x1, y1) && !clear(x0, y0, x1+1, y1) && !clear(x0, y0, x1, y1+1) {
							want[geom.R(float64(x0*step), float64(y0*step), float64(x1*step), float64(y1*step))] = true
						}
					}
				}
			}
		}
		got := Free(b, strips, Allowances{})
		last := math.Inf(1)
		for _, r := range got {
			if !want[r] {
				t.Errorf("%v is not the largest it could be, or not clear", r)
			}
			if a := r.W() * r.H(); a > last {
				t.Errorf("%v comes too late", r)
			} else {
				last = a
			}
		}
		if len(got) != len(want) {
			t.Errorf("%d rectangles, want %d", len(got), len(want))
		}
	}
}

// Beside a slanted blank every free rectangle keeps a kerf away.
func TestFreeBesideASlantedBlank(t *testing.T) {
	b := board("A", 1000, 300)
	s := strip("s", b, 200, 60, 500, 80, 12)
	got := Free(b, []face.Strip{s}, plain)
	if len(got) < 4 {
		t.Fatalf("only %v", got)
	}
	blank := Blank(&s, plain)
	for _, r := range got {
		if c := Clearance(r.Polygon(), blank); c < plain.Kerf-1e-6 {
			t.Errorf("%v lies %.3f from the blank", r, c)
		}
	}
}

func TestCutsByHand(t *testing.T) {
	b := board("A", 2400, 220)
	strips := []face.Strip{
		strip("late", b, 1300, 30, 900, 80, 0),
		strip("far", b, 100, 110, 900, 80, 0),
		strip("near", b, 60, 10, 930, 80, 0),
		strip("elsewhere", board("B", 100, 100), 0, 0, 10, 10, 0),
	}
	got := Cuts(b, strips, plain)
	want := []Cut{
		// Blanks: near 35 to 1015, far 75 to 1025; late begins at 1275. The
		// first length ends with the longer of its two, at 1025.
		{Strip: "near", Order: 1, Section: 1, CrossAt: 1025, Start: 35, End: 1015, Kerf: 3,
			Near: [2]Mark{{35, 5.5}, {1015, 5.5}}, Far: [2]Mark{{35, 94.5}, {1015, 94.5}}},
		{Strip: "far", Order: 2, Section: 1, CrossAt: 1025, Start: 75, End: 1025, Kerf: 3,
			Near: [2]Mark{{75, 105.5}, {1025, 105.5}}, Far: [2]Mark{{75, 194.5}, {1025, 194.5}}},
		{Strip: "late", Order: 3, Section: 2, Start: 1275, End: 2225, Kerf: 3,
			Near: [2]Mark{{1275, 25.5}, {2225, 25.5}}, Far: [2]Mark{{1275, 114.5}, {2225, 114.5}}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("cuts\n%+v\nwant\n%+v", got, want)
	}
}

// A 3-4-5 slope: over 400 along the strip its rip lines rise 240 in 320.
func TestCutsOfASlantedStripOnAWaneyBoard(t *testing.T) {
	b := board("A", 1000, 600)
	b.Faces[0].Outline = geom.Polygon{{X: 0, Y: 10}, {X: 500, Y: 25}, {X: 1000, Y: 5}, {X: 1000, Y: 600}, {X: 0, Y: 600}}
	if got := Line(b); math.Abs(got-25) > 1e-9 {
		t.Fatalf("line at %g, want 25, the innermost of the wane", got)
	}
	s := strip("s", b, 200, 100, 400, 50, math.Atan2(3, 4)*180/math.Pi)
	got := Cuts(b, []face.Strip{s}, bare)
	if len(got) != 1 {
		t.Fatal(got)
	}
	c := got[0]
	for _, m := range []struct {
		got  Mark
		x, y float64
	}{
		{c.Near[0], 200, 100}, {c.Near[1], 520, 340}, {c.Far[0], 170, 140}, {c.Far[1], 490, 380},
	} {
		if math.Abs(m.got.X-m.x) > 1e-6 || math.Abs(m.got.Offset-(m.y-25)) > 1e-6 {
			t.Errorf("mark %v, want %g, %g", m.got, m.x, m.y-25)
		}
	}
	if math.Abs(c.Start-170) > 1e-6 || math.Abs(c.End-520) > 1e-6 {
		t.Errorf("from %g to %g, want 170 to 520", c.Start, c.End)
	}
}
