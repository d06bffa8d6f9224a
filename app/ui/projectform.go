package ui

import (
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

func systems() []unit.System { return []unit.System{unit.MM, unit.Inch} }

func systemWords(s unit.System) string {
	if s == unit.Inch {
		return say.T("Inches and fractions")
	}
	return say.T("Millimetres")
}

// setting is one length of the settings dialog.
type setting struct {
	name  string
	at    *float64 // where it stands in the copy being edited
	usual float64
	shown float64 // what in was last written with, which may be finer
	in    *field
	hint  *widget.Label // what is usual
}

// projectForm is the dialog of the project's settings.
type projectForm struct {
	w          *Window
	name       *field
	units      *pick
	currency   *field
	turns      *field // changes of the planing direction
	work, shop []setting
	air        *airForm
	streak     *field
	sapMoves   *field
	apart      *field    // faces, in points of moisture content
	wood       []setting // limits of how it behaves
	mix        [2]*field
	now        unit.System // the lengths are shown in
	a          model.Allowances
	m          model.Machines
	l          model.Limits
	b          model.Behaviour
}

func newProjectForm(w *Window) *projectForm {
	p := w.ses.Project()
	f := &projectForm{w: w, a: p.Allowances, m: p.Machines, l: p.Limits, b: p.Behaviour, now: p.Units}
	a, m := &f.a, &f.m
	ua, um := model.DefaultAllowances(), model.DefaultMachines()
	f.name = w.newField(p.Name, say.T("Hall table"))
	f.units = choice(w, systems(), systemWords, p.Units)
	f.units.changed = f.convert
	f.currency = w.newField(p.Currency, say.T("not said"))
	f.turns = w.newField(itoa(f.l.TurnsLimit()), "2")
	f.work = []setting{
		{name: say.T("Saw cut (kerf)"), at: &a.Kerf, usual: ua.Kerf}, {name: say.T("Left on each long edge of a blank"), at: &a.Rest, usual: ua.Rest},
		{name: say.T("Taken off each edge when jointed"), at: &a.Joint, usual: ua.Joint}, {name: say.T("Left at each end of a blank"), at: &a.Ends, usual: ua.Ends},
		{name: say.T("Over at each panel edge"), at: &a.PanelEdge, usual: ua.PanelEdge}, {name: say.T("Taken off the panel after glue-up"), at: &a.AfterGlue, usual: ua.AfterGlue},
		{name: say.T("Snipe at a board's ends"), at: &a.Snipe, usual: ua.Snipe}, {name: say.T("Clear of a flaw"), at: &a.FlawMargin, usual: ua.FlawMargin},
	}
	f.shop = []setting{
		{name: say.T("Widest to flatten"), at: &m.Flatten, usual: um.Flatten}, {name: say.T("Widest to thickness"), at: &m.Thickness, usual: um.Thickness},
		{name: say.T("Shortest that is safe"), at: &m.Shortest, usual: um.Shortest}, {name: say.T("Narrowest that is safe"), at: &m.Narrowest, usual: um.Narrowest},
	}
	f.l.Cup, f.l.Apart, f.l.Planed = f.l.CupLimit(), f.l.ApartLimit(), f.l.PlanedLimit()
	f.wood = []setting{
		{name: say.T("Bow of a free panel, a metre of width"), at: &f.l.Cup, usual: model.Limits{}.CupLimit()},
		{name: say.T("Joined panels part by"), at: &f.l.Apart, usual: model.Limits{}.ApartLimit()},
		{name: say.T("Unwanted wood that planing brings up"), at: &f.l.Planed, usual: model.Limits{}.PlanedLimit()},
	}
	for _, list := range f.lengths() {
		for i := range list {
			s := &list[i]
			s.shown = *s.at
			s.in, s.hint = w.lengthField(*s.at, true), widget.NewLabel(say.F("usual %s", w.ses.Len(s.usual)))
			s.in.units = f.now
		}
	}
	f.air = newAirForm(w, p.Climate, f.now)
	f.streak = w.newField(session.Percent(f.l.Streak), "12 %")
	f.sapMoves, f.apart = w.newField(factorText(f.b.Factor()), "1.00"), w.newField(figureText(f.b.FaceDifference), "1")
	f.mix = [2]*field{w.newField(session.Percent(f.l.Mix[0]), "25 %"), w.newField(session.Percent(f.l.Mix[1]), "60 %")}
	return f
}

// lengths are all settings that are lengths.
func (f *projectForm) lengths() [][]setting { return [][]setting{f.work, f.shop, f.wood} }

// convert shows all lengths in the units chosen, at once. What cannot be read
// stays as it was typed.
func (f *projectForm) convert() {
	to := chosen(f.units, systems())
	if to == f.now {
		return
	}
	for _, list := range f.lengths() {
		for i := range list {
			s := &list[i]
			v, err := s.in.kept(s.name, s.shown)
			s.in.units = to
			if err == nil {
				s.shown = v
				s.in.SetText(s.in.print(v))
			}
			s.hint.SetText(say.F("usual %s", s.in.print(s.usual)))
		}
	}
	f.air.convert(to)
	f.now = to
}

func (f *projectForm) body() fyne.CanvasObject {
	ul := model.DefaultLimits()
	return container.NewVBox(
		f.rows(named(say.T("Name")), f.name, named(say.T("Lengths shown in")), f.units, named(say.T("Prices are in")), besideHint(f.currency, say.T("EUR, USD, GBP …"))),
		bold(say.T("Allowances")), f.settings(f.work),
		bold(say.T("Your machines")), wrapped(say.T("The limit is the one in the machine's manual. 0 means no limit."), widget.LowImportance), f.settings(f.shop),
		bold(say.T("The air round the work")), f.air.body(),
		bold(say.T("What is taken of the wood")),
		wrapped(say.T("No published figures say that sapwood moves differently from heartwood in the usual cabinet woods. 1.00 takes both alike; another factor is yours."), widget.LowImportance),
		f.rows(named(say.T("Sapwood moves, times heartwood")), besideHint(f.sapMoves, say.T("usual 1.00")), named(say.T("Faces of a panel differ by, points")), besideHint(f.apart, say.T("usual 1"))),
		bold(say.T("Limits of the warnings")),
		wrapped(say.T("A streak stands alone where other unwanted wood is under the first figure. Engineering choices: no source is published for them."), widget.LowImportance),
		f.rows(named(say.T("Lone streak, other wood under")), half(f.streak, ul.Streak), named(say.T("Even mix, from")), half(f.mix[0], ul.Mix[0]), named(say.T("Even mix, to")), half(f.mix[1], ul.Mix[1])),
		f.settings(f.wood),
		f.rows(named(say.T("Planing direction changes, front to back")), besideHint(f.turns, say.F("usual %d", model.Limits{}.TurnsLimit()))))
}

// factorText prints a factor to a hundredth.
func factorText(v float64) string { return say.Print("%.2f", v) }

// half is a share's field with what is usual beside it.
func half(f *field, usual float64) fyne.CanvasObject {
	return besideHint(f, say.F("usual %s", session.Percent(usual)))
}

// besideHint is a field with a word on it at its side.
func besideHint(f *field, text string) fyne.CanvasObject {
	l := widget.NewLabel(text)
	l.Importance = widget.LowImportance
	return container.NewGridWithColumns(2, f, l)
}

// rows is pairs with the names as wide as the widest of the form's settings,
// so that all fields begin at one line.
func (f *projectForm) rows(objs ...fyne.CanvasObject) fyne.CanvasObject {
	var name float32
	for _, s := range f.work {
		name = fyne.Max(name, named(s.name).MinSize().Width)
	}
	return &fyne.Container{Layout: pairsLayout{gap: pad, name: name}, Objects: objs}
}

// settings lays settings out with fields of one width.
func (f *projectForm) settings(list []setting) fyne.CanvasObject {
	var rows []fyne.CanvasObject
	for _, s := range list {
		s.hint.Importance = widget.LowImportance
		rows = append(rows, named(s.name), container.NewGridWithColumns(2, s.in, s.hint))
	}
	return f.rows(rows...)
}

// keep reads the form and makes it part of the project.
func (f *projectForm) keep() error {
	if err := readSettings(slices.Concat(f.lengths()...)); err != nil {
		return err
	}
	if f.l.Cup == (model.Limits{}).CupLimit() {
		f.l.Cup = 0 // the usual one is not written down
	}
	if f.l.Apart == (model.Limits{}).ApartLimit() {
		f.l.Apart = 0
	}
	if f.l.Planed == (model.Limits{}).PlanedLimit() {
		f.l.Planed = 0
	}
	currency := strings.ToUpper(strings.TrimSpace(f.currency.Text))
	if currency != "" && !model.GoodCurrency(currency) {
		return say.Errorf("currency: “%s” is no code of a currency; write its three letters, such as EUR, USD or GBP, or nothing", f.currency.Text)
	}
	turns, err := strconv.Atoi(strings.TrimSpace(f.turns.Text))
	if err != nil || turns < 1 || turns > 100 {
		return say.Errorf("planing direction: “%s” is no count of changes; write 1 to 100", f.turns.Text)
	}
	if f.l.Turns = turns; turns == (model.Limits{}).TurnsLimit() {
		f.l.Turns = 0
	}
	climate, err := f.air.climate()
	if err != nil {
		return err
	}
	for _, r := range []struct {
		f    *field
		name string
		to   *float64
	}{{f.streak, say.T("lone streak"), &f.l.Streak}, {f.mix[0], say.T("even mix from"), &f.l.Mix[0]}, {f.mix[1], say.T("even mix to"), &f.l.Mix[1]}} {
		if r.f.Text == session.Percent(*r.to) {
			continue
		}
		if *r.to, err = r.f.share(r.name); err != nil {
			return err
		}
	}
	if f.sapMoves.Text != factorText(f.b.Factor()) {
		if f.b.SapFactor, err = f.sapMoves.number(say.T("sapwood moves")); err != nil {
			return err
		}
		if f.b.SapFactor < 0.5 || f.b.SapFactor > 1.5 {
			return say.Errorf("sapwood moves: “%s” is no likely factor; write 0.5 to 1.5, 1.00 where you have no evidence", f.sapMoves.Text)
		}
	}
	if f.apart.Text != figureText(f.b.FaceDifference) {
		if f.b.FaceDifference, err = f.apart.number(say.T("faces differ by")); err != nil {
			return err
		}
		if f.b.FaceDifference < 0 || f.b.FaceDifference > 10 {
			return say.Errorf("faces differ by: “%s” is no likely difference; write 0 to 10 points", f.apart.Text)
		}
	}
	return f.w.ses.Commit(model.SetSettings{Settings: model.Settings{Name: f.name.Text, Units: chosen(f.units, systems()), Currency: currency,
		Climate: climate, Limits: f.l, Allowances: f.a, Machines: f.m, Behaviour: f.b}})
}

// projectAsk changes the settings of the project.
func (w *Window) projectAsk() {
	f := newProjectForm(w)
	w.ask(question{title: say.T("Project settings"), body: f.body(), yes: say.T("Keep"), focus: f.name, size: fyne.NewSize(640, 620), do: f.keep})
}

// readSettings takes the lengths over into the copy being edited.
func readSettings(list []setting) error {
	got := make([]float64, len(list))
	for i, s := range list {
		v, err := s.in.kept(s.name, s.shown)
		if err != nil {
			return err
		}
		if v < 0 {
			return say.Errorf("%s: “%s” is less than nothing; write 0 or more", s.name, s.in.Text)
		}
		got[i] = v
	}
	for i, s := range list {
		*s.at = got[i]
	}
	return nil
}
