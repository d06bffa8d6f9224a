package model

import "heartside/model/say"

// What has been sawn lies in the workshop as it was sawn. Strips are watched
// by their id, see checkStages; the cuttings of parts have none and are
// watched by their place.

// rectangle is where a piece came from.
type rectangle struct {
	board             string
	x, y, l, w, angle float64
}

func (s *Strip) rectangle() rectangle {
	return rectangle{s.Board, s.X, s.Y, s.L, s.W, s.Angle}
}

func (c *PartPlace) rectangle() rectangle {
	return rectangle{c.Board, c.X, c.Y, c.L, c.W, c.Angle}
}

// pieces counts what is cut, or to be cut, from each place.
func pieces(p *Project) map[rectangle]int {
	out := map[rectangle]int{}
	strips := func(list []Strip) {
		for i := range list {
			if list[i].Board != "" {
				out[list[i].rectangle()]++
			}
		}
	}
	for _, n := range p.Panels {
		strips(n.Strips)
	}
	strips(p.Spares)
	for i := range p.Parts {
		for k := range p.Parts[i].Places {
			out[p.Parts[i].Places[k].rectangle()]++
		}
	}
	return out
}

// checkCuttings refuses a change or loss of a cutting that has been sawn for
// a part. It may serve another part, or lie among the spares.
func checkCuttings(p, q *Project, renamed RenameBoard) error {
	if len(p.Parts) == 0 {
		return nil
	}
	left := pieces(q)
	for _, n := range p.Parts {
		for i, k := range n.Places {
			if !k.Stage.cut() {
				continue
			}
			at := k.rectangle()
			if at.board == renamed.From && renamed.From != "" {
				at.board = renamed.To
			}
			if left[at] == 0 {
				return RuleError{Rule: RuleStage, Part: n.ID, Board: k.Board, Where: cutting(i),
					Detail: say.F("it is %s already, so it stays as it was sawn", k.Stage.Words())}
			}
			left[at]--
		}
	}
	return nil
}

// checkKept refuses a plan that loses a strip that has been sawn.
func checkKept(p, q *Project) error {
	left := pieces(q)
	check := func(panel string, list []Strip) error {
		for i := range list {
			s := &list[i]
			if !s.Stage.cut() {
				continue
			}
			if left[s.rectangle()] == 0 {
				return RuleError{Rule: RuleStage, Panel: panel, Strip: s.ID, Board: s.Board,
					Detail: say.F("it is %s already, and the plan has to use it as it was sawn or put it among the spares", s.Stage.Words())}
			}
			left[s.rectangle()]--
		}
		return nil
	}
	for _, n := range p.Panels {
		if err := check(n.ID, n.Strips); err != nil {
			return err
		}
	}
	return check("", p.Spares)
}
