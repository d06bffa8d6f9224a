package ui

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// panelForm is the dialog that a panel is described with.
type panelForm struct {
	w      *Window
	was    *model.Panel // nil for a new one
	name   *field
	role   *pick
	size   [3]*field
	shape  *pick
	look   *pick
	wanted *pick
	limit  [2]*field
	both   *tick
}

func wanteds() []model.Wanted {
	return []model.Wanted{model.WantDefault, model.WantHeart, model.WantSap, model.WantBoth}
}

func newPanelForm(w *Window, n, was *model.Panel) *panelForm {
	f := &panelForm{w: w, was: was}
	f.name = w.newField(n.ID, say.T("left side"))
	f.role = choice(w, roles(), roleWords, n.Role)
	offered := n.ID
	f.role.changed = func() { // the name follows until another is typed
		if was == nil && f.name.Text == offered {
			offered = freePanelName(w.ses.Project(), chosen(f.role, roles()))
			f.name.SetText(offered)
		}
	}
	f.shape = choice(w, shapes(n.Shape), shapeWords, n.Shape)
	known := was != nil
	f.size = [3]*field{w.lengthField(n.Length, known), w.lengthField(n.Width, known), w.lengthField(n.Thickness, known || n.Thickness > 0)}
	wantSap := n.Wanted == model.WantSap
	f.look = choice(w, looks(), func(l model.Look) string { return lookWords(l, wantSap) }, n.Look)
	f.wanted = choice(w, wanteds(), wantedWords, n.Wanted)
	for i := range f.limit {
		f.limit[i] = w.newField(limitText(n.UnwantedLimit[i]), say.T("any"))
	}
	f.both = newTick(w, say.T("The back is seen too"), n.BothShow, nil)
	return f
}

func (f *panelForm) body() fyne.CanvasObject {
	return container.NewVBox(pairs(
		named(say.T("Name")), f.name, named(say.T("It is a")), f.role,
		named(say.T("Length, along the grain")), f.size[0], named(say.T("Width")), f.size[1], named(say.T("Thickness")), f.size[2],
		named(say.T("Shape")), f.shape,
		named(say.T("Wood wanted on show")), f.wanted, named(say.T("Look")), f.look,
		named(say.T("Most unwanted, show face")), f.limit[0], named(say.T("Most unwanted, back")), f.limit[1],
		named(""), f.both,
	), wrapped(say.T("Finished size, after trimming. The limits are shares of a face, such as 30 %, or any."), widget.LowImportance))
}

// panel reads the form.
func (f *panelForm) panel() (*model.Panel, error) {
	out := model.NewPanel("", model.RoleTop, 0, 0, 0)
	if f.was != nil {
		c := *f.was
		out = &c
	}
	out.ID = strings.Join(strings.Fields(f.name.Text), " ")
	if out.ID == "" {
		return nil, say.Error("name: the panel needs one, such as top or left side")
	}
	if n := f.namesake(out.ID); n != "" {
		return nil, errors.New(say.F("name: there is a panel “%s” already; give this one another name", n))
	}
	out.Role, out.Look, out.Wanted = chosen(f.role, roles()), chosen(f.look, looks()), chosen(f.wanted, wanteds())
	out.BothShow = f.both.Checked
	if s := chosen(f.shape, shapes(out.Shape)); s != out.Shape {
		out.Shape, out.Points = s, nil
	}
	was := [3]float64{out.Length, out.Width, out.Thickness}
	for i, name := range [3]string{say.T("length"), say.T("width"), say.T("thickness")} {
		if f.was != nil && f.size[i].Text == f.w.ses.Len(was[i]) {
			continue
		}
		v, err := f.size[i].size(name)
		if err != nil {
			return nil, err
		}
		was[i] = v
	}
	out.Length, out.Width, out.Thickness = was[0], was[1], was[2]
	for i, name := range [2]string{say.T("limit on the show face"), say.T("limit on the back")} {
		if f.was != nil && f.limit[i].Text == limitText(out.UnwantedLimit[i]) {
			continue
		}
		v, err := f.limit[i].share(name)
		if err != nil {
			return nil, err
		}
		out.UnwantedLimit[i] = v
	}
	return out, nil
}

