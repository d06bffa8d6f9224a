package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

// leftAt opens the page on a board of 1000 x 200 x 25 with a strip of 600 x 100 at its
// marked corner, a kerf of 3, and sapwood 40 wide along the other edge.
func leftAt(t *testing.T, text int) (stage, *leftPage) {
	t.Helper()
	p := model.NewProject()
	p.Name = "Shelf"
	p.Allowances, p.Machines = model.Allowances{Kerf: 3}, model.Machines{}
	b := model.NewBoard("A", "walnut-black", 1000, 200, 25)
	for f := range b.Faces {
		b.Faces[f].Known = true
	}
	b.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: geom.R(0, 160, 1000, 200).Polygon()}}
	p.Boards = []*model.Board{b, model.NewBoard("B", "walnut-black", 800, 150, 25)}
	n := model.NewPanel("shelf", model.RoleShelf, 600, 100, 20)
	st := model.NewPlace("1", 600, 100)
	st.Board = "A"
	n.Strips = []model.Strip{st}
	p.Panels = []*model.Panel{n}
	s := open(t, p, text)
	if a := s.acts.find(ctrlShift(fyne.KeyW)); a == nil || a.ID != "left" {
		t.Fatal("Ctrl+Shift+W does not lead to the page")
	}
	s.act("left")
	l, ok := s.page.(*leftPage)
	if !ok {
		t.Fatalf("the page is %T", s.page)
	}
	return s, l
}

func leftSays(l *leftPage) string {
	return strings.Join(append(said(l.body), l.lead.Text, l.trouble.Text), "\n")
}

// The sizes are worked by hand in the session's tests; here they are shown, follow
// what is asked, and what cannot be read is told at once.
func TestOffcutsAreShown(t *testing.T) {
	_, l := leftAt(t, 100)
	all := leftSays(l)
	for _, want := range []string{"2 pieces", "0 mm to 1000 mm from the marked end, 103 mm to 200 mm from the marked edge", "41 % sapwood"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
	l.length.SetText("398")
	if len(l.read.Pieces()) != 1 {
		t.Errorf("from 398 long: %d", len(l.read.Pieces()))
	}
	l.also.SetText("300 x 30 x 15")
	if all := leftSays(l); !strings.Contains(all, "Would give 9 of 300 x 30 x 15 (3 along × 3 across)") {
		t.Errorf("it says\n%s", all)
	}
	l.also.SetText("300 by much")
	if all := leftSays(l); !strings.Contains(all, "no size of a part") || !l.trouble.Visible() {
		t.Errorf("it says\n%s", all)
	}
	l.also.SetText("")
	l.uncut.SetChecked(true)
	if got := l.read.Pieces(); l.trouble.Visible() || len(got) != 2 || got[1].Board != "B" {
		t.Errorf("with whole boards: %+v", got)
	}
}

func TestTestPiecesFromThePage(t *testing.T) {
	s, l := leftAt(t, 100)
	l.testAsk()
	if s.asks == nil {
		t.Fatal("no dialog is up")
	}
	before := s.steps()
	s.asks.q.focus.(*field).SetText("nine")
	if err := s.asks.q.do(); err == nil || s.steps() != before {
		t.Error("“nine” is a count")
	}
	s.asks.q.focus.(*field).SetText("1")
	if err := s.asks.q.do(); err != nil {
		t.Fatal(err)
	}
	if n, ok := s.ses.Project().Part("test piece"); s.steps() != before+1 || !ok || n.Kind != model.TestPiece {
		t.Errorf("%d steps, %+v", s.steps()-before, n)
	}
}

// The next project asks about unsaved changes as any other does, and begins with
// the ticked pieces.
func TestNextProjectFromThePage(t *testing.T) {
	s, l := leftAt(t, 100)
	if !l.next.Disabled() {
		t.Error("with nothing ticked the button can be pressed")
	}
	l.st.ticked["Ab"] = true
	l.fill()
	if err := s.ses.Commit(model.SetSettings{Settings: model.Settings{Name: "Shelf", Units: unit.MM, Allowances: model.Allowances{Kerf: 3}}}); err != nil {
		t.Fatal(err)
	}
	l.begin()
	if s.asks == nil || !strings.Contains(s.asks.q.title, "Save the changes") {
		t.Fatal("unsaved changes are not asked about")
	}
	s.asks.q.also() // thrown away
	p := s.ses.Project()
	if len(p.Boards) != 1 || p.Boards[0].Length != 397 || p.Boards[0].Width != 100 || p.Name != "From what is left of Shelf" || s.page != nil {
		t.Errorf("%+v, page %T", p, s.page)
	}
}

// All that Tab reaches at 200 % lies within a window of 640.
func TestLeftInLargeText(t *testing.T) {
	s, l := leftAt(t, 200)
	s.win.Resize(fyne.NewSize(640, 800))
	d := fyne.CurrentApp().Driver()
	for _, o := range inside(l.all.(*fyne.Container)) {
		if _, is := o.(fyne.Focusable); is && o.Visible() {
			if x := d.AbsolutePositionForObject(o).X + o.Size().Width; x > 650 {
				t.Errorf("a %T ends at %g", o, x)
			}
		}
	}
}
