package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// actionRow is the row of buttons under the menu: files, history, what can be
// done with what is in hand, views. What does not fit goes behind "More".
type actionRow struct {
	w       *Window
	box     *fyne.Container
	lay     *rowLayout
	buttons map[string]*hintButton
	ids     []string // as shown
	more    *widget.Button
}

func newActionRow(w *Window) *actionRow {
	r := &actionRow{w: w, buttons: map[string]*hintButton{}}
	r.more = widget.NewButtonWithIcon(say.T("More"), theme.MoreHorizontalIcon(), r.showMore)
	r.lay = &rowLayout{gap: pad, more: r.more}
	r.box = container.New(r.lay)
	r.show()
	return r
}

// wanted lists what the row offers; "" sets a gap. Every button has its place,
// and is grey where it makes no sense; only the last group changes, and only
// while zones are edited.
func (r *actionRow) wanted() []string {
	ids := []string{"open", "save", "undo", "redo", "", "sheet", "", "rack", "arrange", "zones", "hatch", "before", "back", ""}
	if r.w.page != nil {
		return append([]string{"open", "save", "undo", "redo", "", "sheet", "", "rack", ""}, r.w.page.row()...)
	}
	if r.w.surf != nil && r.w.surf.show.zoning {
		return append(ids, "zone-sap", "zone-heart", "zone-flaw", "zone-unseen", "", "zone-polygon", "zone-brush")
	}
	if r.w.surf != nil && r.w.surf.show.grain {
		return append(ids, "grain", "grain-read")
	}
	return append(ids, "roll", "turn", "swap", "lift", "pin", "place")
}

// show brings the row up to date.
func (r *actionRow) show() {
	ids := r.wanted()
	if !equal(ids, r.ids) {
		r.ids = ids
		var objs []fyne.CanvasObject
		for _, id := range ids {
			if id == "" {
				objs = append(objs, gap())
				continue
			}
			objs = append(objs, r.button(id))
		}
		r.box.Objects = append(objs, r.more)
		r.box.Refresh()
	}
	for _, id := range ids {
		if id == "" {
			continue
		}
		b, a := r.button(id), r.w.acts.byID[id]
		want := widget.LowImportance
		if a.On != nil && a.On() {
			want = widget.HighImportance
		}
		if b.Importance != want {
			b.Importance = want
			b.Refresh()
		}
		if can := a.can(); can == b.Disabled() {
			if can {
				b.Enable()
			} else {
				b.Disable()
			}
		}
	}
}

func equal(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// gap keeps groups of buttons apart.
func gap() fyne.CanvasObject {
	line := canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))
	line.SetMinSize(fyne.NewSize(1, 18))
	return container.New(roomLayout{fyne.NewSize(9, 9)}, container.NewCenter(line))
}

func (r *actionRow) button(id string) *hintButton {
	b := r.buttons[id]
	if b == nil {
		b = newHintButton(r.w, r.w.acts.byID[id])
		r.buttons[id] = b
	}
	return b
}

// showMore opens what did not fit as a menu.
func (r *actionRow) showMore() {
	hidden := map[fyne.CanvasObject]bool{}
	for _, o := range r.lay.hidden {
		hidden[o] = true
	}
	var items []*fyne.MenuItem
	for _, id := range r.ids {
		switch {
		case id == "":
			if len(items) > 0 && !items[len(items)-1].IsSeparator {
				items = append(items, fyne.NewMenuItemSeparator())
			}
		case hidden[r.button(id)]:
			items = append(items, r.w.menuItem(id))
		}
	}
	if len(items) == 0 {
		return
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(r.more)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), r.w.win.Canvas(), at.AddXY(0, r.more.Size().Height))
}
