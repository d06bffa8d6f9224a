package ui

import (
	"context"
	"errors"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/model"
)

func TestRackShowsEveryStep(t *testing.T) {
	r := newReader()
	s := openReading(t, stack("A"), 100, r.read)
	s.drop(pictureFiles(t, "A1.png")...)
	cell := s.rack.faces.rows[0].cells[0]
	for _, st := range []intake.Step{intake.Opening, intake.Finding, intake.Squaring, intake.Splitting, intake.Tracing} {
		r.steps <- st
		s.q.wait(t, st.String(), func() bool { return strings.Contains(cell.text.Text, st.String()) })
		if !cell.bar.Visible() || cell.bar.Value != st.Progress() || !s.rack.under.Visible() {
			t.Errorf("at %v the bar stands at %g, seen %v", st, cell.bar.Value, cell.bar.Visible())
		}
	}
	if got := s.rack.reads.Text; got != "Reading photographs: 0 of 1." {
		t.Errorf("over the rack: %q", got)
	}
	s.leavePage()
	if got := s.status.read.Text; !strings.HasPrefix(got, "Reading photographs: 0 of 1.") || !strings.Contains(got, "stops") {
		t.Errorf("the status line of the panels says %q", got)
	}
	s.act("rack")
	r.out <- errors.New("no board stands out; give its corners by hand")
	s.q.wait(t, "the failure", func() bool { return strings.Contains(cell.text.Text, "could not be read: no board") })
	if !strings.HasPrefix(cell.text.Text, "✕") || cell.bar.Visible() || s.status.read.Visible() {
		t.Errorf("a failure shows %q, bar %v", cell.text.Text, cell.bar.Visible())
	}
	s.pressed(fyne.KeyHome)
	s.write("r")
	s.q.wait(t, "the second try", func() bool { return s.watch.busy })
	s.act("stop-reading")
	s.q.wait(t, "the stop", func() bool { return strings.Contains(cell.text.Text, "stopped") })
	if !s.rack.read.Visible() {
		t.Error("nothing offers to read what waits")
	}
	s.act("read-waiting")
	r.out <- nil
	s.q.wait(t, "the reading", func() bool { return strings.Contains(cell.text.Text, "found, 96 % sure") })
}

func TestAcceptRemoveAndUndo(t *testing.T) {
	s := openReading(t, stack("A", "B"), 100, atOnce)
	s.drop(pictureFiles(t, "A1.png", "A2.png", "B1.png", "B2.png")...)
	s.q.wait(t, "the reading", func() bool { return len(s.ses.Waiting()) == 0 })
	l := s.rack.faces
	by := func(id string, f int) model.SplitBy { return s.ses.Project().Board(id).Faces[f-1].Split.By }
	s.write("a")
	if by("A", 1) != model.SplitChecked || s.ses.UndoLabel() != "Accept face 1 of board A" || !strings.Contains(l.rows[0].cells[0].text.Text, "✓ checked") {
		t.Errorf("A leaves face 1 %q, undo %q, shown %q", by("A", 1), s.ses.UndoLabel(), l.rows[0].cells[0].text.Text)
	}
	steps := s.steps()
	s.write("a")
	if s.steps() != steps {
		t.Error("accepting what is accepted is a change")
	}
	s.write("n")
	if p, _, _ := l.hand(); p != (intake.Place{Board: "A", Part: intake.Face2}) {
		t.Errorf("N leads to %v", p)
	}
	s.pressed(fyne.KeyDown)
	s.write("a")
	s.act("undo")
	if by("B", 2) != model.SplitFound {
		t.Error("undo does not take the acceptance back")
	}
	s.pressed(fyne.KeyDelete)
	if b := s.ses.Project().Board("B"); b.Faces[1].Photo != "" || len(b.Faces[1].Zones) != 0 || b.Faces[0].Photo == "" {
		t.Errorf("Delete leaves %+v", b.Faces[1])
	}
	s.act("undo")
	if by("B", 2) != model.SplitFound {
		t.Error("undo does not bring the photograph back")
	}
	s.pressed(fyne.KeyRight)
	s.pressed(fyne.KeyRight)
	s.pressed(fyne.KeyRight)
	if p, _, _ := l.hand(); p != (intake.Place{Board: "B", Part: intake.EndB}) {
		t.Errorf("three to the right of face 2 is %v", p)
	}
	if s.ses.Selected().Board != "B" {
		t.Error("the board of the row is not in hand")
	}
	s.write("a")
	if !strings.Contains(s.status.text.Text, "nothing to accept") {
		t.Errorf("accepting an end says %q", s.status.text.Text)
	}
}

