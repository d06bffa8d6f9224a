package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

// threeDoors is a project with three doors of two empty places each.
func threeDoors() *model.Project {
	p := model.NewProject()
	for i, id := range []string{"left", "middle", "right"} {
		n := model.NewPanel(id, model.RoleDoor, 600, 190, 20)
		n.Strips = []model.Strip{model.NewPlace(itoa(2*i+1), 630, 100), model.NewPlace(itoa(2*i+2), 630, 100)}
		p.Panels = append(p.Panels, n)
	}
	return p
}

// doorTicks are the panels of the set's dialog that is up, as they stand there.
func (s stage) doorTicks() (out []*orderTick) {
	for _, o := range inside(s.asks.q.body) {
		if t, ok := o.(*orderTick); ok {
			out = append(out, t)
		}
	}
	return out
}

// A set is named by keys alone: where there is none a new one is begun with the
// panel on screen; the third door is ticked and brought before the first.
func TestSetByKeys(t *testing.T) {
	s := open(t, threeDoors(), 100)
	s.act("sets")
	if s.asks.under == nil {
		t.Fatal("no set is begun where there is none")
	}
	if name := s.win.Canvas().Focused().(*field); name.Text != "Doors" {
		t.Errorf("the set is to be called %q", name.Text)
	}
	s.asks.confirm()
	if s.asks.under == nil || !strings.Contains(s.asks.trouble.Text, "two or more") {
		t.Errorf("one panel alone gives %q", s.asks.trouble.Text)
	}
	right := s.doorTicks()[2]
	s.win.Canvas().Focus(right)
	right.TypedRune(' ')
	for range 3 { // once more than there are places
		right.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	list := s.doorTicks()
	if list[0] != right || !strings.HasPrefix(list[0].Text, "1.  Right") || !strings.HasPrefix(list[1].Text, "2.  Left") || strings.Contains(list[2].Text, ". ") {
		t.Errorf("they read %q, %q, %q", list[0].Text, list[1].Text, list[2].Text)
	}
	if s.win.Canvas().Focused() != fyne.Focusable(right) {
		t.Error("the panel that was moved lost the keys")
	}
	start := s.steps()
	right.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	set, ok := s.ses.Project().Set("Doors")
	if !ok || s.steps() != start+1 || !slices.Equal(set.Panels, []string{"right", "left"}) || set.Gap != model.DefaultGap {
		t.Fatalf("%+v", s.ses.Project().Sets)
	}
	if s.asks == nil || s.asks.under != nil {
		t.Error("the list of sets does not come back")
	}
}

// A set is changed in its dialog and forgotten in the list; the column follows.
func TestSetIsChangedAndForgotten(t *testing.T) {
	p := threeDoors()
	p.Sets = []model.Set{model.NewSet("Doors", "left", "right")}
	s := open(t, p, 100)
	if s.seenText() != "Seen together with right: Doors" {
		t.Errorf("the column says %q", s.seenText())
	}
	s.act("sets")
	s.dialogButton(t, "Change…").OnTapped()
	s.typing(s.win.Canvas().Focused().(*field), "Front")
	for _, o := range inside(s.asks.q.body) {
		if x, ok := o.(*pick); ok && slices.Contains(x.Options, "mirrored") {
			x.SetSelected("mirrored")
		}
		if x, ok := o.(*field); ok && x.Text == "3 mm" {
			s.typing(x, "4")
		}
	}
	s.asks.confirm()
	got, ok := s.ses.Project().Set("Front")
	if !ok || got.Gap != 4 || got.Match != model.MatchMirrored || got.Way != model.Beside || len(s.ses.Project().Sets) != 1 {
		t.Errorf("sets: %+v", s.ses.Project().Sets)
	}
	if s.seenText() != "Seen together with right: Front" {
		t.Errorf("the column says %q", s.seenText())
	}
	if text := s.setText(got); text != "Left and right, beside each other, 4 mm apart, grain mirrored." {
		t.Errorf("listed as %q", text)
	}
	s.dialogButton(t, "Forget").OnTapped()
	if len(s.ses.Project().Sets) != 0 || s.seenText() != "" {
		t.Error("it is not forgotten")
	}
	s.asks.cancel()
	s.ses.Undo()
	if s.seenText() == "" {
		t.Error("undo does not bring it back")
	}
}

// dialogButton finds a button in the body of the dialog that is up.
func (s stage) dialogButton(t *testing.T, text string) *dialogButton {
	t.Helper()
	for _, o := range inside(s.asks.q.body) {
		if b, ok := o.(*dialogButton); ok && b.Text == text {
			return b
		}
	}
	t.Fatalf("the dialog has no button %q", text)
	return nil
}

func (s stage) seenText() string {
	if !s.column.seen.box.Visible() {
		return ""
	}
	return s.column.seen.name.Text
}

func TestSetFiguresOfTheColumn(t *testing.T) {
	p := legsAndDoors(t)
	s := open(t, p, 100)
	r, ok := s.ses.SetReading("left")
	if !ok {
		t.Fatal("the doors are no set")
	}
	rows := s.setRows(r)
	var names []string
	for _, x := range rows {
		names = append(names, x.name)
	}
	for _, want := range []string{"Sapwood of all", "Contrast coverage of all", "Balance, off the middle", "left to right", "Off the mirror image"} {
		if !slices.Contains(names, want) {
			t.Errorf("the figures lack %q: %v", want, names)
		}
	}
	// The left door holds more sapwood: the balance lies to it.
	if !strings.HasSuffix(rows[2].show, " to left") {
		t.Errorf("balance %q", rows[2].show)
	}
	if n := len(s.column.seen.rows.cells); n < len(rows) {
		t.Errorf("the column shows %d of %d figures", n, len(rows))
	}
}
