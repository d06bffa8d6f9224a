package tool

import (
	"testing"

	"heartside/layout/geom"
)

func TestClicks(t *testing.T) {
	b := newBench(t)
	start := b.Project()
	s := b.play(Arrange{}, press(300, 370), release(300, 370))
	if len(b.picked) != 1 || b.picked[0].Part != BoardStrip || b.picked[0].Strip != "A1" || s.Busy() {
		t.Errorf("one click: %+v, %T", b.picked, s)
	}
	// The second press comes as a double click in its place.
	s = b.play(s, double(300, 370), drag(340, 370), release(300, 370))
	if len(b.opened) != 1 || b.opened[0].Strip != "A1" || len(b.picked) != 1 || s.Busy() {
		t.Errorf("two clicks: opened %+v, picked %+v, %T", b.opened, b.picked, s)
	}
	s = b.play(s, press(300, 82.5), release(300, 82.5), press(300, 37.5), release(300, 37.5))
	if n := len(b.picked); n != 3 || b.picked[1].Strip != "4" || b.picked[2].Strip != "5" {
		t.Errorf("clicks on two places: %+v", b.picked[1:])
	}
	b.play(s, press(300, 560), release(300, 560))
	if b.last().Part != Nothing {
		t.Errorf("beside everything: %+v", b.last())
	}
	b.still(start)
}

func TestSecondaryButton(t *testing.T) {
	b := newBench(t)
	start := b.Project()
	s := b.play(Arrange{}, with(Secondary, press(300, 217.5)), with(Secondary, drag(302, 218)), with(Secondary, release(302, 218)))
	if len(b.menus) != 1 || b.menus[0].Strip != "A1" || b.panned != (geom.Point{}) || b.last().Strip != "A1" {
		t.Errorf("menus %+v, panned %v", b.menus, b.panned)
	}
	s = b.play(s, with(Secondary, press(300, 217.5)), with(Secondary, drag(310, 217.5)), with(Secondary, drag(340, 200)), with(Secondary, release(340, 200)))
	if len(b.menus) != 1 || b.panned != geom.Pt(40, -17.5) || b.panAt != geom.Pt(300, 217.5) || s.Busy() {
		t.Errorf("menus %d, panned %v at %v, %T", len(b.menus), b.panned, b.panAt, s)
	}
	b.still(start)
}

// Dragging the view moves it by as much as the pointer went, wherever that
// is, from the press on, and a gesture of the other tool goes on after it.
func TestPan(t *testing.T) {
	for name, c := range map[string]struct {
		tool   State
		button Button
		at     geom.Point
	}{
		"middle button over a strip":      {Arrange{}, Middle, geom.Pt(300, 370)},
		"middle button in the panel":      {Arrange{}, Middle, geom.Pt(300, 217.5)},
		"beside the strips of the panel":  {Arrange{}, Primary, geom.Pt(50, 100)},
		"beside everything":               {Arrange{}, Primary, geom.Pt(300, 560)},
		"folded board":                    {Arrange{}, Primary, geom.Pt(300, 610)},
		"zones, middle button":            {NewZones("sap", 0), Middle, geom.Pt(300, 340)},
		"zones, middle button, brush":     {NewZones("sap", 12), Middle, geom.Pt(300, 340)},
		"zones, secondary":                {NewZones("sap", 0), Secondary, geom.Pt(300, 340)},
		"zones, from a face":              {NewZones("sap", 0), Primary, geom.Pt(300, 340)},
		"zones, beside everything, brush": {NewZones("sap", 12), Primary, geom.Pt(300, 560)},
	} {
		b := newBench(t)
		start := b.Project()
		at := func(dx, dy float64) geom.Point { return c.at.Add(geom.Pt(dx, dy)) }
		s := b.play(c.tool, Event{Kind: Press, At: at(0, 0), Button: c.button})
		for _, d := range []geom.Point{{X: 6}, {X: 30, Y: -9}, {X: -11, Y: 4}, {X: 20, Y: 8}} {
			s = b.play(s, Event{Kind: Drag, At: at(d.X, d.Y), Button: c.button})
		}
		s = b.play(s, Event{Kind: Release, At: at(20, 8), Button: c.button}, Event{Kind: Hover, At: at(90, 90)})
		if b.panned != geom.Pt(20, 8) || b.panAt != c.at || len(b.menus) != 0 {
			t.Errorf("%s: panned %v at %v, %d menus", name, b.panned, b.panAt, len(b.menus))
		}
		if s != c.tool {
			t.Errorf("%s: the tool in hand became %#v", name, s)
		}
		if b.still(start); t.Failed() {
			t.Log(name)
		}
	}
	b := newBench(t)
	s := b.play(Arrange{}, with(Middle, press(300, 370)), with(Middle, drag(310, 370)), typed(Escape), with(Middle, drag(350, 370)))
	if b.panned != geom.Pt(10, 0) || s != (Arrange{}) {
		t.Errorf("Escape ends a drag of the view: %v, %T", b.panned, s)
	}
}

func TestHover(t *testing.T) {
	b := newBench(t)
	b.play(Arrange{}, hover(300, 370), hover(300, 82.5), Event{Kind: Leave})
	if h := b.hovers; len(h) != 3 || h[0].Strip != "A1" || h[1].Part != PanelPlace || h[2].Part != Nothing || h[2].Zone != -1 {
		t.Errorf("%+v", h)
	}
	// The brush shows under the pointer, on faces alone: (300, 340) is (400, 120).
	z := NewZones("flaw", 12)
	b.play(z, hover(300, 340))
	if k := b.sketch; k.Radius != 12 || k.Centre != geom.Pt(400, 120) || k.Board != "A" || k.Face != 1 || k.Kind != "flaw" {
		t.Errorf("brush %+v", k)
	}
	b.play(z, hover(300, 560))
	if b.sketch.Radius != 0 {
		t.Error("a brush beside the board")
	}
	b.play(z, hover(300, 340), Event{Kind: Leave})
	if b.sketch.Radius != 0 {
		t.Error("the brush stays when the pointer leaves")
	}
}
