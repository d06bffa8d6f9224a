package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

func recordAt(t *testing.T) (stage, *recordPage) {
	t.Helper()
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 2400, 210, 26)
	b.Bark = model.BarkFace2
	b.Faces[0].Known, b.Faces[1].Known = true, true
	p.Boards = []*model.Board{b}
	for _, id := range []string{"top", "side"} {
		n := model.NewPanel(id, model.RoleOther, 900, 92, 20)
		st := model.NewPlace(id+"1", 930, 92)
		if id == "top" {
			st.Board, st.X, st.Y = "A", 40, 8
		}
		n.Strips = []model.Strip{st}
		p.Panels = append(p.Panels, n)
	}
	s := open(t, p, 100)
	if a := s.acts.find(ctrlShift(fyne.KeyG)); a == nil || a.ID != "record" {
		t.Fatal("Ctrl+Shift+G does not lead to the page")
	}
	s.act("record")
	r, ok := s.page.(*recordPage)
	if !ok {
		t.Fatalf("the page is %T", s.page)
	}
	return s, r
}

func TestRecordOfStepsOnThePage(t *testing.T) {
	s, r := recordAt(t)
	says := func() string { return strings.Join(said(r.body), "\n") }
	if all := says(); !strings.Contains(all, "A1 · board A · heart side up · marked end left · 930 mm × 92 mm, from 40 mm and 8 mm · Walnut, black") || !strings.Contains(all, "No step is recorded") || !strings.Contains(all, "no board yet") {
		t.Errorf("it says\n%s", all)
	}
	f := r.ask(-1)
	if err := s.asks.q.do(); err == nil || !strings.Contains(err.Error(), "what was put on") {
		t.Error(err)
	}
	f.what.SetText("dye")
	f.wood.SetSelectedIndex(1)
	f.panels["side"].SetChecked(false)
	f.where[model.OnBack].SetChecked(false)
	f.date.SetText("1st of May")
	if err := s.asks.q.do(); err == nil || !strings.Contains(err.Error(), "2026-03-01") {
		t.Error(err)
	}
	f.date.SetText("2026-05-01")
	before := s.steps()
	if err := s.asks.q.do(); err != nil {
		t.Fatal(err)
	}
	list := s.ses.Project().Record
	if s.steps() != before+1 || len(list) != 1 || list[0].Wood != model.Sap || len(list[0].Panels) != 1 || len(list[0].Where) != 2 {
		t.Fatalf("%+v", list)
	}
	s.asks.close()
	if all := says(); !strings.Contains(all, "1   dye on the sapwood alone, top: show face and edges and ends, 2026-05-01") {
		t.Errorf("it says\n%s", all)
	}
	f = r.ask(-1)
	f.what.SetText("oil")
	f.date.SetText("")
	if err := s.asks.q.do(); err != nil {
		t.Fatal(err)
	}
	s.asks.close()
	if list = s.ses.Project().Record; list[1].Panels != nil || list[1].Where != nil {
		t.Errorf("all panels and sides: %+v", list[1])
	}
	r.steps[stepButton{1, "Earlier"}].OnTapped()
	if list = s.ses.Project().Record; list[0].What != "oil" {
		t.Errorf("moved: %+v", list)
	}
	if !r.steps[stepButton{0, "Earlier"}].Disabled() || !r.steps[stepButton{1, "Later"}].Disabled() {
		t.Error("the first can come earlier, or the last later")
	}
	r.steps[stepButton{0, "Remove"}].OnTapped()
	if list = s.ses.Project().Record; len(list) != 1 || list[0].What != "dye" {
		t.Errorf("removed: %+v", list)
	}
	s.act("undo")
	if all := says(); len(s.ses.Project().Record) != 2 || !strings.Contains(all, "1   oil, all panels") {
		t.Errorf("after undo it says\n%s", all)
	}
}

// A step of a panel that is gone keeps it, and says so.
func TestRecordKeepsWhatIsGone(t *testing.T) {
	s, r := recordAt(t)
	if err := s.ses.Commit(model.SetRecord{Steps: []model.FinishStep{{What: "dye", Panels: []string{"top", "old door"}}}}); err != nil {
		t.Fatal(err)
	}
	f := r.ask(0)
	f.note.SetText("two coats")
	if err := s.asks.q.do(); err != nil {
		t.Fatal(err)
	}
	if got := s.ses.Project().Record[0]; len(got.Panels) != 2 || got.Panels[1] != "old door" || got.Note != "two coats" {
		t.Errorf("%+v", got)
	}
}
