package ui

import (
	"strings"
	"testing"

	"heartside/layout/photo"
	"heartside/layout/photo/split"
)

func TestWhatIsSuggestedAsNotSureIsTakenByAKey(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	if s.p.side.advice.vague.Visible() {
		t.Error("something is offered where nothing is suggested")
	}
	s = faceOf(t, func(e *fakeEditor) { e.doubt = 0.25 })
	a := s.p.side.advice
	if !a.vague.Visible() || !strings.Contains(a.text.Text, "25 %") {
		t.Fatalf("shown %v: %q", a.vague.Visible(), a.text.Text)
	}
	s.p.zones.sign('U', true)
	s.acts(t)
	if n := len(s.ed.calls); n != 1 || s.ed.calls[0].act != "suggested" || a.vague.Visible() || s.steps() != 0 {
		t.Errorf("acts %v, still offered %v", s.ed.calls, a.vague.Visible())
	}
	s.act("undo")
	s.acts(t)
	if !a.vague.Visible() {
		t.Error("taken back, it is not offered again")
	}
}

func TestAFaceOfOneColourIsAskedAbout(t *testing.T) {
	s := faceOf(t, func(e *fakeEditor) { e.doubts = []split.Reason{split.OneColour} })
	if !s.p.side.advice.one.Visible() || s.p.side.advice.vague.Visible() {
		t.Fatal("the question which wood it is does not show")
	}
	s.p.zones.sign('S', true)
	s.acts(t)
	if n := len(s.ed.calls); n != 1 || s.ed.calls[0].act != "all" || s.ed.calls[0].kind != photo.Sap {
		t.Errorf("acts %v", s.ed.calls)
	}
	s.ed.doubts = nil
	s.types("m")
	s.acts(t)
	if s.p.side.advice.box.Visible() {
		t.Error("without a doubt it asks on")
	}
}
