package ui

import (
	"context"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/model"
)

// cornersAt shows the corners of the face at 2 units a pixel: the picture of
// 400 x 300 fills a room of 800 x 600.
func cornersAt(t *testing.T) *faceStage {
	t.Helper()
	s := faceAt(t, smallBoard(), 100)
	s.types("c")
	s.p.corners.pic.Resize(fyne.NewSize(800, 600))
	return s
}

func (s *faceStage) dragCorner(from, to geom.Point) {
	p := s.p.corners.pic
	p.MouseDown(s.mouse(from, desktop.MouseButtonPrimary))
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: position(from.Lerp(to, 0.5))}})
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: position(to)}})
	p.MouseUp(s.mouse(to, desktop.MouseButtonPrimary))
	p.DragEnd()
}

func TestCornerDragsAndSnaps(t *testing.T) {
	s := cornersAt(t)
	c := s.p.corners
	// Corner 1 lies at pixel (50, 200), so at (100, 400) of the room. Without
	// snapping it follows the pointer: 10 units are 5 pixels.
	c.snap = false
	s.dragCorner(geom.Pt(100, 400), geom.Pt(110, 390))
	if got := c.lie.at[0]; got.Dist(geom.Pt(55, 195)) > 0.01 {
		t.Errorf("dragged 10 units the corner is at %v, want (55, 195)", got)
	}
	if !c.lie.trust[0].mine || c.lie.trust[0].words() != "✓ set by you" {
		t.Errorf("it says %q", c.lie.trust[0].words())
	}
	c.snap = true
	s.dragCorner(geom.Pt(110, 390), geom.Pt(106, 394))
	// The board's corner in the picture is where its pixels end: (50, 200).
	if got := c.lie.at[0]; got.Dist(geom.Pt(50, 200)) > 1 {
		t.Errorf("with snapping it is at %v, want (50, 200) within a pixel", got)
	}
	s.surf.pointer.mods.Control = true // Ctrl holds snapping off
	s.dragCorner(geom.Pt(2*c.lie.at[0].X, 2*c.lie.at[0].Y), geom.Pt(106, 394))
	s.surf.pointer.mods.Control = false
	if got := c.lie.at[0]; got.Dist(geom.Pt(53, 197)) > 0.01 {
		t.Errorf("with Ctrl it is at %v, want (53, 197)", got)
	}
	for _, want := range []int{2, 1, 0} {
		s.act("undo")
		if len(c.past) != want {
			t.Fatalf("each drag is not one act: %d are left, want %d", len(c.past), want)
		}
	}
	if !slices.Equal(c.lie.at, pointsOf(boardCorners())) || s.p.unsaved() {
		t.Errorf("undoing all gives %v", c.lie.at)
	}
}

func pointsOf(c [4]geom.Point) []geom.Point { return c[:] }

func TestCornerByKeys(t *testing.T) {
	s := cornersAt(t)
	c := s.p.corners
	s.types("2")
	for range 3 {
		s.press(fyne.KeyLeft)
	}
	s.surf.pointer.mods.Shift = true
	s.press(fyne.KeyUp)
	s.surf.pointer.mods.Shift = false
	c.pic.KeyUp(&fyne.KeyEvent{Name: fyne.KeyUp})
	// At 2 units a pixel a key moves by a unit, half a pixel; with Shift ten.
	if got := c.lie.at[1]; got.Dist(geom.Pt(348.5, 195)) > 1e-9 {
		t.Errorf("corner 2 is at %v, want (348.5, 195)", got)
	}
	if len(c.past) != 1 {
		t.Errorf("a run of arrows made %d acts", len(c.past))
	}
}

