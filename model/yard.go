package model

import (
	"slices"

	"heartside/model/say"
)

// Yard is what was recorded of boards that a seller offers, all of one wood.
// None of them is in the rack yet.
type Yard struct {
	Species string // id in the catalogue
	Wanted  Wanted // of panels that say nothing themselves
	NoRack  bool   // the boards in the rack do not count
	Offers  []Offer
}

// Offer is a board on offer, and what the maker says of it.
type Offer struct {
	Board *Board
	Say   Decision
}

// Decision is what the maker says of a board on offer.
type Decision string

// Decisions.
const (
	OfferOpen  Decision = ""      // nothing yet: it may be bought
	OfferKeep  Decision = "keep"  // it is bought in any case
	OfferLeave Decision = "leave" // it is not bought
)

// AtYard returns what was recorded at the yard, empty where nothing was.
func (p *Project) AtYard() Yard {
	if p.Yard == nil {
		return Yard{}
	}
	return *p.Yard
}

// Offer returns the board on offer that has an id, nil where there is none.
func (p *Project) Offer(id string) *Offer {
	if p.Yard == nil {
		return nil
	}
	if i := p.Yard.index(id); i >= 0 {
		return &p.Yard.Offers[i]
	}
	return nil
}

func (y *Yard) index(id string) int {
	return slices.IndexFunc(y.Offers, func(o Offer) bool { return boardID(o.Board) == id })
}

// yard checks what was recorded at the yard. A letter may be that of a board in
// the rack: which of the two gets another is the maker's to say.
func (c *checker) yard(y *Yard) {
	if y == nil {
		return
	}
	at := RuleError{Where: "yard"}
	c.word(at, "wanted", string(y.Wanted), "", string(WantHeart), string(WantSap), string(WantBoth))
	seen := map[string]bool{}
	for _, o := range y.Offers {
		if o.Board == nil {
			c.fail(RuleError{Rule: RuleMissing, Where: "yard", Detail: say.T("a board on offer is nil")})
			continue
		}
		if seen[o.Board.ID] {
			c.fail(RuleError{Rule: RuleDuplicateID, Board: o.Board.ID, Where: "yard", Detail: say.T("two boards on offer have this id")})
		}
		seen[o.Board.ID] = true
		before := len(c.errs)
		c.board(o.Board)
		c.word(RuleError{Board: o.Board.ID}, "say", string(o.Say), "", string(OfferKeep), string(OfferLeave))
		if o.Board.Species != y.Species {
			c.fail(RuleError{Rule: RuleSpecies, Board: o.Board.ID, Detail: say.F("it is %s, and the boards at this yard are %s", o.Board.Species, y.Species)})
		}
		for i, err := range c.errs[before:] {
			if r, ok := err.(RuleError); ok {
				r.Where = joinWhere("yard", r.Where)
				c.errs[before+i] = r
			}
		}
	}
}
