package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// sheetHead names the page in hand and leads to the others.
type sheetHead struct {
	p                  *sheetPage
	box                *fyne.Container
	name               *widget.Label
	before, next       *pageButton
	less, more, fitted *pageButton
	shown              string
}

func newSheetHead(p *sheetPage) *sheetHead {
	h := &sheetHead{p: p}
	h.name = wrapped("", widget.MediumImportance)
	h.name.SizeName, h.name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	names := [3]string{say.T("Page before"), say.T("Next page"), say.T("All of it (0)")}
	if p.w.look.TextPercent() > 100 { // all in one line with the title
		names = [3]string{say.T("Before"), say.T("Next"), say.T("All")}
	}
	h.before = p.button(names[0], func() { p.take(p.at - 1) })
	h.next = p.button(names[1], func() { p.take(p.at + 1) })
	h.less = p.button("−", func() { p.zoom(1 / 1.25) })
	h.more = p.button("+", func() { p.zoom(1.25) })
	h.fitted = p.button(names[2], p.fit)
	name := least(24, h.name)
	h.box = container.New(stackLayout{}, flow([]fyne.CanvasObject{name, h.before, h.next, h.less, h.more, h.fitted}, name))
	return h
}

// show brings the head up to date.
func (h *sheetHead) show() {
	p := h.p
	n := 0
	if p.m.doc != nil {
		n = len(p.m.doc.Pages)
	}
	h.before.greyed(n == 0 || p.at == 0)
	h.next.greyed(n == 0 || p.at == n-1)
	for _, b := range []*pageButton{h.less, h.fitted} {
		b.greyed(n == 0 || !p.view.larger())
	}
	h.more.greyed(n == 0)
	text := say.T("Layout sheet")
	if n > 0 {
		text = p.pageWords()
	}
	if text != h.shown {
		h.shown = text
		h.name.SetText(text)
		relay(h.box)
		if p.all != nil {
			p.all.Refresh()
		}
	}
}
