package ui

import (
	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/model/say"
)

// tablesOf parts rows where a head has another number of columns, so that each
// table has room for its own.
func tablesOf(rows []session.Row) [][]session.Row {
	var out [][]session.Row
	cols := -1
	for _, r := range rows {
		if n := len(r.Values); len(out) == 0 || r.Head && cols >= 0 && n != cols {
			out, cols = append(out, nil), n
		}
		out[len(out)-1] = append(out[len(out)-1], r)
	}
	return out
}

// planeButtons lead from the card of planing to the choice of the face the
// stock comes off, and to the slider.
func (p *behavePage) planeButtons() []fyne.CanvasObject {
	choose := newBehaveButton(p, say.T("Which face…"), func() { p.w.act("plane") })
	see := newBehaveButton(p, say.T("See it on the panel"), func() {
		p.w.turnTo(nil)
		if !p.w.surfDepth() {
			p.w.act("depth")
		}
		p.w.depth.focus()
	})
	return []fyne.CanvasObject{flow([]fyne.CanvasObject{choose, see})}
}
