package model

import (
	"slices"
	"testing"
)

// A board that is taken is in the rack and no longer on offer, as one change.
func TestTakingABoardOnOffer(t *testing.T) {
	p := table()
	q := must(t, p, TakeOffers{[]string{"Y1"}})
	b := q.Board("Y1")
	if b == nil || b != p.Offer("Y1").Board || q.Offer("Y1") != nil || len(q.Boards) != len(p.Boards)+1 {
		t.Fatalf("%+v, %+v", b, q.Yard)
	}
	if id := NextBoardID(p); id != "C" {
		t.Errorf("the next letter is %s", id)
	}
	offered := must(t, p, PutOffer{Offer: Offer{Board: NewBoard("C", "teak", 900, 100, 25)}})
	if id := NextBoardID(offered); id != "D" {
		t.Errorf("with C on offer the next letter is %s", id)
	}
	if got := offered.Offer("C").Board.Species; got != "walnut-black" {
		t.Errorf("a board at a yard of walnut is %s", got)
	}
	cherry := must(t, offered, SetYard{Species: "cherry-black", NoRack: true})
	if !slices.EqualFunc(cherry.Yard.Offers, []string{"cherry-black", "cherry-black"}, func(o Offer, s string) bool { return o.Board.Species == s }) || !cherry.Yard.NoRack {
		t.Errorf("%+v", cherry.Yard)
	}
	if offered.Offer("C").Board.Species != "walnut-black" {
		t.Error("the project before has changed")
	}
	if _, err := Apply(p, TakeOffers{[]string{"A"}}); err == nil {
		t.Error("a board of the rack is taken from the yard")
	}
}

func TestRulesOfTheYard(t *testing.T) {
	good := func() *Board { return NewBoard("E", "walnut-black", 2000, 150, 26) }
	for name, c := range map[string]struct {
		change func(*Yard)
		want   Rule
	}{
		"twice":         {func(y *Yard) { y.Offers = append(y.Offers, Offer{Board: good()}, Offer{Board: good()}) }, RuleDuplicateID},
		"another wood":  {func(y *Yard) { y.Offers[0].Board = NewBoard("E", "teak", 900, 90, 25) }, RuleSpecies},
		"no length":     {func(y *Yard) { y.Offers[0].Board = NewBoard("E", "walnut-black", 0, 90, 25) }, RuleSize},
		"no decision":   {func(y *Yard) { y.Offers[0].Say = "perhaps" }, RuleWord},
		"no such wood":  {func(y *Yard) { y.Wanted = "bark" }, RuleWord},
		"no board":      {func(y *Yard) { y.Offers[0].Board = nil }, RuleMissing},
		"a wrong price": {func(y *Yard) { b := good(); b.Price = &Price{1, "kilo"}; y.Offers[0].Board = b }, RulePrice},
	} {
		t.Run(name, func(t *testing.T) {
			p := table()
			c.change(p.Yard)
			wantRule(t, Validate(p), c.want)
		})
	}
	p := table()
	p.Currency = "euro"
	wantRule(t, Validate(p), RuleCurrency)
	p = table()
	p.Clear = &ClearStock{Loss: 1}
	wantRule(t, Validate(p), RuleShare)
	p.Clear = &ClearStock{Price: &Price{3, "board"}}
	wantRule(t, Validate(p), RulePrice)
}
