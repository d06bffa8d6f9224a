package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/terms"
	"heartside/model"
	"heartside/model/say"
)

// termsEntry is what was typed of the terms of an order. It stays while the window
// is open.
type termsEntry struct {
	form, of string
	when     terms.When
	by       terms.Count
	sap      bool
	offers   bool
	begun    bool
}

// termsForm holds the boards of the rack against the terms of an order.
type termsForm struct {
	w        *Window
	st       *yardState
	form, of *field
	when, by *pick
	wood     *pick
	offers   *tick
	said     *fyne.Container
	body     *fyne.Container
}

// termsAsk shows the dialog.
func (w *Window) termsAsk(st *yardState) {
	f := newTermsForm(w, st)
	w.ask(question{title: say.T("Order terms"), body: f.body, size: fyne.NewSize(720, 640), tall: true, focus: f.form})
	f.fill()
}

func newTermsForm(w *Window, st *yardState) *termsForm {
	e := &st.terms
	if !e.begun {
		e.begun, e.form, e.of, e.when, e.by = true, "90/70", "100 %", terms.BeforeRipping, terms.ByArea
		for _, b := range w.ses.Project().Boards {
			e.sap = e.sap || b.Wanted == model.WantSap
		}
	}
	f := &termsForm{w: w, st: st, form: w.newField(e.form, "90/70"), of: w.newField(e.of, "100 %"), said: container.New(stackLayout{})}
	whens := []terms.When{terms.BeforeRipping, terms.AfterRipping}
	f.when = choice(w, whens, func(t terms.When) string {
		return map[terms.When]string{terms.BeforeRipping: say.T("before ripping, of the boards as bought"), terms.AfterRipping: say.T("after ripping, of every strip")}[t]
	}, e.when)
	bys := []terms.Count{terms.ByArea, terms.ByCount}
	f.by = choice(w, bys, func(t terms.Count) string {
		return map[terms.Count]string{terms.ByArea: say.T("by area"), terms.ByCount: say.T("by number")}[t]
	}, e.by)
	f.wood = choice(w, []bool{false, true}, func(sap bool) string {
		return map[bool]string{false: say.T("heartwood"), true: say.T("sapwood")}[sap]
	}, e.sap)
	typed := func() {
		e.form, e.of = f.form.Text, f.of.Text
		e.when, e.by, e.sap = chosen(f.when, whens), chosen(f.by, bys), chosen(f.wood, []bool{false, true})
		f.fill()
	}
	f.form.follow(typed)
	f.of.follow(typed)
	f.when.changed, f.by.changed, f.wood.changed = typed, typed, typed
	f.offers = newTick(w, say.T("The boards on offer at the yard too"), e.offers, func() { e.offers = f.offers.Checked; f.fill() })
	ask := pairs(named(say.T("Better face / other, %")), f.form, named(say.T("of")), f.wood, named(say.T("It holds")), f.when,
		named(say.T("Lot counted")), f.by, named(say.T("Must keep it")), f.of)
	f.body = container.New(stackLayout{}, ask, f.offers, f.said)
	if len(w.ses.Yard().Offers) == 0 {
		f.offers.Hide()
	}
	return f
}

// read reads the form and finds how the boards stand.
func (f *termsForm) read() (session.TermsRead, error) {
	e := &f.st.terms
	of, err := f.of.share(say.T("must keep it"))
	if err != nil {
		return session.TermsRead{}, err
	}
	t, err := session.TermsOf(e.form, e.when, e.by, of, e.sap)
	if err != nil {
		return session.TermsRead{}, err
	}
	var offers []session.Offer
	if e.offers {
		offers = f.w.ses.Yard().Offers
	}
	return f.w.ses.OrderTerms(t, offers)
}

// fill shows a row a board.
func (f *termsForm) fill() {
	f.said.Objects = nil
	got, err := f.read()
	if err != nil {
		f.said.Add(line("⚠ "+ended(sentence(say.Err(err))), widget.WarningImportance))
	} else {
		lead := wrapped(got.Lead, widget.MediumImportance)
		lead.TextStyle.Bold = true
		f.said.Add(snug(lead))
		for _, r := range got.Rows {
			i := map[terms.Keeps]widget.Importance{terms.Yes: widget.SuccessImportance, terms.No: widget.WarningImportance}[r.Keeps]
			f.said.Add(line(strings.Join([]string{r.Name, say.F("better face %s", r.Better), say.F("other %s", r.Other), r.Verdict}, " · "), i))
		}
		f.said.Add(line(say.T("Knots, splits and wane are in no share. Which face is the better one is found board by board, strip by strip."), widget.LowImportance))
	}
	f.said.Refresh()
	if f.w.asks != nil {
		settled(f.w.asks.scroll)
	}
}