// Turning end for end gives each corner the name of the one across: a shift by
// two in the order. Anticlockwise as seen stays anticlockwise.
func TestTurningRelabelsByTwo(t *testing.T) {
	s := cornersAt(t)
	c, b := s.p.corners, boardCorners()
	c.lie.trust[0] = cornerTrust{known: true, sure: 0.1}
	s.types("t")
	if want := []geom.Point{b[2], b[3], b[0], b[1]}; !slices.Equal(c.lie.at, want) {
		t.Fatalf("turned: %v, want %v", c.lie.at, want)
	}
	if !c.lie.trust[2].doubtful() || c.lie.trust[0].doubtful() {
		t.Error("how sure a corner is does not go with it")
	}
	if err := c.good(); err != nil {
		t.Errorf("turned corners are refused: %v", err)
	}
	if got := lieWords(1, c.lie.at); !strings.Contains(got, "marked end is right and the marked edge at the top") {
		t.Errorf("it says %q", got)
	}
	s.types("t")
	if !slices.Equal(c.lie.at, b[:]) {
		t.Error("turning twice is not as before")
	}
}

// Zones made by hand turn with the board: (x, y) goes to (300 - x, 60 - y).
func TestZonesTurnWithTheBoard(t *testing.T) {
	s := cornersAt(t)
	f := s.ses.Committed().Board("A").Faces[0]
	f.Split = &model.Split{By: model.SplitChecked, Sure: 1}
	f.Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 20}, {X: 0, Y: 20}}}}
	s.commit(model.SetFace{Board: "A", Face: 1, Value: f})
	s.q.drain()
	s.show(t, smallBoard())
	at := func(x, y float64) photo.Label { // the mask has a cell a mm, its first row at y = 60
		return s.p.zones.work.now.mask.At(int(x), int(60-y))
	}
	if at(50.5, 10.5) != photo.Sap || at(250.5, 50.5) == photo.Sap {
		t.Fatal("the zones by hand are not what the page begins with")
	}
	s.types("ct")
	s.press(fyne.KeyReturn)
	if s.asks != nil {
		t.Fatal("a turn alone asks about the zones")
	}
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	if at(250.5, 50.5) != photo.Sap || at(50.5, 10.5) == photo.Sap {
		t.Error("the zones did not turn with the board")
	}
	s.press(fyne.KeyReturn)
	s.q.wait(t, "the entry", func() bool { return s.steps() == 2 })
	if got := s.ses.Committed().Board("A").Faces[0].Corners[0]; got != boardCorners()[2] {
		t.Errorf("corner 1 of the project is %v", got)
	}
}

func TestNewCornersAskAboutZonesByHand(t *testing.T) {
	s := cornersAt(t)
	f := s.ses.Committed().Board("A").Faces[0]
	f.Split = &model.Split{By: model.SplitChecked, Sure: 1}
	s.commit(model.SetFace{Board: "A", Face: 1, Value: f})
	s.q.drain()
	s.show(t, smallBoard())
	s.types("c")
	s.typing(s.p.corners.figures, "48,201, 350,200, 350,140, 50,140")
	s.win.Canvas().Focus(s.p.home())
	s.press(fyne.KeyReturn)
	if s.asks == nil || s.asks.q.other != "Split again" {
		t.Fatal("zones by hand are not asked about")
	}
	s.asks.confirm()
	s.q.wait(t, "the face", func() bool { return s.p.zones.work != nil })
	if got := s.p.corners.used.at[0]; got != geom.Pt(48, 201) {
		t.Errorf("the figures gave corner 1 at %v", got)
	}
}

// Corners of a project file come without a word on how sure they are.
func TestCornersAreJudgedWhenLookedAt(t *testing.T) {
	s := cornersAt(t)
	s.q.wait(t, "the judgement", func() bool { return s.p.corners.lie.measured })
	if l := s.p.corners.lie; !slices.Equal(l.at, pointsOf(boardCorners())) || !l.trust[3].doubtful() || l.trust[0].doubtful() {
		t.Errorf("judged: %+v", l)
	}
	if s.p.unsaved() || s.act("undo") {
		t.Error("judging the corners counts as an act")
	}
}

