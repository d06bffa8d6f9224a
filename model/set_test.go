package model

import (
	"reflect"
	"testing"
)

// three is the table with a third panel and a set of all three.
func three(t *testing.T) *Project {
	t.Helper()
	p := must(t, table(), AddPanel{NewPanel("door", RoleDoor, 600, 400, 20)})
	return must(t, p, PutSet{"", Set{Name: "front", Panels: []string{"door", "top", "side"}, Gap: 0, Match: MatchSlipped}})
}

func wantPanels(t *testing.T, p *Project, set string, want ...string) {
	t.Helper()
	s, ok := p.Set(set)
	if ok != (want != nil) || !reflect.DeepEqual(s.Panels, want) {
		t.Errorf("set %s: %v, want %v", set, s.Panels, want)
	}
}

func TestPutSet(t *testing.T) {
	p := three(t)
	got, _ := p.Set("front")
	// What is not said is told as what it means; a gap of 0 is a gap of 0.
	if want := (Set{"front", []string{"door", "top", "side"}, 0, Beside, MatchSlipped}); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v", got)
	}
	q := must(t, p, PutSet{"case", Set{Name: "carcase", Panels: []string{"side", "top"}, Gap: 5, Way: Along}})
	if len(q.Sets) != 2 || q.Sets[0].Name != "carcase" || q.Sets[0].Gap != 5 || q.Sets[0].Way != Along {
		t.Errorf("renamed: %+v", q.Sets)
	}
	wantPanels(t, p, "case", "top", "side")
	_, err := Apply(p, PutSet{"case", NewSet("front", "top", "side")})
	wantRule(t, err, RuleDuplicateID)
	if q = must(t, p, PutSet{"case", p.Sets[0]}); q != p {
		t.Error("the same set makes another project")
	}
	if s := NewSet("x", "a", "b"); s.Gap != 3 || s.Way != "beside" || s.Match != "none" {
		t.Errorf("a new set is %+v", s)
	}
}

func TestGapsAtTheLimits(t *testing.T) {
	for _, gap := range []float64{0, 100} {
		s := NewSet("case", "top", "side")
		s.Gap = gap
		must(t, table(), PutSet{"", s})
	}
}

func TestSetsFollowTheirPanels(t *testing.T) {
	p := three(t)
	q := must(t, p, RenamePanel{"top", "leaf"})
	wantPanels(t, q, "front", "door", "leaf", "side")
	wantPanels(t, q, "case", "leaf", "side")
	wantPanels(t, p, "front", "door", "top", "side")

	// Of two panels one is no set; of three two are.
	q = must(t, p, RemovePanel{"top"})
	wantPanels(t, q, "front", "door", "side")
	wantPanels(t, q, "case")
	wantPanels(t, p, "front", "door", "top", "side")

	q = must(t, p, DropSet{"front"})
	if len(q.Sets) != 1 || len(q.Panels) != 3 {
		t.Errorf("%d sets and %d panels, want 1 and 3", len(q.Sets), len(q.Panels))
	}
}

func TestAPanelMayBeInSeveralSets(t *testing.T) {
	if err := Validate(three(t)); err != nil {
		t.Error(err)
	}
}
