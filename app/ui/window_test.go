package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// modelWithPanel is a project with one panel of two empty places and no board.
func modelWithPanel() *model.Project {
	p := model.NewProject()
	n := model.NewPanel("top", model.RoleTop, 900, 180, 20)
	n.Strips = []model.Strip{model.NewPlace("1", 930, 95), model.NewPlace("2", 930, 95)}
	p.Panels = []*model.Panel{n}
	return p
}

func TestEmptyPanelWarnsOfNothing(t *testing.T) {
	s := open(t, modelWithPanel(), 100)
	if len(s.column.notes) != 0 || len(s.column.list) != 0 {
		t.Errorf("an empty panel shows %d warnings", len(s.column.notes))
	}
	if s.column.empty.Text == "" {
		t.Error("an empty panel does not say what to do")
	}
}

func TestKeysOnTheStripInHand(t *testing.T) {
	s := demo(t, 100)
	start := s.ses.Committed()
	s.surf.TypedRune(']')
	if got := s.ses.Selected().Strip; got != "t1" {
		t.Fatalf("] takes %q in hand, want the strip at the front, t1", got)
	}
	was := s.lie(t, "t1")
	s.key(fyne.KeyR)
	if got := s.lie(t, "t1").Up; got != 3-was.Up {
		t.Errorf("R leaves face %d up", got)
	}
	s.key(fyne.KeyT)
	if got := s.lie(t, "t1").Turned; got == was.Turned {
		t.Error("T does not turn it end for end")
	}
	s.key(fyne.KeyS)
	if got := s.panel().StripIndex("t1"); got != 1 {
		t.Errorf("S leaves it at place %d, want 1", got)
	}
	s.key(fyne.KeyP)
	if !s.lie(t, "t1").Pinned {
		t.Error("P does not pin it")
	}
	if n := s.steps(); n != 4 {
		t.Errorf("four keys made %d steps", n)
	}
	for s.act("undo") {
	}
	if s.ses.Committed() != start {
		t.Error("undoing everything does not give the very same project")
	}
}

