package ui

import (
	"fmt"
	"slices"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// set is the set whose panels may be arranged at once with the panel, false
// where there is none.
func (p *arrangePage) set() (model.Set, bool) { return p.w.ses.SetOf(p.panel) }

// panels are the ids of what is arranged.
func (p *arrangePage) panels() []string {
	if set, ok := p.set(); p.whole && ok {
		return set.Panels
	}
	return []string{p.panel}
}

func wholes() []bool { return []bool{false, true} }

func wholeWords(whole bool) string {
	if whole {
		return say.T("The whole set")
	}
	return say.T("This panel")
}

// turnWhole goes from the panel to its set and back.
func (p *arrangePage) turnWhole() {
	if _, ok := p.set(); !ok {
		p.w.say(say.T("The panel is in no set. Ctrl+J names panels that are seen together."))
		return
	}
	p.takeWhole(!p.whole)
}

// takeWhole arranges the whole set, or the panel alone.
func (p *arrangePage) takeWhole(on bool) {
	if p.whole == on {
		return
	}
	p.whole = on
	p.gallery.id, p.gallery.marks, p.gallery.comparing, p.ticked = "now", nil, false, nil
	p.keptOf = nil
	p.search()
	text := say.T("The panel alone is arranged, with the others as they lie.")
	if on {
		text = say.T("All panels of the set are arranged at once.")
	}
	p.w.say(say.F("%s T changes that.", text))
}

// changeAsked says whether strips may change panels.
func (p *arrangePage) changeAsked() session.Change {
	if p.ask.change {
		return session.ChangeAny
	}
	return session.ChangeNone
}

// heading says what is arranged.
func (p *arrangePage) heading() string {
	if set, ok := p.set(); p.whole && ok {
		return say.F("Arrange set %s", set.Name)
	}
	return say.F("Arrange panel %s", title(p.panel))
}

// what begins a sentence on how it lies.
func (p *arrangePage) what() string {
	if p.whole {
		return say.T("The panels of the set lie")
	}
	return say.T("The panel lies")
}

// restsOnNow is what a search begun now rests on.
func (p *arrangePage) restsOnNow() string {
	now := p.w.ses.Committed()
	n := now.Panel(p.panel)
	if n == nil {
		return ""
	}
	set, ok := p.set()
	if !p.whole || !ok {
		return restsOnKey(now, n)
	}
	key := fmt.Sprint("set ", set)
	var all model.Panel
	for _, id := range set.Panels {
		m := *now.Panel(id)
		all.Strips = append(all.Strips, m.Strips...)
		m.Strips = nil
		key += restsOnKey(now, &m)
	}
	return key + restsOnKey(now, &all)
}

// keeping keeps an arrangement under a name, nil what lies there now.
func (p *arrangePage) keeping(name string, lay model.Edit) model.Edit {
	if set, ok := p.set(); p.whole && ok {
		return session.KeepSet(set, name, lay)
	}
	return keepEdit(p.panel, name, lay)
}

// forget forgets a kept arrangement.
func (p *arrangePage) forget(name string) bool {
	var all model.DropAllKept
	for _, id := range p.panels() {
		all = append(all, model.DropKept{Panel: id, Name: name})
	}
	return p.w.commit(all)
}

// pinnable is a strip that may be held where it is.
type pinnable struct {
	n *model.Panel
	i int
}

func (p *arrangePage) pinned() (out []pinnable) {
	for _, id := range p.panels() {
		if n := p.w.ses.Committed().Panel(id); n != nil {
			for i := range n.Strips {
				out = append(out, pinnable{n, i})
			}
		}
	}
	return out
}

func (p *arrangePage) pinText(o pinnable) string {
	text := pinWords(p.w, o.n, o.i)
	if p.whole {
		text = title(o.n.ID) + ": " + say.Lower(text)
	}
	return text
}

// lieIn tells how an arrangement lies.
func (p *arrangePage) lieIn(a *session.Arrangement) string {
	if p.whole {
		return lieOfAll(a.Panels)
	}
	return lieOf(a.Panel)
}

// lieOfAll tells one arrangement of the panels of a set from another, by the
// wood: a strip that came over from another panel has another id there.
func lieOfAll(list []*face.Panel) string {
	var b strings.Builder
	for _, p := range list {
		q := *p
		q.Strips = slices.Clone(p.Strips)
		for i := range q.Strips {
			q.Strips[i].ID = ""
		}
		b.WriteString(p.ID + "\x02" + lieOf(&q))
	}
	return b.String()
}

// gatherSet lists what the gallery shows of a set.
func (p *arrangePage) gatherSet() []*layEntry {
	set, ok := p.set()
	if !ok {
		return nil
	}
	var now []*face.Panel
	for _, id := range set.Panels {
		now = append(now, p.w.ses.Panel(id))
	}
	first := &layEntry{kind: layNow, id: "now", same: true}
	p.frame(first, set, now)
	r := p.w.ses.ReadSet(set)
	first.got.After = session.After{Light: r.Light.Value, Unwanted: r.Unwanted.Value, Coverage: r.Coverage, LoneStreaks: r.Lone}
	out := []*layEntry{first}
	for i := range p.found.Answers {
		a := p.found.Answers[i]
		if len(a.Panels) != len(now) { // of a search before
			continue
		}
		e := &layEntry{kind: layAnswer, n: i + 1, got: a, known: true, early: p.running, edit: a.Edit}
		p.frame(e, set, a.Panels)
		e.id = say.F("answer %s", e.lie)
		out = append(out, e)
	}
	for _, name := range session.KeptOfSet(p.w.ses.Committed(), set) {
		e := &layEntry{kind: layKept, id: say.F("kept %s", name), name: name}
		list := now
		if edit, err := session.UseKeptOfSet(p.w.ses.Committed(), set, name); err != nil {
			e.fault = sentence(say.Err(err)) + "."
		} else {
			e.edit, list = edit, nil
			for k, part := range edit.(model.SetPlan).Panels {
				list = append(list, p.laid(now[k], part.Strips))
			}
		}
		p.frame(e, set, list)
		out = append(out, e)
	}
	found := p.found.Now.Panels != nil && lieOfAll(p.found.Now.Panels) == first.lie
	for _, e := range out {
		e.same = e.lie == first.lie
		if !e.known {
			p.weigh(e)
		}
		switch {
		case e.same:
			e.got.Change = ""
		case e.kind != layAnswer || !found:
			e.got.Change = p.changeOfSet(now, e.parts)
		}
	}
	return out
}

// changeOfSet says what is to be done to lay the panels of a set so. Strips are
// known by their place on their board.
func (p *arrangePage) changeOfSet(was, now []*face.Panel) string {
	type cut struct {
		board            *face.Board
		x, y, l, w, turn float64
	}
	type lies struct {
		panel, place int
		s            *face.Strip
	}
	of := func(s *face.Strip) cut { return cut{s.Board, s.X, s.Y, s.L, s.W, s.Angle} }
	before := map[cut]lies{}
	for k, q := range was {
		for i := range q.Strips {
			before[of(&q.Strips[i])] = lies{k, i, &q.Strips[i]}
		}
	}
	var over, moved, rolled, turned, in int
	for k, q := range now {
		for i := range q.Strips {
			s := &q.Strips[i]
			o, ok := before[of(s)]
			switch {
			case s.Board == nil:
				continue
			case !ok:
				in++
				continue
			case o.panel != k:
				over++
			case o.place != i:
				moved++
			}
			if s.UpFace() != o.s.UpFace() {
				rolled++
			}
			if s.Turned != o.s.Turned {
				turned++
			}
		}
	}
	var out []string
	for _, c := range []struct {
		n         int
		what, how string
	}{{in, say.T("take in "), ""}, {over, say.T("bring "), say.T(" over to another panel")}, {moved, say.T("move "), ""}, {rolled, say.T("roll over "), ""}, {turned, say.T("turn end for end "), ""}} {
		if c.n > 0 {
			out = append(out, c.what+say.Count(c.n, say.T("strip"), say.T("strips"))+c.how)
		}
	}
	return strings.Join(out, "; ")
}
