package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/cost"
	"heartside/model"
	"heartside/model/say"
)

// keepTrimEntry is what is typed of clear stock, and of waste; "" takes what past
// jobs say.
type keepTrimEntry struct {
	price, loss, thick string
	per                cost.Per
	waste              string
	seen               *model.ClearStock // the project's, when the fields were last written
}

// keepTrimPers are what clear stock is sold by.
var keepTrimPers = []cost.Per{cost.PerBoardFoot, cost.PerCubicFoot, cost.PerCubicMetre}

// keepTrimFields asks for clear stock.
type keepTrimFields struct {
	p                  *keepTrimPage
	price, loss, thick *field
	per                *pick
	note               *widget.Label
	box                *fyne.Container
}

func newKeepTrimFields(p *keepTrimPage) *keepTrimFields {
	w, e := p.w, p.entry
	e.follow(w)
	f := &keepTrimFields{p: p, price: w.newField(e.price, say.T("no price yet")), loss: w.newField(e.loss, ""), thick: w.newField(e.thick, say.T("as the boards"))}
	short := map[cost.Per]string{cost.PerBoardFoot: say.T("per bd ft"), cost.PerCubicFoot: say.T("per ft³"), cost.PerCubicMetre: say.T("per m³")}
	f.per = choice(w, keepTrimPers, func(c cost.Per) string { return short[c] }, e.per)
	typed := func() {
		e.price, e.loss, e.thick = f.price.Text, f.loss.Text, f.thick.Text
		if i := f.per.SelectedIndex(); i >= 0 {
			e.per = keepTrimPers[i]
		}
		p.fill()
	}
	for _, x := range []*field{f.price, f.loss, f.thick} {
		x.follow(typed)
		x.left = f.keep
		x.OnSubmitted = func(string) { f.keep() }
	}
	f.per.changed = func() { typed(); f.keep() }
	f.note = wrapped("", widget.LowImportance)
	ask := flow([]fyne.CanvasObject{named(say.T("Clear stock costs")), f.price, f.per, named(say.T("lost of it")), f.loss, named(say.T("thickness as sold")), f.thick})
	f.box = container.New(stackLayout{}, ask, snug(f.note))
	return f
}

// follow takes over what the project says of clear stock where that is other than
// when it was last looked at: the first time, and after undo.
func (e *keepTrimEntry) follow(w *Window) bool {
	c := w.ses.Project().Clear
	if e.per != "" && c == e.seen {
		return false
	}
	e.seen = c
	e.price, e.thick = "", ""
	e.per, e.loss = session.PerOf(w.ses.Units()), say.Print("%.0f %%", 100*session.LossClear)
	if c == nil {
		return true
	}
	e.loss = say.Number(100*c.Loss) + " %"
	if c.Price != nil {
		e.price, e.per = say.Number(c.Price.Amount), cost.Per(c.Price.Per)
	}
	if c.Thickness > 0 {
		e.thick = w.ses.Len(c.Thickness)
	}
	return true
}

// write shows what is held of clear stock.
func (f *keepTrimFields) write() {
	e := *f.p.entry // writing a field reads the others
	f.price.SetText(e.price)
	f.loss.SetText(e.loss)
	f.thick.SetText(e.thick)
	*f.p.entry = e
	for i, per := range keepTrimPers {
		if per == e.per && f.per.SelectedIndex() != i {
			f.per.SetSelectedIndex(i)
		}
	}
}

// keep makes what is typed of clear stock part of the project, where it can be
// read and says something.
func (f *keepTrimFields) keep() {
	w, e := f.p.w, f.p.entry
	o, err := f.read(0)
	if err != nil {
		return
	}
	c := &model.ClearStock{Loss: o.Loss, Thickness: o.Thickness}
	if strings.TrimSpace(f.price.Text) != "" {
		c.Price = &model.Price{Amount: o.Rate.Amount, Per: string(o.Rate.Per)}
	}
	if was := w.ses.Project().Clear; was == nil && c.Price == nil && c.Thickness == 0 && c.Loss == session.LossClear {
		return
	} else if was != nil && c.Thickness > 0 && f.thick.Text == w.ses.Len(was.Thickness) {
		c.Thickness = was.Thickness // finer than it prints
	}
	if w.commit(model.SetClear{Clear: c}) {
		e.seen = w.ses.Project().Clear
	}
}

