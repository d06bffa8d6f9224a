package model

import (
	"slices"

	"heartside/model/say"
)

// Keep remembers an arrangement of a panel under a name; the same name again
// replaces it. Strips is how it lies there, nil for how it lies now.
type Keep struct {
	Panel, Name string
	Strips      []Strip
}

// Label implements Edit.
func (e Keep) Label() string { return say.F("Keep arrangement %s", e.Name) }

func (e Keep) apply(p *Project) (*Project, error) {
	n := p.Panel(e.Panel)
	if n == nil {
		return nil, noPanel(e.Panel)
	}
	k := Kept{Panel: e.Panel, Name: e.Name, Strips: cloneStrips(n.Strips)}
	if e.Strips != nil {
		k.Strips = cloneStrips(e.Strips)
	}
	return p.with(func(q *Project) {
		q.Kept = slices.Clone(q.Kept)
		if i := q.keptIndex(e.Panel, e.Name); i >= 0 {
			q.Kept[i] = k
			return
		}
		q.Kept = append(q.Kept, k)
	}), nil
}

// DropKept forgets a kept arrangement.
type DropKept struct{ Panel, Name string }

// Label implements Edit.
func (e DropKept) Label() string { return say.F("Forget arrangement %s", e.Name) }

func (e DropKept) apply(p *Project) (*Project, error) {
	if p.keptIndex(e.Panel, e.Name) < 0 {
		return nil, noKept(e.Panel, e.Name)
	}
	return p.with(func(q *Project) {
		q.Kept = without(q.Kept, func(k Kept) bool { return k.Panel == e.Panel && k.Name == e.Name })
	}), nil
}

// KeepAll remembers arrangements of several panels at once, as of a set.
type KeepAll []Keep

// Label implements Edit.
func (e KeepAll) Label() string { return firstLabel(e, say.T("Keep arrangement")) }

func (e KeepAll) apply(p *Project) (*Project, error) { return inTurn(p, e) }

// DropAllKept forgets kept arrangements of several panels at once.
type DropAllKept []DropKept

// Label implements Edit.
func (e DropAllKept) Label() string { return firstLabel(e, say.T("Forget arrangement")) }

func (e DropAllKept) apply(p *Project) (*Project, error) { return inTurn(p, e) }

// firstLabel is that of the first edit, or what there is to say of none.
func firstLabel[E Edit](edits []E, none string) string {
	if len(edits) == 0 {
		return none
	}
	return edits[0].Label()
}

// inTurn applies edits one after another; all or none.
func inTurn[E Edit](p *Project, edits []E) (*Project, error) {
	for _, e := range edits {
		q, err := e.apply(p)
		if err != nil {
			return nil, err
		}
		p = q
	}
	return p, nil
}

// UseKept lays a panel out as it was kept. A strip that has been sawn since
// keeps its cut and its stage and takes only its order and the way it lies; a
// sawn strip that the arrangement does not use goes to the spares.
type UseKept struct{ Panel, Name string }

// Label implements Edit.
func (e UseKept) Label() string { return say.F("Use arrangement %s", e.Name) }

func (e UseKept) apply(p *Project) (*Project, error) {
	i := p.keptIndex(e.Panel, e.Name)
	if i < 0 {
		return nil, noKept(e.Panel, e.Name)
	}
	n := p.Panel(e.Panel)
	if n == nil {
		return nil, noPanel(e.Panel)
	}
	strips, spares := cloneStrips(p.Kept[i].Strips), slices.Clone(p.Spares)
	for k := range strips {
		s := &strips[k]
		now, ok := findStrip(n.Strips, s.ID)
		if !ok {
			if now, ok = findStrip(spares, s.ID); ok && now.Board == s.Board {
				spares = without(spares, func(t Strip) bool { return t.ID == s.ID })
			} else {
				continue
			}
		}
		if now.Stage.cut() {
			now.Up, now.Turned, now.Shift, now.Pinned = s.Up, s.Turned, s.Shift, s.Pinned
			*s = cloneStrip(now)
		}
	}
	for _, s := range n.Strips {
		if _, used := findStrip(strips, s.ID); !used && s.Stage.cut() {
			spares = withSpare(p, spares, s)
		}
	}
	q, err := p.editPanel(e.Panel, func(n *Panel) error { n.Strips = strips; return nil })
	if err != nil {
		return nil, err
	}
	return q.withSpares(spares), nil
}

func (p *Project) keptIndex(panel, name string) int {
	return slices.IndexFunc(p.Kept, func(k Kept) bool { return k.Panel == panel && k.Name == name })
}

func noKept(panel, name string) error {
	return RuleError{Rule: RuleUnknownKept, Panel: panel, Detail: say.F("no arrangement called %s is kept", quote(name))}
}
