package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// yardSide says beside the boards which of them to buy.
type yardSide struct {
	p     *yardPage
	box   *fyne.Container
	text  *fyne.Container
	needs *fyne.Container // what they are for
	stop  *pageButton
	all   *pageButton // keeps what is chosen
	take  *pageButton
	rack  *tick
}

func newYardSide(p *yardPage) *yardSide {
	w := p.w
	s := &yardSide{p: p, text: container.New(stackLayout{}), needs: container.New(stackLayout{})}
	s.stop = newPageButton(w, say.T("Stop"), func() {
		if p.run != nil && p.run.busy {
			p.stopLooking()
			return
		}
		p.look()
	})
	s.all = newPageButton(w, say.T("Keep what is to be bought"), p.keepChosen)
	s.take = newPageButton(w, say.T("Take the kept boards into the rack"), p.take)
	s.rack = newTick(w, say.T("Boards in the rack count, as paid"), !p.yard().NoRack, func() {
		y := p.yard()
		y.NoRack = !s.rack.Checked
		p.set(y)
	})
	terms := newPageButton(w, say.T("Order terms…"), func() { w.act("terms") })
	leave := newPageButton(w, say.T("Back (Esc)"), w.leavePage)
	terms.Importance, leave.Importance = widget.LowImportance, widget.LowImportance
	s.box = container.New(stackLayout{}, snug(bold(say.T("What to buy"))), s.text, flow([]fyne.CanvasObject{s.all, s.take}), s.rack,
		flow([]fyne.CanvasObject{s.stop, terms, leave}))
	s.fill()
	return s
}

// fill writes the answers anew.
func (s *yardSide) fill() {
	r := s.p.run
	s.text.Objects, s.needs.Objects = nil, nil
	add := func(to *fyne.Container, text string, i widget.Importance) { to.Add(line(text, i)) }
	if r != nil {
		if r.trouble != "" {
			add(s.text, "⚠ "+r.trouble, widget.WarningImportance)
		}
		if c := r.choice; c != nil {
			lead := wrapped(c.Lead, widget.MediumImportance)
			lead.TextStyle.Bold = true
			s.text.Add(snug(lead))
			if c.Proof != "" {
				add(s.text, c.Proof, widget.MediumImportance)
			}
			if len(c.Lacking) > 0 {
				s.text.Add(snug(bold(say.T("What is missing"))))
				for _, t := range c.Lacking {
					add(s.text, t, widget.MediumImportance)
				}
			}
			if len(c.Cuts) > 0 {
				add(s.text, say.F("One way to cut them:\n%s", strings.Join(c.Cuts, "\n")), widget.LowImportance)
			}
		}
		switch {
		case r.busy && r.choice == nil:
			add(s.text, say.T("Looking through the boards…"), widget.LowImportance)
		case r.busy:
			add(s.text, say.T("Finding out what each board is worth…"), widget.LowImportance)
		}
		s.needs.Add(snug(bold(say.T("What is to be made"))))
		list := say.T("Nothing yet.")
		if len(r.job.Needs) > 0 {
			list = say.F("All panels and solid parts of the job, laid on boards or not:\n%s", strings.Join(r.job.Needs, "\n"))
		}
		add(s.needs, list, widget.MediumImportance)
		for _, t := range r.job.Notes {
			add(s.needs, t, widget.WarningImportance)
		}
	}
	add(s.needs, session.YardNote(), widget.LowImportance)
	if text := map[bool]string{true: say.T("Stop"), false: say.T("Look again")}[r != nil && r.busy]; s.stop.Text != text {
		s.stop.SetText(text)
	}
	s.all.greyed(r == nil || r.choice == nil || len(r.choice.Chosen) == 0)
	kept := false
	yard := s.p.yard()
	for i := range yard.Offers {
		kept = kept || yard.Offers[i].Say == model.OfferKeep
	}
	s.rack.SetChecked(!yard.NoRack)
	s.take.greyed(!kept)
	for _, c := range []*fyne.Container{s.text, s.needs} {
		c.Refresh()
	}
}
