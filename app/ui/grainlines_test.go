package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
)

// lines are the grain lines of a face of the board in hand.
func (s stage) lines(face int) [][]geom.Point { return s.board().Faces[face-1].Grain }

// at is a place of the board in hand on the surface.
func (s stage) at(t *testing.T, face int, p geom.Point) geom.Point {
	t.Helper()
	q, ok := s.surf.scene().FacePoint(s.board().ID, face, p)
	if !ok {
		t.Fatal("no board is in hand")
	}
	return q
}

func (s stage) click(t *testing.T, face int, p geom.Point) {
	t.Helper()
	q := s.at(t, face, p)
	s.press(q)
	s.release(q)
}

// Two clicks and Enter make a line, one change; Delete takes it away, another.
// Zones and the wood of the face stay as they were.
func TestGrainLineByPointer(t *testing.T) {
	s := demo(t, 100)
	was := s.board().Faces[0]
	light := s.ses.Reading(s.panel().ID).Show.Light.Value
	s.shift(fyne.KeyG)
	if !s.surf.show.grain || s.surf.show.zoning || !strings.Contains(s.status.text.Text, "Click along the grain") {
		t.Fatalf("Shift+G: says %q", s.status.text.Text)
	}
	s.click(t, 1, geom.Pt(200, 60))
	s.click(t, 1, geom.Pt(900, 80))
	s.surf.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	got := s.lines(1)
	if len(got) != 1 || len(got[0]) != 2 || got[0][0].Dist(geom.Pt(200, 60)) > 0.5 || got[0][1].Dist(geom.Pt(900, 80)) > 0.5 || s.steps() != 1 {
		t.Fatalf("%d steps, lines %v", s.steps(), got)
	}
	if f := s.board().Faces[0]; len(f.Zones) != len(was.Zones) || f.Known != was.Known || s.ses.Reading(s.panel().ID).Show.Light.Value != light {
		t.Error("the line changed the wood of the face")
	}
	if g := s.surf.input().Grain; !g.On || g.Face != 1 || g.Line != 0 || len(g.Lines[0]) != 1 {
		t.Errorf("drawn %+v", g)
	}
	s.surf.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if len(s.lines(1)) != 0 || s.steps() != 2 {
		t.Errorf("%d steps, lines %v", s.steps(), s.lines(1))
	}
	s.act("undo")
	if len(s.lines(1)) != 1 {
		t.Error("it cannot be taken back")
	}
	s.key(fyne.KeyEscape)
	if s.surf.show.grain || len(s.surf.input().Grain.Lines[0]) != 1 || s.surf.input().Grain.On {
		t.Error("Escape does not end it, or the line is not drawn any more")
	}
}

// With the keys alone: the cursor begins in the middle of face 1, Home leads to
// the marked end, End to the other.
func TestGrainLineByKeys(t *testing.T) {
	s := demo(t, 200)
	s.act("grain")
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyHome, fyne.KeySpace, fyne.KeyEnd, fyne.KeyUp, fyne.KeySpace, fyne.KeyReturn} {
		s.surf.KeyDown(&fyne.KeyEvent{Name: k})
		s.surf.TypedKey(&fyne.KeyEvent{Name: k})
		s.surf.KeyUp(&fyne.KeyEvent{Name: k})
	}
	b := s.board()
	got := s.lines(1)
	if len(got) != 1 || got[0][0] != geom.Pt(0, b.Width/2) || got[0][1] != geom.Pt(b.Length, b.Width/2+10) || s.steps() != 1 {
		t.Fatalf("%d steps, lines %v", s.steps(), got)
	}
	// Another board in hand has its own.
	s.key(fyne.KeyN)
	if s.board().ID == b.ID {
		t.Fatal("N takes no other board")
	}
	s.surf.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if s.steps() != 1 {
		t.Error("Delete took the line of another board")
	}
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeySpace, fyne.KeyEnd, fyne.KeySpace, fyne.KeyReturn} {
		s.surf.TypedKey(&fyne.KeyEvent{Name: k})
	}
	if len(s.lines(1)) != 1 || s.steps() != 2 {
		t.Errorf("%d steps, lines %v", s.steps(), s.lines(1))
	}
}

// Without a photograph the lines alone say how the grain runs: at 45 degrees
// on the line, less and less sure away from it. Where neither is, G says so.
func TestGrainAsItIsRead(t *testing.T) {
	s := demo(t, 100)
	s.key(fyne.KeyG)
	if g := s.surf.input().Grain; !s.surf.show.along || g.Read[0] != nil || !strings.Contains(s.status.text.Text, "nothing to show") {
		t.Errorf("says %q", s.status.text.Text)
	}
	if err := s.ses.Commit(model.SetGrain{Board: s.board().ID, Face: 1, Grain: [][]geom.Point{{geom.Pt(300, 20), geom.Pt(400, 120)}}}); err != nil {
		t.Fatal(err)
	}
	s.surf.input()
	s.q.wait(t, "the grain", func() bool { return s.surf.input().Grain.Read[0] != nil })
	on, sure := s.surf.input().Grain.Read[0](geom.Pt(350, 70))
	_, off := s.surf.input().Grain.Read[0](geom.Pt(1200, 70))
	if on < 40 || on > 50 || sure < 0.8 || off > sure {
		t.Errorf("on the line %g degrees, sure %g; far off sure %g", on, sure, off)
	}
	s.key(fyne.KeyG)
	if g := s.surf.input().Grain; g.Read[0] != nil {
		t.Error("G again does not hide it")
	}
}

// One tool is in hand at a time.
func TestZonesAndGrainLinesTakeTurns(t *testing.T) {
	s := demo(t, 100)
	s.shift(fyne.KeyG)
	s.key(fyne.KeyZ)
	if s.surf.show.grain || !s.surf.show.zoning {
		t.Error("Z does not take the zone tool")
	}
	s.shift(fyne.KeyG)
	if !s.surf.show.grain || s.surf.show.zoning {
		t.Error("Shift+G does not take the tool for grain lines")
	}
	s.shift(fyne.KeyG)
	if s.surf.show.grain || s.surf.show.zoning {
		t.Error("Shift+G again does not put it back")
	}
}
