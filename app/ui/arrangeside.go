package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// arrangeSide is the column beside the pictures: what there is to know of the
// arrangement in hand, and which strips stay where they are.
type arrangeSide struct {
	p       *arrangePage
	box     fyne.CanvasObject
	body    *fyne.Container
	scroll  *container.Scroll
	head    *widget.Label
	text    *widget.Label
	use     *pageButton
	keep    *pageButton
	drop    *pageButton
	points  *figures
	why     *fyne.Container
	reasons []*reasonRow
	stay    *fyne.Container
	pins    []*pinTick
	keys    *widget.Label
	laid    string // what the reasons were made for
	pinned  string // what the ticks were made for
}

func newArrangeSide(p *arrangePage) *arrangeSide {
	s := &arrangeSide{p: p, points: newFigures()}
	s.head, s.text = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	s.head.SizeName, s.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.use = p.button(p.short(say.T("Use it (Enter)")), p.use)
	s.use.Importance = widget.SuccessImportance
	s.keep, s.drop = p.button(p.short(say.T("Keep (K)")), p.keep), p.button(p.short(say.T("Forget (Del)")), p.drop)
	s.why, s.stay = container.New(stackLayout{}), container.New(stackLayout{})
	s.keys = wrapped(say.T(arrangeKeys), widget.LowImportance)
	s.body = container.New(columnLayout{}, snug(s.head), snug(s.text), flow([]fyne.CanvasObject{s.use, s.keep, s.drop}))
	for _, o := range []fyne.CanvasObject{snug(bold(say.T("Why"))), s.why, snug(bold(say.T("Stay where they are"))), s.stay, p.head.more,
		snug(bold(say.T("Points against, by look"))), container.NewPadded(s.points.box), snug(bold(say.T("Keys"))), snug(s.keys)} {
		s.body.Add(o)
	}
	s.scroll = container.NewVScroll(s.body)
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	return s
}

// show brings the column up to date.
func (s *arrangeSide) show() {
	e := s.p.gallery.hand()
	if e == nil {
		return
	}
	key := e.title() + e.against() + e.text() + fmt.Sprint(e.got.Reasons, e.got.Looks, e.known)
	if key != s.laid {
		s.laid = key
		s.head.SetText(e.title())
		text := say.T("Being weighed… ")
		switch {
		case e.fault != "":
			text = ""
		case e.known && !(e.got.Points > 0):
			text = say.T("Nothing against it for this look. ")
		case e.known:
			text = say.F("%s points against it for this look. ", pointWords(e.got.Points))
		}
		text += e.change()
		s.text.SetText(text)
		s.points.set(s.figures(e))
		s.fillWhy(e)
		s.relay()
	}
	s.use.greyed(e.same || e.fault != "" || e.edit == nil)
	s.keep.greyed(e.fault != "" || e.kind == layKept)
	s.drop.greyed(e.kind != layKept)
	s.showPins()
}

// relay lays the column out again after its texts changed.
func (s *arrangeSide) relay() {
	for range 2 {
		s.body.Refresh()
	}
	s.scroll.Refresh()
}

// figures are the points against an arrangement for every look.
func (s *arrangeSide) figures(e *layEntry) []figure {
	var out []figure
	sap := s.p.wantSap()
	for _, l := range e.got.Looks {
		if l.Look == model.AsLaid {
			continue
		}
		f := figure{name: lookWords(l.Look, sap), show: pointWords(l.Points)}
		if l.Look == s.p.ask.look {
			f.name = "▸ " + f.name
		}
		out = append(out, f)
	}
	if len(out) == 0 {
		out = append(out, figure{name: say.T("Not known yet"), quiet: true})
	}
	return out
}

