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
	if got := saidIn(s.stage); !strings.Contains(got, "330 mm × 61 mm") || !strings.Contains(got, "change the size") {
		t.Errorf("it says %q", got)
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