func TestDoubtsAreNamed(t *testing.T) {
	for _, c := range []struct {
		change func(*intake.Reading)
		want   string
	}{
		{func(r *intake.Reading) { r.Confidence[2] = 0.2 }, "⚠ look: corners unsure"},
		{func(r *intake.Reading) { r.Doubts = []string{"two boards in the picture"} }, "⚠ look: two boards in the picture"},
		{func(r *intake.Reading) { r.Split.Sure = 0.41 }, "⚠ look: the split is only 41 % sure"},
		{func(*intake.Reading) {}, "◐ found, 96 % sure: look and accept"},
	} {
		s := openReading(t, stack("A"), 100, func(_ context.Context, j intake.Job, _ func(intake.Step)) (*intake.Reading, error) {
			r := foundReading(j)
			c.change(r)
			return r, nil
		})
		s.drop(pictureFiles(t, "A1.png")...)
		s.q.wait(t, "the reading", func() bool { return len(s.ses.Waiting()) == 0 })
		if got := faceState(s.ses, s.ses.Project().Boards[0], 1).text(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestOnlyBoardsAtTheRackWhilePanelsAreHidden(t *testing.T) {
	s := demo(t, 100)
	s.take("t2")
	s.act("rack")
	for _, id := range []string{"roll", "lift", "remove-strip", "zones", "zoom-in", "next-board"} {
		if s.act(id) {
			t.Errorf("%s is done on what is hidden", id)
		}
	}
	s.pressed(fyne.KeyEscape)
	if s.page != nil || !s.act("roll") {
		t.Error("back at the panels a strip cannot be rolled over")
	}
}

func TestRackCountsTheBatch(t *testing.T) {
	r := newReader()
	s := openReading(t, stack("A", "B"), 100, r.read)
	s.drop(pictureFiles(t, "A1.png", "A2.png")...)
	r.out <- nil
	s.q.wait(t, "the first", func() bool { return s.watch.done == 1 })
	s.drop(pictureFiles(t, "B1.png")...)
	if got := s.watch.text(); got != "Reading photographs: 1 of 3." {
		t.Errorf("%q", got)
	}
	r.out <- nil
	r.out <- nil
	s.q.wait(t, "the rest", func() bool { return !s.watch.busy })
	s.drop(pictureFiles(t, "B2.png")...)
	if got, want := s.watch.text(), "Reading photographs: 0 of 1."; got != want {
		t.Errorf("a batch of its own: %q, want %q", got, want)
	}
	r.out <- nil
}

func TestRackForgetsAnotherProject(t *testing.T) {
	s := openReading(t, stack("A", "B"), 100, atOnce)
	s.act("rack")
	s.rack.turn(stepBoards)
	s.rack.boards.rows[0].size[0].SetText("900")
	s.drop(pictureFiles(t, "IMG_1.png")...)
	if err := s.openDemo(); err != nil {
		t.Fatal(err)
	}
	if !s.rack.boards.empty() || len(s.rack.pics.rows) != 0 || s.page != page(s.rack) {
		t.Errorf("rows typed: %v, pictures that wait: %d", !s.rack.boards.empty(), len(s.rack.pics.rows))
	}
	if n := len(s.ses.Project().Boards); len(s.rack.faces.rows) != n {
		t.Errorf("%d rows for %d boards", len(s.rack.faces.rows), n)
	}
}