// fillWhy lists what speaks against the arrangement in hand.
func (s *arrangeSide) fillWhy(e *layEntry) {
	had := -1
	for i, o := range s.reasons {
		if s.p.w.win.Canvas().Focused() == fyne.Focusable(o) {
			had = i
		}
	}
	s.why.RemoveAll()
	s.reasons = nil
	for _, r := range e.got.Reasons {
		row := newReasonRow(s.p, e, r)
		s.reasons = append(s.reasons, row)
		s.why.Add(row)
	}
	text := ""
	switch {
	case len(s.reasons) > 0:
	case e.fault != "":
		text = e.fault
	case !e.known:
		text = say.T("Not known yet.")
	case !(e.got.Points > 0):
		text = say.T("✓ Nothing speaks against it.")
	default:
		text = say.T("Use it to be told why.")
	}
	if text != "" {
		s.why.Add(snug(wrapped(text, widget.MediumImportance)))
	}
	switch {
	case had >= 0 && len(s.reasons) > 0:
		s.p.w.win.Canvas().Focus(s.reasons[min(had, len(s.reasons)-1)])
	case had >= 0:
		s.p.w.takeKeys()
	}
}

// showPins brings the ticks up to date that hold strips where they are.
func (s *arrangeSide) showPins() {
	p := s.p
	list := p.pinned()
	key := ""
	for _, o := range list {
		key += p.pinText(o) + "\x00"
	}
	if key != s.pinned {
		s.pinned = key
		had := -1
		for i, t := range s.pins {
			if p.w.win.Canvas().Focused() == fyne.Focusable(t) {
				had = i
			}
		}
		s.stay.RemoveAll()
		s.pins = nil
		for i, o := range list {
			t := newPinTick(s, i, o.n.ID, o.n.Strips[o.i].ID, p.pinText(o))
			s.pins = append(s.pins, t)
			s.stay.Add(t)
		}
		s.relay()
		if had >= 0 {
			s.focusPin(min(had, len(s.pins)-1))
		}
	}
	for i, t := range s.pins {
		st := &list[i].n.Strips[list[i].i]
		t.set(st.Pinned)
		t.panel, t.strip = list[i].n.ID, st.ID
		if off := st.Empty(); off != t.Disabled() {
			if off {
				t.Disable()
			} else {
				t.Enable()
			}
		}
	}
}

// pinWords names a strip of a panel by its number and place.
func pinWords(w *Window, n *model.Panel, i int) string {
	text := say.F("Strip %s", w.ses.Number(n.ID, n.Strips[i].ID))
	if n.Strips[i].Empty() {
		text = say.F("Place %s, empty", itoa(i+1))
	}
	sides := n.Role.Sides()
	switch i {
	case 0:
		text += say.F(", at %s", sides[0].The)
	case len(n.Strips) - 1:
		text += say.F(", at %s", sides[1].The)
	}
	return text
}

// setPin holds a strip of the panel where it is, or lets it go.
func (p *arrangePage) setPin(panel, strip string, on bool) {
	n := p.w.ses.Committed().Panel(panel)
	if n == nil {
		return
	}
	if st, ok := n.Strip(strip); ok && st.Pinned != on {
		p.w.commit(model.PinStrip{Panel: panel, Strip: strip, Pinned: on})
	}
}

// focusPin gives the keys to a tick.
func (s *arrangeSide) focusPin(i int) {
	if i >= 0 && i < len(s.pins) {
		s.p.w.win.Canvas().Focus(s.pins[i])
	}
}

// pinTick holds a strip; up and down go to the next one.
type pinTick struct {
	tick
	s            *arrangeSide
	i            int
	panel, strip string // ids
}

func newPinTick(s *arrangeSide, i int, panel, strip, text string) *pinTick {
	t := &pinTick{s: s, i: i, panel: panel, strip: strip}
	t.w, t.Text = s.p.w, text
	t.OnChanged = func(on bool) { s.p.setPin(t.panel, t.strip, on) }
	t.enter = s.p.w.takeKeys
	t.ExtendBaseWidget(t)
	return t
}

// FocusGained implements fyne.Focusable.
func (t *pinTick) FocusGained() {
	t.Check.FocusGained()
	t.w.reached(t)
}

// TypedKey implements fyne.Focusable.
func (t *pinTick) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		t.s.focusPin(t.i - 1)
	case fyne.KeyDown:
		t.s.focusPin(t.i + 1)
	default:
		t.tick.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (t *pinTick) TypedRune(r rune) {
	if r != ' ' {
		t.s.p.sign(r)
		return
	}
	t.Check.TypedRune(r)
}
