package model

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
)

func TestSetGrain(t *testing.T) {
	p := table()
	lines := [][]geom.Point{ring(0, 20, 900, 25, 1800, 60), ring(100, 90, 700, 80)}
	q := must(t, p, SetGrain{"B", 2, lines, "Draw grain"})
	f := q.Board("B").Faces[1]
	if !reflect.DeepEqual(f.Grain, lines) {
		t.Errorf("got %+v", f)
	}
	if len(p.Board("B").Faces[1].Grain) != 0 || p.Board("A").Faces[0].Grain == nil {
		t.Error("the project before changed")
	}
	// Zones and the rest of the face stay.
	q = must(t, p, SetGrain{"A", 1, nil, ""})
	f = q.Board("A").Faces[0]
	if f.Grain != nil || !reflect.DeepEqual(f.Zones, p.Board("A").Faces[0].Zones) || f.Photo == "" {
		t.Errorf("got %+v", f)
	}
	if q = must(t, p, SetGrain{"B", 1, nil, ""}); q != p {
		t.Error("no lines on a face not looked at make another project")
	}
	q = must(t, p, SetZones{"A", 1, nil, ""})
	if len(q.Board("A").Faces[0].Grain) != 1 {
		t.Error("new zones took the grain lines away")
	}
}

// A face nobody has looked at is taken straight through from the other one.
// Lines along its grain say nothing of its wood, so it stays one.
func TestGrainLeavesAFaceUnknown(t *testing.T) {
	lines := [][]geom.Point{ring(0, 20, 900, 25)}
	if g := cloneFace(Face{Grain: lines}); g.Known {
		t.Error("a copy with lines is called known")
	}
	p := must(t, table(), SetGrain{"B", 2, lines, ""})
	if p.Board("B").Faces[1].Known != table().Board("B").Faces[1].Known {
		t.Error("lines changed whether the face was looked at")
	}
}

// A board of 100 x 40; each line drawn on squared paper.
func TestLinesThatTouchABoard(t *testing.T) {
	board := geom.Rect{Max: geom.Pt(100, 40)}
	for _, c := range []struct {
		line []geom.Point
		want bool
	}{
		{ring(10, 10, 90, 30), true},                     // within
		{ring(-50, 20, 150, 20), true},                   // right across, no point within
		{ring(50, -50, 50, 90), true},                    // across the grain
		{ring(-10, 10, 10, -10), true},                   // through the corner (0, 0)
		{ring(-10, 9, 9, -10), false},                    // just past it
		{ring(-10, 40, 110, 40), true},                   // along the edge
		{ring(-10, 41, 110, 41), false},                  // beside it
		{ring(-20, -20, -10, 60, 50, 60, 50, 39), true},  // only the last stretch
		{ring(-20, -20, -10, 60, 50, 60, 50, 41), false}, // round the board
		{ring(90, 60, 130, 0), false},                    // past the corner (100, 40)
	} {
		if got := touches(c.line, board); got != c.want {
			t.Errorf("%v: %v", c.line, got)
		}
	}
}

// Drawn while the face still waits to be split, lines are not lost.
func TestGrainSurvivesALateReading(t *testing.T) {
	h := NewHistory(table())
	if err := h.Commit(SetFace{"B", 1, Face{Photo: "b1.jpg", Split: &Split{By: SplitOpen}, Grain: [][]geom.Point{ring(0, 20, 900, 25)}}}); err != nil {
		t.Fatal(err)
	}
	h.Amend(Read("B", 1, "b1.jpg", Face{Photo: "b1.jpg", Base: Sap, Split: &Split{By: SplitFound}}))
	f := h.Current().Board("B").Faces[0]
	if f.Base != Sap || len(f.Grain) != 1 {
		t.Errorf("got %+v", f)
	}
}
