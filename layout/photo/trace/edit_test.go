package trace

import (
	"math"
	"slices"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

func count(m *photo.Mask, l photo.Label) (n int) {
	for _, k := range m.Pix {
		if k == l {
			n++
		}
	}
	return n
}

func TestBrushPaintsAStroke(t *testing.T) {
	m := painted(200, 100, 1, func(_, _ float64) photo.Label { return photo.Heart })
	before := slices.Clone(m.Pix)
	out, err := Brush(m, []geom.Point{{X: 30, Y: 20}, {X: 130, Y: 20}}, 10, photo.Sap)
	if err != nil {
		t.Fatal(err)
	}
	// 100 mm of 10 mm and a round end at both: 1000 + pi 25 mm2.
	if got, want := float64(count(out, photo.Sap)), 1000+math.Pi*25; math.Abs(got-want) > 8 {
		t.Errorf("painted %g mm2, want %.1f", got, want)
	}
	// y is up: row 80 of 100 lies at y = 19.5.
	if out.At(80, 80) != photo.Sap || out.At(80, 19) != photo.Heart || out.At(24, 80) != photo.Heart || out.At(25, 80) != photo.Sap {
		t.Error("the stroke lies elsewhere")
	}
	if !slices.Equal(before, m.Pix) {
		t.Error("the mask handed in was changed")
	}
	// Off the face, and finer than a cell.
	if out, err = Brush(m, []geom.Point{{X: -500, Y: 3}, {X: 7.2, Y: 50.1}}, 0.01, photo.Flaw); err != nil || out.At(7, 49) != photo.Flaw {
		t.Errorf("a fine brush left nothing: %v", err)
	}
}

func TestFillPaintsARing(t *testing.T) {
	m := painted(200, 100, 2, func(_, _ float64) photo.Label { return photo.Heart })
	// A triangle of 60 x 40 mm: 1200 mm2, 4800 cells.
	out, err := Fill(m, geom.Polygon{{X: 20, Y: 10}, {X: 80, Y: 10}, {X: 20, Y: 50}}, photo.Unseen)
	if err != nil {
		t.Fatal(err)
	}
	if got := count(out, photo.Unseen); got < 4700 || got > 4900 {
		t.Errorf("%d cells, want 4800", got)
	}
	if out.At(2*22, 2*(100-12)) != photo.Unseen || out.At(2*78, 2*(100-48)) != photo.Heart {
		t.Error("the ring lies elsewhere")
	}
}

func TestStraightLineMovesTheBorder(t *testing.T) {
	// Sap up to 30 mm with a hump to 50 from x = 60 to 100 and a dent to 22 from
	// 120 to 150, a knot over the border, an island of sap in the dent's way.
	m := painted(240, 100, 1, func(x, y float64) photo.Label {
		edge := 30.0
		switch {
		case x > 60 && x < 100:
			edge = 50
		case x > 120 && x < 150:
			edge = 22
		}
		switch {
		case math.Hypot(x-110, y-30) < 6:
			return photo.Flaw
		case y < edge || math.Hypot(x-80, y-80) < 8:
			return photo.Sap
		}
		return photo.Heart
	})
	for _, ends := range [2][2]geom.Point{{{X: 40, Y: 30}, {X: 200, Y: 34}}, {{X: 200, Y: 34}, {X: 40, Y: 30}}} {
		out, err := StraightLine(m, ends[0], ends[1], 10)
		if err != nil {
			t.Fatal(err)
		}
		for k, l := range out.Pix {
			x, y := float64(k%m.W)+0.5, m.Width-float64(k/m.W)-0.5
			want := m.Pix[k]
			// Between the ends the line alone parts the two woods.
			if line := 30 + (x-40)/160*4; want != photo.Flaw && x > 40 && x < 200 && y < 60 {
				if math.Abs(y-line) < 0.01 {
					continue
				}
				want = photo.Heart
				if y < line {
					want = photo.Sap
				}
			}
			if math.Abs(x-40) < 1 || math.Abs(x-200) < 1 {
				continue // the ends join the old border there
			}
			if l != want {
				t.Fatalf("%g, %g is %d, want %d", x, y, l, want)
			}
		}
	}
	for _, c := range []struct {
		a, b geom.Point
		say  string
	}{
		{geom.Pt(40, 70), geom.Pt(200, 30), "within 10 mm of 40.0, 70.0"},
		{geom.Pt(40, 30), geom.Pt(80, 72), "different borders"},
		{geom.Pt(40, 30), geom.Pt(40, 30), "two places"},
		{geom.Pt(math.NaN(), 30), geom.Pt(40, 30), "no place"},
	} {
		if _, err := StraightLine(m, c.a, c.b, 10); err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("from %v to %v: %v, want %q", c.a, c.b, err, c.say)
		}
	}
}

