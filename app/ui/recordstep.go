package ui

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// stepForm is the dialog of a step of colour or finish.
type stepForm struct {
	p                         *recordPage
	at                        int // -1 a new one
	what, product, date, note *field
	wood                      *pick
	panels                    map[string]*tick
	where                     map[model.FinishPlace]*tick
	gone                      []string // panels of the step that are no more
}

var stepWoods = []model.ZoneKind{"", model.Sap, model.Heart}

// ask asks for a step; at is -1 for a new one.
func (p *recordPage) ask(at int) *stepForm {
	w := p.w
	s := model.FinishStep{Date: time.Now().Format("2006-01-02")}
	heading := say.T("Add a step")
	if at >= 0 {
		s, heading = w.ses.Project().Record[at], say.F("Change step %s", itoa(at+1))
	}
	f := &stepForm{p: p, at: at, what: w.newField(s.What, strings.Join(session.FinishWords()[:5], ", ")+" …"), product: w.newField(s.Product, say.T("as the tin says, with the thinning")),
		date: w.newField(s.Date, "2026-03-01"), note: w.newField(s.Note, ""), panels: map[string]*tick{}, where: map[model.FinishPlace]*tick{}}
	f.wood = choice(w, stepWoods, func(k model.ZoneKind) string {
		return map[model.ZoneKind]string{"": say.T("all of it"), model.Sap: say.T("the sapwood alone"), model.Heart: say.T("the heartwood alone")}[k]
	}, s.Wood)
	var panels, where []fyne.CanvasObject
	for _, n := range w.ses.Project().Panels {
		f.panels[n.ID] = newTick(w, title(n.ID), len(s.Panels) == 0 || slices.Contains(s.Panels, n.ID), nil)
		panels = append(panels, f.panels[n.ID])
	}
	for _, id := range s.Panels {
		if f.panels[id] == nil {
			f.gone = append(f.gone, id)
		}
	}
	for _, x := range model.FinishPlaces() {
		f.where[x] = newTick(w, session.FinishPlaceWords(x), len(s.Where) == 0 || slices.Contains(s.Where, x), nil)
		where = append(where, f.where[x])
	}
	body := container.New(stackLayout{}, pairs(named(say.T("What")), f.what, named(say.T("Product")), f.product, named(say.T("On")), f.wood,
		named(say.T("Day")), f.date, named(say.T("Note")), f.note), snug(bold(say.T("Of which panels"))), flow(panels), snug(bold(say.T("Where"))), flow(where))
	if len(f.gone) > 0 {
		body.Add(line(say.F("Also of %s, which is no longer in the project.", strings.Join(f.gone, ", ")), widget.LowImportance))
	}
	w.ask(question{title: heading, body: body, yes: say.T("Keep"), focus: f.what, size: fyne.NewSize(560, 480), do: f.keep})
	return f
}

// read reads the form.
func (f *stepForm) read() (model.FinishStep, error) {
	s := model.FinishStep{What: strings.TrimSpace(f.what.Text), Product: strings.TrimSpace(f.product.Text), Wood: chosen(f.wood, stepWoods),
		Date: strings.TrimSpace(f.date.Text), Note: strings.TrimSpace(f.note.Text)}
	if s.What == "" {
		return s, say.Error("what: say what was put on, such as dye or oil")
	}
	if s.Date != "" {
		if _, err := time.Parse("2006-01-02", s.Date); err != nil {
			return s, say.Errorf("day: “%s” is no day; write year, month and day as 2026-03-01, or nothing", s.Date)
		}
	}
	all := true
	for _, n := range f.p.w.ses.Project().Panels {
		if t := f.panels[n.ID]; t != nil && t.Checked {
			s.Panels = append(s.Panels, n.ID)
		} else {
			all = false
		}
	}
	s.Panels = append(s.Panels, f.gone...)
	switch {
	case all && len(f.gone) == 0:
		s.Panels = nil
	case len(s.Panels) == 0:
		return s, say.Error("of which panels: tick one at least")
	}
	for _, x := range model.FinishPlaces() {
		if f.where[x].Checked {
			s.Where = append(s.Where, x)
		}
	}
	switch len(s.Where) {
	case 0:
		return s, say.Error("where: tick one side at least")
	case len(model.FinishPlaces()):
		s.Where = nil
	}
	return s, nil
}

// keep makes the step part of the record.
func (f *stepForm) keep() error {
	s, err := f.read()
	if err != nil {
		return err
	}
	list, verb := slices.Clone(f.p.w.ses.Project().Record), say.T("Add a step to the record")
	if f.at >= 0 && f.at < len(list) {
		list[f.at], verb = s, say.T("Change a step of the record")
	} else {
		list = append(list, s)
	}
	return f.p.w.ses.Commit(model.SetRecord{Steps: list, Verb: verb})
}
