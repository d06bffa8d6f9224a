package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// planHead says what was asked and how far the search is.
type planHead struct {
	p     *planPage
	box   *fyne.Container
	note  *widget.Label
	bar   *widget.ProgressBar
	halt  *pageButton
	shown string
}

func newPlanHead(p *planPage) *planHead {
	h := &planHead{p: p}
	name := widget.NewLabel(say.T("Plans from the boards"))
	name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	h.note = wrapped("", widget.MediumImportance)
	h.note.TextStyle.Bold = true
	h.bar = widget.NewProgressBar()
	h.halt = p.button(say.T("Stop looking (S)"), p.halting)
	leave := newPageButton(p.w, p.short(say.T("Back (Esc)")), p.w.leavePage)
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	top := flow([]fyne.CanvasObject{name, room, leave}, room)
	asked := wrapped(say.F("Asked for: %s. Each plan after the first is another way that is better at something else or leaves a board alone.", lowerFirst(session.AimWords(p.wish.Aim))), widget.LowImportance)
	asked.Hidden = p.w.large()
	work := container.NewBorder(nil, nil, nil, h.halt, h.bar)
	h.box = container.New(stackLayout{}, top, h.note, asked, work)
	return h
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]|0x20) + s[1:]
}

// show brings the head up to date.
func (h *planHead) show() {
	p := h.p
	if h.bar.Value != p.done {
		h.bar.SetValue(p.done)
	}
	text := p.status()
	if key := text + itoa(b2i(p.running)); key != h.shown {
		h.shown = key
		h.note.SetText(text)
		setShown(h.box.Objects[3], p.running)
		relay(h.box)
		if p.all != nil {
			p.all.Refresh()
		}
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
