package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// click presses and releases at a pixel of the picture, of which one is two
// units.
func (s *faceStage) click(x, y float64) {
	at := geom.Pt(2*x, 2*y)
	s.p.corners.pic.MouseDown(s.mouse(at, desktop.MouseButtonPrimary))
	s.p.corners.pic.MouseUp(s.mouse(at, desktop.MouseButtonPrimary))
	s.q.drain()
}

// typed types the distance that is asked for and confirms.
func (s *faceStage) typed(t *testing.T, text string) {
	t.Helper()
	if s.asks == nil {
		t.Fatalf("it does not ask for the distance; it says %q", s.said)
	}
	f, ok := s.asks.q.focus.(*field)
	if !ok {
		t.Fatalf("the keys are with %T", s.asks.q.focus)
	}
	s.typing(f, text)
	s.asks.confirm()
	s.q.drain()
}

// The board of 300 x 60 mm is drawn as 300 x 60 pixels, seen straight down: 280
// pixels that are 350 mm make it 300 x 1.25 = 375 mm long and 75 mm wide.
func TestMeasuredByTape(t *testing.T) {
	s := cornersAt(t)
	s.types("m")
	s.click(60, 170)
	if s.asks != nil || !strings.Contains(s.status.text.Text, "second mark") {
		t.Fatalf("after the first mark it says %q", s.status.text.Text)
	}
	s.click(340, 170)
	s.typed(t, "350")
	if s.asks == nil || s.asks.q.title != "Measured by a tape" {
		t.Fatal("it shows no size")
	}
	got := saidIn(s.stage)
	for _, want := range []string{"300 mm", "375 mm", "+75 mm (+25.0 %)", "75 mm", "+15 mm (+25.0 %)", "Give or take"} {
		if !strings.Contains(got, want) {
			t.Errorf("it does not say %q in %q", want, got)
		}
	}
	if s.asks.q.yes != "Use this size" || s.p.unsaved() {
		t.Errorf("it proposes %q", s.asks.q.yes)
	}
	steps := s.steps()
	s.asks.confirm()
	s.q.drain()
	b := s.ses.Committed().Board("A")
	if b.Length != 375 || b.Width != 75 {
		t.Errorf("the board is %g x %g", b.Length, b.Width)
	}
	if s.steps() != steps+1 || s.ses.UndoLabel() != "Measure board A by a tape" {
		t.Errorf("%d changes, the last one %q", s.steps()-steps, s.ses.UndoLabel())
	}
	if s.page != page(s.p) || s.p.step != stepCorners || s.p.corners.tape.on {
		t.Error("the page does not go on with the corners")
	}
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	if m := s.p.zones.work.now.mask; m.Length != 375 || m.Width != 75 {
		t.Errorf("the face is %g x %g", m.Length, m.Width)
	}
	if s.p.unsaved() {
		t.Error("a size that is in the project counts as not kept")
	}
	s.act("undo")
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	if b := s.ses.Committed().Board("A"); b.Length != 300 || s.p.length != 300 || s.page != page(s.p) {
		t.Errorf("undone the board is %g long, the page's %g", b.Length, s.p.length)
	}
	s.act("redo")
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	if b := s.ses.Committed().Board("A"); b.Length != 375 || s.p.width != 75 {
		t.Errorf("done again the board is %g long, the page's %g wide", b.Length, s.p.width)
	}
}

// 280 pixels that are 281 mm make the board a third of a per cent longer: that
// agrees, and the size entered is what Enter keeps.
func TestTapeAgrees(t *testing.T) {
	s := cornersAt(t)
	s.types("m")
	s.click(60, 170)
	s.click(340, 170)
	s.typed(t, "281 mm")
	if got := saidIn(s.stage); !strings.Contains(got, "agrees") || s.asks.q.yes != "Keep the size entered" {
		t.Errorf("it says %q and proposes %q", got, s.asks.q.yes)
	}
	s.asks.confirm()
	s.q.drain()
	if b := s.ses.Committed().Board("A"); b.Length != 300 || s.steps() != 0 || s.p.corners.tape.on {
		t.Errorf("kept the board is %g long after %d changes", b.Length, s.steps())
	}
}

