package session

import (
	"math"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/cup"
	"heartside/model"
)

func sapTo(n, line int) []bool {
	out := make([]bool, n)
	for i := range line {
		out[i] = true
	}
	return out
}

// Sapwood 40 mm wide on the show face and 60 on the back of a section 100 by 20:
// straight between them, by hand half of the section. All sapwood is the whole
// section, none is nothing.
func TestSapSection(t *testing.T) {
	area := func(sap [2][]bool) (sum float64) {
		for _, p := range sapSection(sap, 100, 20) {
			sum += math.Abs(p.Area())
		}
		return sum
	}
	for _, c := range []struct {
		name     string
		sap      [2][]bool
		want, by float64
	}{
		{"40 and 60", [2][]bool{sapTo(200, 80), sapTo(200, 120)}, 0.5, 0.005},
		{"all", [2][]bool{sapTo(200, 200), sapTo(200, 200)}, 1, 1e-9},
		{"none", [2][]bool{sapTo(200, 0), sapTo(200, 0)}, 0, 1e-9},
		{"all and none", [2][]bool{sapTo(200, 200), sapTo(200, 0)}, 0.5, 1e-9}, // no line on either: half way down
	} {
		if got := area(c.sap); math.Abs(got-c.want) > c.by {
			t.Errorf("%s: %v of the section, want %v", c.name, got, c.want)
		}
	}
	// Rolled over about its length front and rear change places, and so do the
	// faces.
	box := geom.Polygon{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 20}, {X: 50, Y: 20}, {X: 0, Y: 20}}
	for _, c := range []struct {
		rolled   bool
		at, want geom.Point
	}{{false, geom.Pt(0, 0), geom.Pt(0, 20)}, {false, geom.Pt(0.75, 1), geom.Pt(75, 0)}, {true, geom.Pt(0, 0), geom.Pt(100, 0)}} {
		if got := endLay(box, c.rolled)(c.at); got.Dist(c.want) > 1e-9 {
			t.Errorf("rolled %v: %v lies at %v, want %v", c.rolled, c.at, got, c.want)
		}
	}
}

// The end view draws what was asked for: the two seasons bend opposite ways,
// heart side up opposite to bark side up (the exact map is the same but for the
// few hundredths that the width across the face differs), and the sapwood lies
// in the section.
func TestEndView(t *testing.T) {
	p := oneStrip("walnut-black", 200, 9, 7, 11)
	b := p.Boards[0]
	b.Pith = []model.Pith{{Across: 110, Depth: 60}}
	b.Bark = model.BarkFace1
	b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 0, 1100, 60).Polygon()}}
	s := New(p, Options{})
	dry, wet := s.EndView("top", EndLook{}), s.EndView("top", EndLook{Wet: true})
	if dry == nil || wet == nil || dry.Bow*wet.Bow >= 0 {
		t.Fatalf("dry %+v, wet %+v", dry, wet)
	}
	up, down := s.EndView("top", EndLook{Layup: cup.LaidHeartUp}), s.EndView("top", EndLook{Layup: cup.LaidBarkUp})
	if up.Bow*down.Bow >= 0 {
		t.Errorf("heart side up bows by %v, bark side up by %v", up.Bow, down.Bow)
	}
	if len(dry.Woods) != 1 || len(dry.Woods[0].Sapwood) == 0 {
		t.Fatal("no sapwood is drawn")
	}
	for _, w := range dry.Woods[0].Sapwood {
		if r := w.Bounds(); r.Min.X < -1 || r.Max.X > 60 { // front, where it lies on face 1
			t.Errorf("the sapwood lies at %v", r)
		}
	}
	if dry.Front != "front" || dry.Back != "back" {
		t.Errorf("the edges are called %q and %q", dry.Front, dry.Back)
	}
	if s.EndView("none", EndLook{}) != nil {
		t.Error("a panel that is not there has an end")
	}
}

// The hinge of a door stays where it is, the middle of a top.
func TestYearWidthSaysWhatStays(t *testing.T) {
	p := oneStrip("walnut-black", 200, 9, 7, 11)
	if y, ok := New(p, Options{}).YearWidth("top"); !ok || y.Stays != 0.5 || !(y.Dry < y.Now && y.Now < y.Wet) {
		t.Errorf("%+v, %v", y, ok)
	}
	p.Panels[0].Role = model.RoleDoor
	if y, _ := New(p, Options{}).YearWidth("top"); y.Stays != 0 || y.Front != "hinge" {
		t.Errorf("%+v", y)
	}
}

// What the maker measured is the shift, to the digit; nothing known is none.
func TestAgeShift(t *testing.T) {
	p := oneStrip("walnut-black", 200, 9, 7, 11)
	from, to := colour.Lab{L: 38, A: 8, B: 16}, colour.Lab{L: 44, A: 10, B: 21}
	p.Colours = []model.Colours{{Species: "walnut-black", Years: 0, Heart: &from}, {Species: "walnut-black", Years: 10, Heart: &to}}
	s := New(p, Options{})
	b := s.Board("A")
	got := s.AgeShift("top", 10)(b, 1, face.Heart)
	if want := (colour.Lab{L: 6, A: 2, B: 5}); math.Abs(got.L-want.L)+math.Abs(got.A-want.A)+math.Abs(got.B-want.B) > 1e-9 {
		t.Errorf("heartwood shifts by %v, want %v", got, want)
	}
	if got := s.AgeShift("top", 10)(b, 1, face.Flaw); got != (colour.Lab{}) {
		t.Errorf("a flaw shifts by %v", got)
	}
	if s.AgeShift("none", 10) != nil {
		t.Error("a panel that is not there ages")
	}
}

// The bow told is the greater of the two forms, whatever its sign.
func TestMostBow(t *testing.T) {
	for _, c := range [][3]float64{{0.1, 0.6, 0.6}, {-0.9, 0.3, -0.9}, {0.2, -0.5, -0.5}} {
		p := &cup.Panel{Smooth: cup.Shape{Sagitta: c[0]}, Glued: cup.Shape{Sagitta: c[1]}}
		if got := mostBow(p); got != c[2] {
			t.Errorf("of %g and %g it tells %g", c[0], c[1], got)
		}
	}
}