func TestSmoothKeepsAreasAndStraightBorders(t *testing.T) {
	straight := painted(300, 120, 1, func(x, y float64) photo.Label {
		switch {
		case math.Hypot(x-150, y-40) < 5:
			return photo.Flaw
		case y < 40:
			return photo.Sap
		}
		return photo.Heart
	})
	out, err := Smooth(straight, 12)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(out.Pix, straight.Pix) {
		t.Error("a straight border moved")
	}
	// Teeth of 6 mm, 8 mm apart, on a border at 40: the smooth border lies at
	// their mean.
	teeth := painted(320, 120, 1, func(x, y float64) photo.Label {
		if y < 37+6*float64(int(x/4)%2) {
			return photo.Sap
		}
		return photo.Heart
	})
	out, err = Smooth(teeth, 16)
	if err != nil {
		t.Fatal(err)
	}
	if count(out, photo.Sap) != count(teeth, photo.Sap) || count(out, photo.Heart) != count(teeth, photo.Heart) {
		t.Error("an area changed")
	}
	for k, l := range out.Pix {
		y := teeth.Width - float64(k/teeth.W) - 0.5
		if y < 39 && l != photo.Sap || y > 41 && l != photo.Heart {
			t.Fatalf("at %d, %g lies %d", k%teeth.W, y, l)
		}
	}
	if _, err := Smooth(teeth, -1); err == nil {
		t.Error("smoothed over -1 mm")
	}
}

func TestComponents(t *testing.T) {
	got, err := Components(drawn("hhs", "shs", "ssh"))
	if err != nil {
		t.Fatal(err)
	}
	want := []Component{
		{Kind: photo.Heart, Cells: 3, Area: 3, Bounds: geom.R(0, 1, 2, 3)},
		{Kind: photo.Sap, Cells: 2, Area: 2, Bounds: geom.R(2, 1, 3, 3), Column: 2},
		{Kind: photo.Sap, Cells: 3, Area: 3, Bounds: geom.R(0, 0, 2, 2), Row: 1},
		{Kind: photo.Heart, Cells: 1, Area: 1, Bounds: geom.R(2, 0, 3, 1), Column: 2, Row: 2},
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %v\nwant %v", got, want)
	}
}

func TestEditsRefuseBadInput(t *testing.T) {
	good := drawn("hs")
	bad := []*photo.Mask{nil, {}, {W: 2, H: 2, Length: 1, Width: 1, Pix: make([]photo.Label, 3)}, {W: 1, H: 1, Pix: make([]photo.Label, 1)}, {W: 1, H: 1, Length: 1, Width: 1, Pix: []photo.Label{9}}}
	ring := geom.Polygon{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}}
	for i, m := range bad {
		_, e1 := Brush(m, ring, 1, photo.Sap)
		_, e2 := Fill(m, ring, photo.Sap)
		_, e3 := StraightLine(m, ring[0], ring[1], 1)
		_, e4 := Smooth(m, 1)
		_, e5 := Components(m)
		_, _, e6 := Polygons(m, Defaults())
		for k, err := range []error{e1, e2, e3, e4, e5, e6} {
			if err == nil {
				t.Errorf("mask %d passed edit %d", i, k)
			}
		}
	}
	far := geom.Polygon{{X: 0, Y: 0}, {X: math.Inf(1), Y: 0}, {X: 0, Y: 1}}
	_, e1 := Brush(good, far, 1, photo.Sap)
	_, e2 := Brush(good, ring, math.NaN(), photo.Sap)
	_, e3 := Brush(good, nil, 1, photo.Sap)
	_, e4 := Brush(good, ring, 1, 7)
	_, e5 := Fill(good, far, photo.Sap)
	_, e6 := Fill(good, ring[:2], photo.Sap)
	_, e7 := Rasterise([]Zone{{photo.Sap, far}}, photo.Heart, 10, 10, 1)
	_, e8 := Rasterise(nil, photo.Heart, 1e5, 1e5, 1)
	_, e9 := Rasterise(nil, photo.Heart, 10, -1, 1)
	_, _, e10 := Polygons(good, Options{Tolerance: math.NaN()})
	for k, err := range []error{e1, e2, e3, e4, e5, e6, e7, e8, e9, e10} {
		if err == nil {
			t.Errorf("bad input %d passed", k+1)
		}
	}
}
