package ui

import (
	"context"
	"errors"
	"image"
	"strings"
	"testing"

	"heartside/layout/photo"
	"heartside/layout/photo/outline"
)

// P asks which sheet lies there, measures, and tells the size beside the one
// entered; what goes wrong is said.
func TestMeasuredByPaper(t *testing.T) {
	s := cornersAt(t)
	var asked outline.Paper
	fails := false
	s.p.means.paper = func(_ context.Context, _ image.Image, v photo.View, paper outline.Paper, _ float64) (paperSize, error) {
		asked = paper
		if fails {
			return paperSize{}, errors.New("no sheet lies in the picture")
		}
		return paperSize{330, 61, 0.9}, nil
	}
	s.types("p")
	if s.asks == nil {
		t.Fatal("it does not ask which sheet")
	}
	s.asks.confirm()
	s.q.wait(t, "the size", func() bool { return s.asks != nil && s.asks.q.title == "Measured by a sheet of paper" })
	if asked != outline.A4 {
		t.Errorf("the sheet is %v", asked)
	}
	// 330 instead of 300 is a tenth more, 61 instead of 60 a sixtieth.
	got := saidIn(s.stage)
	for _, want := range []string{"300 mm", "330 mm", "+30 mm (+10.0 %)", "+1 mm (+1.7 %)", "90 % sure", "its thickness higher, 25 mm", "another than the one entered"} {
		if !strings.Contains(got, want) {
			t.Errorf("it does not say %q in %q", want, got)
		}
	}
	if s.asks.q.yes != "Use this size" {
		t.Errorf("it proposes %q", s.asks.q.yes)
	}
	s.asks.cancel()
	fails = true
	s.types("p")
	s.asks.confirm()
	s.q.wait(t, "the trouble", func() bool { return strings.Contains(s.said, "no sheet lies in the picture") })
	if s.p.unsaved() {
		t.Error("measuring changed the face")
	}
}
