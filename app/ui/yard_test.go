package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/unit"
)

// yardProject has a shelf of 1000 x 180 x 20 without sapwood on its face, and no
// allowances: widths add up by hand.
func yardProject() *model.Project {
	p := model.NewProject()
	p.Allowances, p.Machines = model.Allowances{}, model.Machines{}
	n := model.NewPanel("shelf", model.RoleShelf, 1000, 180, 20)
	n.UnwantedLimit[0] = 0
	p.Panels = []*model.Panel{n}
	return p
}

// yardAt opens the page by its key.
func yardAt(t *testing.T, p *model.Project, text int) (stage, *yardPage) {
	t.Helper()
	s := open(t, p, text)
	a := s.acts.find(ctrlShift(fyne.KeyY))
	if a == nil || a.ID != "yard" {
		t.Fatal("Ctrl+Shift+Y does not lead to the page")
	}
	s.act("yard")
	return s, yardUp(t, s)
}

func yardUp(t *testing.T, s stage) *yardPage {
	t.Helper()
	y, ok := s.page.(*yardPage)
	if !ok {
		t.Fatalf("the page is %T", s.page)
	}
	yardWait(t, s, y)
	return y
}

func yardWait(t *testing.T, s stage, y *yardPage) {
	t.Helper()
	s.q.wait(t, "the choice", func() bool { return !y.run.busy })
}

