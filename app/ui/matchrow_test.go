package ui

import (
	"bytes"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

// chest is three drawer fronts of 400, 300 and 400 by 150, a set whose grain
// runs on, and a board of 1300 x 200.
func chest() *model.Project {
	p := model.NewProject()
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5}
	b := model.NewBoard("A", "walnut-black", 1300, 200, 25)
	b.Faces[0] = model.Face{Known: true, Base: model.Heart}
	b.Faces[1] = model.Face{Known: true, Base: model.Heart}
	p.Boards = append(p.Boards, b)
	for i, id := range []string{"left", "middle", "right"} {
		p.Panels = append(p.Panels, model.NewPanel(id, model.RoleDrawerFront, []float64{400, 300, 400}[i], 150, 18))
	}
	p.Sets = []model.Set{{Name: "chest", Panels: []string{"left", "middle", "right"}, Gap: 2, Way: model.Along, Match: model.MatchInOrder}}
	return p
}

// The set gives order, gap and way; the fronts begin at 25, 428 and 731 (25
// and each front before with its kerf of 3).
func TestRowFromOneBoard(t *testing.T) {
	s := open(t, chest(), 100)
	out := &bytes.Buffer{}
	s.trace.out = out
	r := s.newRowing()
	r.ask()
	s.q.wait(t, "the picture", func() bool { return r.img.Image != nil })
	if r.numbers[0].Text != "2 mm" || r.numbers[1].Text != "3 mm" || strings.Join(r.order, " ") != "left middle right" {
		t.Errorf("asked at first: gap %q, kerf %q, %v", r.numbers[0].Text, r.numbers[1].Text, r.order)
	}
	for _, want := range []string{"✓ The row takes 1156 mm", "middle: 428 mm from the marked end", "the picture jumps by 1 mm"} {
		if !strings.Contains(r.said.Text, want) {
			t.Errorf("no %q in %q", want, r.said.Text)
		}
	}
	if r.warned.Visible() || r.warned.Text != "" { // one cut parts two of a row
		t.Errorf("warned %q", r.warned.Text)
	}
	// What does not fit is told and not done.
	r.numbers[0].SetText("100")
	if !strings.Contains(r.said.Text, "⚠ Board A is 50 mm too short") { // 1100 + 2 x 100 + 50
		t.Errorf("says %q", r.said.Text)
	}
	s.win.Canvas().Focus(r.numbers[0])
	r.numbers[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s.asks == nil || s.steps() != 0 {
		t.Fatal("a row that does not fit is cut")
	}
	r.numbers[0].SetText("3")
	if strings.Contains(r.said.Text, "jumps") || !strings.Contains(r.said.Text, "the grain runs on") {
		t.Errorf("says %q", r.said.Text)
	}
	r.numbers[0].SetText("0")
	r.numbers[1].SetText("1") // thinner than the project's saw
	if !r.warned.Visible() || !strings.Contains(r.warned.Text, "Cut from the same wood") || !strings.Contains(r.said.Text, "The saw of the project cuts 3 mm wide") {
		t.Errorf("warned %q, says %q", r.warned.Text, r.said.Text)
	}
	r.numbers[0].SetText("3")
	r.numbers[1].SetText("3")
	r.numbers[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s.asks != nil || s.steps() != 1 {
		t.Fatalf("%d steps", s.steps())
	}
	for i, id := range []string{"left", "middle", "right"} {
		if st := s.ses.Committed().Panel(id).Strips; len(st) != 1 || st[0].X != []float64{25, 428, 731}[i] {
			t.Errorf("%s: %+v", id, st)
		}
	}
	s.act("undo")
	if len(s.ses.Committed().Panel("left").Strips) != 0 || !strings.Contains(out.String(), "trace: row 3\n") {
		t.Error("one undo does not take it back, or it was not told")
	}
}

func TestRowOrderAndFaces(t *testing.T) {
	s := open(t, chest(), 100)
	if a := s.acts.byID["row"]; !a.can() {
		t.Fatal("no row")
	}
	r := s.newRowing()
	r.ask()
	// The last one earlier: left, right, middle.
	row := r.list.Objects[2].(*fyne.Container)
	for _, o := range row.Objects {
		if b, ok := o.(*dialogButton); ok {
			b.OnTapped()
		}
	}
	if w, err := r.wish(); err != nil || strings.Join(w.Panels, " ") != "left right middle" {
		t.Errorf("%+v, %v", w, err)
	}
	for _, o := range r.list.Objects[0].(*fyne.Container).Objects {
		if b, ok := o.(*tick); ok {
			b.SetChecked(false)
		}
	}
	r.across.SetSelectedIndex(1)
	if w, _ := r.wish(); strings.Join(w.Panels, " ") != "right middle" || !w.Across {
		t.Errorf("%+v", w)
	}
	// Two of 150 one above another need 303 mm of the board's 200.
	if !strings.Contains(r.said.Text, "too narrow") {
		t.Errorf("says %q", r.said.Text)
	}
	for range 2 {
		for _, o := range r.list.Objects {
			for _, c := range o.(*fyne.Container).Objects {
				if b, ok := c.(*tick); ok {
					b.SetChecked(false)
				}
			}
		}
	}
	if !strings.Contains(r.said.Text, "Choose the panels") {
		t.Errorf("says %q", r.said.Text)
	}
	s.q.drain()
}
