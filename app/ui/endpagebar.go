package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// endBar is the tools of the page, over the picture.
type endBar struct {
	p     *endPage
	box   *fyne.Container
	steps [3]*pageButton
	ends  [2]*pageButton
	on    *pageButton // goes on, or keeps
	keep  *pageButton
	tools [3]*fyne.Container
	next  *pageButton
	clear [2]*pageButton
	less  [2]*pageButton
}

func newEndBar(p *endPage) *endBar {
	b := &endBar{p: p}
	short := func(text, short string) string {
		if p.w.large() { // keys stand in the column
			return short
		}
		return text
	}
	for i, name := range []string{short(say.T("Corners (C)"), say.T("Corners")), short(say.T("Pith (P)"), say.T("Pith")), short(say.T("Heartwood (H)"), say.T("Heartwood"))} {
		b.steps[i] = p.button(name, func() { p.turn(endStep(i)) })
	}
	for i := range b.ends {
		b.ends[i] = p.button(sentence(endName(i)), func() {
			if i != p.end {
				p.other()
			}
		})
	}
	b.on = p.button("", p.enter)
	b.on.Importance = widget.SuccessImportance
	b.keep = p.button(short(say.T("Keep (K)"), say.T("Keep")), func() { p.keep(nil) })
	leave := p.button(short(say.T("Back (Esc)"), say.T("Back")), p.w.leavePage)
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	head := flow([]fyne.CanvasObject{b.steps[0], b.steps[1], b.steps[2], gap(), b.ends[0], b.ends[1], room, b.on, b.keep, leave}, room)
	b.tools[endCorners] = flow([]fyne.CanvasObject{p.button(short(say.T("Find again (F)"), say.T("Find again")), p.find)})
	b.next = p.button(short(say.T("Next ring (N)"), say.T("Next ring")), p.nextRing)
	for i := range b.clear {
		b.less[i] = p.button(short(say.T("Remove a click (Del)"), say.T("Remove a click")), p.pic.remove)
		b.clear[i] = p.button(say.T("Clear all clicks"), p.clear)
	}
	b.tools[endPith] = flow([]fyne.CanvasObject{b.next, b.less[0], b.clear[0]})
	b.tools[endHeart] = flow([]fyne.CanvasObject{b.less[1], b.clear[1]})
	b.box = container.New(stackLayout{}, head, b.tools[0], b.tools[1], b.tools[2])
	return b
}

// show brings the tools up to date.
func (b *endBar) show() {
	p := b.p
	bad := p.now.bad() != ""
	for i, s := range b.steps {
		lit(s, p.step == endStep(i))
		s.greyed(p.making != "" || i > 0 && bad)
	}
	board := p.w.ses.Project().Board(p.board)
	for i, e := range b.ends {
		lit(e, p.end == i)
		e.greyed(i != p.end && (board == nil || board.Ends[i].Photo == ""))
	}
	text := []string{say.T("Use these corners"), say.T("Heartwood next"), say.T("Keep")}[p.step]
	if !p.w.large() {
		text += say.T(" (Enter)")
	}
	if b.on.Text != text {
		b.on.SetText(text)
	}
	b.on.greyed(p.making != "" || p.img == nil || bad)
	setShown(b.keep, p.step != endHeart)
	b.keep.greyed(p.making != "" || p.img == nil || bad || p.reading)
	changed := false
	for i, t := range b.tools {
		changed = changed || t.Visible() != (p.step == endStep(i))
		setShown(t, p.step == endStep(i))
	}
	_, more := p.now.nextRing()
	b.next.greyed(!more)
	for i := range b.clear {
		any := false
		for _, ring := range p.now.clicks(endStep(i + 1)) {
			any = any || len(ring) > 0
		}
		b.clear[i].greyed(!any)
		b.less[i].greyed(!any)
	}
	if changed && p.all != nil {
		p.all.Refresh()
	}
}
