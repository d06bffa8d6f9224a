package ui

import (
	"context"
	"errors"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// tracedRing is what the tracing finds in these tests: the board of 300 x 60
// mm is 10 mm less wide at its lower edge, over half of its length.
func tracedRing() geom.Polygon {
	return geom.Polygon{{X: 0, Y: 10}, {X: 150, Y: 10}, {X: 150, Y: 0}, {X: 300, Y: 0}, {X: 300, Y: 60}, {X: 0, Y: 60}}
}

// waneyAt is a page whose tracing finds tracedRing; asks are noted.
func waneyAt(t *testing.T) (s *faceStage, asked *[]intake.Ask) {
	s = faceAt(t, smallBoard(), 100)
	asked = new([]intake.Ask)
	s.p.means.trace = func(_ context.Context, _ image.Image, v photo.View, length, width float64) (geom.Polygon, float64, error) {
		if v.Corners != boardCorners() || length != 300 || width != 60 {
			t.Errorf("traced at %v, %g x %g", v.Corners, length, width)
		}
		return tracedRing(), 0.8, nil
	}
	s.p.means.waney = func(_ context.Context, _ image.Image, a intake.Ask) (*intake.Waney, error) {
		*asked = append(*asked, a)
		v := photo.View{Corners: boardCorners()}
		v.Corners[0].Y, v.Corners[1].Y = 203, 203
		return &intake.Waney{View: v, Width: 60, Ring: tracedRing(), Sure: 0.8, Found: a.Corners == nil}, nil
	}
	return s, asked
}

// outsideShare is how much of the face is no wood; the ring leaves out 150 x 10
// of 300 x 60 mm.
func (s *faceStage) outsideShare() float64 {
	n := 0.0
	for _, l := range s.p.zones.work.now.mask.Pix {
		if l == photo.Outside {
			n++
		}
	}
	return n / float64(len(s.p.zones.work.now.mask.Pix))
}

const ringShare = 150 * 10 / (300 * 60.)

func TestWaneyEdgesAreTracedByKey(t *testing.T) {
	s, _ := waneyAt(t)
	s.types("w")
	s.acts(t)
	if got := s.outsideShare(); math.Abs(got-ringShare) > 1e-9 {
		t.Fatalf("%.4f of the face is outside, want %.4f; said %q", got, ringShare, s.said)
	}
	if !s.p.corners.lie.waney {
		t.Error("the corners do not know that the edges are waney")
	}
	// Taken back and done again, as anything on the page.
	s.act("undo")
	s.acts(t)
	if s.outsideShare() != 0 || s.p.corners.lie.waney {
		t.Errorf("taken back, %.4f of the face is outside", s.outsideShare())
	}
	s.act("redo")
	s.acts(t)
	if s.outsideShare() == 0 {
		t.Error("done again, nothing is outside")
	}
	// It goes into the project as one change.
	depth := s.ses.UndoLabel()
	s.press(fyne.KeyReturn)
	s.acts(t)
	f := s.ses.Committed().Board("A").Faces[0]
	if len(f.Outline) < 5 || math.Abs(f.Outline.Area()-(300*60-1500)) > 60 || f.Split.By != model.SplitChecked {
		t.Errorf("outline %v by %v", f.Outline, f.Split)
	}
	if s.ses.UndoLabel() == depth || !s.ses.Undo() || s.ses.Committed().Board("A").Faces[0].Outline != nil {
		t.Error("the outline is not taken back with one undo")
	}
}

func TestWaneyEdgesBecomeStraightAgain(t *testing.T) {
	s, _ := waneyAt(t)
	s.types("w")
	s.acts(t)
	s.types("w")
	s.acts(t)
	if n := len(s.ed.calls); n != 2 || s.ed.calls[1].act != "outline" || s.ed.calls[1].points != nil {
		t.Errorf("the editor got %+v", s.ed.calls)
	}
	if s.outsideShare() != 0 {
		t.Error("straight, some is outside")
	}
}

func TestNoWoodIsPainted(t *testing.T) {
	s, _ := waneyAt(t)
	s.types("t") // a tool that teaches
	s.types("x")
	m := s.at(2)
	s.strokeBy(m, m.Add(geom.Pt(40, 0)))
	s.acts(t)
	if len(s.ed.calls) != 1 || s.ed.calls[0].act != "brush" || s.ed.calls[0].kind != photo.Outside {
		t.Errorf("the editor got %+v", s.ed.calls)
	}
	if !strings.Contains(s.p.hint(), "no wood") {
		t.Errorf("the hint says %q", s.p.hint())
	}
}

// The corners of a waney face are those of a rectangle about it: using them
// traces the outline and lays the rectangle of the board.
func TestCornersOfAWaneyFace(t *testing.T) {
	s, asked := waneyAt(t)
	s.types("cw")
	if !s.p.corners.lie.waney || !s.p.bar.waney.Checked || !s.p.unsaved() {
		t.Fatal("W says nothing of the edges")
	}
	s.act("undo")
	if s.p.corners.lie.waney || s.p.bar.waney.Checked {
		t.Error("it is not taken back")
	}
	s.act("redo")
	s.types("e")
	if !strings.Contains(s.said, "not straight") {
		t.Errorf("snapping edges of a waney face says %q", s.said)
	}
	// A corner dragged, then used.
	pic := s.p.corners.pic
	pic.Resize(fyne.NewSize(800, 600))
	s.types("1")
	s.press(fyne.KeyDown)
	pic.settle()
	moved := s.p.corners.lie.at[0]
	s.press(fyne.KeyReturn)
	s.q.wait(t, "the zones", func() bool { return s.p.step == stepZones && s.p.zones.work != nil && s.p.making == "" })
	if len(*asked) != 1 || (*asked)[0].Corners == nil || (*asked)[0].Corners[0] != moved || !(*asked)[0].Waney {
		t.Fatalf("asked %+v", *asked)
	}
	if got := s.p.corners.used.at[0]; got != geom.Pt(50, 203) {
		t.Errorf("squared with a corner at %v, want (50, 203)", got)
	}
	if got := s.outsideShare(); math.Abs(got-ringShare) > 1e-9 {
		t.Errorf("%.4f of the face is outside, want %.4f", got, ringShare)
	}
	// Back at the corners the rectangle laid stands, and can be taken back.
	s.types("c")
	s.act("undo")
	if s.p.corners.lie.at[0] != moved || s.p.corners.lie.ring != nil {
		t.Errorf("taken back, the corner lies at %v", s.p.corners.lie.at[0])
	}
	s.act("redo")
	if !slices.Equal(s.p.corners.lie.ring, tracedRing()) {
		t.Error("done again, the outline is lost")
	}
	// Turned end for end, the outline turns: (0, 10) becomes (300, 50).
	s.types("t")
	if got := s.p.corners.lie.ring[0]; got != geom.Pt(300, 50) {
		t.Errorf("turned, the outline begins at %v", got)
	}
	s.win.Canvas().Capture()
}

func TestWaneyFaceIsLookedFor(t *testing.T) {
	s, asked := waneyAt(t)
	s.types("cwf")
	s.q.wait(t, "the search", func() bool { return s.p.corners.busy == "" })
	if len(*asked) != 1 || (*asked)[0].Corners != nil || s.p.corners.lie.ring == nil || !s.p.corners.lie.trust[0].known {
		t.Errorf("asked %+v, lie %+v", *asked, s.p.corners.lie)
	}
	if text := s.p.side.lie.Text; !strings.Contains(text, "Waney edges") {
		t.Errorf("the column says %q", text)
	}
	s.p.means.waney = func(context.Context, image.Image, intake.Ask) (*intake.Waney, error) {
		return nil, errors.New("nothing stands out")
	}
	s.types("f")
	s.q.wait(t, "the search", func() bool { return s.p.corners.busy == "" })
	if !strings.Contains(s.said, "othing stands out") {
		t.Errorf("said %q", s.said)
	}
}

// A face that has an outline opens with it, and what is not touched keeps it to
// the point.
func TestWaneyFaceOpensWithItsOutline(t *testing.T) {
	s := &faceStage{stage: open(t, faceProject(), 100)}
	f := s.ses.Committed().Board("A").Faces[0]
	f.Outline = tracedRing()
	s.commit(model.SetFace{Board: "A", Face: 1, Value: f})
	s.show(t, smallBoard())
	if got := s.outsideShare(); math.Abs(got-ringShare) > 1e-9 || s.p.unsaved() {
		t.Errorf("opened, %.4f of the face is outside, unsaved %v", got, s.p.unsaved())
	}
	s.press(fyne.KeyReturn)
	s.acts(t)
	if got := s.ses.Committed().Board("A").Faces[0].Outline; !slices.Equal(got, tracedRing()) {
		t.Errorf("accepted, the outline is %v", got)
	}
}

// What is no wood is grey: the pixel under it has less colour than the wood
// beside it, with and without the zones drawn strongly.
func TestNoWoodIsGrey(t *testing.T) {
	p := []uint8{200, 120, 60, 255}
	veil(p, 5, 0, 9, 1, 0.85)
	if d := int(p[0]) - int(p[2]); d > 70 || d < 0 {
		t.Errorf("a pixel of no wood is %v", p)
	}
	s, _ := waneyAt(t)
	s.types("w")
	s.acts(t)
	c := s.p.zones.canvas
	v := s.at(2)
	img := c.paint(900, 500).(*image.RGBA)
	colour := func(p geom.Point) int { // red over blue
		q := v.Add(geom.Pt(2*(p.X-150), -2*(p.Y-30)))
		px := img.Pix[img.PixOffset(int(q.X), int(q.Y)):]
		return int(px[0]) - int(px[2])
	}
	wood, none := colour(geom.Pt(100, 40)), colour(geom.Pt(101.5, 4))
	if none >= wood*2/3 {
		t.Errorf("no wood has a colour of %d, wood of %d", none, wood)
	}
}
