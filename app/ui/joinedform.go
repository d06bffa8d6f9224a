package ui

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
)

// joinedAsk lists which panels are joined to each other.
func (w *Window) joinedAsk() {
	t := &things{w: w, title: "Panels joined to each other", drop: "Forget", fresh: "New…",
		about: "A top on its sides, a shelf between them: whether both move alike, and what happens where they do not, is read from the wood.",
		none:  "No panels are joined yet."}
	t.make = func() { w.joinAsk(-1, t) }
	t.list = func() []thing {
		var out []thing
		for i, j := range w.ses.Project().Joined {
			out = append(out, thing{name: j.Panels[0] + " and " + j.Panels[1], text: joinedText(j),
				change: func() { w.joinAsk(i, t) },
				drop: func() {
					list := slices.Clone(w.ses.Project().Joined)
					w.commit(model.SetJoined{Joined: slices.Delete(list, i, i+1)})
				}})
		}
		return out
	}
	if len(w.ses.Project().Panels) < 2 {
		w.tellAll(t.title, "It takes two panels. Ctrl+T makes another one.")
		return
	}
	t.ask()
}

func joinedText(j model.Joined) string {
	how := "Fixed: glued, dovetailed, housed or screwed fast"
	if j.How == "free" {
		how = "Free to move: slots, buttons, a sliding dovetail"
	}
	if j.Edges != [2]string{} {
		how += ", " + j.Edges[0] + " to " + j.Edges[1]
	}
	return how + "."
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
		return "Free to move (slots, buttons, sliding dovetail)"
	}
	return "Fixed (glued, dovetailed, housed, screwed fast)"
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
			return "Not said"
		}
		return title(n.Role.SideNames()[side])
	}
}

func (f *joinForm) body() fyne.CanvasObject {
	return container.NewVBox(pairs(
		named("Panel"), f.panels[0], named("by its"), f.edges[0],
		named("Joined to"), f.panels[1], named("at its"), f.edges[1],
		named("How"), f.how),
		wrapped("An end of one panel against an end of another: both move alike along the joint. An end against an edge: one moves, the other does not.", widget.LowImportance))
}

func (f *joinForm) joined() (model.Joined, error) {
	j := model.Joined{How: chosen(f.how, joinHows())}
	for k := range j.Panels {
		j.Panels[k] = chosen(f.panels[k], f.ids)
		if side := chosen(f.edges[k], sides()); side >= 0 {
			j.Edges[k] = f.w.ses.Project().Panel(j.Panels[k]).Role.SideNames()[side]
		}
	}
	if j.Panels[0] == j.Panels[1] {
		return j, errors.New("a panel cannot be joined to itself; choose two")
	}
	if (j.Edges[0] == "") != (j.Edges[1] == "") {
		return j, errors.New("say of both panels which edge or end meets, or of neither")
	}
	return j, nil
}

// joinAsk describes pair i of the list, a new one where i is under 0.
func (w *Window) joinAsk(i int, t *things) {
	was := model.Joined{}
	list := w.ses.Project().Joined
	name := "Join two panels"
	if i >= 0 {
		was, name = list[i], "Joined panels"
	}
	f := newJoinForm(w, was)
	w.ask(question{title: name, body: f.body(), yes: "Keep", focus: f.panels[0], size: fyne.NewSize(560, 400),
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