// read reads the fields for a comparison; thick is the thickness as sold where none
// is typed.
func (f *keepTrimFields) read(thick float64) (session.ClearOffer, error) {
	o := session.ClearOffer{Rate: cost.Rate{Per: f.p.entry.per}, Thickness: thick}
	price, err := f.price.number(say.T("what clear stock costs"))
	if err == nil && price < 0 {
		err = say.Errorf("what clear stock costs: “%s” is under nothing; write its price, or leave it empty", f.price.Text)
	}
	if err != nil {
		return o, err
	}
	loss, err := f.loss.number(say.T("lost of clear stock"))
	if err == nil && (loss < 0 || loss >= 100) {
		err = say.Errorf("lost of clear stock: “%s” is no loss; write 0 to under 100 %%", f.loss.Text)
	}
	if err != nil {
		return o, err
	}
	o.Rate.Amount, o.Loss = price, loss/100
	if f.thick.Text != "" {
		o.Thickness, err = f.thick.size(say.T("thickness of clear stock"))
	}
	return o, err
}

// fill shows what was found.
func (p *keepTrimPage) fill() {
	f := p.offer
	if p.entry.follow(p.w) {
		f.write()
	}
	money := ""
	if c := p.w.ses.Project().Currency; c != "" {
		money = ", " + c
	}
	f.note.Importance = widget.LowImportance
	note := say.F("Prices are in the money the boards' prices are in%s. A loss of %.0f %% is common practice, no source.", money, 100*session.LossClear)
	p.body.Objects = nil
	for _, c := range p.cards {
		name := wrapped(c.title, widget.MediumImportance)
		name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
		p.body.Add(snug(name))
		switch {
		case c.trouble != "":
			p.body.Add(snug(wrapped("⚠ "+c.trouble, widget.WarningImportance)))
		case c.got == nil:
			p.body.Add(snug(wrapped(say.T("Looking for both plans…"), widget.LowImportance)))
		default:
			if bad := p.fillCard(c); bad != nil {
				note, f.note.Importance = "⚠ "+ended(sentence(say.Err(bad))), widget.WarningImportance
			}
		}
	}
	if len(p.cards) > 0 {
		p.body.Add(snug(wrapped(session.LostWords(), widget.LowImportance)))
	}
	p.buying.fill()
	p.body.Add(p.buying.box)
	f.note.SetText(note)
	p.state()
	p.body.Refresh()
	settled(p.scroll)
}

// fillCard adds one comparison; an error tells of what was typed.
func (p *keepTrimPage) fillCard(c *keepTrimCard) error {
	offer, typed := p.offer.read(c.got.Keep.Thickness)
	if typed != nil { // no figures of clear stock then
		offer = session.ClearOffer{}
	}
	a, bad := c.got.Against(offer)
	if typed == nil && c.got.Keep.Cost.Used > 0 {
		typed = bad
	}
	for _, text := range a.Verdicts {
		p.body.Add(snug(wrapped(text, widget.MediumImportance)))
	}
	for _, text := range a.Warnings {
		p.body.Add(snug(wrapped("⚠ "+text, widget.WarningImportance)))
	}
	p.body.Add(newBehaveTable(a.Rows))
	text := say.T("Use the trimmed plan")
	if c.laid[p.w.ses.Committed()] {
		text = say.T("The trimmed plan lies so now")
	}
	use := p.button(text, func() { p.use(c) })
	if c.got.Trim.Edit == nil || c.got.Nothing || !p.current(c) || c.laid[p.w.ses.Committed()] {
		use.Disable()
	}
	p.body.Add(flow([]fyne.CanvasObject{use}))
	return typed
}
