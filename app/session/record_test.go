package session

import (
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/unit"
)

func TestRecordOfStrips(t *testing.T) {
	p := model.NewProject()
	b := model.NewBoard("A", "walnut-black", 2400, 210, 26)
	b.Bark, b.Log = model.BarkFace2, &model.Log{Name: "L1", Order: 2}
	p.Boards = []*model.Board{b}
	n := model.NewPanel("top", model.RoleTop, 900, 190, 20)
	st := model.NewPlace("1", 930, 92)
	st.Board, st.X, st.Y, st.Up, st.Turned, st.Angle = "A", 40, 8, 2, true, 1.5
	n.Strips = []model.Strip{st, model.NewPlace("2", 930, 92)}
	p.Panels = []*model.Panel{n}
	s := New(p, Options{})
	t.Cleanup(s.Close)
	got := RecordOf(p, s.Panel("top"))
	want := StripRecord{"A1", "A", "bark side up", "marked end right", "930 mm × 92 mm, from 40 mm and 8 mm, at 1.5°", "Walnut, black, log L1 cut 2"}
	if len(got) != 2 || got[0] != want || got[1].Board != "no board yet" {
		t.Errorf("%+v", got)
	}
}

func TestStepInWords(t *testing.T) {
	for want, s := range map[string]model.FinishStep{
		"oil, all panels": {What: "oil"},
		"dye (brown 1:8) on the sapwood alone, top and side: show face and edges and ends": {What: "dye", Product: "brown 1:8", Wood: model.Sap, Panels: []string{"top", "side"}, Where: []model.FinishPlace{model.OnEdges, model.OnShow}},
		"wax on the heartwood alone, all panels":                                           {What: "wax", Wood: model.Heart, Where: model.FinishPlaces()},
	} {
		if got := StepWords(&s); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	list := []model.FinishStep{{What: "a"}, {What: "b"}, {What: "c"}}
	if got := MovedStep(list, 0, 1); got[0].What != "b" || got[1].What != "a" || list[0].What != "a" {
		t.Errorf("%+v", got)
	}
	if MovedStep(list, 0, -1) != nil || MovedStep(list, 2, 1) != nil {
		t.Error("a step leaves the list")
	}
}

// 12 % of 0.4 m2 are 0.048 m2, printed as 480 cm2; where some is not seen yet, from
// 10 to 15 %.
func TestSapwoodToColour(t *testing.T) {
	r := &face.Reading{}
	r.Show.Area, r.Show.Light = 0.4e6, face.Share{Value: 0.12, Lo: 0.12, Hi: 0.12}
	r.Back.Area, r.Back.Light = 0.4e6, face.Share{Value: 0.12, Lo: 0.10, Hi: 0.15}
	if got := SapToColour(r, unit.MM); !strings.Contains(got, "480 cm² on the show face, 400 cm² to 600 cm² on the back") {
		t.Error(got)
	}
}
