package model

import (
	"cmp"
	"slices"

	"heartside/model/say"
)

// AddPanel puts a panel at the end of the list.
type AddPanel struct{ Panel *Panel }

// Label implements Edit.
func (e AddPanel) Label() string { return say.F("Add panel %s", panelID(e.Panel)) }

func (e AddPanel) apply(p *Project) (*Project, error) {
	if e.Panel == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("no panel was given")}
	}
	return p.with(func(q *Project) { q.Panels = append(slices.Clone(q.Panels), clonePanel(e.Panel)) }), nil
}

// SetPanel replaces the panel that has the same id, strips and all.
type SetPanel struct{ Panel *Panel }

// Label implements Edit.
func (e SetPanel) Label() string { return say.F("Change panel %s", panelID(e.Panel)) }

func (e SetPanel) apply(p *Project) (*Project, error) {
	if e.Panel == nil {
		return nil, RuleError{Rule: RuleMissing, Detail: say.T("no panel was given")}
	}
	return p.editPanel(e.Panel.ID, func(n *Panel) error { *n = *clonePanel(e.Panel); return nil })
}

// RenamePanel gives a panel another id; what is joined, kept or in
// a set follows.
type RenamePanel struct{ From, To string }

// Label implements Edit.
func (e RenamePanel) Label() string { return say.F("Rename panel %s to %s", e.From, e.To) }

func (e RenamePanel) apply(p *Project) (*Project, error) {
	if p.Panel(e.From) == nil {
		return nil, noPanel(e.From)
	}
	if e.From == e.To {
		return p, nil
	}
	if p.Panel(e.To) != nil {
		return nil, RuleError{Rule: RuleDuplicateID, Panel: e.To, Detail: say.T("another panel has that id already")}
	}
	q, err := p.editPanel(e.From, func(n *Panel) error { n.ID = e.To; return nil })
	if err != nil {
		return nil, err
	}
	return q.with(func(q *Project) {
		q.Joined = cloneSlice(q.Joined)
		for i := range q.Joined {
			for k, id := range q.Joined[i].Panels {
				if id == e.From {
					q.Joined[i].Panels[k] = e.To
				}
			}
		}
		q.Record = renameInRecord(q.Record, e.From, e.To)
		q.Kept = cloneSlice(q.Kept)
		for i := range q.Kept {
			if q.Kept[i].Panel == e.From {
				q.Kept[i].Panel = e.To
			}
		}
		q.Sets = panelRenamed(q.Sets, e.From, e.To)
	}), nil
}

// RemovePanel takes a panel out of the project and its sets, with its
// arrangements and joints. What has been sawn for it stays among the spares.
type RemovePanel struct{ ID string }

// Label implements Edit.
func (e RemovePanel) Label() string { return say.F("Remove panel %s", e.ID) }

func (e RemovePanel) apply(p *Project) (*Project, error) {
	i := slices.IndexFunc(p.Panels, func(n *Panel) bool { return n.ID == e.ID })
	if i < 0 {
		return nil, noPanel(e.ID)
	}
	return p.with(func(q *Project) {
		for _, s := range q.Panels[i].Strips {
			if s.Stage.cut() {
				q.Spares = withSpare(p, q.Spares, s)
			}
		}
		q.Panels = slices.Delete(slices.Clone(q.Panels), i, i+1)
		q.Joined = without(q.Joined, func(j Joined) bool { return j.Panels[0] == e.ID || j.Panels[1] == e.ID })
		q.Kept = without(q.Kept, func(k Kept) bool { return k.Panel == e.ID })
		q.Sets = panelRemoved(q.Sets, e.ID)
	}), nil
}

// NameFront records that the maker has said which side of a panel is the
// front.
type NameFront struct{ Panel string }

// Label implements Edit.
func (e NameFront) Label() string { return say.F("Name the front of panel %s", e.Panel) }

func (e NameFront) apply(p *Project) (*Project, error) {
	return p.editPanel(e.Panel, func(n *Panel) error { n.FrontNamed = true; return nil })
}

// SetStrips replaces all strips of a panel: a proposal, a search result or a
// fix that moves several at once.
type SetStrips struct {
	Panel  string
	Strips []Strip // front to back
	Spares []Strip // nil leaves the spares as they are; empty clears them
	Verb   string  // the whole label; "" for "Arrange strips of panel ..."
}

// Label implements Edit.
func (e SetStrips) Label() string {
	return cmp.Or(e.Verb, say.F("Arrange strips of panel %s", e.Panel))
}

func (e SetStrips) apply(p *Project) (*Project, error) {
	q, err := p.editPanel(e.Panel, func(n *Panel) error { n.Strips = cloneStrips(e.Strips); return nil })
	if err != nil || e.Spares == nil {
		return q, err
	}
	return q.withSpares(cloneStrips(e.Spares)), nil
}

func panelID(n *Panel) string {
	if n == nil {
		return ""
	}
	return n.ID
}
