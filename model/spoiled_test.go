package model

import "testing"

func TestSpoiledBoards(t *testing.T) {
	p := table()
	q := must(t, p, SpoilBoard{"A", true})
	if !q.Board("A").Spoiled || p.Board("A").Spoiled || q.Panel("top") != p.Panel("top") {
		t.Error("the mark is not on the board alone")
	}
	// On A lie A1, planned, A2, sawn, and the second cutting of the leg.
	list := Problems(q)
	if len(list) != 2 || list[0].Rule != RuleSpoiled || list[0].Panel != "top" || list[0].Strip != "A1" || list[0].Board != "A" ||
		list[1].Part != "leg" || list[1].Where != "cutting 2" {
		t.Errorf("%v", list)
	}
	for _, r := range list {
		if r.Rule.Hint() == "" {
			t.Errorf("%v: no word on what to do", r)
		}
	}
	if err := Validate(q); err != nil {
		t.Errorf("it blocks the work: %v", err)
	}
	// B holds the planned spare B2, the strip B1 and the first cutting.
	if list = Problems(must(t, p, SpoilBoard{"B", true})); len(list) != 3 || list[0].Strip != "B1" || list[1].Strip != "B2" || list[2].Where != "cutting 1" {
		t.Errorf("%v", list)
	}
	// Without a word on its stage a strip is planned; what is sawn is saved.
	unsaid := table()
	unsaid.Boards[0].Spoiled, unsaid.Panels[0].Strips[0].Stage = true, ""
	if list = Problems(unsaid); len(list) != 2 {
		t.Errorf("%v", list)
	}
	q = must(t, q, SetStage{"top", "A1", Sawn})
	if list = Problems(q); len(list) != 1 || list[0].Part != "leg" {
		t.Errorf("%v", list)
	}
	if list = Problems(must(t, q, SpoilBoard{"A", false})); len(list) != 0 {
		t.Errorf("sound after all, and yet %v", list)
	}
}
