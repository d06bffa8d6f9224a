package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// joinedAsk lists which panels are joined to each other.
func (w *Window) joinedAsk() {
	t := &things{w: w, title: say.T("Panels joined to each other"), drop: say.T("Forget"), fresh: say.T("New…"),
		about: say.T("A top on its sides, a shelf between them: whether both move alike, and what happens where they do not, is read from the wood."),
		none:  say.T("No panels are joined yet.")}
	t.make = func() { w.joinAsk(-1, t) }
	t.list = func() []thing {
		var out []thing
		for i, j := range w.ses.Project().Joined {
			out = append(out, thing{name: say.F("%s and %s", j.Panels[0], j.Panels[1]), text: w.joinedText(j),
				change: func() { w.joinAsk(i, t) },
				drop: func() {
					list := slices.Clone(w.ses.Project().Joined)
					w.commit(model.SetJoined{Joined: slices.Delete(list, i, i+1)})
				}})
		}
		return out
	}
	if len(w.ses.Project().Panels) < 2 {
		w.tellAll(t.title, say.T("It takes two panels. Ctrl+T makes another one."))
		return
	}
	t.ask()
}

func (w *Window) joinedText(j model.Joined) string {
	how := say.T("Fixed: glued, dovetailed, housed or screwed fast")
	if j.How == "free" {
		how = say.T("Free to move: slots, buttons, a sliding dovetail")
	}
	if j.Edges != [2]string{} {
		how += say.F(", %s to %s", w.sideName(j, 0), w.sideName(j, 1))
	}
	return how + "."
}

// sideName is what the edge or end is called by which a panel is joined.
func (w *Window) sideName(j model.Joined, k int) string {
	if n := w.ses.Project().Panel(j.Panels[k]); n != nil {
		if side, ok := n.Role.Side(j.Edges[k]); ok {
			return n.Role.Sides()[side].Name
		}
	}
	return j.Edges[k]
}

// joinForm is the dialog that one pair is described with.
type joinForm struct {
	w      *Window
	panels [2]*pick
	edges  [2]*pick
	how    *pick
	ids    []string
}

func sides() []int { return []int{-1, 0, 1, 2, 3} }

func joinHows() []string { return []string{"fixed", "free"} }

func joinHowWords(s string) string {
	if s == "free" {
		return say.T("Free to move (slots, buttons, sliding dovetail)")
	}
	return say.T("Fixed (glued, dovetailed, housed, screwed fast)")
}

func newJoinForm(w *Window, was model.Joined) *joinForm {
	f := &joinForm{w: w}
	for _, n := range w.ses.Project().Panels {
		f.ids = append(f.ids, n.ID)
	}
	for k := range f.panels {
		id := was.Panels[k]
		if id == "" {
			id = f.ids[k]
		}
		f.panels[k] = choice(w, f.ids, func(s string) string { return s }, id)
		side := -1
		if n := w.ses.Project().Panel(id); n != nil {
			if s, ok := n.Role.Side(was.Edges[k]); ok {
				side = s
			}
		}
		f.edges[k] = choice(w, sides(), f.sideWords(k), side)
		f.panels[k].changed = func() {
			now := chosen(f.edges[k], sides())
			relabel(f.edges[k], sides(), f.sideWords(k), now)
		}
	}
	how := was.How
	if how == "" {
		how = "fixed"
	}
	f.how = choice(w, joinHows(), joinHowWords, how)
	return f
}

// sideWords names the edges of the panel chosen.
func (f *joinForm) sideWords(k int) func(int) string {
	return func(side int) string {
		n := f.w.ses.Project().Panel(chosen(f.panels[k], f.ids))
		if side < 0 || n == nil {
			return say.T("Not said")
		}
		return title(n.Role.Sides()[side].Name)
	}
}

func (f *joinForm) body() fyne.CanvasObject {
	return container.NewVBox(pairs(
		named(say.T("Panel")), f.panels[0], named(say.T("by its")), f.edges[0],
		named(say.T("Joined to")), f.panels[1], named(say.T("at its")), f.edges[1],
		named(say.T("How")), f.how),
		wrapped(say.T("An end of one panel against an end of another: both move alike along the joint. An end against an edge: one moves, the other does not."), widget.LowImportance))
}

func (f *joinForm) joined() (model.Joined, error) {
	j := model.Joined{How: chosen(f.how, joinHows())}
	for k := range j.Panels {
		j.Panels[k] = chosen(f.panels[k], f.ids)
		if side := chosen(f.edges[k], sides()); side >= 0 {
			j.Edges[k] = f.w.ses.Project().Panel(j.Panels[k]).Role.Sides()[side].Key
		}
	}
	if j.Panels[0] == j.Panels[1] {
		return j, say.Error("a panel cannot be joined to itself; choose two")
	}
	if (j.Edges[0] == "") != (j.Edges[1] == "") {
		return j, say.Error("say of both panels which edge or end meets, or of neither")
	}
	return j, nil
}

// joinAsk describes pair i of the list, a new one where i is under 0.
func (w *Window) joinAsk(i int, t *things) {
	was := model.Joined{}
	list := w.ses.Project().Joined
	name := say.T("Join two panels")
	if i >= 0 {
		was, name = list[i], say.T("Joined panels")
	}
	f := newJoinForm(w, was)
	w.ask(question{title: name, body: f.body(), yes: say.T("Keep"), focus: f.panels[0], size: fyne.NewSize(560, 400),
		do: func() error {
			j, err := f.joined()
			if err != nil {
				return err
			}
			next := slices.Clone(w.ses.Project().Joined)
			if i >= 0 {
				next[i] = j
			} else {
				next = append(next, j)
			}
			if err := w.ses.Commit(model.SetJoined{Joined: next}); err != nil {
				return err
			}
			t.refill()
			return nil
		}})
}
