package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// tabRow chooses the panel on screen.
type tabRow struct {
	w    *Window
	box  *fyne.Container
	tabs *fyne.Container
	has  string // what the tabs were made for
}

func newTabRow(w *Window) *tabRow {
	t := &tabRow{w: w, tabs: container.NewHBox()}
	add := widget.NewButtonWithIcon(say.T("Panel"), theme.ContentAddIcon(), func() { w.act("new-panel") })
	add.Importance = widget.LowImportance
	board := widget.NewButtonWithIcon(say.T("Board"), theme.ContentAddIcon(), func() { w.act("new-board") })
	board.Importance = widget.LowImportance
	t.box = container.NewPadded(container.NewBorder(nil, nil, nil, container.NewHBox(w.depth.toggle, add, board), container.NewHScroll(t.tabs)))
	return t
}

// show makes the tabs anew where panels or the choice changed.
func (t *tabRow) show() {
	p, on := t.w.ses.Project(), t.w.ses.Selected().Panel
	key := on
	for _, n := range p.Panels {
		key += "\x00" + n.ID
	}
	if key == t.has {
		return
	}
	t.has = key
	t.tabs.RemoveAll()
	for _, n := range p.Panels {
		id := n.ID
		b := widget.NewButton(title(id), func() { t.w.showPanel(id) })
		b.Importance = widget.LowImportance
		if id == on {
			b.Importance = widget.HighImportance
		}
		t.tabs.Add(b)
	}
	if len(p.Panels) == 0 {
		t.tabs.Add(widget.NewLabel(say.T("No panel yet")))
	}
	t.tabs.Refresh()
}

// title begins an id with a capital letter and shows its hyphens as spaces,
// for tabs and headings.
func title(id string) string {
	s := []rune(strings.ReplaceAll(id, "-", " "))
	if len(s) == 0 {
		return ""
	}
	return strings.ToUpper(string(s[:1])) + string(s[1:])
}
