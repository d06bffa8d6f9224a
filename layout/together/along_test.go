package together

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// spot is a streak of a drawer front: sapwood from x0 to x1 along and y0 to y1
// across, in the coordinates of the front.
type spot struct{ x0, x1, y0, y1 float64 }

// front is a drawer front of 400 x 100 mm of one strip, with streaks. 20 mm come
// off each end and 5 off each edge.
func front(id string, spots ...spot) *face.Panel {
	p := &face.Panel{ID: id, Length: 400, Width: 100, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
	b := &face.Board{ID: id + "A", Length: 440, Width: 110, Thickness: 25}
	for _, s := range spots {
		b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(s.x0+20, s.y0+5, s.x1+20, s.y1+5).Polygon()})
	}
	p.Strips = []face.Strip{{ID: b.ID, Board: b, L: 440, W: 110, Up: 1}}
	return p
}

func readRow(t *testing.T, panels ...*face.Panel) *face.Reading {
	t.Helper()
	f, err := Of(panels, Layout{Way: Along, Gap: 4})
	if err != nil {
		t.Fatal(err)
	}
	var r Reader
	return r.Read(f)
}

func streaksOf(r *face.Reading) (n int) {
	for _, w := range r.Warnings {
		if w.Kind == face.LoneStreak {
			n++
		}
	}
	return n
}

// By hand: two fronts of 400 x 100 with a gap of 4 make 804 x 100, of which
// 80 000 mm2 are wood. A streak of 20 x 200 in each makes 10 %. The left one
// lies from x 50 to 250 and y 20 to 40; the right front begins at 404, its own
// lies from 404 + 150 to 404 + 350.
func TestRowIsOneFace(t *testing.T) {
	l, r := front("l", spot{50, 250, 20, 40}), front("r", spot{150, 350, 20, 40})
	f, err := Of([]*face.Panel{l, r}, Layout{Way: Along, Gap: 4})
	if err != nil {
		t.Fatal(err)
	}
	if f.Panel.Length != 804 || f.Panel.Width != 100 || f.Panel.Shape != nil || f.Places[1] != geom.R(404, 0, 804, 100) {
		t.Fatalf("%g x %g, %v", f.Panel.Length, f.Panel.Width, f.Places)
	}
	var rd Reader
	read := rd.Read(f)
	if a := read.Show.Area; math.Abs(a-80_000) > 1e-6 {
		t.Errorf("%g mm2 of wood, by hand 80 000", a)
	}
	if v := read.Show.Light.Value; math.Abs(v-0.1) > 1e-9 {
		t.Errorf("sapwood %g, by hand 0.1", v)
	}
	// Their centres lie at y = 30, 20 of 100 in front of the middle.
	if b := read.Show.Balance; math.Abs(b+0.2) > 1e-9 {
		t.Errorf("balance %g, by hand -0.2", b)
	}
	if len(read.Show.Bands) != 2 {
		t.Fatalf("%d bands: 304 mm lie between the two", len(read.Show.Bands))
	}
	for i, want := range []geom.Rect{geom.R(50, 20, 250, 40), geom.R(554, 20, 754, 40)} {
		at := read.Show.Bands[i].Place
		if at.Min.Dist(want.Min) > 1e-6 || at.Max.Dist(want.Max) > 1e-6 {
			t.Errorf("band %d at %v, by hand %v", i, at, want)
		}
	}
	for _, w := range read.Warnings {
		if w.Kind == face.PanelTooSmall {
			t.Errorf("%s: %s", w.Kind, w.Why)
		}
	}
}

