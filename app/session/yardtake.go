package session

import (
	"errors"
	"fmt"

	"heartside/model"
)

// TakeKept returns the edit that takes the boards that are kept into the rack, as
// one step, and their letters. MarkTaken is called once it is committed.
func (s *Session) TakeKept(y *Yard) (model.AddBoards, []string, error) {
	var out model.AddBoards
	var ids []string
	for _, o := range s.OnOffer(y) {
		if o.Say != YardKeep {
			continue
		}
		if s.Project().Board(o.ID) != nil {
			return out, nil, fmt.Errorf("there is a board %s in the rack already: change the letter of the one you keep, on the wood too", o.ID)
		}
		out.Boards = append(out.Boards, modelOf(&o, y))
		ids = append(ids, o.ID)
	}
	if len(ids) == 0 {
		return out, nil, errors.New("no board is kept yet: say “keep” at those you buy")
	}
	return out, ids, nil
}

// MarkTaken notes which boards on offer are in the rack.
func (y *Yard) MarkTaken(ids []string) {
	for i := range y.Offers {
		for _, id := range ids {
			if y.Offers[i].ID == id {
				y.Offers[i].Taken = true
			}
		}
	}
}

// modelOf is a board on offer as the project has boards.
func modelOf(o *Offer, y *Yard) *model.Board {
	b := model.NewBoard(o.ID, y.Species, o.Length, o.Width, o.Thickness)
	b.Wanted = y.Wanted
	if o.Rate != nil {
		b.Price = &model.Price{Amount: o.Rate.Amount, Per: string(o.Rate.Per)}
	}
	for f := range o.Sap {
		if o.Unseen[f] { // nothing is said of it
			continue
		}
		b.Faces[f] = model.Face{Known: true, Base: model.Heart,
			Zones: model.FaceTapeZones(f+1, o.Length, o.Width, model.Tape(o.Sap[f][0]), model.Tape(o.Sap[f][1]))}
	}
	return b
}
