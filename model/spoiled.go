package model

import "heartside/model/say"

// SpoilBoard says that nothing more can be cut from a board, because it split,
// broke or was found rotten, or that it is sound after all.
type SpoilBoard struct {
	ID      string
	Spoiled bool
}

// Label implements Edit.
func (e SpoilBoard) Label() string {
	if e.Spoiled {
		return say.F("Mark board %s spoiled", e.ID)
	}
	return say.F("Mark board %s sound", e.ID)
}

func (e SpoilBoard) apply(p *Project) (*Project, error) {
	return p.editBoard(e.ID, func(b *Board) error { b.Spoiled = e.Spoiled; return nil })
}

// fromSpoiled finds what is still to be cut from spoiled boards.
func fromSpoiled(p *Project) []RuleError {
	spoiled := map[string]bool{}
	for _, b := range p.Boards {
		spoiled[b.ID] = b.Spoiled
	}
	detail := say.T("it is still to be cut from a board that is spoiled")
	var out []RuleError
	strips := func(panel string, list []Strip) {
		for i := range list {
			if s := &list[i]; spoiled[s.Board] && !s.Cut() {
				out = append(out, RuleError{Rule: RuleSpoiled, Panel: panel, Strip: s.ID, Board: s.Board, Detail: detail})
			}
		}
	}
	for _, n := range p.Panels {
		strips(n.ID, n.Strips)
	}
	strips("", p.Spares)
	for _, n := range p.Parts {
		for i, k := range n.Places {
			if spoiled[k.Board] && !k.Cut() {
				out = append(out, RuleError{Rule: RuleSpoiled, Part: n.ID, Board: k.Board, Where: cutting(i), Detail: detail})
			}
		}
	}
	return out
}