// record types a board with the keyboard alone, a text and Enter a field from
// the letter on; "" leaves what the field holds.
func (s stage) record(t *testing.T, y *yardPage, texts ...string) {
	t.Helper()
	for i, text := range texts {
		f, ok := s.win.Canvas().Focused().(*field)
		if !ok || f != y.entry.in[i] {
			t.Fatalf("after %d fields the keys are at %T", i, s.win.Canvas().Focused())
		}
		for _, r := range text {
			f.TypedRune(r)
		}
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	yardWait(t, s, y)
}

func yardSays(y *yardPage) string {
	return strings.Join(append(said(y.side.box), append(said(y.side.needs), said(y.list.box)...)...), "\n")
}

// Ten fields and ten times Enter a board: the next letter, the thickness and the
// rate are there already. 200 mm less 20 of sapwood make the shelf of 180; at
// 2000 a cubic metre 0.2 x 1 x 0.025 m3 cost 10.
func TestBoardsRecordedByKeyboardAlone(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	if y.entry.in[yardLetter].Text != "A" {
		t.Errorf("the first letter is %q", y.entry.in[yardLetter].Text)
	}
	s.record(t, y, "", "1000", "200", "25", "20", "0", "18/20/19", "0", "2000", "")
	s.record(t, y, "", "1000", "200", "", "", "", "0", "", "", "k")
	s.record(t, y, "X", "1000", "170", "", "0", "", "0", "", "", "l")
	list := y.yard().Offers
	if len(list) != 3 || list[0].ID != "A" || list[1].ID != "B" || list[2].ID != "X" {
		t.Fatalf("%+v", list)
	}
	if a := list[0]; a.Sap[0][0] != [3]float64{20, 20, 20} || a.Sap[1][0] != [3]float64{18, 20, 19} || a.Unseen != [2]bool{} || a.Say != model.OfferOpen {
		t.Errorf("A: %+v", a)
	}
	if b := list[1]; b.Thickness != 25 || b.Unseen != [2]bool{true, false} || b.Say != model.OfferKeep || *b.Rate != *session.RateOf(2000, "cubic-metre") {
		t.Errorf("B: %+v", b)
	}
	if all := yardSays(y); !strings.Contains(all, "The boards you keep make the job: 10.00") || !strings.Contains(all, "Face 1 not looked at, face 2 clear") {
		t.Errorf("it says\n%s", all)
	}
	y.list.buttons[yardButton{"B", "Leave"}].OnTapped()
	yardWait(t, s, y)
	if all := yardSays(y); !strings.Contains(all, "Buy A: 10.00") || !strings.Contains(all, "cannot do without it") {
		t.Errorf("it says\n%s", all)
	}
}

// What is wrong is told at its field, and nothing that was typed is lost.
func TestFaultsAtTheYard(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	s.record(t, y, "", "1000", "200", "25", "20/30", "0", "", "", "", "")
	if len(y.yard().Offers) != 0 || !strings.Contains(y.entry.trouble.Text, "2 widths") || !y.entry.trouble.Visible() {
		t.Fatalf("%q", y.entry.trouble.Text)
	}
	f := y.entry.in[yardSap11]
	if s.win.Canvas().Focused() != fyne.Focusable(f) || y.entry.in[yardLength].Text != "1000" {
		t.Error("the keys are not at the field that is wrong")
	}
	s.typing(f, "250")
	if y.entry.trouble.Visible() {
		t.Error("the message stays while it is mended")
	}
	y.entry.keep()
	if !strings.Contains(y.entry.trouble.Text, "does not fit a board 200 mm wide") {
		t.Errorf("%q", y.entry.trouble.Text)
	}
	s.typing(f, "20")
	s.typing(y.entry.in[yardSay], "perhaps")
	y.entry.keep()
	if !strings.Contains(y.entry.trouble.Text, "neither") {
		t.Errorf("%q", y.entry.trouble.Text)
	}
	s.typing(y.entry.in[yardSay], "l")
	y.entry.keep()
	if len(y.yard().Offers) != 1 {
		t.Errorf("%q", y.entry.trouble.Text)
	}
}

// Boards on offer and a half typed one are there again after another page, other
// colours and another project.
func TestNothingTypedAtTheYardIsLost(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	s.record(t, y, "", "1000", "200", "25", "20", "0", "0", "0", "2000", "")
	s.record(t, y, "", "1100")
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if s.page != nil {
		t.Fatal("Esc does not go back")
	}
	if err := s.ses.Commit(model.SetSettings{Settings: model.Settings{Units: unit.MM, Currency: "EUR"}}); err != nil {
		t.Fatal(err)
	}
	s.act("yard")
	y = yardUp(t, s)
	if len(y.yard().Offers) != 1 || y.entry.in[yardLength].Text != "1100" || y.entry.in[yardLetter].Text != "B" {
		t.Errorf("%d boards, half typed: %q", len(y.yard().Offers), y.entry.in[yardLength].Text)
	}
	if s.win.Canvas().Focused() != fyne.Focusable(y.entry.in[yardWidth]) {
		t.Error("the keys are not at the next empty field")
	}
	s.restyle(Dark, 150)
	if len(y.yard().Offers) != 1 {
		t.Error("the board on offer is gone")
	}
	if y.entry.in[yardLength].Text != "1100" {
		t.Error("larger text empties the fields")
	}
}

// A recorded board is changed in its place; a board that is half typed is not
// overwritten by that.
func TestABoardOnOfferIsChanged(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	s.record(t, y, "", "1000", "200", "5/4", "18/20/19", "0", "", "", "2000", "k")
	s.record(t, y, "", "1100")
	y.entry.change(y.yard().Offers[0])
	if y.st.was != "" || y.entry.in[yardLength].Text != "1100" {
		t.Fatal("the half typed board is gone")
	}
	y.entry.begin()
	was := y.yard().Offers[0]
	y.entry.change(y.yard().Offers[0])
	if y.entry.in[yardSap11].Text != "18/20/19" || y.entry.in[yardSap21].Text != "" || y.entry.in[yardSay].Text != "keep" {
		t.Errorf("sapwood is shown as %q, %q", y.entry.in[yardSap11].Text, y.entry.in[yardSap21].Text)
	}
	s.typing(y.entry.in[yardWidth], "210")
	y.entry.keep()
	was.Width = 210 // the 31.75 mm of 5/4 stay, though 31.8 is shown
	if got := y.yard().Offers; len(got) != 1 || got[0].Width != 210 || got[0].Thickness != was.Thickness || got[0].Sap != was.Sap || got[0].Unseen != was.Unseen || got[0].Say != was.Say {
		t.Errorf("%+v, want %+v", got, was)
	}
}

// Every change of the list is one undo, and the page follows.
func TestTheListIsTakenBackStepByStep(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	s.record(t, y, "", "1000", "200", "25", "20", "0", "0", "0", "2000", "")
	for _, what := range []string{"Keep", "Leave", "Leave", "Remove"} {
		before := s.steps()
		y.list.buttons[yardButton{"A", what}].OnTapped()
		yardWait(t, s, y)
		if s.steps() != before+1 {
			t.Errorf("%s is %d steps", what, s.steps()-before)
		}
	}
	if len(y.yard().Offers) != 0 || y.entry.in[yardLetter].Text != "A" {
		t.Errorf("%d on offer, the next letter is %s", len(y.yard().Offers), y.entry.in[yardLetter].Text)
	}
	for _, want := range []model.Decision{model.OfferOpen, model.OfferLeave, model.OfferKeep, model.OfferOpen} {
		s.act("undo")
		yardWait(t, s, y)
		if o := y.yard().Offers; len(o) != 1 || o[0].Say != want || y.entry.in[yardLetter].Text != "B" {
			t.Errorf("%+v, want %q; the next letter is %s", o, want, y.entry.in[yardLetter].Text)
		}
	}
	y.entry.change(y.yard().Offers[0])
	s.act("undo") // it was never recorded
	yardWait(t, s, y)
	y.entry.keep()
	yardWait(t, s, y)
	if o := y.yard().Offers; len(o) != 1 || o[0].Width != 200 {
		t.Errorf("what was typed of it is recorded as %+v", o)
	}
}

// Photographs fill the fields of the sapwood; a width typed over them goes before
// the photograph of its face, and only of its face.
func TestSapwoodFromPhotographsAtTheYard(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	y.entry.photos()
	if !strings.Contains(y.entry.trouble.Text, "give the photographs their scale") {
		t.Errorf("without a size it says %q", y.entry.trouble.Text)
	}
	y.entry.in[yardLength].SetText("1000")
	y.entry.in[yardWidth].SetText("200")
	o := session.Offer{ID: "A", Length: 1000, Width: 200}
	for f := range o.Faces {
		o.Faces[f] = model.Face{Photo: "a.jpg", Known: true, Zones: model.FaceTapeZones(f+1, 1000, 200, model.Tape{10, 20, 30}, model.Tape{})}
		o.Sap[f][0] = [3]float64{10, 20, 30}
	}
	y.entry.measured(o, nil, y.entry.size())
	if y.entry.in[yardSap21].Text != "10/20/30" || y.entry.in[yardSap12].Text != "0" {
		t.Errorf("the fields say %q and %q", y.entry.in[yardSap21].Text, y.entry.in[yardSap12].Text)
	}
	y.entry.in[yardSap21].SetText("11/20/30")
	y.entry.in[yardThick].SetText("25")
	y.entry.keep()
	yardWait(t, s, y)
	b := s.ses.Project().Offer("A").Board
	if b.Faces[0].Photo != "a.jpg" || b.Faces[1].Photo != "" || !b.Faces[1].Known {
		t.Errorf("%+v", b.Faces)
	}
	y.entry.change(y.yard().Offers[0])
	y.entry.in[yardWidth].SetText("210") // another scale
	y.entry.keep()
	yardWait(t, s, y)
	if b := s.ses.Project().Offer("A").Board; b.Faces[0].Photo != "" || b.Width != 210 {
		t.Errorf("%+v", b)
	}
}

func TestFacesByTheirNames(t *testing.T) {
	for _, c := range []struct{ in, want []string }{
		{[]string{"x/C-face2.jpg", "x/C-face1.jpg"}, []string{"x/C-face1.jpg", "x/C-face2.jpg"}},
		{[]string{"one.jpg", "two.jpg"}, []string{"one.jpg", "two.jpg"}},
		{[]string{"C-face2.jpg"}, []string{"C-face2.jpg"}}, // alone it is the first that is looked at
	} {
		if got := facesFirst(c.in, "C"); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v", c.in, got)
		}
	}
}

