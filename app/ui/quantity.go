package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// quantityCard says how much wood to buy for the whole project.
type quantityCard struct {
	w     *Window
	entry *keepTrimEntry
	waste *field
	from  *widget.Label
	said  *fyne.Container
	box   *fyne.Container
}

func newQuantityCard(w *Window, e *keepTrimEntry, keys func(*fyne.KeyEvent) bool) *quantityCard {
	c := &quantityCard{w: w, entry: e, said: container.New(stackLayout{})}
	head := wrapped(say.T("How much to buy"), widget.MediumImportance)
	head.SizeName, head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	c.waste = w.newField(e.waste, "")
	c.waste.follow(func() { e.waste = c.waste.Text; c.fill() })
	c.from = wrapped("", widget.LowImportance)
	jobs := newPageButton(w, say.T("Past jobs…"), c.jobs)
	jobs.keys = keys
	c.box = container.New(stackLayout{}, snug(head), flow([]fyne.CanvasObject{named(say.T("Lost of what is bought")), c.waste, jobs}), snug(c.from), c.said)
	return c
}

// share reads how much is lost: what is typed, else what past jobs say.
func (c *quantityCard) share() (v float64, from string, err error) {
	v, from = session.WasteOf(c.w.set.jobs(), c.w.ses.MainSpecies())
	c.waste.SetPlaceHolder(session.Percent(v))
	if c.waste.Text != "" {
		v, err = c.waste.share(say.T("lost of what is bought"))
		from = say.T("as typed; nothing typed takes your own past jobs")
	}
	return v, from, err
}

func (c *quantityCard) fill() {
	c.said.Objects = nil
	v, from, err := c.share()
	var list []string
	if err == nil {
		list, err = c.w.ses.ToBuy(v)
	}
	c.from.SetText(say.F("%s is lost: %s. What is cut and left over counts as lost; planing to thickness does not, it is apart.", session.Percent(v), from))
	if err != nil {
		c.said.Add(line("⚠ "+ended(sentence(say.Err(err))), widget.WarningImportance))
	}
	for i, text := range list {
		l := wrapped(text, widget.MediumImportance)
		l.TextStyle.Bold = i == 0
		c.said.Add(snug(l))
	}
	c.said.Refresh()
}

// jobs shows the jobs that are kept, and offers to keep this one.
func (c *quantityCard) jobs() { c.w.jobsAsk(c.fill) }