// newPanelAsk describes a panel and goes on to its strips.
func (w *Window) newPanelAsk() {
	p := w.ses.Project()
	thick := 20.0
	if p.Units == unit.Inch {
		thick = 0.75 * unit.InchMM
	}
	n := model.NewPanel(freePanelName(p, model.RoleTop), model.RoleTop, 0, 0, thick)
	f := newPanelForm(w, n, nil)
	w.ask(question{title: say.T("New panel"), body: f.body(), yes: say.T("On to its strips"), focus: f.name, size: fyne.NewSize(560, 520),
		do: func() error {
			out, err := f.panel()
			if err != nil {
				return err
			}
			// Tried here, so that a size that cannot be is told in this dialog.
			if _, err := model.Apply(w.ses.Committed(), model.AddPanel{Panel: out}); err != nil {
				return err
			}
			w.post(func() { w.proposal(out, true) })
			return nil
		}})
}

// namesake returns the name of another panel that differs from id by capitals
// at most, "" for none.
func (f *panelForm) namesake(id string) string {
	for _, n := range f.w.ses.Project().Panels {
		if strings.EqualFold(n.ID, id) && (f.was == nil || n.ID != f.was.ID) {
			return n.ID
		}
	}
	return ""
}

// freePanelName is a name by the role that no panel has yet: "Door", "Door 2".
func freePanelName(p *model.Project, r model.Role) string {
	base := roleWords(r)
	if r == model.RoleOther {
		base = say.T("Panel")
	}
	for i := 1; ; i++ {
		name := base
		if i > 1 {
			name = base + " " + itoa(i)
		}
		if !slices.ContainsFunc(p.Panels, func(n *model.Panel) bool { return strings.EqualFold(n.ID, name) }) {
			return name
		}
	}
}

// shapes are the outlines a panel can be given here; a polygon comes from the
// file and can be kept.
func shapes(now model.ShapeKind) []model.ShapeKind {
	out := []model.ShapeKind{model.Rectangle, model.Ellipse}
	if now == model.Poly {
		out = append(out, model.Poly)
	}
	return out
}

func shapeWords(s model.ShapeKind) string {
	switch s {
	case model.Ellipse:
		return say.T("Ellipse")
	case model.Poly:
		return say.T("As drawn in the file")
	}
	return say.T("Rectangle")
}

// editPanelAsk changes the panel on screen.
func (w *Window) editPanelAsk() {
	n := w.panel()
	f := newPanelForm(w, n, n)
	w.ask(question{title: say.F("Panel %s", n.ID), body: f.body(), yes: say.T("Keep"), focus: f.size[0], size: fyne.NewSize(560, 520),
		do: func() error {
			out, err := f.panel()
			if err != nil {
				return err
			}
			if out.ID != n.ID {
				if err := w.ses.Commit(model.RenamePanel{From: n.ID, To: out.ID}); err != nil {
					return err
				}
				w.showPanel(out.ID)
			}
			return w.ses.Commit(model.SetPanel{Panel: out})
		}})
}

func (w *Window) removePanel() {
	n := w.panel()
	w.ask(question{title: say.F("Remove panel %s?", n.ID), yes: say.T("Remove"),
		body: wrapped(say.T("Its strips go with it; what has been sawn for it stays among the spares. Undo brings it back."), widget.MediumImportance),
		do:   func() error { return w.ses.Commit(model.RemovePanel{ID: n.ID}) }})
}

// facePanel is a panel that is in no project yet, as the readings see it.
func (w *Window) facePanel(n *model.Panel) *face.Panel {
	if fp := w.ses.Panel(n.ID); fp != nil {
		c := *fp
		c.Strips = nil
		return &c
	}
	return &face.Panel{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness,
		PanelEdge: w.ses.Project().Allowances.PanelEdge, Limit: n.UnwantedLimit}
}