// What is to be bought is kept, and kept boards come into the rack in one step.
func TestBoughtBoardsIntoTheRack(t *testing.T) {
	s, y := yardAt(t, yardProject(), 100)
	s.record(t, y, "", "1000", "200", "25", "20", "0", "20", "0", "2000", "")
	s.record(t, y, "", "1000", "150", "", "0", "0", "0", "0", "", "")
	if y.side.take.Disabled() == false || y.side.all.Disabled() {
		t.Error("the wrong buttons are grey")
	}
	y.side.all.OnTapped()
	yardWait(t, s, y)
	before := s.steps()
	y.side.take.OnTapped()
	yardWait(t, s, y)
	if s.steps() != before+1 || len(s.ses.Project().Boards) != 1 || s.ses.Project().Board("A") == nil {
		t.Fatalf("%d steps, boards %v", s.steps()-before, s.ses.Project().Boards)
	}
	if all := yardSays(y); !strings.Contains(all, "Nothing is to be bought") || len(y.yard().Offers) != 1 {
		t.Errorf("it says\n%s", all)
	}
	s.act("undo")
	yardWait(t, s, y)
	if all := yardSays(y); len(y.yard().Offers) != 2 || !strings.Contains(all, "Kept") {
		t.Errorf("after undo it says\n%s", all)
	}
	// Without the rack.
	y.side.rack.SetChecked(false)
	yardWait(t, s, y)
	if !y.yard().NoRack {
		t.Error("the box does nothing")
	}
}

