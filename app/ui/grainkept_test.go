package ui

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
)

// Grain lines the maker drew stay where the same picture is read again.
func TestReadingAgainKeepsGrainLines(t *testing.T) {
	s := openReading(t, stack("A"), 100, atOnce)
	s.drop(pictureFiles(t, "A1.png")...)
	split := func() *model.Split { return s.ses.Project().Board("A").Faces[0].Split }
	s.q.wait(t, "the reading", func() bool { return split() != nil && split().By == model.SplitFound })
	lines := [][]geom.Point{{{X: 0, Y: 40}, {X: 900, Y: 45}}}
	if err := s.ses.Commit(model.SetGrain{Board: "A", Face: 1, Grain: lines}); err != nil {
		t.Fatal(err)
	}
	s.pressed(fyne.KeyHome)
	s.write("r")
	if got := s.ses.Project().Board("A").Faces[0].Grain; split().By != model.SplitOpen || !reflect.DeepEqual(got, lines) {
		t.Fatalf("while it is read again (%v) the lines are %v", split().By, got)
	}
	s.q.wait(t, "the second reading", func() bool { return split().By == model.SplitFound })
	if got := s.ses.Project().Board("A").Faces[0].Grain; !reflect.DeepEqual(got, lines) {
		t.Errorf("read again the lines are %v", got)
	}
}
