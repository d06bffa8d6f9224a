package model

import "testing"

func TestRecordFollowsAPanelsName(t *testing.T) {
	p := table()
	p = must(t, p, SetRecord{Steps: []FinishStep{{What: "dye", Wood: Sap, Panels: []string{"top", "side"}}}})
	q := must(t, p, RenamePanel{"top", "leaf"})
	if got := q.Record[0].Panels; got[0] != "leaf" || got[1] != "side" || p.Record[0].Panels[0] != "top" {
		t.Errorf("%v, before %v", got, p.Record[0].Panels)
	}
	// What was made stays in the record though its panel is gone.
	if q = must(t, q, RemovePanel{"leaf"}); q.Record[0].Panels[0] != "leaf" {
		t.Errorf("%v", q.Record[0].Panels)
	}
}

func TestRulesOfTheRecord(t *testing.T) {
	for name, s := range map[string]FinishStep{
		"nothing put on": {Product: "x"},
		"a wood":         {What: "dye", Wood: Flaw},
		"a side":         {What: "oil", Where: []FinishPlace{"top"}},
		"a day":          {What: "oil", Date: "2026-02-30"},
		"a panel":        {What: "oil", Panels: []string{""}},
	} {
		t.Run(name, func(t *testing.T) {
			p := table()
			p.Record = []FinishStep{s}
			wantRule(t, Validate(p), RuleRecord)
		})
	}
}
