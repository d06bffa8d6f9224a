package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// arrangeHead is what is asked of the search and what it tells.
type arrangeHead struct {
	p      *arrangePage
	box    *fyne.Container
	more   fyne.CanvasObject // what is asked, where the head has no room for it
	name   *widget.Label
	note   *widget.Label
	look   *pick
	rings  *pick
	seen   *pick
	roll   *tick
	turn   *tick
	spares *tick
	whole  *pick
	room   fyne.CanvasObject // whole with room for its words
	change *tick
	start  *pageButton
	halt   *pageButton
	shown  string
}

func newArrangeHead(p *arrangePage) *arrangeHead {
	h := &arrangeHead{p: p}
	w := p.w
	n := w.ses.Project().Panel(p.panel)
	h.name = widget.NewLabel("")
	h.name.SizeName, h.name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	h.note = wrapped("", widget.MediumImportance)
	h.note.TextStyle.Bold = true
	sap := p.wantSap()
	h.look = choice(w, askedLooks(), func(l model.Look) string { return lookWords(l, sap) }, p.ask.look)
	h.look.changed = func() { p.ask.look = chosen(h.look, askedLooks()); p.search(); p.keysBack() }
	rings := model.RingsAny
	if n != nil {
		rings = n.Rings
	}
	h.rings = choice(w, ringKinds(), ringWords, rings)
	h.rings.changed = func() { p.setRings(chosen(h.rings, ringKinds())); p.keysBack() }
	h.seen = choice(w, seeings(), seeing.String, p.seen)
	h.seen.changed = func() { p.see(chosen(h.seen, seeings())); p.keysBack() }
	h.roll = h.tick(say.T("May be rolled over"), &p.ask.roll)
	h.turn = h.tick(say.T("May be turned"), &p.ask.turn)
	h.spares = h.tick(say.T("Spares may come in"), &p.ask.spares)
	h.whole = choice(w, wholes(), wholeWords, p.whole)
	h.room = roomy(h.whole)
	h.whole.changed = func() { p.takeWhole(chosen(h.whole, wholes())); p.keysBack() }
	h.change = h.tick(say.T("Strips may change panels"), &p.ask.change)
	h.start = p.button(p.short(say.T("Search (S)")), p.search)
	h.halt = p.button(p.short(say.T("Stop (Esc)")), p.end)
	leave := newPageButton(w, p.short(say.T("Back (Esc)")), func() {
		p.end()
		p.gallery.comparing = false
		w.leavePage()
	})
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	asks := []fyne.CanvasObject{h.room, roomy(h.look), roomy(h.rings), h.roll, h.turn, h.spares, h.change, roomy(h.seen)}
	acts := []fyne.CanvasObject{h.start, h.halt, leave}
	if w.large() { // beside the pictures, which need the height
		h.more = container.New(stackLayout{}, snug(bold(say.T("What is asked"))), h.room, h.look, h.rings, h.roll, h.turn, h.spares, h.change, snug(bold(say.T("Seen"))), h.seen)
		h.box = container.New(stackLayout{}, flow(append([]fyne.CanvasObject{h.name, room}, acts...), room), h.note)
		return h
	}
	h.more = container.New(stackLayout{})
	h.box = container.New(stackLayout{}, flow(append([]fyne.CanvasObject{h.name, room}, acts...), room), flow(asks), h.note)
	return h
}

// roomy keeps room for the longest text of a drop-down.
func roomy(s *pick) fyne.CanvasObject {
	most := 0
	for _, o := range s.Options {
		most = max(most, len([]rune(o)))
	}
	return least(0.82*float32(most)+8, s)
}

// short is a name without its key where text is large: the keys stand in the
// list of keys.
func (p *arrangePage) short(text string) string {
	if p.w.large() {
		text, _, _ = strings.Cut(text, " (")
	}
	return text
}

// tick is a box that changes what is asked.
func (h *arrangeHead) tick(text string, on *bool) *tick {
	t := newTick(h.p.w, text, *on, nil)
	t.OnChanged = func(v bool) {
		if *on != v {
			*on = v
			h.p.search()
		}
		h.p.keysBack()
	}
	t.enter = h.p.search
	return t
}

// show brings the head up to date.
func (h *arrangeHead) show() {
	p := h.p
	n := p.w.ses.Project().Panel(p.panel)
	if n == nil {
		return
	}
	if t := p.heading(); h.name.Text != t {
		h.name.SetText(t)
	}
	for i, r := range ringKinds() {
		if r == n.Rings && h.rings.SelectedIndex() != i {
			h.rings.take(i)
		}
	}
	if i := int(p.seen); h.seen.SelectedIndex() != i {
		h.seen.take(i)
	}
	_, inSet := p.set()
	may, _ := p.w.ses.MayChange(p.panel)
	setShown(h.spares, !p.whole && len(p.w.ses.Spares()) > 0)
	setShown(h.room, inSet)
	setShown(h.change, p.whole && may)
	for i, v := range wholes() {
		if v == p.whole && h.whole.SelectedIndex() != i {
			h.whole.take(i)
		}
	}
	if h.change.Checked != p.ask.change {
		h.change.SetChecked(p.ask.change)
	}
	h.start.greyed(p.running)
	h.halt.greyed(!p.running)
	text := p.status()
	if k := text + map[bool]string{true: "s"}[h.spares.Visible()] + map[bool]string{true: "w"}[inSet] + map[bool]string{true: "c"}[h.change.Visible()]; k != h.shown {
		h.shown = k
		h.note.SetText(text)
		relay(h.box)
		if p.all != nil {
			p.all.Refresh()
		}
	}
}