func TestArrowsAreOneStep(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	was := s.lie(t, "t2")
	s.surf.KeyDown(&fyne.KeyEvent{Name: fyne.KeyRight})
	for range 3 { // the key repeats
		s.surf.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	if s.steps() != 0 || !s.ses.Previewing() {
		t.Error("a held key is committed before it comes up")
	}
	s.surf.KeyUp(&fyne.KeyEvent{Name: fyne.KeyRight})
	if now := s.lie(t, "t2"); now.X != was.X+3 || now.Y != was.Y {
		t.Errorf("three arrows to the right moved it by %g, %g", now.X-was.X, now.Y-was.Y)
	}
	s.shift(fyne.KeyUp)
	// Up is up on the face that shows: on face 2 the marked edge is above.
	want := 10.0
	if was.Up == 2 {
		want = -10
	}
	if now := s.lie(t, "t2"); now.Y != was.Y+want {
		t.Errorf("Shift+Up moved it across by %g, want %g", now.Y-was.Y, want)
	}
	if s.steps() != 2 {
		t.Errorf("two runs of keys made %d steps", s.steps())
	}
}

func TestDragReadsInTheSameFrame(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	from, ok := s.surf.laidPlace(s.lie(t, "t2"))
	if !ok {
		t.Fatal("the strip in hand is not on screen on its board")
	}
	light := s.ses.Reading("top").Show.Light.Value
	shown := s.column.reads.rows.cells[1][1].Text
	start := s.ses.Committed()
	s.press(from)
	// On face 1, whose marked edge lies below: up is away from its sapwood.
	for d := 3.0; d <= 21; d += 3 {
		s.drag(from.Add(geom.Pt(0, -d)))
	}
	if !s.ses.Previewing() || s.ses.Reading("top").Show.Light.Value == light {
		t.Fatal("the light share does not follow the drag")
	}
	if s.column.reads.rows.cells[1][1].Text == shown {
		t.Error("the figure in the column does not follow the drag")
	}
	s.release(from.Add(geom.Pt(0, -21)))
	if s.steps() != 1 || s.ses.Previewing() {
		t.Fatalf("the drag made %d steps, preview %v", s.steps(), s.ses.Previewing())
	}
	s.act("undo")
	if s.ses.Committed() != start {
		t.Error("undo does not give the very same project")
	}
}

func TestEscapeDropsADrag(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	from, _ := s.surf.laidPlace(s.lie(t, "t2"))
	s.press(from)
	s.drag(from.Add(geom.Pt(40, 0)))
	s.key(fyne.KeyEscape)
	s.release(from.Add(geom.Pt(40, 0)))
	if s.steps() != 0 || s.ses.Previewing() {
		t.Errorf("after Escape: %d steps, preview %v", s.steps(), s.ses.Previewing())
	}
}

func TestWarningLightsUpAndFixMends(t *testing.T) {
	s := demo(t, 100)
	if len(s.column.list) == 0 || s.column.notes[0].Kind != face.LoneStreak {
		t.Fatal("the demo does not begin with its lone streak")
	}
	c := s.column.list[0]
	c.MouseIn(nil)
	bright := 0
	for _, l := range s.surf.input().Lit {
		if l.Bright && l.Place == s.column.notes[0].Place {
			bright++
		}
	}
	if bright != 1 {
		t.Errorf("pointing at the warning lights %d places", bright)
	}
	c.MouseOut()
	if s.surf.pointed != -1 {
		t.Error("the place stays lit when the pointer leaves")
	}
	if len(c.fixes) == 0 {
		t.Fatal("no fix is offered")
	}
	test.Tap(c.fixes[0])
	for _, n := range s.column.notes {
		if n.Kind == face.LoneStreak {
			t.Errorf("after the fix there still is: %s", n.Title)
		}
	}
	if s.steps() != 1 {
		t.Errorf("the fix made %d steps", s.steps())
	}
	s.act("undo")
	if len(s.column.notes) == 0 || s.column.notes[0].Kind != face.LoneStreak {
		t.Error("undo does not bring the streak back")
	}
}

func TestSwitches(t *testing.T) {
	s := demo(t, 100)
	s.key(fyne.KeyH)
	if in := s.surf.input(); !in.Look.Hatch {
		t.Error("H does not hatch")
	}
	s.take("t1")
	s.key(fyne.KeyR)
	s.key(fyne.KeyB)
	in := s.surf.input()
	if in.Before == nil || in.Before.Strips[0].Up == in.Panel.Panel.Strips[0].Up {
		t.Error("B does not show the panel as it was beside the panel as it is")
	}
	s.key(fyne.KeyZ)
	if !s.surf.show.zoning {
		t.Error("Z does not begin to edit zones")
	}
	s.key(fyne.KeyEscape)
	if s.surf.show.zoning {
		t.Error("Escape does not end it")
	}
}

// All must be in sight at twice the text size in a small window.
func TestNothingIsClippedAtLargeText(t *testing.T) {
	for _, text := range TextSizes() {
		s := demo(t, text)
		if m := s.win.Content().MinSize(); m.Width > 1280 || m.Height > 770 {
			t.Errorf("at %d %% the window needs %.0f x %.0f", text, m.Width, m.Height)
		}
		row := s.row.box.Size().Width
		for _, o := range s.row.box.Objects {
			if o.Visible() && o.Position().X+o.Size().Width > row+0.5 {
				t.Errorf("at %d %% a button of the action row ends at %.0f of %.0f", text, o.Position().X+o.Size().Width, row)
			}
		}
		if len(s.row.lay.hidden) > 0 && !s.row.more.Visible() {
			t.Errorf("at %d %% actions are left out and nothing leads to them", text)
		}
		if w := s.column.box.Size().Width; w > 0.45*1280 {
			t.Errorf("at %d %% the column takes %.0f of 1280", text, w)
		}
		for _, o := range s.column.body.Objects {
			if o.Position().X+o.Size().Width > s.column.box.Size().Width {
				t.Errorf("at %d %% the column's content runs out of it", text)
			}
		}
	}
}

func TestSaveAsAndUnsavedChanges(t *testing.T) {
	s := demo(t, 100)
	s.take("t1")
	s.key(fyne.KeyR)
	if !strings.HasPrefix(s.win.Title(), "•") {
		t.Errorf("the title %q does not tell of unsaved changes", s.win.Title())
	}
	s.newProject()
	if s.asks == nil || len(s.ses.Project().Boards) == 0 {
		t.Fatal("a changed project is thrown away without a question")
	}
	s.asks.cancel()
	path := filepath.Join(t.TempDir(), "none", "console.yaml")
	s.act("save")
	f, ok := s.win.Canvas().Focused().(*field)
	if !ok {
		t.Fatal("saving a project without a file does not ask for a path")
	}
	f.SetText(path)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.q.drain()
	if s.asks == nil || !s.asks.trouble.Visible() || !s.ses.Dirty() {
		t.Fatal("a folder that is not there is not told in the dialog")
	}
	if err := os.Mkdir(filepath.Dir(path), 0o777); err != nil {
		t.Fatal(err)
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.q.drain()
	if s.asks != nil || s.ses.Dirty() || s.ses.Path() != path {
		t.Fatalf("after saving: dialog %v, dirty %v, path %s", s.asks != nil, s.ses.Dirty(), s.ses.Path())
	}
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
	if got := s.set.recent(); len(got) != 1 || got[0] != path {
		t.Errorf("recent files %q", got)
	}
	s.newProject()
	if s.asks != nil || len(s.ses.Project().Boards) != 0 {
		t.Error("a saved project is asked about")
	}
}

func TestBadFileLeavesWhatIsOnScreen(t *testing.T) {
	s := demo(t, 100)
	path := filepath.Join(t.TempDir(), "bad.yaml")
	if err := os.WriteFile(path, []byte("heartside: 1\nnmae: x\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	was := s.ses.Project()
	s.openOrSay(path)
	if s.ses.Project() != was || s.asks == nil {
		t.Error("a bad file replaces the project, or is not told of")
	}
}

func TestShortcutsLeaveDialogsAlone(t *testing.T) {
	s := demo(t, 100)
	s.take("t1")
	s.key(fyne.KeyR)
	s.act("new-board")
	s.fromMenu("undo")
	s.fromMenu("new-panel")
	if s.steps() != 1 {
		t.Error("a shortcut took back a change behind the dialog")
	}
	if s.asks.q.title != "New board" {
		t.Errorf("a shortcut opened %q over the dialog", s.asks.q.title)
	}
	f := s.win.Canvas().Focused().(*field)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if s.asks != nil || s.win.Canvas().Focused() != fyne.Focusable(s.surf) {
		t.Error("Escape does not close the dialog and give the keys back")
	}
}
