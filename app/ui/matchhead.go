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

// matchHead is what is asked and what was found.
type matchHead struct {
	p         *matchPage
	box       *fyne.Container
	more      fyne.CanvasObject // what is asked, where the head has no room for it
	name      *widget.Label
	note      *widget.Label
	tolerance *field
	strip     *pick
	only      *tick
	ids       []string // of the strips that may be in hand
	shown     string
}

func newMatchHead(p *matchPage) *matchHead {
	h := &matchHead{p: p}
	w := p.w
	h.name = widget.NewLabel("")
	h.name.SizeName, h.name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	h.note = wrapped("", widget.MediumImportance)
	h.note.TextStyle.Bold = true
	h.tolerance = w.lengthField(p.tolerance, true)
	h.tolerance.narrow = true
	h.tolerance.follow(h.typed)
	h.tolerance.OnSubmitted = func(string) { p.keysBack() }
	h.tolerance.left = func() {
		if p.trouble == "" && h.tolerance.Text != w.ses.Len(p.tolerance) {
			h.tolerance.SetText(w.ses.Len(p.tolerance))
		}
	}
	h.only = newTick(w, say.T("Only its edges"), p.only, nil)
	h.only.OnChanged = func(on bool) {
		if p.only != on {
			p.only = on
			p.search()
		}
		p.keysBack()
	}
	h.only.enter = p.keysBack
	h.choose()
	leave := newPageButton(w, h.short(say.T("Back (Esc)")), w.leavePage)
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	top := flow([]fyne.CanvasObject{h.name, room, leave}, room)
	within := named(say.T("Widths may differ by"))
	if w.large() { // beside the pictures, which need the height
		h.more = container.New(stackLayout{}, snug(bold(say.T("Widths may differ by"))), h.tolerance, snug(bold(say.T("Strip in hand"))), h.strip, h.only)
		h.box = container.New(stackLayout{}, top, h.note)
		return h
	}
	h.more = container.New(stackLayout{})
	h.box = container.New(stackLayout{}, top, flow([]fyne.CanvasObject{within, h.tolerance, named(say.T("Strip in hand")), least(12, h.strip), h.only}), h.note)
	return h
}

// short is a name without its key where text is large.
func (h *matchHead) short(text string) string {
	if h.p.w.large() {
		text, _, _ = strings.Cut(text, " (")
	}
	return text
}

// choose makes the drop-down of the strip in hand.
func (h *matchHead) choose() {
	p := h.p
	h.ids = stripsOnBoards(p.w.ses.Committed().Panel(p.panel))
	h.strip = choice(p.w, h.ids, func(id string) string {
		if id == "" {
			return say.T("None")
		}
		return say.F("Strip %s", p.w.ses.Number(p.panel, id))
	}, p.strip)
	h.strip.changed = func() {
		if id := chosen(h.strip, h.ids); id != p.strip {
			p.strip = id
			if id == "" {
				p.only = false
			}
			p.search()
		}
		p.keysBack()
	}
}

// stripsOnBoards lists the strips that may be in hand, "" none first.
func stripsOnBoards(n *model.Panel) []string {
	out := []string{""}
	if n != nil {
		for i := range n.Strips {
			if !n.Strips[i].Empty() {
				out = append(out, n.Strips[i].ID)
			}
		}
	}
	return out
}

// widestTolerance bounds what may be asked, mm: wider differences are no match
// to any eye. An engineering choice.
const widestTolerance = 50

// typed reads the tolerance and searches anew where it is another.
func (h *matchHead) typed() {
	p := h.p
	v, err := h.tolerance.size(say.T("widths may differ by"))
	if err == nil && v > widestTolerance {
		err = say.Errorf("widths may differ by: write %s or less", p.w.ses.Len(widestTolerance))
	}
	switch {
	case err != nil:
		p.trouble = ended(sentence(say.Err(err)))
		h.show()
	case v != p.tolerance || p.trouble != "":
		p.tolerance = v
		p.search()
	}
}

// show brings the head up to date.
func (h *matchHead) show() {
	p := h.p
	put(h.name, say.F("Edges that match in panel %s", title(p.panel)))
	now := stripsOnBoards(p.w.ses.Committed().Panel(p.panel))
	if !equal(now, h.ids) || len(h.strip.Options) != len(now) {
		h.ids = now
		h.strip.Options = h.strip.Options[:0]
		for _, id := range now {
			text := say.T("None")
			if id != "" {
				text = say.F("Strip %s", p.w.ses.Number(p.panel, id))
			}
			h.strip.Options = append(h.strip.Options, text)
		}
	}
	for i, id := range h.ids {
		if id == p.strip && h.strip.SelectedIndex() != i {
			h.strip.take(i)
		}
	}
	if h.only.Checked != p.only {
		h.only.Checked = p.only
		h.only.Refresh()
	}
	if off := p.strip == ""; off != h.only.Disabled() {
		if off {
			h.only.Disable()
		} else {
			h.only.Enable()
		}
	}
	if text := p.status(); text != h.shown {
		h.shown = text
		h.note.SetText(text)
		relay(h.box)
		if p.all != nil {
			p.all.Refresh()
		}
	}
}