// The answers come under the fields at a width of
// 480 and beside them at 1280, and nothing runs over the border.
func TestTheYardFoldsInANarrowWindow(t *testing.T) {
	for _, text := range []int{100, 150} {
		s, y := yardAt(t, yardProject(), text)
		s.record(t, y, "", "800", "90", "25", "20", "0", "0", "0", "2000", "")
		for _, width := range []float32{480, 1280} {
			s.win.Resize(fyne.NewSize(width, 800))
			d := fyne.CurrentApp().Driver()
			side, entry := d.AbsolutePositionForObject(y.side.box), d.AbsolutePositionForObject(y.entry.box)
			if beside := side.X > entry.X+100; beside != (width == 1280) {
				t.Errorf("text %d %%, width %g: beside is %v", text, width, beside)
			}
			if got := s.win.Canvas().Size().Width; got > width+1 {
				t.Errorf("text %d %%: the window asks for a width of %g", text, got)
			}
			for _, o := range inside(y.body) {
				if x := d.AbsolutePositionForObject(o).X + o.Size().Width; o.Visible() && x > width+12 { // labels keep air round their text
					t.Errorf("text %d %%, width %g: a %T ends at %g", text, width, o, x)
				}
			}
		}
	}
}

// In an inch project 96 x 6 x 4/4 at 10 a board foot are 4 board feet and 40; the
// same face at 5/4 is 5 board feet and 50.
func TestYardPriceByTheBoardFoot(t *testing.T) {
	p := yardProject()
	p.Units = unit.Inch
	s, y := yardAt(t, p, 100)
	if y.st.per != "board-foot" {
		t.Errorf("a price is for %s", y.st.per)
	}
	s.record(t, y, "", "96", "6", "4/4", "1/2; 3/4; 1", "0", "0", "0", "10", "")
	s.record(t, y, "", "96", "6", "5/4", "1/2", "0", "0", "0", "", "")
	all := yardSays(y)
	for _, want := range []string{"40.00 (4.00 bd ft)", "50.00 (5.00 bd ft)", `1/2"; 3/4"; 1"`} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
}

// The dialog says per board how it stands; before and after ripping are two
// things. 20 of 200 are 10 % as bought, of the strip of 60 at that edge a third.
func TestOrderTermsDialog(t *testing.T) {
	p := yardProject()
	b := model.NewBoard("A", "walnut-black", 1000, 200, 25)
	for f := range b.Faces {
		b.Faces[f] = model.Face{Known: true, Zones: model.FaceTapeZones(f+1, 1000, 200, model.Tape{20, 20, 20}, model.Tape{})}
	}
	p.Boards = []*model.Board{b}
	p.Panels[0].Strips = []model.Strip{{ID: "s1", Board: "A", L: 1000, W: 60, Up: 1}}
	s := open(t, p, 100)
	st := &yardState{}
	offer := model.NewBoard("B", "walnut-black", 1000, 100, 25)
	for f := range offer.Faces {
		offer.Faces[f].Known = true
	}
	if err := s.ses.Commit(model.PutOffer{Offer: model.Offer{Board: offer}}); err != nil {
		t.Fatal(err)
	}
	f := newTermsForm(s.Window, st)
	f.fill()
	says := func() string { return strings.Join(said(f.said), "\n") }
	if !strings.Contains(says(), "Board A · better face 90 % (face 1) · other 90 % · keeps") || strings.Contains(says(), "Board B") {
		t.Errorf("it says\n%s", says())
	}
	f.offers.SetChecked(true)
	if !strings.Contains(says(), "Board B · better face 100 %") {
		t.Errorf("with the offer it says\n%s", says())
	}
	f.when.SetSelectedIndex(1)
	if !strings.Contains(says(), "66.7 %") || !strings.Contains(says(), "does not keep") || !strings.Contains(says(), "of board A") {
		t.Errorf("after ripping it says\n%s", says())
	}
	f.form.SetText("70/90")
	if !strings.Contains(says(), "⚠") {
		t.Errorf("bad terms: %s", says())
	}
	s.act("terms")
	if s.asks == nil || s.asks.q.title != "Order terms" {
		t.Error("the action opens no dialog")
	}
}
