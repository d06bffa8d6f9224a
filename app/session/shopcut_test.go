package session

import (
	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// endStrip is a board of 1400 x 120 with a strip of 900 x 100 that begins at x,
// and a panel of that size. All allowances are 0 but for 10 mm at the ends of a
// blank.
func endStrip(x float64) *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Ends: 10}
	p.Boards = []*model.Board{bareBoard("A", 1400, 120)}
	n := model.NewPanel("top", model.RoleTop, 900, 100, 25)
	n.Strips = []model.Strip{{ID: "A1", Board: "A", X: x, Y: 10, L: 900, W: 100, Up: 1}}
	p.Panels = []*model.Panel{n}
	return p
}

func mustCommit(t *testing.T, s *Session, e model.Edit) {
	t.Helper()
	if err := s.Commit(e); err != nil {
		t.Fatalf("%s: %v", e.Label(), err)
	}
}

// outsideNote is what is said of a strip that runs off its board, "" nothing.
func outsideNote(s *Session) string {
	for _, n := range s.Notes("top") {
		if n.Kind == face.OutsideBoard {
			return n.Text
		}
	}
	return ""
}

// The blank lies from 40 to 960. With 70 cut off the marked end it reaches 30
// over what is left; with 60 off, 20; with 40 off it just lies on the board.
func TestWhatIsCutOffIsGone(t *testing.T) {
	s := New(endStrip(50), Options{})
	defer s.Close()
	if got := s.CutMisfits("A", 0, 40); len(got) != 0 {
		t.Errorf("%v", got)
	}
	got := s.CutMisfits("A", 0, 70)
	if len(got) != 1 || got[0].Panel != "top" || got[0].Strip != "A1" || math.Abs(got[0].By-30) > 1e-9 || got[0].Text != "Strip A1 of panel top: its blank reaches 30 mm over the new end" {
		t.Errorf("%+v", got)
	}
	if outsideNote(s) != "" {
		t.Error("it runs off before anything is cut")
	}
	mustCommit(t, s, model.CutEnd{Board: "A", End: 0, Off: 60})
	if text := outsideNote(s); !strings.Contains(text, "20 mm over the marked end as it is now, with 60 mm cut off") {
		t.Errorf("%q", text)
	}
	// The strip begins at 50 and the wood at 60: 10 of its 900 mm are gone, so
	// 10/900 of the face is no wood.
	r := s.Reading("top")
	if a := r.Show.Area; math.Abs(a-890*100) > 1e-6 {
		t.Errorf("wood of %g mm2, want 89000", a)
	}
	s.Undo()
	if a := s.Reading("top").Show.Area; math.Abs(a-900*100) > 1e-6 || outsideNote(s) != "" {
		t.Errorf("undone, and the wood is %g mm2", a)
	}
	// What is sawn was taken out before.
	mustCommit(t, s, model.SetStage{Panel: "top", Strip: "A1", Stage: model.Sawn})
	mustCommit(t, s, model.CutEnd{Board: "A", End: 0, Off: 70})
	if a := s.Reading("top").Show.Area; math.Abs(a-900*100) > 1e-6 || outsideNote(s) != "" {
		t.Errorf("a sawn strip lost wood with its board: %g mm2, %q", a, outsideNote(s))
	}
}

// The other end: the blank ends at 960, so with 450 of 1400 cut off it reaches
// 10 over.
func TestTheOtherEndIsGone(t *testing.T) {
	s := New(endStrip(50), Options{})
	defer s.Close()
	mustCommit(t, s, model.CutEnd{Board: "A", End: 1, Off: 450})
	if text := outsideNote(s); !strings.Contains(text, "10 mm over the other end as it is now, with 450 mm cut off") {
		t.Errorf("%q", text)
	}
}

