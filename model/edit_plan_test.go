package model

import (
	"reflect"
	"testing"
)

func TestAPlanIsOneEntry(t *testing.T) {
	p := table()
	top, leg := p.Panel("top"), []PartPlace{{"A", 50, 20, 740, 56, 0, Planned}}
	a2, b2 := top.Strips[1], p.Spares[0]
	h := NewHistory(p)
	err := h.Commit(SetPlan{
		Panels: []PlanPanel{{"side", []Strip{b2, a2}}, {"top", []Strip{top.Strips[3], top.Strips[0]}}},
		Parts:  []PlanPart{{"leg", leg}},
		Spares: []Strip{},
		Verb:   "Share out the boards",
	})
	if err != nil {
		t.Fatal(err)
	}
	q := h.Current()
	if n, _ := h.Depth(); n != 1 || h.UndoLabel() != "Share out the boards" {
		t.Errorf("%d entries, the last %q", n, h.UndoLabel())
	}
	if order(q, "top") != "B1 A1" || order(q, "side") != "B2 A2" || len(q.Spares) != 0 {
		t.Errorf("top %s, side %s, spares %v", order(q, "top"), order(q, "side"), q.Spares)
	}
	if got, _ := q.Part("leg"); !reflect.DeepEqual(got.Places, leg) {
		t.Errorf("leg %+v", got.Places)
	}
	// A2 is sawn and went from one panel to the other as it is.
	if got := strip(t, q, "side", "A2"); !reflect.DeepEqual(got, a2) {
		t.Errorf("A2 is %+v", got)
	}
	if !h.Undo() || h.Current() != p {
		t.Error("undo does not lead back to the start")
	}
}

func TestAPlanLeavesAloneWhatItDoesNotName(t *testing.T) {
	p := table()
	q := must(t, p, SetPlan{Panels: []PlanPanel{{"side", []Strip{NewPlace("1", 700, 80)}}}})
	if q.Panel("top") != p.Panel("top") || len(q.Spares) != 1 || !reflect.DeepEqual(q.Parts, p.Parts) {
		t.Error("it changed something else")
	}
	if must(t, p, SetPlan{}) != p {
		t.Error("an empty plan makes another project")
	}
	if must(t, p, SetPlan{Panels: []PlanPanel{{"top", p.Panel("top").Strips}}, Spares: p.Spares}) != p {
		t.Error("the same plan makes another project")
	}
}

func TestAPlanLosesNothingSawn(t *testing.T) {
	p := table()
	top := p.Panel("top").Strips
	moved := top[1]
	moved.X++
	for _, strips := range [][]Strip{
		nil,
		{top[0], top[2], top[3]},
		{top[0], moved},
	} {
		_, err := Apply(p, SetPlan{Panels: []PlanPanel{{"top", strips}}})
		if r := wantRule(t, err, RuleStage); r.Strip != "A2" || r.Panel != "top" {
			t.Errorf("%+v", r)
		}
	}
	must(t, p, SetPlan{Panels: []PlanPanel{{"top", nil}}, Spares: []Strip{top[1]}})

	// A sawn spare is wood as well.
	p = must(t, p, ToSpares{"top", "A2"})
	_, err := Apply(p, SetPlan{Spares: []Strip{}})
	wantRule(t, err, RuleStage)
	must(t, p, SetPlan{Panels: []PlanPanel{{"side", []Strip{top[1]}}}, Spares: []Strip{}})
}

func TestAPlanWithAFaultChangesNothing(t *testing.T) {
	h := NewHistory(table())
	p := h.Current()
	strange := NewPlace("1", 700, 80)
	strange.Board = "Q"
	err := h.Commit(SetPlan{Panels: []PlanPanel{{"top", p.Panel("top").Strips[:2]}, {"side", []Strip{strange}}}})
	wantRule(t, err, RuleUnknownBoard)
	if h.Current() != p || h.CanUndo() {
		t.Error("half of the plan was carried out")
	}
}
