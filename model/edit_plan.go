package model

import (
	"cmp"

	"heartside/model/say"
)

// SetPlan lays out several panels and parts in one change: where all their
// strips and cuttings come from. What it does not name stays. A strip that has
// been sawn may go to another panel or to the spares, under an id that is free
// there, and to no other place on its board; none may be left out.
type SetPlan struct {
	Panels []PlanPanel
	Parts  []PlanPart
	Spares []Strip // nil leaves the spares as they are; empty clears them
	Verb   string  // the whole label; "" for "Lay out the boards"
}

// PlanPanel is all strips of a panel, front to back.
type PlanPanel struct {
	Panel  string
	Strips []Strip
}

// PlanPart is all places of a part.
type PlanPart struct {
	Part   string
	Places []PartPlace
}

// Label implements Edit.
func (e SetPlan) Label() string { return cmp.Or(e.Verb, say.T("Lay out the boards")) }

func (e SetPlan) apply(p *Project) (*Project, error) {
	q, err := p, error(nil)
	for _, k := range e.Panels {
		if q, err = (SetStrips{Panel: k.Panel, Strips: k.Strips}).apply(q); err != nil {
			return nil, err
		}
	}
	for _, k := range e.Parts {
		if q, err = (PlacePart{Part: k.Part, Places: k.Places}).apply(q); err != nil {
			return nil, err
		}
	}
	if e.Spares != nil {
		q = q.withSpares(cloneStrips(e.Spares))
	}
	if q == p {
		return p, nil
	}
	if err := checkKept(p, q); err != nil {
		return nil, err
	}
	return q, nil
}
