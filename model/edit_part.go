package model

import (
	"cmp"
	"slices"

	"heartside/model/say"
)

// PutPart puts a part, places and all, in the stead of the one called Was, or
// of the one that has its id where Was is ""; where there is none it is new.
// Was is how a part gets another id.
type PutPart struct {
	Was  string
	Part Part
}

// Label implements Edit.
func (e PutPart) Label() string {
	if e.Was != "" && e.Was != e.Part.ID {
		return say.F("Rename part %s to %s", e.Was, e.Part.ID)
	}
	return say.F("Change part %s", e.Part.ID)
}

func (e PutPart) apply(p *Project) (*Project, error) {
	i := p.partIndex(e.Part.ID)
	if e.Was != "" {
		if i = p.partIndex(e.Was); i < 0 {
			return nil, noPart(e.Was)
		}
	}
	return p.with(func(q *Project) {
		q.Parts = slices.Clone(q.Parts)
		if i < 0 {
			q.Parts = append(q.Parts, clonePart(e.Part))
			return
		}
		q.Parts[i] = clonePart(e.Part)
	}), nil
}

// PlacePart says where on boards a part is cut: all its places, none where
// there are none.
type PlacePart struct {
	Part   string
	Places []PartPlace
	Verb   string // "Mark sawn" gives "Mark sawn part leg"; "" for "Lay out"
}

// Label implements Edit.
func (e PlacePart) Label() string {
	return say.F("%s part %s", cmp.Or(e.Verb, say.T("Lay out")), e.Part)
}

func (e PlacePart) apply(p *Project) (*Project, error) {
	i := p.partIndex(e.Part)
	if i < 0 {
		return nil, noPart(e.Part)
	}
	n := p.Parts[i]
	n.Places = e.Places
	return PutPart{Part: n}.apply(p)
}

// DropPart takes a part out of the project. What has been sawn for it stays
// among the spares.
type DropPart struct{ ID string }

// Label implements Edit.
func (e DropPart) Label() string { return say.F("Remove part %s", e.ID) }

func (e DropPart) apply(p *Project) (*Project, error) {
	i := p.partIndex(e.ID)
	if i < 0 {
		return nil, noPart(e.ID)
	}
	return p.with(func(q *Project) {
		spares := slices.Clone(q.Spares)
		for _, k := range p.Parts[i].Places {
			if k.Stage.cut() {
				spares = append(spares, Strip{ID: nextStripID(p, spares), Board: k.Board, X: k.X, Y: k.Y, L: k.L, W: k.W,
					Angle: k.Angle, Up: 1, Stage: k.Stage})
			}
		}
		q.Spares = spares
		q.Parts = without(q.Parts, func(n Part) bool { return n.ID == e.ID })
	}), nil
}

// onPlaces returns p with every cutting of a board that belongs to a part
// changed, or gone where f says no.
func (p *Project) onPlaces(board string, f func(*PartPlace) bool) *Project {
	return p.with(func(q *Project) {
		q.Parts = slices.Clone(q.Parts)
		for i := range q.Parts {
			var places []PartPlace
			for _, k := range q.Parts[i].Places {
				if k.Board != board || f(&k) {
					places = append(places, k)
				}
			}
			q.Parts[i].Places = places
		}
	})
}

func noPart(id string) error {
	return RuleError{Rule: RuleUnknownPart, Part: id, Detail: say.T("there is no such part")}
}