// There is room behind: the strip slides by the 30 mm that it is over, to 80.
func TestMendSlidesAlong(t *testing.T) {
	s := New(endStrip(50), Options{})
	defer s.Close()
	mustCommit(t, s, model.CutEnd{Board: "A", End: 0, Off: 70})
	m, err := s.Mend()
	if err != nil {
		t.Fatal(err)
	}
	got, err := m.Run(context.Background())
	if err != nil || len(got.Changes) != 1 || got.Edit == nil || !strings.Contains(got.Changes[0], "top, strip A1 on board A: slide it 30 mm along its board") {
		t.Fatalf("%+v %v", got, err)
	}
	mustCommit(t, s, got.Edit)
	if x := s.Project().Panels[0].Strips[0].X; x != 80 || outsideNote(s) != "" {
		t.Errorf("it lies at %g: %q", x, outsideNote(s))
	}
	s.Undo()
	if x := s.Project().Panels[0].Strips[0].X; x != 50 {
		t.Errorf("taken back, and it lies at %g", x)
	}
}

// No room behind, for a knot lies there from 1000: another board gives it, and
// where there is none that is said; the strip stays where it is.
func TestMendTakesAnotherBoardOrSaysWhatIsMissing(t *testing.T) {
	p := endStrip(50)
	p.Boards[0].Faces[0].Zones = []model.Zone{{Kind: model.Flaw, Polygon: geom.R(970, 20, 1000, 80).Polygon()}}
	s := New(p, Options{})
	defer s.Close()
	if _, err := s.Mend(); err == nil || !strings.Contains(err.Error(), "cut off") {
		t.Errorf("%v", err)
	}
	mustCommit(t, s, model.CutEnd{Board: "A", End: 0, Off: 100})
	if got := mended(t, s); len(got.Missing) != 1 || got.Edit != nil {
		t.Errorf("%+v", got)
	}
	mustCommit(t, s, model.AddBoard{Board: bareBoard("B", 1000, 110)})
	got := mended(t, s)
	if len(got.Changes) != 1 || len(got.Missing) != 0 || !strings.Contains(got.Changes[0], "top, strip A1 on board A: saw it from board B") {
		t.Fatalf("%+v", got)
	}
	mustCommit(t, s, got.Edit)
	if st := s.Project().Panels[0].Strips[0]; st.Board != "B" || outsideNote(s) != "" {
		t.Errorf("%+v", st)
	}
}

// A waney face keeps its edges: it is cut at the end alone. 100 of 1400 are gone
// from a face whose wood is 100 wide.
func TestWaneyFacesAreCutToo(t *testing.T) {
	p := endStrip(300)
	b := p.Boards[0]
	b.Edges = model.EdgesWaney
	b.Faces[0].Outline = geom.R(0, 10, 1400, 110).Polygon()
	s := New(p, Options{})
	defer s.Close()
	mustCommit(t, s, model.CutEnd{Board: "A", End: 0, Off: 100})
	fb := s.Board("A")
	if a := fb.Faces[0].Outline.Area(); math.Abs(a-1300*100) > 1e-6 {
		t.Errorf("wood of %g mm2", a)
	}
	if a := fb.Faces[1].Outline.Area(); math.Abs(a-1300*120) > 1e-6 { // the square face
		t.Errorf("wood of %g mm2", a)
	}
}

// Nothing planned lies on wood that is gone, whatever is cut off.
func TestNothingIsLaidOnWoodThatIsGone(t *testing.T) {
	rapid.Check(t, func(g *rapid.T) {
		cut := [2]float64{rapid.Float64Range(0, 400).Draw(g, "marked"), rapid.Float64Range(0, 400).Draw(g, "other")}
		s := New(endStrip(250), Options{})
		defer s.Close()
		for end, off := range cut {
			if err := s.Commit(model.CutEnd{Board: "A", End: end, Off: off}); err != nil {
				g.Fatal(err)
			}
		}
		b := s.Board("A")
		for _, r := range cutting.Free(b, nil, cutting.Allowances{}) {
			if r.Min.X < cut[0]-1e-6 || r.Max.X > 1400-cut[1]+1e-6 {
				g.Fatalf("free from %g to %g", r.Min.X, r.Max.X)
			}
		}
		for _, st := range cutting.Spots(b, face.Strip{L: 300, W: 60, Up: 1}, nil, cutting.Allowances{Ends: 10}) {
			if st.X-10 < cut[0]-1e-6 || st.X+310 > 1400-cut[1]+1e-6 {
				g.Fatalf("a spot at %g", st.X)
			}
		}
	})
}
