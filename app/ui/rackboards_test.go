package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

func TestRackBoardsByKeyboardAlone(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	if !s.act("rack") || s.page != page(s.rack) || s.rack.step != stepBoards {
		t.Fatal("an empty project does not begin with letters and sizes")
	}
	row := func(species, length, width, thickness string) {
		s.pressed(fyne.KeyReturn) // the letter stays
		s.write(species)
		s.pressed(fyne.KeyReturn)
		for _, v := range []string{length, width, thickness} {
			s.write(v)
			s.pressed(fyne.KeyReturn)
		}
		s.write(" ") // chalked
		s.pressed(fyne.KeyReturn)
	}
	row("maple, sug", "2400", "210", "4/4")
	row("", "96 in", "8 1/4 in", "")
	s.pressed(fyne.KeyEscape)
	if s.page != nil || s.win.Canvas().Focused() != fyne.Focusable(s.surf) {
		t.Fatal("Escape does not lead back to the panels")
	}
	s.act("rack")
	s.rack.boards.keep()
	boards := s.ses.Project().Boards
	if len(boards) != 2 || s.steps() != 1 || s.asks != nil {
		t.Fatalf("%d boards in %d steps, want 2 in 1", len(boards), s.steps())
	}
	a, b := boards[0], boards[1]
	// 4/4 is one inch, 25.4 mm; 96 in are 2438.4 mm, 8 1/4 in 209.55 mm.
	if a.ID != "A" || a.Species != "maple-sugar-hard" || a.Length != 2400 || a.Width != 210 || a.Thickness != 25.4 {
		t.Errorf("the first board is %+v", a)
	}
	if b.ID != "B" || b.Species != a.Species || b.Length < 2438.39 || b.Length > 2438.41 || b.Width < 209.54 || b.Width > 209.56 || b.Thickness != 25.4 {
		t.Errorf("the second board is %+v", b)
	}
	if s.rack.step != stepPhotos {
		t.Error("the photographs do not come next")
	}
	s.act("undo")
	if len(s.ses.Project().Boards) != 0 {
		t.Error("one undo leaves boards")
	}
}

func TestRackBoardsTellWhatIsWrong(t *testing.T) {
	s := open(t, stack("A"), 100)
	s.act("rack")
	s.rack.turn(stepBoards)
	e := s.rack.boards
	if e.rows[0].letter.Text != "B" || !strings.Contains(e.has.Text, "Without photographs yet: A") {
		t.Errorf("beside board A the next letter is %q, and the page says %q", e.rows[0].letter.Text, e.has.Text)
	}
	e.addRow()
	for _, c := range []struct {
		name  string
		row   int
		field *field
		text  string
		says  string
	}{
		{"no length", 0, e.rows[0].size[0], "2m4x", "Length"},
		{"no width", 0, e.rows[0].size[1], "0", "Width"},
		{"a letter twice", 1, e.rows[1].letter, "A", "board A already"},
		{"no wood", 1, e.rows[1].species.field, "xylo", "xylo"},
		{"no thickness", 1, e.rows[1].size[2], "-3", "Thickness"},
	} {
		for _, r := range e.rows {
			for i, v := range []string{"900", "150", "25"} {
				r.size[i].SetText(v)
			}
		}
		e.rows[0].letter.SetText("B")
		e.rows[1].letter.SetText("C")
		e.rows[1].species.put("walnut-black")
		c.field.SetText(c.text)
		e.keep()
		tr := e.rows[c.row].trouble
		if !tr.Visible() || !strings.Contains(tr.Text, c.says) || s.win.Canvas().Focused() != fyne.Focusable(c.field) {
			t.Errorf("%s: says %q at its row, visible %v, keys at %T", c.name, tr.Text, tr.Visible(), s.win.Canvas().Focused())
		}
		if s.steps() != 0 {
			t.Fatalf("%s: boards are added all the same", c.name)
		}
		c.field.SetText("")
		if tr.Visible() {
			t.Errorf("%s: the message stays over a field that is changed", c.name)
		}
	}
	// What is not ticked as chalked is asked about, once.
	for _, r := range e.rows {
		for i, v := range []string{"900", "150", "25"} {
			r.size[i].SetText(v)
		}
	}
	e.rows[0].letter.SetText("B")
	e.keep()
	if s.asks == nil {
		t.Fatal("boards without a chalked letter are taken without a word")
	}
	s.asks.confirm()
	s.q.drain()
	if len(s.ses.Project().Boards) != 3 || s.steps() != 1 {
		t.Errorf("after yes there are %d boards in %d steps", len(s.ses.Project().Boards), s.steps())
	}
}
