package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"heartside/model/say"
)

// nextSteps are buttons for what is to be done next where something is still
// missing, each with its key.
type nextSteps struct {
	w   *Window
	box *fyne.Container
	ids []string
}

func newNextSteps(w *Window) *nextSteps {
	n := &nextSteps{w: w, box: container.NewVBox()}
	n.box.Hide()
	return n
}

// show offers actions by their ids, none to hide; it reports whether that is
// another offer than before.
func (n *nextSteps) show(ids []string) bool {
	if slices.Equal(ids, n.ids) {
		return false
	}
	n.ids = slices.Clone(ids)
	n.box.RemoveAll()
	for _, id := range ids {
		if a := n.w.acts.byID[id]; a != nil {
			text := nextWords(a)
			if !n.w.large() { // there is no room; the menu has the key
				text += " (" + a.Keys[0].String() + ")"
			}
			n.box.Add(container.NewHBox(newPageButton(n.w, text, func() { n.do(a) })))
		}
	}
	setShown(n.box, len(ids) > 0)
	return true
}

// do leaves the page where there is one, and does the action.
func (n *nextSteps) do(a *Action) {
	if n.w.page == nil || a.can() {
		n.w.do(a)
		return
	}
	n.w.pastDraft(func() {
		n.w.turnTo(nil)
		n.w.do(a)
	})
}

// nextWords names an action shortly, for a narrow column.
func nextWords(a *Action) string {
	switch a.ID {
	case "new-board":
		return say.T("Enter a board…")
	case "rack":
		return say.T("Many boards…")
	case "new-panel":
		return say.T("Make a panel…")
	case "propose":
		return say.T("Propose strips…")
	case "fill":
		return say.T("Lay them all")
	case "demo":
		return say.T("See the demo")
	}
	return a.Label
}

// missing are the actions that come next in a project as it is, for the panel
// on screen; none where the panel is laid.
func (w *Window) missing() []string {
	p := w.ses.Project()
	n := w.panel()
	switch {
	case len(p.Boards) == 0:
		return []string{"new-board", "rack", "demo"}
	case n == nil:
		return []string{"new-panel"}
	case len(n.Strips) == 0:
		return []string{"propose"}
	}
	for _, s := range n.Strips {
		if s.Board == "" {
			return []string{"fill"}
		}
	}
	return nil
}
