package tool

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// click is a press and a release.
func click(x, y float64) []Event { return []Event{press(x, y), release(x, y)} }

func events(parts ...[]Event) []Event {
	var out []Event
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

// On face 1 (300, 350), (500, 350) and (500, 320) are (400, 100), (800, 100)
// and (800, 160); on face 2 the same x lie at y2 = 2 (518 - py).
var (
	corners = events(click(300, 350), click(500, 350), click(500, 320))
	wedge   = ring(400, 100, 800, 100, 800, 160)
)

func TestDrawAZone(t *testing.T) {
	enter := []Event{typed(Enter)}
	for _, c := range []struct {
		name   string
		events []Event
		face   int
		want   geom.Polygon
	}{
		{"closed with Enter", events(corners, enter), 1, wedge},
		{"closed with a double click", events(corners, []Event{double(500, 320), release(500, 320)}), 1, wedge},
		{"hovering between", events(click(300, 350), []Event{hover(310, 300)}, click(500, 350), click(500, 320), enter), 1, wedge},
		{"a corner pressed twice counts once", events(click(300, 350), click(500, 350), click(500, 350), click(500, 320), enter), 1, wedge},
		{"a corner taken back", events(click(300, 350), click(500, 350), click(700, 300), []Event{typed(Backspace)}, click(500, 320), enter), 1, wedge},
		{"other buttons set no corner", events(click(300, 350), []Event{with(Middle, press(310, 310)), with(Secondary, press(320, 310))}, click(500, 350), click(500, 320), enter), 1, wedge},
		{"Enter too early, then on", events(click(300, 350), click(500, 350), enter, click(500, 320), enter), 1, wedge},
		{"on face 2", events(click(300, 440), click(500, 440), click(500, 470), enter), 2, ring(400, 156, 800, 156, 800, 96)},
		{"corners are held to the board", events(click(300, 350), click(300, 250), click(50, 250), click(20, 390), enter), 1, ring(400, 100, 400, 210, 0, 210, 0, 20)},
		{"Control begins on top of a zone", events([]Event{press(300, 390), control(release(300, 390))}, click(500, 390), click(500, 350), enter), 1, ring(400, 20, 800, 20, 800, 100)},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			was := len(b.zones(c.face))
			s := b.play(NewZones(model.Flaw, 0), c.events...)
			b.wantOne(s, start)
			z := b.zones(c.face)
			if len(z) != was+1 || z[was].Kind != model.Flaw || !reflect.DeepEqual(z[was].Polygon, c.want) {
				t.Fatalf("zones %v, want %v", z, c.want)
			}
			if b.hist.UndoLabel() != "Draw a flaw zone on board A" {
				t.Errorf("label %q", b.hist.UndoLabel())
			}
			if h := s.(Zones); h.Board != "A" || h.Face != c.face || h.Zone != was || b.last().Zone != was {
				t.Errorf("in hand %+v, picked %+v", h, b.last())
			}
			if b.sketch.Ring != nil {
				t.Error("the drawing stays on screen")
			}
		})
	}
}

func TestAZoneIsNotDrawn(t *testing.T) {
	for _, c := range []struct {
		name   string
		events []Event
		busy   bool
	}{
		{"escape", events(corners, []Event{typed(Escape)}), false},
		{"all corners taken back", events(corners, []Event{typed(Backspace), typed(Delete), typed(Backspace)}), false},
		{"two corners", events(click(300, 350), click(500, 350), []Event{typed(Enter)}), true},
		{"in a line", events(click(300, 350), click(500, 350), click(700, 350), []Event{typed(Enter)}), true},
		{"the double click that begins", events(click(300, 350), []Event{double(300, 350), release(300, 350)}), true},
		{"escape before the first release", []Event{press(300, 350), typed(Escape), release(300, 350)}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			s := b.play(NewZones(model.Flaw, 0), c.events...)
			if b.still(start); s.Busy() != c.busy {
				t.Errorf("%T", s)
			}
			if !c.busy && b.sketch.Ring != nil {
				t.Error("the drawing stays on screen")
			}
			if c.busy && b.sketch.Say == "" {
				t.Error("nothing is said")
			}
			if s = b.play(s, typed(Escape)); s.Busy() || b.sketch.Ring != nil {
				t.Errorf("escape leaves %T", s)
			}
		})
	}
}

// inHand is the tool with the sap zone of face 1 clicked. Its corners stand at
// (100, 400), (1300, 400), (1300, 380) and (100, 380).
func inHand(b *bench) State {
	b.t.Helper()
	s := b.play(NewZones(model.Flaw, 0), click(700, 390)...)
	if z := s.(Zones); z.Board != "A" || z.Face != 1 || z.Zone != 0 || z.Vertex != -1 || b.last().Zone != 0 {
		b.t.Fatalf("in hand %+v", z)
	}
	return s
}

