package sheet

import (
	"slices"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// sapBoard is 1000 x 200 with sap of the given widths along the marked edge of
// face 1 and of face 2, and the flaws given on face 1.
func sapBoard(one, two float64, flaws ...geom.Rect) *face.Board {
	b := &face.Board{ID: "A", Species: "walnut-black", Length: 1000, Width: 200, Thickness: 26}
	if one > 0 {
		b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(0, 0, 1000, one).Polygon()})
	}
	if two > 0 { // on face 2 the marked edge lies at the top
		b.Faces[1].Zones = append(b.Faces[1].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(0, 200-two, 1000, 200).Polygon()})
	}
	for _, r := range flaws {
		b.Faces[0].Zones = append(b.Faces[0].Zones, face.Zone{Kind: face.Flaw, Polygon: r.Polygon()})
	}
	return b
}

// whole is a strip of the whole board.
func whole(b *face.Board, up int, turned bool) place {
	return place{label: "A", strip: &face.Strip{ID: "1", Board: b, L: 1000, W: 200, Up: up, Turned: turned}}
}

// Pairs judged by hand. The same board lying another way has the same widths to
// find: it cannot be told from itself.
func TestToldApart(t *testing.T) {
	plain := sapBoard(20, 30)
	narrow := whole(sapBoard(20, 30), 1, false)
	narrow.strip.W = 190
	for name, c := range map[string]struct {
		a, b place
		same bool
	}{
		"as it lies":            {whole(plain, 1, false), whole(sapBoard(20, 30), 1, false), true},
		"turned end for end":    {whole(plain, 1, false), whole(plain, 1, true), true},
		"rolled over":           {whole(plain, 1, false), whole(plain, 2, false), true},
		"both":                  {whole(plain, 1, false), whole(plain, 2, true), true},
		"3 mm off":              {whole(plain, 1, false), whole(sapBoard(23, 30), 1, false), true},
		"4 mm off":              {whole(plain, 1, false), whole(sapBoard(24, 30), 1, false), false},
		"off on the other face": {whole(plain, 1, false), whole(sapBoard(20, 34), 1, false), false},
		"faces changed over":    {whole(plain, 1, false), whole(sapBoard(30, 20), 1, false), true}, // rolled over and turned
		"mirrored":              {whole(sapBoard(20, 30, geom.R(300, 90, 320, 110)), 1, false), whole(sapBoard(20, 30, geom.R(680, 90, 700, 110)), 1, false), false},
		"narrower":              {whole(plain, 1, false), narrow, false},
		"a knot":                {whole(plain, 1, false), whole(sapBoard(20, 30, geom.R(300, 90, 320, 110)), 1, false), false},
		"knots 2 mm apart":      {whole(sapBoard(20, 30, geom.R(302, 90, 322, 110)), 1, true), whole(sapBoard(20, 30, geom.R(300, 90, 320, 110)), 2, false), true},
	} {
		got := false
		for _, a := range findAlike([]place{c.a, c.b}) {
			got = got || len(a.parts) == 2
		}
		if got != c.same {
			t.Errorf("%s: alike %v, want %v", name, got, c.same)
		}
	}
}

// A strip without sapwood looks the same every way round; one with sap along
// one edge of one face does not: turned it comes to the other edge, rolled over
// to the other face.
func TestLooksTheSameAnotherWay(t *testing.T) {
	if got := findAlike([]place{whole(sapBoard(0, 0), 1, false)}); len(got) != 1 {
		t.Errorf("plain heartwood: %v", got)
	}
	if got := findAlike([]place{whole(sapBoard(20, 0), 1, false)}); len(got) != 0 {
		t.Errorf("sap along one edge: %v", got)
	}
}

func TestNickText(t *testing.T) {
	for n, want := range map[int]string{0: "–", 1: "1", 4: "4", 5: "1 long", 7: "1 long + 2", 12: "2 long + 2"} {
		if got := nickText(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// The sheet says so: the two plain strips of the demo's left side, B2 and E1,
// are of one size and without sapwood where they show.
func TestSheetOrdersNicks(t *testing.T) {
	f := faces(t)
	in := load(t, demo(t), A4, f)
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	for _, title := range []string{"Panel left-side", "Board B", "Board E"} {
		all := ""
		for i, p := range d.Pages {
			if p.Title == title {
				all += flat(look(t, d, i, f)) + " "
			}
		}
		for _, want := range []string{"Nicks", "saw nicks", "marked end"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s does not say %q", title, want)
			}
		}
	}
	b := newBuilder(&in)
	b.findNicks()
	var seen []string
	for _, a := range b.alike {
		for i, p := range a.parts {
			if b.nicks[p.strip] != i+1 {
				t.Errorf("strip %s has %d nicks, want %d", p.label, b.nicks[p.strip], i+1)
			}
			seen = append(seen, p.label)
		}
	}
	slices.Sort(seen)
	if len(slices.Compact(seen)) != len(seen) {
		t.Errorf("strips in two sets: %v", seen)
	}
	none := *in.Project
	none.Allowances.Ends = 0
	in.Project = &none
	b = newBuilder(&in)
	b.findNicks()
	if len(b.nicks) != 0 || !strings.Contains(b.nickOrder(in.allPlaces()), "end grain") {
		t.Error("nicks are ordered where blanks have no waste")
	}
}

// Widths measured after planing stand under "as planed", the zones' under "as
// sawn": 20 mm of sap on the board, 12 measured.
func TestPlanedWidthsStandApart(t *testing.T) {
	p := whole(sapBoard(20, 30), 1, false)
	p.strip.Planed = &face.PlanedFace{Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 1000, 12).Polygon()}}}
	p.panel = &model.Panel{ID: "top", Thickness: 20}
	in := load(t, demo(t), A4, faces(t))
	b := newBuilder(&in)
	row := b.checkTable(p.strip.Board, []place{p}).rows[0]
	i := slices.Index(row, "20 / 20 / 20")
	if i < 0 || row[i+1] != "12 / 12 / 12" {
		t.Errorf("row %q", row)
	}
}

// A panel with places empty is not ready, and a panel whose back is seen shows
// it: its sap drawn with the front edge at the top.
func TestEmptyPlacesAndBack(t *testing.T) {
	f := faces(t)
	in := load(t, demo(t), A4, f)
	top := *in.Panels[0].Panel
	top.BothShow = true
	in.Panels = slices.Clone(in.Panels)
	in.Panels[0].Panel = &top
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for i, p := range d.Pages {
		if p.Title != "Panel top" {
			text += flat(look(t, d, i, f))
		} else if v := look(t, d, i, f); strings.Contains(flat(v), "The back,") {
			first, last := v.one(in.number("top", top.Strips[0].ID), 0), v.one(in.number("top", top.Strips[len(top.Strips)-1].ID), 0)
			if !(first.at.Y < last.at.Y) || !(v.one("front", 0).at.Y < v.one("back", 0).at.Y) {
				t.Error("on the back the front edge does not lie at the top")
			}
			text += "seen "
		}
	}
	if !strings.HasPrefix(text, "seen ") {
		t.Error("the back is not drawn")
	}
	if !strings.Contains(text, "2 places empty, not ready to cut") {
		t.Error("empty places are not counted")
	}
}
