package ui

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// fittingForm is the dialog of how a panel is held and how its edges are
// worked.
type fittingForm struct {
	w      *Window
	was    *model.Panel
	held   *pick
	line   *pick
	rows   *field
	groove *field
	kind   [4]*pick
	across [4]*field
	down   [4]*field
}

func helds() []model.Held {
	return []model.Held{model.HeldFree, model.HeldSlots, model.HeldGroove, model.HeldBreadboard}
}

func heldWords(h model.Held) string {
	switch h {
	case model.HeldSlots:
		return say.T("By screws in slots, or buttons")
	case model.HeldGroove:
		return say.T("With its edges in a groove")
	case model.HeldBreadboard:
		return say.T("With breadboard ends")
	}
	return say.T("Not said")
}

func lines() []model.FixedLine {
	return []model.FixedLine{model.LineMiddle, model.LineFront, model.LineBack}
}

func profileKinds() []model.ProfileKind {
	return []model.ProfileKind{model.ProfileSquare, model.ProfileBevel, model.ProfileRound}
}

func profileWords(k model.ProfileKind) string {
	switch k {
	case model.ProfileBevel:
		return say.T("Bevelled")
	case model.ProfileRound:
		return say.T("Rounded over")
	}
	return say.T("Square")
}

func newFittingForm(w *Window, n *model.Panel) *fittingForm {
	f := &fittingForm{w: w, was: n}
	fit := model.Fitting{}
	if n.Fitting != nil {
		fit = *n.Fitting
	}
	sides := n.Role.Sides()
	f.held = choice(w, helds(), heldWords, fit.Held)
	f.line = choice(w, lines(), func(l model.FixedLine) string {
		switch l {
		case model.LineFront:
			return title(sides[0].Name)
		case model.LineBack:
			return title(sides[1].Name)
		}
		return say.T("The middle")
	}, fit.Line)
	f.rows = w.newField(w.lengths(fit.Rows), w.ses.Len(50)+"; "+w.ses.Len(n.Width-50))
	f.groove = w.lengthField(fit.Groove, fit.Groove > 0)
	for i, p := range n.Profiles {
		f.kind[i] = choice(w, profileKinds(), profileWords, p.Kind)
		worked := p.Kind != model.ProfileSquare
		f.across[i], f.down[i] = w.lengthField(p.Across, worked), w.lengthField(p.Down, worked)
		f.across[i].narrow, f.down[i].narrow = true, true
	}
	return f
}

// lengths prints lengths one after another, as a field of them is typed.
func (w *Window) lengths(list []float64) string {
	var out []string
	for _, v := range list {
		out = append(out, w.ses.Len(v))
	}
	return strings.Join(out, "; ")
}

func (f *fittingForm) body() fyne.CanvasObject {
	g := container.NewGridWithColumns(4, head(""), head(say.T("worked")), head(say.T("into the face")), head(say.T("into the thickness")))
	for i, side := range f.was.Role.Sides() {
		g.Add(named(title(side.Name)))
		g.Add(f.kind[i])
		g.Add(f.across[i])
		g.Add(f.down[i])
	}
	return container.NewVBox(
		pairs(named(say.T("Held")), f.held, named(say.T("What stays where it is")), f.line,
			named(say.T("Rows of screws, buttons or pins")), f.rows, named(say.T("Depth of the groove")), f.groove),
		wrapped(say.F("Rows are measured from %s, one after another with a semicolon between. Wood moves away from the line that is fixed; everything else must let it.", f.was.Role.Sides()[0].The), widget.LowImportance),
		bold(say.T("Edges and ends of the show face")), g,
		wrapped(say.T("A bevel or a round-over cuts into the wood below the face: sapwood that lies there comes to light."), widget.LowImportance))
}

// rowsOf reads the rows.
func (f *fittingForm) rowsOf() ([]float64, error) {
	if f.was.Fitting != nil && f.rows.Text == f.w.lengths(f.was.Fitting.Rows) {
		return f.was.Fitting.Rows, nil
	}
	var out []float64
	for _, part := range strings.FieldsFunc(f.rows.Text, func(r rune) bool { return r == ';' || r == '\n' }) {
		if strings.TrimSpace(part) == "" {
			continue
		}
		v, err := unit.Parse(part, f.w.ses.Units())
		if err != nil {
			return nil, say.Errorf("rows: %w", err)
		}
		if v < 0 || v > f.was.Width {
			return nil, say.Errorf("rows: “%s” misses the panel, which is %s wide", strings.TrimSpace(part), f.w.ses.Len(f.was.Width))
		}
		out = append(out, v)
	}
	slices.Sort(out)
	return out, nil
}

// panel reads the form.
func (f *fittingForm) panel() (*model.Panel, error) {
	out := *f.was
	fit := model.Fitting{Held: chosen(f.held, helds()), Line: chosen(f.line, lines())}
	was := model.Fitting{}
	if f.was.Fitting != nil {
		was = *f.was.Fitting
	}
	var err error
	if fit.Rows, err = f.rowsOf(); err != nil {
		return nil, err
	}
	if strings.TrimSpace(f.groove.Text) != "" {
		if fit.Groove, err = f.groove.kept(say.T("depth of the groove"), was.Groove); err != nil {
			return nil, err
		}
	}
	if fit.Held == model.HeldFree && fit.Line == model.LineMiddle && len(fit.Rows) == 0 && fit.Groove == 0 {
		out.Fitting = nil
	} else {
		out.Fitting = &fit
	}
	sides := f.was.Role.Sides()
	for i := range out.Profiles {
		p := model.Profile{Kind: chosen(f.kind[i], profileKinds())}
		if p.Kind != model.ProfileSquare {
			if p.Across, err = f.across[i].kept(say.F("%s, into the face", sides[i].Name), f.was.Profiles[i].Across); err != nil {
				return nil, err
			}
			if p.Down, err = f.down[i].kept(say.F("%s, into the thickness", sides[i].Name), f.was.Profiles[i].Down); err != nil {
				return nil, err
			}
			if !(p.Across > 0) || !(p.Down > 0) {
				return nil, errors.New(say.F("%s: say how far it is worked into the face and into the thickness", sides[i].Name))
			}
		}
		out.Profiles[i] = p
	}
	return &out, nil
}

// fittingAsk says how the panel on screen is built in.
func (w *Window) fittingAsk() {
	n := w.panel()
	f := newFittingForm(w, n)
	w.ask(question{title: say.F("How %s is built in", n.ID), body: f.body(), yes: say.T("Keep"), focus: f.held, size: fyne.NewSize(680, 560),
		do: func() error {
			out, err := f.panel()
			if err != nil {
				return err
			}
			return w.ses.Commit(model.SetPanel{Panel: out})
		}})
}
