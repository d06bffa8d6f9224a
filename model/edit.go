package model

import "heartside/model/say"

// Edit is a change to a project, described as data. The set is closed: only
// the edits of this package exist. An edit names boards, panels and strips by
// id and carries the result wanted, not the gesture that led to it, so it may
// be applied again from the same start while a gesture runs.
type Edit interface {
	// Label is what the Undo menu shows: "Roll strip A1 over".
	Label() string

	// apply returns the changed project, or p itself where nothing changes.
	// It never changes p.
	apply(p *Project) (*Project, error)
}

// Apply returns the project after e. Boards and panels that e does not touch
// keep their pointers; where e changes nothing the result is p itself. The
// result keeps every rule of Validate that p kept; where it would not, the
// error holds a RuleError and there is no result.
func Apply(p *Project, e Edit) (*Project, error) {
	if p == nil || e == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("there is no project or no edit to apply")}
	}
	q, err := e.apply(p)
	if err != nil {
		return nil, err
	}
	if q == p {
		return p, nil
	}
	q = settleRows(p, settleNew(p, q), e)
	if err := checkStages(p, q, e); err != nil {
		return nil, err
	}
	if err := validateChanged(p, q); err != nil {
		return nil, err
	}
	return q, nil
}

// checkStages refuses a change of what has already been sawn: its board, its
// place on the board, its length, width and angle.
func checkStages(p, q *Project, e Edit) error {
	renamed, _ := e.(RenameBoard)
	for _, old := range p.Panels {
		now := q.Panel(old.ID)
		if now == old {
			continue
		}
		for i := range old.Strips {
			s := &old.Strips[i]
			if !s.Stage.cut() {
				continue
			}
			t, ok := stripIn(now, s.ID)
			if !ok {
				t, ok = arrived(p.Spares, q.Spares, s.ID)
			}
			if ok && !sameCut(*s, t, renamed) {
				return stageError(old.ID, *s)
			}
		}
	}
	for i := range p.Spares {
		s := &p.Spares[i]
		if !s.Stage.cut() {
			continue
		}
		if t, ok := findStrip(q.Spares, s.ID); ok && !sameCut(*s, t, renamed) {
			return stageError("", *s)
		}
	}
	return checkCuttings(p, q, renamed)
}

// arrived returns the strip with the id that is among the new and was not
// among the old.
func arrived(old, now []Strip, id string) (Strip, bool) {
	if _, was := findStrip(old, id); was {
		return Strip{}, false
	}
	return findStrip(now, id)
}

func stripIn(p *Panel, id string) (Strip, bool) {
	if p == nil {
		return Strip{}, false
	}
	return findStrip(p.Strips, id)
}

// sameCut reports whether two strips are the same rectangle of the same board.
func sameCut(a, b Strip, r RenameBoard) bool {
	if a.Board == r.From && r.From != "" {
		a.Board = r.To
	}
	return a.Board == b.Board && a.X == b.X && a.Y == b.Y && a.L == b.L && a.W == b.W && a.Angle == b.Angle
}

func stageError(panel string, s Strip) error {
	return RuleError{Rule: RuleStage, Panel: panel, Strip: s.ID, Board: s.Board,
		Detail: say.F("it is %s already, so its board, place, length, width and angle stand", s.Stage.Words())}
}

// order returns the place of a stage in the making, 0 for planned.
func (s Stage) order() int {
	switch s {
	case Sawn:
		return 1
	case Planed:
		return 2
	case Jointed:
		return 3
	case Glued:
		return 4
	}
	return 0
}

// cut reports whether the strip has left its board.
func (s Stage) cut() bool { return s.order() > 0 }
