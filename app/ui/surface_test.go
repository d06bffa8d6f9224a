package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/scene"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

func TestTheBackIsShown(t *testing.T) {
	s := demo(t, 100)
	start := s.ses.Committed()
	s.key(fyne.KeyV)
	if !s.surf.input().Back {
		t.Error("V does not show the back")
	}
	s.key(fyne.KeyV)
	if s.surf.input().Back || s.ses.Committed() != start {
		t.Error("V again does not show the show face, or it changed the project")
	}
	// A warning of the back turns the panel over while it is pointed at.
	s.column.notes[0].Side = face.Back
	s.column.point(0)
	in := s.surf.input()
	lit := 0
	for _, l := range in.Lit {
		if l.Bright && l.Side == face.Back {
			lit++
		}
	}
	if !in.Back || lit != 1 {
		t.Errorf("pointing at a warning of the back: back seen %v, %d places lit", in.Back, lit)
	}
	s.column.point(-1)
	if s.surf.input().Back {
		t.Error("the back stays when the pointer leaves the warning")
	}
	// One of the show face turns it back meanwhile.
	s.key(fyne.KeyV)
	s.column.notes[0].Side = face.Show
	s.column.point(0)
	if s.surf.input().Back {
		t.Error("a warning of the show face is lit on the back")
	}
}

// The view moves without the pointer too.
func TestKeysMoveTheView(t *testing.T) {
	s := demo(t, 100)
	s.key(fyne.KeyPlus)
	s.surf.zoom(4)
	at := s.surf.zoomAt()
	for _, c := range []struct {
		key fyne.KeyName
		by  geom.Point // surface units that what is seen moves by
	}{{fyne.KeyRight, geom.Pt(-80, 0)}, {fyne.KeyLeft, geom.Pt(80, 0)}, {fyne.KeyUp, geom.Pt(0, 80)}, {fyne.KeyDown, geom.Pt(0, -80)}} {
		mm := s.surf.scene().PanelAt(at)
		s.surf.TypedShortcut(&desktop.CustomShortcut{KeyName: c.key, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift})
		if d := s.surf.scene().PanelPoint(mm).Sub(at); d.Dist(c.by) > 1e-6 {
			t.Errorf("Ctrl+Shift+%s moved the view by %v, want %v", c.key, d, c.by)
		}
	}
	if s.steps() != 0 {
		t.Error("moving the view changed the project")
	}
}

// A strip of 600 x 80 at (100, 20), worked by hand: turned by 30 degrees its
// corners are the least at x = 100 - 80 sin 30 = 60 and y = 20.
func TestHowAStripLies(t *testing.T) {
	p := model.NewProject()
	p.Boards = []*model.Board{model.NewBoard("A", "walnut-black", 1500, 500, 26)}
	n := model.NewPanel("top", model.RoleTop, 570, 70, 20)
	n.Strips = []model.Strip{model.NewPlace("A1", 600, 80), model.NewPlace("2", 600, 80)}
	n.Strips[0].Board, n.Strips[0].X, n.Strips[0].Y = "A", 100, 20
	p.Panels = []*model.Panel{n}
	for _, c := range []struct {
		units unit.System
		angle float64
		want  string
	}{
		{unit.MM, 0, "100 mm from marked end  ·  20 mm from marked edge  ·  0.0°"},
		{unit.MM, -0.04, "100 mm from marked end  ·  19.6 mm from marked edge  ·  0.0°"},
		{unit.MM, 30, "60 mm from marked end  ·  20 mm from marked edge  ·  30.0°"},
		{unit.Inch, 30, "2 3/8\" from marked end  ·  13/16\" from marked edge  ·  30.0°"},
	} {
		q, err := model.Apply(p, model.PlaceStrip{Panel: "top", Strip: "A1", Board: "A", X: 100, Y: 20, Angle: c.angle})
		if err != nil {
			t.Fatal(err)
		}
		r := *q
		r.Units = c.units
		s := open(t, &r, 100)
		line, got := s.Window.lie("top", "A1")
		if got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
		if !strings.HasPrefix(line, "Strip A1 on board A: ") {
			t.Errorf("line %q", line)
		}
		if line, got := s.Window.lie("top", "2"); line != "" || got != "" {
			t.Errorf("an empty place lies at %q", line)
		}
	}
}

// What a gesture says goes with it, and what it tells of the strip too.
func TestStatusOfAGesture(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	from, ok := s.surf.laidPlace(s.lie(t, "t2"))
	if !ok {
		t.Fatal("the strip in hand is not on screen")
	}
	was := s.lie(t, "t2")
	s.press(from)
	s.drag(from.Add(geom.Pt(20, -6)))
	now := s.lie(t, "t2")
	if now.X == was.X {
		t.Fatal("the drag does not move it")
	}
	if said := s.status.text.Text; !strings.Contains(said, s.ses.Len(now.X)+" from the marked end") || !strings.Contains(said, "0.0°") {
		t.Errorf("while it is dragged the status line says %q", said)
	}
	if told := s.surf.input().Sketch.Told; !strings.Contains(told, s.ses.Len(now.X)+" from marked end") {
		t.Errorf("beside the strip stands %q", told)
	}
	s.release(from.Add(geom.Pt(20, -6)))
	if said := s.status.text.Text; strings.Contains(said, "marked end") || s.surf.input().Sketch.Told != "" {
		t.Errorf("after the drag the status line says %q", said)
	}
	// Held keys tell it as well.
	s.surf.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if told := s.surf.input().Sketch.Told; !strings.Contains(told, "from marked end") {
		t.Errorf("moved by key: %q", told)
	}
	s.surf.KeyUp(&fyne.KeyEvent{Name: fyne.KeyRight})
	if s.surf.input().Sketch.Told != "" {
		t.Error("it still stands there when the key is up")
	}
}

// The marks on a panel are explained where they stand.
func TestMarksAreExplained(t *testing.T) {
	s := demo(t, 100)
	hit := scene.Hit{Panel: "top", Strip: "t1", Board: s.lie(t, "t1").Board}
	for part, want := range map[scene.Part]string{
		scene.MarkWedge: "marked edge", scene.PlaneArrow: "planes cleanly", scene.JointMark: "hatched is sapwood",
	} {
		hit.Part = part
		if got := hint(s.Window, hit); !strings.Contains(got, want) {
			t.Errorf("part %d: %q", part, got)
		}
	}
	// Rolled over, what planes from the left planes from the right.
	hit.Part = scene.PlaneArrow
	show := hint(s.Window, hit)
	s.key(fyne.KeyV)
	if hint(s.Window, hit) == show {
		t.Errorf("seen from the back it still says %q", show)
	}
}

// The panel before the last change keeps the numbers and readings it had.
func TestBeforeKeepsItsNumbers(t *testing.T) {
	s := demo(t, 100)
	light := s.ses.Reading("top").Show.Light.Value
	n := s.ses.Number("top", "t2")
	s.take("t2")
	s.key(fyne.KeyDelete)
	s.key(fyne.KeyB)
	in := s.surf.input()
	if got := in.Words.Was("top", "t2"); got != n {
		t.Errorf("before, strip %s is called %q", n, got)
	}
	if in.Words.Before == in.Words.Now || !strings.HasPrefix(in.Words.Before, unit.FormatPercent(light)) || math.IsNaN(light) {
		t.Errorf("before %q, now %q", in.Words.Before, in.Words.Now)
	}
}
