package ui

import (
	"errors"
	"image"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

func smallBoard() *image.RGBA { return boardPicture(400, 300, image.Rect(50, 140, 350, 200)) }

// The middle of the room shows (150, 30) of the face. A place 20 units right
// and 10 up from it lies 20/scale mm right and, y being up, 10/scale mm higher.
func TestStrokesReachTheEditorInFaceMM(t *testing.T) {
	for _, c := range []struct {
		scale    float64
		from, to geom.Point
	}{
		{2, geom.Pt(160, 35), geom.Pt(140, 25)},
		{4, geom.Pt(155, 32.5), geom.Pt(145, 27.5)},
		{0.5, geom.Pt(190, 50), geom.Pt(110, 10)},
	} {
		s := faceAt(t, smallBoard(), 100)
		s.types("s")
		m := s.at(c.scale)
		s.strokeBy(m.Add(geom.Pt(20, -10)), m, m.Add(geom.Pt(-20, 10)))
		s.acts(t)
		if len(s.ed.calls) != 1 || s.ed.calls[0].act != "stroke" || s.ed.calls[0].kind != photo.Sap || s.ed.calls[0].size != firstWidth {
			t.Fatalf("scale %g: the editor got %+v", c.scale, s.ed.calls)
		}
		p := s.ed.calls[0].points
		for i, want := range []geom.Point{c.from, geom.Pt(150, 30), c.to} {
			if p[i].Dist(want) > 0.01 { // positions are single precision
				t.Errorf("scale %g: point %d is %v, want %v", c.scale, i, p[i], want)
			}
		}
	}
}

func TestEachToolDoesItsOwn(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	right, up := geom.Pt(60, 0), geom.Pt(0, -40)
	s.types("f]b") // a flaw, one width more, painted
	s.strokeBy(m, m.Add(right))
	s.types("p")
	for _, p := range []geom.Point{m, m.Add(right), m.Add(right).Add(up)} {
		s.strokeBy(p)
	}
	s.types("u") // the kind may change while the corners are clicked
	s.press(fyne.KeyReturn)
	s.types("l")
	s.strokeBy(m)
	s.strokeBy(m.Add(right))
	s.types("mr")
	s.p.zones.all(photo.Heart)
	s.acts(t)
	var acts []string
	for _, c := range s.ed.calls {
		acts = append(acts, c.act)
	}
	if want := []string{"brush", "fill", "straight", "smooth", "afresh", "all"}; !slices.Equal(acts, want) {
		t.Fatalf("the editor did %v, want %v", acts, want)
	}
	if c := s.ed.calls[0]; c.kind != photo.Flaw || c.size != 10 { // after 6 comes 10
		t.Errorf("the brush painted %v, %g wide", c.kind, c.size)
	}
	// 60 and 40 units at 2 units a mm are 30 and 20 mm.
	want := []geom.Point{{X: 150, Y: 30}, {X: 180, Y: 30}, {X: 180, Y: 50}}
	if c := s.ed.calls[1]; c.kind != photo.Unseen || !slices.Equal(c.points, want) {
		t.Errorf("filled %v of %v, want %v", c.points, c.kind, want)
	}
	if s.steps() != 0 {
		t.Errorf("acts on the page made %d entries in the history", s.steps())
	}
}

func TestStrokesByKey(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	s.at(2)
	s.types("h")
	s.press(fyne.KeySpace) // the cursor comes up in the middle of the view
	s.press(fyne.KeySpace)
	for range 3 {
		s.press(fyne.KeyRight)
	}
	s.press(fyne.KeyUp)
	s.press(fyne.KeySpace)
	s.acts(t)
	if len(s.ed.calls) != 1 || s.ed.calls[0].kind != photo.Heart {
		t.Fatalf("the editor got %+v", s.ed.calls)
	}
	p := s.ed.calls[0].points
	// A key moves 1 mm; up is up.
	if p[0] != geom.Pt(150, 30) || p[len(p)-1] != geom.Pt(153, 31) {
		t.Errorf("the stroke runs from %v to %v", p[0], p[len(p)-1])
	}
}

func TestPageHasItsOwnUndo(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	if s.act("undo") {
		t.Error("undo does something where nothing was done")
	}
	s.types("s")
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	share, _ := s.p.zones.share()
	if !s.act("undo") {
		t.Fatal("a stroke cannot be taken back")
	}
	s.acts(t)
	if now, _ := s.p.zones.share(); now >= share || s.ed.at != 0 || s.p.unsaved() {
		t.Errorf("after undo the share is %g of %g, unsaved %v", now, share, s.p.unsaved())
	}
	if !s.act("redo") {
		t.Fatal("it cannot be done again")
	}
	s.acts(t)
	if now, _ := s.p.zones.share(); now != share || s.steps() != 0 {
		t.Errorf("after redo the share is %g, want %g; %d entries", now, share, s.steps())
	}
}

func TestFarChangesAreTold(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	s.types("s")
	s.ed.far = 0.12
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	if !s.p.note.box.Visible() || !strings.Contains(s.p.note.text.Text, "12 %") {
		t.Fatalf("a stroke that changed 12 %% elsewhere says %q, shown %v", s.p.note.text.Text, s.p.note.box.Visible())
	}
	s.types("n")
	s.acts(t)
	if n := len(s.ed.calls); s.ed.calls[n-1].act != "near" || s.p.note.box.Visible() {
		t.Errorf("N did %v; the line shows: %v", s.ed.calls, s.p.note.box.Visible())
	}
	// A little, as told in the brief of the split, is not worth a line.
	s.ed.far = 0.01
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	if s.p.note.box.Visible() {
		t.Error("1 % elsewhere is told")
	}
}

func TestLooksRightIsOneEntry(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	s.types("s")
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.strokeBy(m, m.Add(geom.Pt(0, 20)))
	s.acts(t)
	s.p.zones.take(modeNone)
	s.press(fyne.KeyReturn)
	s.q.wait(t, "the entry", func() bool { return s.steps() > 0 })
	f := s.ses.Committed().Board("A").Faces[0]
	if s.steps() != 1 || f.Split == nil || f.Split.By != model.SplitChecked {
		t.Fatalf("%d entries, split %+v", s.steps(), f.Split)
	}
	if err := model.Validate(s.ses.Committed()); err != nil {
		t.Error(err)
	}
	// The fake holds sapwood over the lower 20 of 60 mm, and two columns more.
	area := 0.0
	for _, z := range f.Zones {
		if z.Kind == model.Sap {
			area += z.Polygon.Area()
		}
	}
	if want := 300*20 + 2*40.0; area < want-60 || area > want+60 {
		t.Errorf("sapwood covers %g mm2, want about %g", area, want)
	}
	// Face 2 is the next one to look at.
	if p, ok := s.page.(*facePage); !ok || p.face != 2 {
		t.Errorf("after it the page is %T", s.page)
	}
}

func TestLookingAloneKeepsTheZones(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	was := s.ses.Committed().Board("A").Faces[0]
	s.press(fyne.KeyReturn)
	s.q.wait(t, "the entry", func() bool { return s.steps() > 0 })
	f := s.ses.Committed().Board("A").Faces[0]
	if len(f.Zones) != len(was.Zones) || f.Base != was.Base || f.Split.Sure != 0.8 || *f.Corners != *was.Corners {
		t.Errorf("looking at a face changed it: %+v", f)
	}
}

func TestEscapeGoesBackStepByStep(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	s.types("s")
	s.p.zones.begin(geom.Pt(10, 10), false)
	s.press(fyne.KeyEscape)
	if s.p.zones.hand.drawing || s.p.zones.hand.mode != modeTeach {
		t.Error("the first Escape does not just drop the stroke")
	}
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	s.press(fyne.KeyEscape)
	if s.p.zones.hand.mode != modeNone || s.asks != nil {
		t.Error("the next one does not just put the tool back")
	}
	s.press(fyne.KeyEscape)
	if s.asks == nil {
		t.Fatal("with an act that is not kept Escape does not ask")
	}
	s.asks.cancel() // go on
	if s.page != page(s.p) || !s.p.unsaved() {
		t.Error("Go on does not stay")
	}
	s.press(fyne.KeyEscape)
	s.asks.confirm() // keep
	s.q.wait(t, "leaving", func() bool { return s.page == nil })
	if s.steps() != 1 {
		t.Errorf("Keep made %d entries", s.steps())
	}
}

func TestDropLeavesTheProjectAsItWas(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	start, m := s.ses.Committed(), s.at(2)
	s.types("s")
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	s.p.zones.take(modeNone)
	s.press(fyne.KeyEscape)
	a := s.asks
	a.close()
	a.q.also() // drop
	if s.page != nil || s.ses.Committed() != start {
		t.Errorf("after Drop the page is %T, the project the same: %v", s.page, s.ses.Committed() == start)
	}
}

func TestEscapeAsksNothingWhereNothingChanged(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	s.press(fyne.KeyEscape)
	if s.asks != nil || s.page != nil {
		t.Errorf("asked %v, page %T", s.asks != nil, s.page)
	}
}

func TestAFailedActIsToldAndLeavesTheFace(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	s.ed.fails = errors.New("there is no border within 20 mm of the first place")
	s.types("m")
	s.acts(t)
	if !strings.Contains(s.status.text.Text, "no border") || s.p.unsaved() || len(s.p.zones.waits) != 0 {
		t.Errorf("the line says %q, unsaved %v, %d marks wait", s.status.text.Text, s.p.unsaved(), len(s.p.zones.waits))
	}
}