// All of it by key: 1 and 2 set the marks in the middle, arrows move them by
// half a pixel, with Shift by five.
func TestTapeByKeys(t *testing.T) {
	s := cornersAt(t)
	s.types("m1")
	s.surf.pointer.mods.Shift = true
	for range 20 {
		s.press(fyne.KeyLeft)
	}
	s.types("2")
	for range 20 {
		s.press(fyne.KeyRight)
	}
	s.surf.pointer.mods.Shift = false
	s.press(fyne.KeyUp)
	k := s.p.corners.tape
	if len(k.marks) != 2 || k.marks[0] != geom.Pt(100, 150) || k.marks[1] != geom.Pt(300, 149.5) {
		t.Fatalf("the marks are at %v", k.marks)
	}
	if len(s.p.corners.past) != 0 {
		t.Error("moving a mark moved the corners")
	}
	s.press(fyne.KeyReturn)
	s.typed(t, "250")
	if got := saidIn(s.stage); !strings.Contains(got, "375 mm") {
		t.Errorf("it says %q", got)
	}
	// A second stretch across: 40 pixels are too few.
	s.asks.cancel()
	s.types("3")
	s.press(fyne.KeyDown)
	s.types("4")
	s.press(fyne.KeyReturn)
	if s.asks != nil || !strings.Contains(s.status.text.Text, "pixels from one another") {
		t.Errorf("marks nearly together: it says %q", s.status.text.Text)
	}
	for n := 4; n > 0; n-- {
		if len(k.marks) != n {
			t.Fatalf("%d marks, want %d", len(k.marks), n)
		}
		s.press(fyne.KeyEscape)
	}
	if !s.p.corners.tape.on || k.told[0].known {
		t.Error("the last mark ends the measuring, or its distance stays")
	}
	s.press(fyne.KeyEscape)
	if s.p.corners.tape.on || s.page != page(s.p) {
		t.Error("Escape does not end the measuring first")
	}
}

// Two stretches settle both: along 280 pixels are 350 mm, and across 58 are
// 72.5. Seen straight down 58 mm across cannot be as well.
func TestTwoStretches(t *testing.T) {
	s := cornersAt(t)
	s.types("m")
	s.click(60, 170)
	s.click(340, 170)
	s.typed(t, "350")
	s.asks.cancel()
	s.click(200, 141)
	s.click(200, 199)
	s.typed(t, "72.5")
	got := saidIn(s.stage)
	for _, want := range []string{"375 mm", "75 mm", "both from the two stretches"} {
		if !strings.Contains(got, want) {
			t.Errorf("it does not say %q in %q", want, got)
		}
	}
	s.asks.cancel()
	s.press(fyne.KeyReturn)
	s.typed(t, "58")
	if got := saidIn(s.stage); !strings.Contains(got, "do not go together") || s.asks.q.yes != "Keep the size entered" {
		t.Errorf("it says %q and proposes %q", got, s.asks.q.yes)
	}
}

func TestTapeIsAskedForWhatItIs(t *testing.T) {
	s := cornersAt(t)
	s.types("m")
	s.click(60, 100)
	s.click(340, 100) // beside the board: on the ground
	if k := s.asks.q.focus.(*field); k.Text != "" {
		t.Errorf("the distance begins as %q", k.Text)
	}
	for text, want := range map[string]string{"": "istance", "0": "no size", "x": "istance", "99 m": "too long", "19 m": "the board would be"} {
		s.typed(t, text)
		if s.asks == nil || !strings.Contains(s.asks.trouble.Text, want) {
			t.Fatalf("%q: it says %q", text, s.asks.trouble.Text)
		}
	}
	s.typed(t, "280")
	if got := saidIn(s.stage); !strings.Contains(got, "lies on the ground") || !strings.Contains(got, "25 mm") {
		t.Errorf("it says %q", got)
	}
	s.asks.cancel()
	s.types("z") // no letter of the corners, but that leaves the step
	if s.p.corners.tape.on {
		t.Error("leaving the corners keeps the marks")
	}
}

