package scene

import (
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// crossedOut is a board of which nothing more is cut, with a strip and a
// cutting for a leg; another of that kind among the lanes.
func crossedOut(t *testing.T) Input {
	in := one(t, 1, false)
	a := in.Boards.All[0]
	in.Boards.Spoiled = []string{"A", "B"}
	in.Boards.Laid = append(in.Boards.Laid, Laid{Strip: &face.Strip{ID: "leg/2", Board: a, X: 1200, Y: 120, L: 740, W: 56, Up: 1}, Solid: "leg 2"})
	in.Look.Hatch = false
	return in
}

func TestGoldenCrossedOut(t *testing.T) {
	rendertest.Golden(t, "scene/crossed-out.txt", recorded(crossedOut(t)))
}

// Both faces of the board in hand are crossed out, and its lane is where
// another is in hand; sound boards are not.
func TestSpoiledBoardsAreCrossedOut(t *testing.T) {
	lines := func(in Input) (n, words int) {
		var r render.Recorder
		Build(in).Draw(&r)
		return strings.Count(r.String(), "#8e1f16 at"), strings.Count(r.String(), spoiledWord())
	}
	in := crossedOut(t)
	// Two directions on two faces and on one lane; the words at each.
	if n, words := lines(in); n != 6 || words != 2 {
		t.Errorf("%d times crossed, %d times said; want 6 and 2", n, words)
	}
	in.Boards.InHand = "C"
	if n, words := lines(in); n != 4 || words != 2 {
		t.Errorf("both as lanes: %d times crossed, %d times said; want 4 and 2", n, words)
	}
	in.Boards.Spoiled = nil
	if n, words := lines(in); n != 0 || words != 0 {
		t.Errorf("sound boards: %d times crossed, %d times said", n, words)
	}
}

// A cutting for a solid part is named on both faces, can be pointed at, and is
// never the strip in hand.
func TestCuttingOfASolidPart(t *testing.T) {
	in := crossedOut(t)
	in.Boards.Spoiled = nil
	in.Pick.Strip = "leg/2"
	s := Build(in)
	var r render.Recorder
	s.Draw(&r)
	if n := strings.Count(r.String(), "leg 2 · 740 × 56 mm"); n != 2 {
		t.Errorf("its name and size stand there %d times, want once on each face", n)
	}
	for _, l := range s.laid() {
		if s.picked(l) {
			t.Errorf("%s is in hand", l.Strip.ID)
		}
	}
	// The middle of 740 x 56 from (1200, 120).
	p, _ := s.FacePoint("A", 1, geom.Pt(1570, 148))
	if h := s.Hit(p); h.Part != BoardStrip || h.Strip != "leg/2" || h.Solid != "leg 2" || h.Panel != "" {
		t.Errorf("pointed at: %+v", h)
	}
	p, _ = s.FacePoint("A", 1, geom.Pt(500, 50))
	if h := s.Hit(p); h.Solid != "" {
		t.Errorf("the strip is taken for a part: %+v", h)
	}
}