// What a row says of drawn cases. Fronts of 400 x 100, gap 4: the row is 804
// long, its middle at 402, and a mirrored pair may be 40 off (5 %).
func TestStreaksOfARow(t *testing.T) {
	full := spot{0, 400, 20, 40}
	for _, c := range []struct {
		name   string
		row    []*face.Panel
		lone   int
		excuse face.Excuse // of the first band
	}{
		{"no streak", []*face.Panel{front("l"), front("r")}, 0, ""},
		{"a streak in the left one alone", []*face.Panel{front("l", spot{50, 250, 20, 40}), front("r")}, 1, ""},
		// Seen in the mirror the right one lies from 804-754 = 50 to 250.
		{"mirrored about the middle of the row", []*face.Panel{front("l", spot{50, 250, 20, 40}), front("r", spot{150, 350, 20, 40})}, 0, face.ExcuseMirror},
		// At 60 to 80 it is 40 off across, and more than 15 mm.
		{"the same at another height", []*face.Panel{front("l", spot{50, 250, 20, 40}), front("r", spot{150, 350, 60, 80})}, 2, ""},
		// 404+20 to 404+60, seen in the mirror from 340 to 380: nothing over it.
		{"too short and elsewhere", []*face.Panel{front("l", spot{50, 250, 20, 40}), front("r", spot{200, 330, 60, 66})}, 2, ""},
		// 104 mm lie between the two, so that the face takes them for one; each
		// ends 50 mm from the gap.
		{"mirrored near the gap", []*face.Panel{front("l", spot{150, 350, 20, 40}), front("r", spot{50, 250, 20, 40})}, 0, face.ExcuseMirror},
		// One line of 804 mm off the middle, as in a single top.
		{"running on over the gap", []*face.Panel{front("l", full), front("r", full)}, 1, ""},
		// Along the front edge of both, 10 mm wide: an edge band of the row.
		{"along one edge of the row", []*face.Panel{front("l", spot{0, 400, 0, 10}), front("r", spot{0, 400, 0, 10})}, 0, face.ExcuseEdge},
		// Along the edge of one front alone: 400 of 804, under 80 %.
		{"along the edge of one front", []*face.Panel{front("l", spot{0, 400, 0, 10}), front("r")}, 1, ""},
		// y 15 to 25 and 75 to 85: 20 + 80 = 100, the width.
		{"both mirrored about the long line", []*face.Panel{front("l", spot{0, 400, 15, 25}, spot{0, 400, 75, 85}), front("r", spot{0, 400, 15, 25}, spot{0, 400, 75, 85})}, 0, face.ExcuseMirror},
		{"three in a row, the outer two mirrored", []*face.Panel{front("l", spot{50, 250, 20, 40}), front("m"), front("r", spot{150, 350, 20, 40})}, 0, face.ExcuseMirror},
		{"three in a row, one in the middle", []*face.Panel{front("l"), front("m", spot{100, 300, 20, 40}), front("r")}, 1, ""},
	} {
		r := readRow(t, c.row...)
		if n := streaksOf(r); n != c.lone && !(c.lone == 2 && n == 1) { // two at one height are told as one
			t.Errorf("%s: %d streaks alone, by hand %d", c.name, n, c.lone)
		}
		lone := 0
		for _, b := range r.Show.Bands {
			if b.Lone {
				lone++
			}
		}
		if lone != c.lone {
			t.Errorf("%s: %d bands stand alone, by hand %d", c.name, lone, c.lone)
		}
		if c.excuse != "" && (len(r.Show.Bands) == 0 || r.Show.Bands[0].Excuse != c.excuse) {
			t.Errorf("%s: %+v, by hand %s", c.name, r.Show.Bands, c.excuse)
		}
	}
}

// Two halves of 10 mm meet along the joint of each front, which lies at y = 30
// and not in the middle. In each it is a deliberate band; cut apart by the gap
// it is still.
func TestJointsOfARow(t *testing.T) {
	one := func(id string, rear float64) *face.Panel {
		p := &face.Panel{ID: id, Length: 400, Width: 100, Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
		for i, w := range [2]float64{30, 70} {
			b := &face.Board{ID: id + string(rune('A'+i)), Length: 440, Width: w, Thickness: 20}
			y := [2][2]float64{{20, 30}, {0, rear}}[i]
			b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, y[0], 440, y[1]).Polygon()}}
			p.Strips = append(p.Strips, face.Strip{ID: b.ID, Board: b, L: 440, W: w, Up: 1})
		}
		return p
	}
	r := readRow(t, one("l", 10), one("r", 10))
	if n := streaksOf(r); n != 0 || len(r.Show.Bands) != 1 || r.Show.Bands[0].Excuse != face.ExcuseJoint {
		t.Errorf("%d streaks, %+v", n, r.Show.Bands)
	}
	// 10 against 25 mm in the right front: more than twice as wide, no such band.
	if n := streaksOf(readRow(t, one("l", 10), one("r", 25))); n != 1 {
		t.Errorf("unlike halves: %d streaks, by hand one", n)
	}
}

// A row of fronts of different heights: 400 x 100 and 400 x 80 lie about one
// line, the second from y = 10 to 90. The wood is 40 000 + 32 000 mm2.
func TestRowOfUnlikeFronts(t *testing.T) {
	l, r := front("l"), front("r", spot{0, 400, 0, 8})
	r.Width = 80
	r.Strips[0].W, r.Strips[0].Board.Width = 90, 90 // 5 come off either edge
	f, err := Of([]*face.Panel{l, r}, Layout{Way: Along, Gap: 4})
	if err != nil {
		t.Fatal(err)
	}
	var rd Reader
	read := rd.Read(f)
	if math.Abs(read.Show.Area-72_000) > 1e-6 || f.Places[1] != geom.R(404, 10, 804, 90) {
		t.Errorf("%g mm2, right one at %v", read.Show.Area, f.Places[1])
	}
	if len(read.Show.Bands) != 1 || math.Abs(read.Show.Bands[0].Front-400.0/804) > 1e-3 {
		t.Errorf("%+v: it lies along the edge of its own front, 400 of 804", read.Show.Bands)
	}
}
