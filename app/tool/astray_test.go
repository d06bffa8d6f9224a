package tool

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// A gesture may outlive what it holds: the project changes under it.
func TestTheProjectChangesUnderAGesture(t *testing.T) {
	const seed = 31
	for n := range uint64(400) {
		h := &hand{Rand: rand.New(rand.NewPCG(seed, n))}
		b := newBench(t)
		var s State = Arrange{}
		h.faces = n%2 == 1
		if h.faces {
			s = NewZones(model.Sap, float64(n%3)*10)
		}
		for range 12 {
			s = s.Handle(b, h.next())
		}
		var e model.Edit = model.RemoveBoard{ID: "A"}
		if n%5 == 0 {
			e = model.SetStrips{Panel: "top"}
		}
		if err := b.hist.Commit(e); err != nil {
			t.Fatal(err)
		}
		if b.Project().Board("A") == nil {
			// The window shows the other board then; the bench has but one place.
			h.faces = false
		}
		b.preview = nil
		for range 12 {
			ev := h.next()
			if ev.At.Y >= 280 && ev.At.Y <= 530 && b.Project().Board("A") == nil {
				ev.At.Y = 610
			}
			s = s.Handle(b, ev)
		}
		if s = b.play(s, Event{Kind: Release, At: geom.Pt(300, 560)}, typed(Escape)); b.preview != nil {
			t.Fatalf("seed %d, stream %d: a preview stands in %T", seed, n, s)
		}
	}
}

// A strip of the panel is no face to draw on, though its board and face are
// known: a place in the panel is none on the board.
func TestZonesAreNotDrawnOnThePanel(t *testing.T) {
	for name, brush := range map[string]float64{"corners": 0, "brush": 12} {
		b := newBench(t)
		start := b.Project()
		s := b.play(NewZones(model.Sap, brush), press(300, 217.5), release(300, 217.5))
		if s.Busy() {
			t.Errorf("%s: a zone was begun from the panel: %T", name, s)
		}
		b.still(start)
	}
}

// A folded board is too thin to draw on; a click takes it in hand.
func TestZonesAreNotDrawnOnAFoldedBoard(t *testing.T) {
	for name, brush := range map[string]float64{"corners": 0, "brush": 12} {
		b := newBench(t)
		start := b.Project()
		s := b.play(NewZones(model.Sap, brush), press(300, 610), release(300, 610))
		if s.Busy() || b.last().Board != "B" {
			t.Errorf("%s: %T, picked %+v", name, s, b.last())
		}
		b.still(start)
	}
}

// A strip dragged off its board over the panel stays one of its board, also
// where the strip under the pointer is of another.
func TestDragOverAPanelStripOfAnotherBoard(t *testing.T) {
	b := newBench(t)
	b.play(Arrange{}, press(300, 370), drag(310, 360), drag(300, 127.5), release(300, 127.5))
	if s := b.strip("A1"); s.Board != "A" {
		t.Errorf("A1 went to board %s at %v, %v", s.Board, s.X, s.Y)
	}
}

// Let go beside everything, a strip taken out of the panel stays where it was.
func TestDroppedBesideEverything(t *testing.T) {
	b := newBench(t)
	start := b.Project()
	b.play(Arrange{}, press(300, 82.5), drag(300, 340), drag(300, 560), release(300, 560))
	b.still(start)
}

// Whole degrees next to a right angle: -89.7 is -90, which is told as 90.
func TestTurnByWholeDegreesToARightAngle(t *testing.T) {
	for _, to := range []float64{-89.7, -90.2} {
		b := newBench(t)
		start := b.Project()
		sin, cos := math.Sincos(to * math.Pi / 180)
		at := onFace(1, geom.Pt(505+handleReach*cos, 55+handleReach*sin))
		s := b.play(Arrange{}, press(300, 370), release(300, 370))
		s = b.play(s, gesture(geom.Pt(605, 372.5), at, shift)...)
		b.wantOne(s, start)
		b.wantLies("A1", turned(90))
	}
}

// Snapping serves the direction of the gesture: along the panel and, with
// Shift, along the board nothing moves across.
func TestSnappingKeepsTheDirection(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to geom.Point
		held     func(Event) Event
		want     lies
	}{
		{"slid from 40 to 20", geom.Pt(300, 217.5), geom.Pt(310, 217.5), nil, lies{"A", 25, 10, 0}},
		{"along with Shift, to 140", geom.Pt(300, 370), geom.Pt(350, 366), shift, lies{"A", 140, 10, 0}},
		{"along with Shift, to 30", geom.Pt(300, 370), geom.Pt(295, 370), shift, lies{"A", 25, 10, 0}},
	} {
		b := newBench(t)
		b.snap = edgeSnap
		ev := gesture(c.from, c.to, c.held)
		b.play(Arrange{}, ev[0], ev[2], ev[3])
		if s := b.strip("A1"); !near(s.X, c.want.x) || !near(s.Y, c.want.y) {
			t.Errorf("%s: at %v, %v, want %v, %v", c.name, s.X, s.Y, c.want.x, c.want.y)
		}
	}
}

// A border that crosses itself is no zone: it is said, and what was drawn
// stays to be put right, as with too few corners.
func TestCrossingDrawingIsKept(t *testing.T) {
	b := newBench(t)
	start := b.Project()
	s := b.play(NewZones(model.Flaw, 0), events(click(300, 350), click(500, 320), click(500, 350), click(300, 310), []Event{typed(Enter)})...)
	if !s.Busy() || b.sketch.Say == "" || len(b.sketch.Ring) < 4 {
		t.Fatalf("the drawing is lost: %T, %+v", s, b.sketch)
	}
	b.still(start)
	b.play(s, typed(Backspace), typed(Enter))
	if len(b.zones(1)) != 2 {
		t.Error("put right, it is still refused")
	}
}

// A corner that was not set after all is not in hand: Delete then must not
// take another.
func TestCornerNotSetIsNotInHand(t *testing.T) {
	for name, ev := range map[string][]Event{
		"escape": {press(700, 380), drag(700, 370), typed(Escape), release(700, 370)},
		// From the edge at y = 40 to (1200, 0) and beyond: held to the marked
		// edge it lies on the opposite side, which is allowed; the closing
		// edge drawn to (2400, 100) crosses the third side.
		"crossing": {press(100, 390), drag(110, 390), drag(1300, 350), release(1300, 350)},
	} {
		b := newBench(t)
		s := b.play(inHand(b), ev...)
		if z, ok := s.(Zones); !ok || z.Vertex != -1 {
			t.Errorf("%s: in hand %+v", name, s)
		}
		if z := b.zones(1); len(z[0].Polygon) != 4 {
			t.Errorf("%s: %v", name, z)
		}
	}
}

// The second of two quick presses begins a stroke or a corner's move as the
// first does.
func TestQuickSecondPressWorks(t *testing.T) {
	b := newBench(t)
	s := b.play(NewZones(model.Sap, 12), press(500, 340), release(500, 340), double(500, 340), drag(600, 340), release(600, 340))
	if b.commits != 2 || s.Busy() {
		t.Errorf("brush: %d commits, %T", b.commits, s)
	}
	b = newBench(t)
	s = b.play(inHand(b), press(1300, 380), release(1300, 380), double(1300, 380), drag(1250, 370), release(1250, 370))
	if b.commits != 1 || s.Busy() {
		t.Errorf("corner: %d commits, %T", b.commits, s)
	}
}
