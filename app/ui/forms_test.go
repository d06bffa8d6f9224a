package ui

import (
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

func inches() *model.Project {
	p := model.NewProject()
	p.Units = unit.Inch
	return p
}

func TestSpeciesIsTyped(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	f := newBoardForm(s.Window, &model.Board{ID: "A", Species: "walnut-black", Wanted: model.WantHeart}, nil)
	s.ask(question{title: "x", yes: "y", body: f.body()})
	s.typing(f.species.field, "hard ma")
	if f.species.found != "maple-sugar-hard" {
		t.Fatalf("“hard ma” finds %q", f.species.found)
	}
	if got := chosen(f.wanted, woods()); got != model.WantSap { // common practice, no source
		t.Errorf("maple proposes %q", got)
	}
	f.species.settle()
	if f.species.Text != "Maple, sugar (hard)" {
		t.Errorf("the name is completed to %q", f.species.Text)
	}
	f.wanted.SetSelectedIndex(2)
	s.typing(f.species.field, "cherry")
	if got := chosen(f.wanted, woods()); got != model.WantBoth {
		t.Errorf("what the maker chose became %q", got)
	}
	s.typing(f.species.field, "xylo")
	if _, err := f.species.wood(); err == nil || !strings.Contains(err.Error(), "“xylo”") {
		t.Errorf("a wood that is not there gives %v", err)
	}
	s.typing(f.species.field, "oak")
	first := f.species.found
	f.species.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	f.species.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if got := f.species.found; got == first || !strings.HasPrefix(got, "oak-") {
		t.Errorf("two steps down from %s lead to %s", first, got)
	}
}

func TestNewBoardFollowsTheLast(t *testing.T) {
	p := model.NewProject()
	b := model.NewBoard("A", "maple-sugar-hard", 2000, 200, 26)
	b.Wanted = model.WantBoth
	p.Boards = []*model.Board{b}
	s := open(t, p, 100)
	f := newBoardForm(s.Window, s.nextBoard(), nil)
	if f.species.Text != "Maple, sugar (hard)" || chosen(f.wanted, woods()) != model.WantBoth {
		t.Errorf("a board after one of maple, both wanted, begins as %s, %s", f.species.Text, f.wanted.Selected)
	}
}

func TestThickBoardIsAskedAbout(t *testing.T) {
	s := open(t, inches(), 100)
	s.act("new-board")
	board := s.asks
	focus := func(n int) *field {
		s.win.Canvas().Focus(board.q.focus)
		for range n {
			s.win.Canvas().FocusNext()
		}
		f, ok := s.win.Canvas().Focused().(*field)
		if !ok {
			t.Fatalf("stop %d of the dialog is a %T", n, s.win.Canvas().Focused())
		}
		return f
	}
	for i, v := range []string{"96", "8", `7 1/4"`} {
		s.typing(focus(2+i), v)
	}
	board.confirm()
	s.q.drain()
	if s.asks == board || s.asks.q.title != "Is that right?" || len(s.ses.Project().Boards) != 0 {
		t.Fatal("a board 7 1/4\" thick is taken without a word")
	}
	s.asks.confirm()
	s.q.drain()
	if s.asks != nil || len(s.ses.Project().Boards) != 1 {
		t.Errorf("after yes the project has %d boards", len(s.ses.Project().Boards))
	}
}

func TestDialogKeysWorkEverywhere(t *testing.T) {
	s := demo(t, 100)
	for _, id := range []string{"new-board", "new-panel", "project"} {
		s.act(id)
		a := s.asks
		seen := map[fyne.Focusable]bool{}
		for f := s.win.Canvas().Focused(); f != nil && !seen[f]; f = s.win.Canvas().Focused() {
			seen[f] = true
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if s.asks != nil {
				t.Fatalf("%s: Escape does nothing in a %T", id, f)
			}
			s.act(id)
			for range len(seen) {
				s.win.Canvas().FocusNext()
			}
			if len(seen) > 12 {
				break
			}
		}
		if len(seen) < 5 || a == nil {
			t.Errorf("%s: only %d stops", id, len(seen))
		}
		s.asks.cancel()
	}
	s.fail("The photograph cannot be used", os.ErrNotExist)
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s.asks != nil {
		t.Error("Enter does not close a box that only tells")
	}
}

func TestMessageGoesWhenMended(t *testing.T) {
	s := demo(t, 100)
	s.act("new-panel")
	f := s.win.Canvas().Focused().(*field)
	size := s.asks.pop.Content.Size()
	s.typing(f, "top") // there is one
	s.asks.confirm()
	if !s.asks.trouble.Visible() || !strings.Contains(s.asks.trouble.Text, "already") {
		t.Fatalf("a second panel of one name: %q", s.asks.trouble.Text)
	}
	if got := s.asks.pop.Content.Size(); got != size {
		t.Errorf("the dialog jumped from %v to %v", size, got)
	}
	s.typing(f, "Left door")
	if s.asks.trouble.Visible() {
		t.Error("the message stays over a name that was mended")
	}
}

func TestPanelKeepsItsNameAsTyped(t *testing.T) {
	s := demo(t, 100)
	n := model.NewPanel("Door", model.RoleDoor, 700, 300, 20)
	f := newPanelForm(s.Window, n, nil)
	s.ask(question{title: "x", yes: "y", body: f.body()})
	for i, v := range []string{"700", "300", "20"} {
		s.typing(f.size[i], v)
	}
	s.typing(f.name, " Left  door ")
	if out, err := f.panel(); err != nil || out.ID != "Left door" {
		t.Errorf("“Left door” became %v, %v", out, err)
	}
	s.typing(f.name, "TOP")
	if _, err := f.panel(); err == nil {
		t.Error("TOP is taken beside top")
	}
	for role, want := range map[model.Role]string{model.RoleTop: "Top 2", model.RoleDoor: "Door", model.RoleDrawerFront: "Drawer front", model.RoleOther: "Panel"} {
		if got := freePanelName(s.ses.Project(), role); got != want {
			t.Errorf("a %s is offered the name %q, want %q", role, got, want)
		}
	}
	f.shape.SetSelectedIndex(1)
	s.typing(f.name, "Oval")
	if out, err := f.panel(); err != nil || out.Shape != model.Ellipse {
		t.Errorf("the ellipse became %v, %v", out, err)
	}
}

// 1" is 25.4 mm, 20 degrees C are 68 F.
func TestUnitsChangeAtOnce(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	f := newProjectForm(s.Window)
	f.work[3].in.SetText("25.4") // left at each end
	f.units.SetSelectedIndex(1)
	if got := f.work[3].in.Text; got != `1"` {
		t.Errorf("25.4 mm are shown as %s", got)
	}
	if got := f.air.warm[0].Text; got != "68" {
		t.Errorf("20 degrees C are shown as %s", got)
	}
	f.air.humid[1].SetText("25")
	f.air.warm[1].SetText("77")
	s.ask(question{title: "x", body: f.body(), yes: "y"})
	if err := f.keep(); err != nil {
		t.Fatal(err)
	}
	p := s.ses.Committed()
	if p.Units != unit.Inch || math.Abs(p.Allowances.Ends-25.4) > 1e-9 || p.Climate.Dry.RH != 25 || math.Abs(p.Climate.Dry.Temp-25) > 1e-9 {
		t.Errorf("kept: %v, ends %g, dry %+v", p.Units, p.Allowances.Ends, p.Climate.Dry)
	}
	if p.Allowances.Kerf != model.DefaultAllowances().Kerf || p.Climate.Now != model.DefaultClimate().Now {
		t.Error("what was not touched changed by being shown in inches")
	}
}

func TestPaper(t *testing.T) {
	s := open(t, inches(), 100)
	if got := s.set.paper("inch"); got != "" {
		t.Fatalf("before any sheet: %q", got)
	}
	s.set.keepPaper("inch", "A4")
	if s.set.paper("inch") != "A4" || s.set.paper("mm") != "" {
		t.Error("the paper is not remembered by units")
	}
}

func TestLimitsInTheProjectsUnits(t *testing.T) {
	s := open(t, inches(), 100)
	// 20 000 mm are 787.4", to the sixteenth 787 3/8".
	if _, err := s.newField("800", "").size("length"); err == nil || !strings.Contains(err.Error(), `787 3/8"`) || strings.Contains(err.Error(), "mm") {
		t.Errorf("800 inches: %v", err)
	}
	if _, err := s.newField("12 x", "").number("price"); err == nil || strings.Contains(err.Error(), `\`) {
		t.Errorf("a bad figure: %v", err)
	}
	for deg, want := range map[float64]string{2.7640348649057236: "2.8", 0: "0", -0.04: "0", 90: "90", -12.5: "-12.5"} {
		if got := angleText(deg); got != want {
			t.Errorf("%g degrees print as %q, want %q", deg, got, want)
		}
	}
}

func TestCornersInStep(t *testing.T) {
	s := demo(t, 100)
	b := s.board()
	f := newCornerForm(s.Window, b, 1, "x.jpg", image.NewRGBA(image.Rect(0, 0, 1000, 500)), 2)
	f.pic.Resize(fyne.NewSize(500, 250))
	s.ask(question{title: "x", body: f.pic, yes: "y", do: f.keep})
	f.pic.view.room = geom.Pt(500, 250)
	f.pic.view.hold()
	at := geom.Pt(120, 80)
	before := f.pic.view.toPic(at)
	f.pic.view.zoomed(at, 4)
	if got := f.pic.view.toPic(at); got.Dist(before) > 1e-9 || math.Abs(f.pic.view.scale()-2) > 1e-9 {
		t.Errorf("zooming moved %v to %v at scale %g", before, got, f.pic.view.scale())
	}
	f.figures.SetText("260,900, 1800,880")
	if want := []geom.Point{{X: 130, Y: 450}, {X: 900, Y: 440}}; !slices.Equal(f.pic.corners, want) {
		t.Errorf("the figures give the points %v", f.pic.corners)
	}
	f.pic.TypedRune('2')
	f.pic.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if f.pic.corners[1].X >= 900 || !strings.HasPrefix(f.figures.Text, "260,900, 179") {
		t.Errorf("an arrow leaves corner 2 at %v, the figures at %q", f.pic.corners[1], f.figures.Text)
	}
	f.pic.startOver()
	if f.figures.Text != "" || len(f.pic.corners) != 0 {
		t.Errorf("after starting over: %q, %v", f.figures.Text, f.pic.corners)
	}
	f.figures.SetText("260,900, 1800,880, 1800,100, 200,100")
	f.figures.SetText("")
	if len(f.pic.corners) != 0 {
		t.Error("clearing the figures leaves the points")
	}
}

func TestNoticesStayUntilDismissed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "p.yaml")
	data := "heartside: 1\nboards:\n  - {id: A, species: black-walnut, length: 2000, width: 200, thickness: 26, faces: {1: {photo: gone.jpg, corners: [[0,90],[100,90],[100,0],[0,0]]}}}\n"
	if err := os.WriteFile(path, []byte(data), 0o666); err != nil {
		t.Fatal(err)
	}
	s := open(t, model.NewProject(), 100)
	if err := s.openPath(path); err != nil {
		t.Fatal(err)
	}
	n := s.column.told
	if n.box.Hidden || !strings.Contains(n.shown, "black-walnut") || !strings.Contains(n.shown, "gone.jpg") || len(n.box.Objects) != 2 {
		t.Fatalf("the notices hold %q", n.shown)
	}
	n.dismissed = strings.Join(s.ses.Notices(), "\n")
	s.column.showNotes()
	if strings.Contains(n.shown, "black-walnut") || !strings.Contains(n.shown, "gone.jpg") {
		t.Errorf("after dismissing: %q", n.shown)
	}
	if got := s.photoName(filepath.Join(filepath.Dir(path), "pics", "a.jpg")); got != "pics/a.jpg" {
		t.Errorf("a picture beside the project is named %q", got)
	}
}

func TestButtonsKeepTheirPlaces(t *testing.T) {
	s := demo(t, 100)
	none := slices.Clone(s.row.ids)
	s.take("t1")
	if !slices.Equal(none, s.row.ids) {
		t.Errorf("a strip in hand changes the row from %v to %v", none, s.row.ids)
	}
	if s.row.button("roll").Disabled() {
		t.Error("roll is grey though a strip is in hand")
	}
}

func TestMessagesGoWithTheNextAct(t *testing.T) {
	s := demo(t, 100)
	s.take("t1")
	s.say("Something was done.")
	s.key(fyne.KeyR)
	if s.said != "" || s.status.text.Text == "Something was done." {
		t.Errorf("after the next act it still says %q", s.status.text.Text)
	}
	s.column.apply(s.column.notes[0].Fixes[0])
	if !strings.HasSuffix(s.said, ". Ctrl+Z takes it back.") {
		t.Errorf("after a fix it says %q", s.said)
	}
}

// The figure that stands large is the one the limit speaks of.
func TestLargeFigureIsTheUnwantedShare(t *testing.T) {
	r := &face.Reading{}
	r.Show.Light.Value, r.Show.Unwanted.Value = 0.4, 0.6
	for w, want := range map[face.Wanted]float64{face.WantSap: 0.6, face.WantBoth: 0.4} {
		if got := headShare(w, r).Value; got != want {
			t.Errorf("wanted %v: %g stands large, want %g", w, got, want)
		}
	}
}