func TestSnapEdgesTellsWhatItMeasured(t *testing.T) {
	s := cornersAt(t)
	s.types("e")
	s.q.wait(t, "the edges", func() bool { return s.p.corners.busy == "" })
	if got := s.p.side.edges.Text; !strings.Contains(got, "0.3 mm") {
		t.Errorf("the edges are told as %q", got)
	}
	if got := s.p.side.lie.Text; !strings.Contains(got, "⚠ look") || !strings.Contains(got, "✓ sure") {
		t.Errorf("the corners are told as %q", got)
	}
	s.types("f") // the fake finds nothing
	s.q.wait(t, "the search", func() bool { return s.p.corners.busy == "" })
	if !strings.Contains(s.status.text.Text, "not found") {
		t.Errorf("the line says %q", s.status.text.Text)
	}
}

// With the division model r' = r / (1 + b r^2), the middle of the upper side
// of a 400 x 300 picture lies 150 from the middle, 0.6 of half the diagonal of
// 250. Its corners stay where they were given; with b = 0 all is straight.
func TestEdgesAreDrawnAsTheLensBowsThem(t *testing.T) {
	a, b := geom.Pt(50, 10), geom.Pt(350, 10)
	if got := bend(photo.LensOf(400, 300, 0), a, b); got > 1e-9 {
		t.Errorf("without bow an edge bends by %g", got)
	}
	l := photo.LensOf(400, 300, -0.1)
	line := bowedEdge(l, a, b)
	for i := range line { // where the lens is taken out, the edge is straight
		p, q, r := l.Straight(line[0]), l.Straight(line[i]), l.Straight(line[len(line)-1])
		if d := math.Abs((q.Sub(p)).Cross(r.Sub(p))) / p.Dist(r); d > 0.02 {
			t.Errorf("point %d lies %g pixels off the straight edge", i, d)
		}
	}
	if mid := line[len(line)/2]; mid.Y >= 10 { // a barrel bulges outwards, here up
		t.Errorf("the middle of the upper edge is at %v", mid)
	}
}

// Found the other way round, the corners keep the names they had.
func TestFindingKeepsTheEnds(t *testing.T) {
	b := boardCorners()
	l := faceLie{at: b[:]}
	f := &outline.Found{View: photo.View{Corners: [4]geom.Point{b[2], b[3], b[0], b[1]}}, Confidence: [4]float64{0.1, 1, 1, 1}}
	got := l.found(f)
	if !slices.Equal(got.at, b[:]) || got.turned {
		t.Errorf("found %v, turned %v", got.at, got.turned)
	}
	if !got.trust[2].doubtful() || got.trust[0].doubtful() {
		t.Error("how sure a corner is does not go with its place")
	}
}

func TestPicturesOfAnySize(t *testing.T) {
	for _, img := range []image.Image{
		image.NewRGBA(image.Rect(0, 0, 1, 1)), smallBoard(), image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420),
	} {
		s := faceAt(t, img, 100)
		for _, keys := range []string{"e", "d", "0", "1", "+", "c", "1", "+", "0", "z"} {
			s.types(keys)
			s.win.Canvas().Capture()
		}
		s.p.corners.pic.snapped(geom.Pt(0, 0))
		s.q.drain()
	}
}

func TestFaceWithoutCornersIsLookedFor(t *testing.T) {
	s := &faceStage{stage: open(t, faceProject(), 100)}
	f := model.Face{Photo: "a1.png", Known: true, Split: &model.Split{By: model.SplitOpen}}
	s.commit(model.SetFace{Board: "A", Face: 1, Value: f})
	img := smallBoard()
	p := s.showFace("A", 1, faceMeans{
		open: func(context.Context, string) (image.Image, error) { return img, nil },
		find: realMeans().find,
		editor: func(_ context.Context, sq *photo.Squared, _ *photo.Mask, _ geom.Polygon) (faceEditor, error) {
			return newFakeEditor(sq.Length, sq.Width), nil
		},
	})
	s.q.wait(t, "the search", func() bool { return p.img != nil && p.corners.busy == "" })
	if p.step != stepCorners {
		t.Error("a face without corners does not begin with them")
	}
	// The board is drawn with its corners at whole pixels.
	for i, want := range boardCorners() {
		if i >= len(p.corners.lie.at) || p.corners.lie.at[i].Dist(want) > 2 {
			t.Fatalf("found %v, drawn at %v", p.corners.lie.at, boardCorners())
		}
	}
}
