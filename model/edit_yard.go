package model

import (
	"slices"

	"heartside/model/say"
)

// SetYard says what holds of all boards at the yard; those on the list become
// of that wood.
type SetYard struct {
	Species string
	Wanted  Wanted
	NoRack  bool
}

// Label implements Edit.
func (e SetYard) Label() string { return say.T("Change the wood at the yard") }

func (e SetYard) apply(p *Project) (*Project, error) {
	y := p.AtYard()
	if p.Yard != nil && y.Species == e.Species && y.Wanted == e.Wanted && y.NoRack == e.NoRack {
		return p, nil
	}
	y.NoRack = e.NoRack
	if y.Species != e.Species || y.Wanted != e.Wanted {
		y.Species, y.Wanted, y.Offers = e.Species, e.Wanted, slices.Clone(y.Offers)
		for i := range y.Offers {
			b := *y.Offers[i].Board
			b.Species, b.Wanted = e.Species, e.Wanted
			y.Offers[i].Board = &b
		}
	}
	return p.withYard(y), nil
}

// PutOffer records a board on offer at the end of the list, or in the place of
// the one called Was. The wood is that of the yard.
type PutOffer struct {
	Was   string
	Offer Offer
}

// Label implements Edit.
func (e PutOffer) Label() string {
	if e.Was != "" {
		return say.F("Change board %s on offer", e.Was)
	}
	return say.F("Record board %s on offer", boardID(e.Offer.Board))
}

func (e PutOffer) apply(p *Project) (*Project, error) {
	if e.Offer.Board == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("no board was given")}
	}
	y := p.AtYard()
	o := Offer{Board: cloneBoard(e.Offer.Board), Say: e.Offer.Say}
	if y.Species == "" {
		y.Species, y.Wanted = o.Board.Species, o.Board.Wanted
	}
	o.Board.Species, o.Board.Wanted = y.Species, y.Wanted
	y.Offers = slices.Clone(y.Offers)
	if e.Was == "" {
		y.Offers = append(y.Offers, o)
		return p.withYard(y), nil
	}
	i := y.index(e.Was)
	if i < 0 {
		return nil, noBoard(e.Was)
	}
	y.Offers[i] = o
	return p.withYard(y), nil
}

// SayOffers says of boards on offer whether they are bought.
type SayOffers struct {
	IDs []string
	Say Decision
}

// Label implements Edit.
func (e SayOffers) Label() string {
	verb := map[Decision]string{OfferKeep: say.T("Keep"), OfferLeave: say.T("Leave")}[e.Say]
	if verb == "" {
		verb = say.T("Leave open")
	}
	if len(e.IDs) == 1 {
		return say.F("%s board %s", verb, e.IDs[0])
	}
	return say.F("%s boards", verb)
}

func (e SayOffers) apply(p *Project) (*Project, error) {
	y := p.AtYard()
	y.Offers = slices.Clone(y.Offers)
	changed := false
	for _, id := range e.IDs {
		i := y.index(id)
		if i < 0 {
			return nil, noBoard(id)
		}
		changed = changed || y.Offers[i].Say != e.Say
		y.Offers[i].Say = e.Say
	}
	if !changed {
		return p, nil
	}
	return p.withYard(y), nil
}

// DropOffer takes a board off the list.
type DropOffer struct{ ID string }

// Label implements Edit.
func (e DropOffer) Label() string { return say.F("Remove board %s on offer", e.ID) }

func (e DropOffer) apply(p *Project) (*Project, error) { return p.withoutOffers([]string{e.ID}) }

// TakeOffers takes boards on offer off the list into the rack.
type TakeOffers struct{ IDs []string }

// Label implements Edit.
func (e TakeOffers) Label() string {
	if len(e.IDs) == 1 {
		return say.F("Take board %s into the rack", e.IDs[0])
	}
	return say.T("Take boards into the rack")
}

func (e TakeOffers) apply(p *Project) (*Project, error) {
	q, err := p.withoutOffers(e.IDs)
	if err != nil || q == p {
		return p, err
	}
	return q.with(func(q *Project) {
		q.Boards = slices.Clone(q.Boards)
		for _, id := range e.IDs {
			q.Boards = append(q.Boards, p.Offer(id).Board)
		}
	}), nil
}

func (p *Project) withoutOffers(ids []string) (*Project, error) {
	if len(ids) == 0 {
		return p, nil
	}
	y := p.AtYard()
	for _, id := range ids {
		i := y.index(id)
		if i < 0 {
			return nil, noBoard(id)
		}
		y.Offers = slices.Delete(slices.Clone(y.Offers), i, i+1)
	}
	return p.withYard(y), nil
}

func (p *Project) withYard(y Yard) *Project {
	if len(y.Offers) == 0 {
		y.Offers = nil
	}
	return p.with(func(q *Project) { q.Yard = &y })
}
