package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/cost"
)

// keepTrimEntry is what was typed of clear stock. It is not saved.
type keepTrimEntry struct {
	price, loss, thick string
	per                cost.Per
}

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
	if e.per == "" {
		e.per, e.loss = session.PerOf(w.ses.Units()), fmt.Sprintf("%.0f %%", 100*session.LossClear)
	}
	f := &keepTrimFields{p: p, price: w.newField(e.price, "no price yet"), loss: w.newField(e.loss, ""), thick: w.newField(e.thick, "as the boards")}
	pers := []cost.Per{cost.PerBoardFoot, cost.PerCubicFoot, cost.PerCubicMetre}
	short := map[cost.Per]string{cost.PerBoardFoot: "per bd ft", cost.PerCubicFoot: "per ft³", cost.PerCubicMetre: "per m³"}
	f.per = choice(w, pers, func(c cost.Per) string { return short[c] }, e.per)
	typed := func() {
		e.price, e.loss, e.thick = f.price.Text, f.loss.Text, f.thick.Text
		if i := f.per.SelectedIndex(); i >= 0 {
			e.per = pers[i]
		}
		p.fill()
	}
	for _, x := range []*field{f.price, f.loss, f.thick} {
		x.follow(typed)
	}
	f.per.changed = typed
	f.note = wrapped("", widget.LowImportance)
	ask := flow([]fyne.CanvasObject{named("Clear stock costs"), f.price, f.per, named("lost of it"), f.loss, named("thickness as sold"), f.thick})
	f.box = container.New(stackLayout{}, ask, snug(f.note))
	return f
}

// read reads the fields for a comparison.
func (f *keepTrimFields) read(got *session.KeptTrimmed) (session.ClearOffer, error) {
	o := session.ClearOffer{Rate: cost.Rate{Per: f.p.entry.per}, Thickness: got.Keep.Thickness}
	price, err := f.price.number("what clear stock costs")
	if err == nil && price < 0 {
		err = fmt.Errorf("what clear stock costs: “%s” is under nothing; write its price, or leave it empty", f.price.Text)
	}
	if err != nil {
		return o, err
	}
	loss, err := f.loss.number("lost of clear stock")
	if err == nil && (loss < 0 || loss >= 100) {
		err = fmt.Errorf("lost of clear stock: “%s” is no loss; write 0 to under 100 %%", f.loss.Text)
	}
	if err != nil {
		return o, err
	}
	o.Rate.Amount, o.Loss = price, loss/100
	if f.thick.Text != "" {
		o.Thickness, err = f.thick.size("thickness of clear stock")
	}
	return o, err
}

// fill shows what was found.
func (p *keepTrimPage) fill() {
	f := p.offer
	f.note.Importance = widget.LowImportance
	note := fmt.Sprintf("Prices are in the money the boards' prices are in. A loss of %.0f %% is common practice, no source. What is typed here is not saved.", 100*session.LossClear)
	p.body.Objects = nil
	for _, c := range p.cards {
		name := wrapped(c.title, widget.MediumImportance)
		name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
		p.body.Add(snug(name))
		switch {
		case c.trouble != "":
			p.body.Add(snug(wrapped("⚠ "+c.trouble, widget.WarningImportance)))
		case c.got == nil:
			p.body.Add(snug(wrapped("Looking for both plans…", widget.LowImportance)))
		default:
			if bad := p.fillCard(c); bad != nil {
				note, f.note.Importance = "⚠ "+ended(sentence(bad.Error())), widget.WarningImportance
			}
		}
	}
	if len(p.cards) > 0 {
		p.body.Add(snug(wrapped(session.LostWords, widget.LowImportance)))
	}
	f.note.SetText(note)
	p.state()
	p.body.Refresh()
	settled(p.scroll)
}

// fillCard adds one comparison; an error tells of what was typed.
func (p *keepTrimPage) fillCard(c *keepTrimCard) error {
	offer, typed := p.offer.read(c.got)
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
	text := "Use the trimmed plan"
	if c.laid[p.w.ses.Committed()] {
		text = "The trimmed plan lies so now"
	}
	use := p.button(text, func() { p.use(c) })
	if c.got.Trim.Edit == nil || c.got.Nothing || !p.current(c) || c.laid[p.w.ses.Committed()] {
		use.Disable()
	}
	p.body.Add(flow([]fyne.CanvasObject{use}))
	return typed
}