func TestBendAZone(t *testing.T) {
	out := ring(0, 0, 2400, 0, 2300, 60, 0, 40)
	for _, c := range []struct {
		name   string
		events []Event
		want   geom.Polygon
		label  string
	}{
		{"a corner to (2300, 60)", gesture(geom.Pt(1300, 380), geom.Pt(1250, 370), nil), out, "Move a corner of a zone on board A"},
		{"taken a little off it", []Event{press(1297, 383), drag(1000, 300), drag(1250, 370), release(1250, 370)}, out, "Move a corner of a zone on board A"},
		{"held to the board", gesture(geom.Pt(1300, 380), geom.Pt(1400, 280), nil), ring(0, 0, 2400, 0, 2400, 210, 0, 40), "Move a corner of a zone on board A"},
		{"an edge to (1200, 60)", gesture(geom.Pt(700, 380), geom.Pt(700, 370), nil), ring(0, 0, 2400, 0, 2400, 40, 1200, 60, 0, 40), "Add a corner of a zone on board A"},
		{"the closing edge to (60, 20)", gesture(geom.Pt(100, 390), geom.Pt(130, 390), nil), ring(0, 0, 2400, 0, 2400, 40, 0, 40, 60, 20), "Add a corner of a zone on board A"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			s := inHand(b)
			start := b.Project()
			s = b.play(s, c.events...)
			b.wantOne(s, start)
			if z := b.zones(1); len(z) != 1 || z[0].Kind != model.Sap || !reflect.DeepEqual(z[0].Polygon, c.want) {
				t.Errorf("zones %v, want %v", z, c.want)
			}
			if b.hist.UndoLabel() != c.label {
				t.Errorf("label %q", b.hist.UndoLabel())
			}
		})
	}
	for name, ev := range map[string][]Event{
		"escape":          {press(1300, 380), drag(1250, 370), typed(Escape), drag(1200, 370), release(1200, 370)},
		"escape, edge":    {press(700, 380), drag(700, 370), typed(Escape), drag(700, 360), release(700, 360)},
		"click":           click(1300, 380),
		"click, edge":     click(700, 380),
		"within slack":    {press(1300, 380), drag(1302, 381), release(1302, 381)},
		"a click besides": click(700, 390),
	} {
		b := newBench(t)
		s := inHand(b)
		start := b.Project()
		if s = b.play(s, ev...); s.Busy() {
			t.Errorf("%s: still %T", name, s)
		}
		b.still(start)
	}
}

func TestDeleteCornersAndZones(t *testing.T) {
	b := newBench(t)
	s := inHand(b)
	start := b.Project()
	// Set a corner in the third edge and take it away again.
	s = b.play(s, events(gesture(geom.Pt(700, 380), geom.Pt(700, 370), nil), []Event{typed(Delete)})...)
	if z := b.zones(1); b.commits != 2 || !reflect.DeepEqual(z, start.Board("A").Faces[0].Zones) {
		t.Fatalf("%d commits, zones %v", b.commits, z)
	}
	// A corner that is only clicked is in hand too: (2400, 40) goes.
	s = b.play(s, events(click(1300, 380), []Event{typed(Backspace)})...)
	if z := b.zones(1); len(z) != 1 || !reflect.DeepEqual(z[0].Polygon, ring(0, 0, 2400, 0, 0, 40)) {
		t.Fatalf("zones %v", z)
	}
	// Three corners can spare none: the zone goes.
	s = b.play(s, events(click(100, 380), []Event{typed(Delete)})...)
	if len(b.zones(1)) != 0 || b.last().Zone != -1 || s.(Zones).Zone != -1 {
		t.Fatalf("zones %v, in hand %+v", b.zones(1), s)
	}
	n := b.commits
	if b.play(s, typed(Delete)); b.commits != n || b.sketch.Say == "" {
		t.Error("with nothing in hand, Delete does something or says nothing")
	}
	for range 4 {
		b.hist.Undo()
	}
	if b.Project() != start {
		t.Error("undone, it is not the start")
	}
	// Taken from the start itself, a corner leaves the start as it was.
	b = newBench(t)
	start = b.Project()
	b.play(inHand(b), events(click(1300, 380), []Event{typed(Delete)})...)
	if b.commits != 1 || !reflect.DeepEqual(start, table()) {
		t.Errorf("%d commits, the start became %v", b.commits, start.Board("A").Faces[0].Zones)
	}
	b = newBench(t)
	b.play(inHand(b), typed(Delete))
	if len(b.zones(1)) != 0 || b.hist.UndoLabel() != "Delete a zone on board A" {
		t.Errorf("zone in hand: %v, %q", b.zones(1), b.hist.UndoLabel())
	}
	// What is in hand may be gone by the time.
	b = newBench(t)
	s = inHand(b)
	if err := b.Commit(model.SetZones{Board: "A", Face: 1}); err != nil {
		t.Fatal(err)
	}
	if b.play(s, typed(Delete)); b.commits != 1 {
		t.Error("a zone that is gone was deleted")
	}
}

func TestZoneMenu(t *testing.T) {
	b := newBench(t)
	s := b.play(NewZones(model.Sap, 0), with(Secondary, press(700, 390)), with(Secondary, release(700, 390)))
	if len(b.menus) != 1 || b.menus[0].Zone != 0 || b.last().Zone != 0 || s.Busy() {
		t.Errorf("menus %+v, picked %+v, %T", b.menus, b.last(), s)
	}
}
