package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// layKind is where an arrangement of the gallery comes from.
type layKind int

const (
	layNow    layKind = iota // as the panel lies
	layAnswer                // found by the search
	layKept                  // kept in the project under a name
)

// layEntry is one arrangement of the gallery.
type layEntry struct {
	kind  layKind
	id    string        // tells it from the others, also after the next search
	n     int           // of an answer, from 1
	name  string        // of a kept one
	panel *face.Panel   // of a set: the size of all, with all their strips
	parts []*face.Panel // of a set: its panels
	at    []geom.Rect   // of a set: where each stands in the picture
	lie   string        // how the strips lie; equal where two arrangements are one
	got   session.Arrangement
	known bool       // what speaks against it is known
	edit  model.Edit // lays the panel so, nil where it lies so
	early bool       // the search goes on: its contrast is not measured yet
	same  bool       // it is how the panel lies now
	fault string     // why it cannot be used, "" nothing
}

// lieOf tells one arrangement of strips from another.
func lieOf(p *face.Panel) string {
	if p == nil {
		return ""
	}
	var b strings.Builder
	for i := range p.Strips {
		s := &p.Strips[i]
		board := ""
		if s.Board != nil {
			board = s.Board.ID
		}
		fmt.Fprint(&b, s.ID, "\x00", board, s.UpFace(), s.Turned, s.X, s.Y, s.L, s.W, s.Angle, s.Shift, "\x01")
	}
	return b.String()
}

// restsOnKey is all that a search rests on beside how the strips lie: where it
// differs, what was found is of another panel.
func restsOnKey(p *model.Project, n *model.Panel) string {
	var b strings.Builder
	fmt.Fprint(&b, n.Length, n.Width, n.Thickness, n.Shape, n.Points, n.Hidden, n.BothShow, n.Rings, n.Wanted, n.UnwantedLimit, p.Limits, p.Allowances, p.Machines)
	list := append(slices.Clone(n.Strips), p.Spares...)
	slices.SortFunc(list, func(a, b model.Strip) int { return cmp.Compare(a.ID, b.ID) })
	for i := range list {
		s := &list[i]
		fmt.Fprintf(&b, "\x01%s %s %v %v %v %v %v %v %v %s %p %p", s.ID, s.Board, s.X, s.Y, s.L, s.W, s.Angle, s.Shift, s.Pinned, s.Stage, s.Planed, p.Board(s.Board))
	}
	return b.String()
}

// keptStrips are the kept arrangements of the panel as they would lie now.
type keptLie struct {
	name   string
	strips []model.Strip
	fault  string
}

// keptLies applies the kept arrangements, once a state of the project.
func (p *arrangePage) keptLies() []keptLie {
	now := p.w.ses.Committed()
	if now == p.keptOf {
		return p.kept
	}
	p.keptOf, p.kept = now, nil
	for _, k := range now.Kept {
		if k.Panel != p.panel {
			continue
		}
		l := keptLie{name: k.Name, strips: k.Strips}
		q, err := model.Apply(now, model.UseKept{Panel: p.panel, Name: k.Name})
		if err != nil {
			l.fault = sentence(say.Err(err)) + "."
		} else {
			l.strips = q.Panel(p.panel).Strips
		}
		p.kept = append(p.kept, l)
	}
	return p.kept
}

// laid is the panel with other strips, as the readings see it.
func (p *arrangePage) laid(now *face.Panel, strips []model.Strip) *face.Panel {
	out := *now
	out.Strips = make([]face.Strip, 0, len(strips))
	known := map[string]*face.Strip{}
	spares := p.w.ses.Spares()
	for i := range spares {
		known[spares[i].ID] = &spares[i]
	}
	for i := range now.Strips {
		known[now.Strips[i].ID] = &now.Strips[i]
	}
	stages := map[model.Stage]face.Stage{model.Sawn: face.Sawn, model.Planed: face.Planed, model.Jointed: face.Jointed, model.Glued: face.Glued}
	for _, m := range strips {
		s := face.Strip{ID: m.ID, Board: p.w.ses.Board(m.Board), X: m.X, Y: m.Y, L: m.L, W: m.W, Angle: m.Angle,
			Up: m.Up, Turned: m.Turned, Shift: m.Shift, Pinned: m.Pinned, Stage: stages[m.Stage]}
		if was := known[m.ID]; was != nil && was.UpFace() == s.UpFace() {
			s.Planed = was.Planed
		}
		out.Strips = append(out.Strips, s)
	}
	return &out
}

// gather lists what the gallery shows.
func (p *arrangePage) gather() []*layEntry {
	now := p.w.ses.Panel(p.panel)
	if now == nil {
		return nil
	}
	if p.whole {
		return p.gatherSet()
	}
	first := &layEntry{kind: layNow, id: "now", panel: now, lie: lieOf(now), same: true}
	first.got.After = afterOf(p.w.ses.Reading(p.panel))
	out := []*layEntry{first}
	for i := range p.found.Answers {
		a := p.found.Answers[i]
		lie := lieOf(a.Panel)
		out = append(out, &layEntry{kind: layAnswer, id: say.F("answer %s", lie), n: i + 1, panel: a.Panel, lie: lie, got: a, known: true, early: p.running, edit: a.Edit})
	}
	for _, k := range p.keptLies() {
		e := &layEntry{kind: layKept, id: say.F("kept %s", k.name), name: k.name, fault: k.fault, edit: model.UseKept{Panel: p.panel, Name: k.name}}
		e.panel = p.laid(now, k.strips)
		e.lie = lieOf(e.panel)
		out = append(out, e)
	}
	for _, e := range out {
		e.same = e.lie == first.lie
		if !e.known {
			p.weigh(e)
		}
		e.got.Change = p.changeTo(now, e)
	}
	return out
}

// changeTo says what is to be done to lay the panel so from how it lies now.
func (p *arrangePage) changeTo(now *face.Panel, e *layEntry) string {
	switch {
	case e.same:
		return ""
	case e.kind == layAnswer && p.found.Now.Panel != nil && lieOf(p.found.Now.Panel) == lieOf(now):
		return e.got.Change
	}
	was, place := map[string]*face.Strip{}, map[string]int{}
	for i := range now.Strips {
		was[now.Strips[i].ID], place[now.Strips[i].ID] = &now.Strips[i], i
	}
	var in, cut, moved, rolled, turned []string
	for i := range e.panel.Strips {
		s := &e.panel.Strips[i]
		o, number := was[s.ID], p.w.ses.Number(p.panel, s.ID)
		switch {
		case o == nil:
			in = append(in, number)
			continue
		case o.X != s.X || o.Y != s.Y || o.L != s.L || o.W != s.W || o.Angle != s.Angle || o.Board != s.Board:
			cut = append(cut, number)
		}
		if place[s.ID] != i {
			moved = append(moved, number)
		}
		if s.UpFace() != o.UpFace() {
			rolled = append(rolled, number)
		}
		if s.Turned != o.Turned {
			turned = append(turned, number)
		}
	}
	var out []string
	for _, c := range []struct {
		what string
		list []string
	}{{say.T("take in "), in}, {say.T("cut anew "), cut}, {say.T("move "), moved}, {say.T("roll over "), rolled}, {say.T("turn end for end "), turned}} {
		switch n := len(c.list); {
		case n > 3:
			out = append(out, say.F("%s%s strips", c.what, itoa(n)))
		case n > 0:
			out = append(out, c.what+say.List(c.list))
		}
	}
	return strings.Join(out, "; ")
}
