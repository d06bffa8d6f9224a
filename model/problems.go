package model

import (
	"heartside/model/say"
)

// Problems returns what a maker should put right before the work is judged
// but that may stand while it is edited: a panel whose boards want different
// wood and that does not say which, two strips with one chalk number, wood
// still to be cut from a spoiled board, seasons the wrong way round.
func Problems(p *Project) []RuleError {
	if p == nil {
		return nil
	}
	var out []RuleError
	for _, n := range p.Panels {
		if n.Wanted != WantDefault {
			continue
		}
		if a, b, ok := wantedApart(p, n); ok {
			out = append(out, RuleError{Rule: RuleWanted, Panel: n.ID,
				Detail: say.F("its boards want different wood: %s wants %s and %s wants %s",
					a.ID, boardWanted(a), b.ID, boardWanted(b))})
		}
	}
	out = append(out, sameNumbers(p)...)
	out = append(out, fromSpoiled(p)...)
	if d, w := p.Climate.Dry.MC, p.Climate.Wet.MC; d > 0 && w > 0 {
		if d > w {
			out = append(out, RuleError{Rule: RuleSeason, Where: "climate",
				Detail: say.F("wood read in the dry season, %g per cent, is damper than in the wet one, %g per cent", d, w)})
		}
	} else if p.Climate.Dry.RH > p.Climate.Wet.RH {
		out = append(out, RuleError{Rule: RuleSeason, Where: "climate",
			Detail: say.F("the dry season, %g per cent, is damper than the wet one, %g per cent", p.Climate.Dry.RH, p.Climate.Wet.RH)})
	}
	return out
}

// DefaultWanted returns the wood a panel is to show: what the panel says, else
// what its boards want, heart while it has none. Where its boards differ and
// the panel says nothing it is WantDefault: not stated.
func DefaultWanted(p *Project, n *Panel) Wanted {
	if n.Wanted != WantDefault {
		return n.Wanted
	}
	if _, _, apart := wantedApart(p, n); apart {
		return WantDefault
	}
	for i := range n.Strips {
		if b := p.Board(n.Strips[i].Board); b != nil {
			return boardWanted(b)
		}
	}
	return WantHeart
}

// wantedApart finds two boards of a panel that want different wood.
func wantedApart(p *Project, n *Panel) (a, b *Board, ok bool) {
	for i := range n.Strips {
		b := p.Board(n.Strips[i].Board)
		switch {
		case b == nil:
		case a == nil:
			a = b
		case boardWanted(a) != boardWanted(b):
			return a, b, true
		}
	}
	return nil, nil, false
}

func boardWanted(b *Board) Wanted {
	if b.Wanted == WantDefault {
		return WantHeart
	}
	return b.Wanted
}
