package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
)

func TestWheelOverTheSheet(t *testing.T) {
	s := sheetAt(t, 100)
	v := s.p.view
	notch := func(dy float32) {
		v.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, dy)})
	}
	notch(-25)
	notch(-25)
	if s.p.at != 1 {
		t.Errorf("the wheel leads to page %d", s.p.at+1)
	}
	s.typed("+++")
	was := v.view.at
	notch(-25)
	if v.view.at.Y <= was.Y || s.p.at != 1 {
		t.Error("the wheel does not move a large page")
	}
	from := v.view.at
	v.MouseDown(s.mouse(geom.Pt(200, 200), 1))
	v.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(200, 230)}})
	v.MouseUp(s.mouse(geom.Pt(200, 230), 1))
	if d := from.Y - v.view.at.Y; d < 0.999*30/v.view.scale() || d > 1.001*30/v.view.scale() {
		t.Errorf("a drag of 30 moves %g mm at %g a mm", d, v.view.scale())
	}
	v.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(50, 50)})
	if v.larger() {
		t.Error("a double click does not show all again")
	}
}

// The search on the page under the sheet goes on.
func TestSheetOverAnArrangement(t *testing.T) {
	a := arrangeAt(t, 100)
	s := sheetOn(t, a.stage)
	if a.p.ctx.Err() != nil {
		t.Error("the page under the sheet has ended")
	}
	s.pressed(fyne.KeyEscape)
	if s.page != page(a.p) || a.p.ctx.Err() != nil {
		t.Errorf("Esc leads to %T", s.page)
	}
	s = sheetOn(t, a.stage)
	s.turnTo(nil)
	if a.p.ctx.Err() == nil {
		t.Error("left for the panels, the page under the sheet goes on")
	}
}

// Corrections not kept yet are not lost from the sheet over them either.
func TestSheetOverADraft(t *testing.T) {
	for name, away := range map[string]func(*testing.T, *faceStage){
		"quit":      func(_ *testing.T, s *faceStage) { s.act("quit") },
		"the rack":  func(_ *testing.T, s *faceStage) { s.act("rack") },
		"a project": func(t *testing.T, s *faceStage) { s.drop(projectFile(t)) },
	} {
		s := corrected(t)
		s.act("sheet")
		if s.asks == nil {
			t.Fatal("the sheet does not ask about what is not kept")
		}
		s.asks.q.also() // leave it out
		s.asks.close()
		if s.sheetUp() == nil {
			t.Fatalf("%s: %T is shown", name, s.page)
		}
		s.q.drain()
		away(t, s)
		s.q.drain()
		if s.page != page(s.p) || s.asks == nil || !s.p.unsaved() {
			t.Errorf("%s: asked %v, the page is %T", name, s.asks != nil, s.page)
		}
	}
}