func TestTapeWantsCorners(t *testing.T) {
	s := cornersAt(t)
	s.p.corners.lie.at = s.p.corners.lie.at[:3]
	s.types("m")
	if s.p.corners.tape.on || !strings.Contains(s.said, "all four corners") {
		t.Errorf("it says %q", s.said)
	}
}

// On a board twice as long and three times as wide a zone from 10 to 20 mm
// along goes from 20 to 40; sapwood 12 mm wide by the tape stays 12.
func TestBoardOfSize(t *testing.T) {
	b := model.NewBoard("A", "walnut-black", 300, 60, 25)
	c := boardCorners()
	box := func(x0, y0, x1, y1 float64) geom.Polygon { return geom.R(x0, y0, x1, y1).Polygon() }
	b.Faces[0] = model.Face{Photo: "a.png", Corners: &c, Zones: []model.Zone{{Kind: model.Sap, Polygon: box(10, 0, 20, 15)}},
		Outline: box(0, 5, 300, 55), Grain: [][]geom.Point{{{X: 1, Y: 1}, {X: 7, Y: 2}}}}
	b.Faces[1].Zones = model.FaceTapeZones(2, 300, 60, model.Tape{12, 12, 12}, model.Tape{})
	b.Pith = []model.Pith{{Across: 30}}
	got := boardOfSize(b, 600, 180)
	if q := got.Faces[0].Zones[0].Polygon.Bounds(); q != geom.R(20, 0, 40, 45) {
		t.Errorf("the zone covers %v", q)
	}
	if q := got.Faces[0].Outline.Bounds(); q != geom.R(0, 15, 600, 165) {
		t.Errorf("the outline covers %v", q)
	}
	if got.Faces[0].Grain[0][1] != geom.Pt(14, 6) || got.Pith[0].Across != 90 {
		t.Errorf("grain %v, pith %v", got.Faces[0].Grain, got.Pith)
	}
	if marked, other := model.FaceTape(got, 2); marked != (model.Tape{12, 12, 12}) || other != (model.Tape{}) {
		t.Errorf("taped sapwood is %v and %v", marked, other)
	}
	if b.Faces[0].Zones[0].Polygon.Bounds() != geom.R(10, 0, 20, 15) || b.Pith[0].Across != 30 {
		t.Error("the board it was made from changed")
	}
	// Every cell of a mask becomes two by three.
	m := photo.NewMask(3, 2, 1)
	m.Pix[1] = photo.Sap // second of the upper row
	if n := maskOfSize(m, 6, 6); n.At(2, 0) != photo.Sap || n.At(3, 2) != photo.Sap || n.At(4, 0) == photo.Sap || n.At(2, 3) == photo.Sap {
		t.Errorf("the mask is %v", n.Pix)
	}
}

// A face that was corrected and not kept yet is still to be kept after the
// board got another size.
func TestSizeKeepsWhatIsDrawn(t *testing.T) {
	s := cornersAt(t)
	s.types("z")
	s.types("m") // smooths: an act on the zones
	s.acts(t)
	if !s.p.unsaved() {
		t.Fatal("the act changed nothing")
	}
	s.types("c")
	s.p.corners.pic.Resize(fyne.NewSize(800, 600))
	s.types("m")
	s.click(60, 170)
	s.click(340, 170)
	s.typed(t, "350")
	s.asks.confirm()
	s.q.drain()
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	s.q.drain()
	if !s.p.unsaved() {
		t.Error("what was drawn is lost")
	}
	// The fake's act painted the first column.
	if m := s.p.zones.work.now.mask; m.Length != 375 || m.At(0, 0) != photo.Sap {
		t.Errorf("the mask is %g long and begins with %v", m.Length, m.At(0, 0))
	}
}

func TestTapeInEveryLook(t *testing.T) {
	for _, text := range []int{100, 200} {
		s := faceAt(t, smallBoard(), text)
		s.types("cm")
		s.p.corners.pic.Resize(fyne.NewSize(800, 600))
		for _, at := range []geom.Point{{X: 60, Y: 170}, {X: 340, Y: 165}} {
			s.click(at.X, at.Y)
			s.win.Canvas().Capture()
		}
		s.typed(t, "350")
		s.win.Canvas().Capture()
	}
}
