package ui

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/face"
	"heartside/model"
)

// panelForm is the dialog that a panel is described with.
type panelForm struct {
	w      *Window
	was    *model.Panel // nil for a new one
	name   *field
	role   *widget.Select
	size   [3]*field
	look   *widget.Select
	wanted *widget.Select
	limit  [2]*field
	both   *widget.Check
}

func wanteds() []model.Wanted {
	return []model.Wanted{model.WantDefault, model.WantHeart, model.WantSap, model.WantBoth}
}

func newPanelForm(w *Window, n, was *model.Panel) *panelForm {
	f := &panelForm{w: w, was: was}
	f.name = w.newField(n.ID, "top")
	f.role = choice(roles(), roleWords, n.Role)
	known := was != nil
	f.size = [3]*field{w.lengthField(n.Length, known), w.lengthField(n.Width, known), w.lengthField(n.Thickness, known || n.Thickness > 0)}
	wantSap := n.Wanted == model.WantSap
	f.look = choice(looks(), func(l model.Look) string { return lookWords(l, wantSap) }, n.Look)
	f.wanted = choice(wanteds(), wantedWords, n.Wanted)
	for i := range f.limit {
		f.limit[i] = w.newField(limitText(n.UnwantedLimit[i]), "any")
	}
	f.both = widget.NewCheck("The back is seen too", nil)
	f.both.Checked = n.BothShow
	return f
}

func (f *panelForm) body() fyne.CanvasObject {
	return container.NewVBox(pairs(
		named("Name"), f.name, named("It is a"), f.role,
		named("Length, along the grain"), f.size[0], named("Width"), f.size[1], named("Thickness"), f.size[2],
		named("Wood wanted on show"), f.wanted, named("Look"), f.look,
		named("Most unwanted, show face"), f.limit[0], named("Most unwanted, back"), f.limit[1],
		named(""), f.both,
	), wrapped("Finished size, after trimming. The limits are shares of a face, such as 30 %, or any.", widget.LowImportance))
}

// panel reads the form.
func (f *panelForm) panel() (*model.Panel, error) {
	out := model.NewPanel("", model.RoleTop, 0, 0, 0)
	if f.was != nil {
		c := *f.was
		out = &c
	}
	out.ID = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(f.name.Text), " ", "-"))
	if out.ID == "" {
		return nil, errors.New("name: the panel needs one, such as top or left side")
	}
	out.Role, out.Look, out.Wanted = chosen(f.role, roles()), chosen(f.look, looks()), chosen(f.wanted, wanteds())
	out.BothShow = f.both.Checked
	was := [3]float64{out.Length, out.Width, out.Thickness}
	for i, name := range [3]string{"length", "width", "thickness"} {
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
	for i, name := range [2]string{"limit on the show face", "limit on the back"} {
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
	n := model.NewPanel(freePanelName(p), model.RoleTop, 0, 0, 20)
	f := newPanelForm(w, n, nil)
	w.ask(question{title: "New panel", body: f.body(), yes: "On to its strips", focus: f.name, size: fyne.NewSize(560, 520),
		do: func() error {
			out, err := f.panel()
			if err != nil {
				return err
			}
			if p.Panel(out.ID) != nil {
				return errors.New("name: there is a panel “" + out.ID + "” already; give this one another name")
			}
			// Tried here, so that a size that cannot be is told in this dialog.
			if _, err := model.Apply(w.ses.Committed(), model.AddPanel{Panel: out}); err != nil {
				return err
			}
			w.post(func() { w.proposal(out, true) })
			return nil
		}})
}

// freePanelName is a name no panel has yet.
func freePanelName(p *model.Project) string {
	for i := 1; ; i++ {
		name := "top"
		if i > 1 {
			name = "top-" + itoa(i)
		}
		if p.Panel(name) == nil {
			return name
		}
	}
}

// editPanelAsk changes the panel on screen.
func (w *Window) editPanelAsk() {
	n := w.panel()
	f := newPanelForm(w, n, n)
	w.ask(question{title: "Panel " + n.ID, body: f.body(), yes: "Keep", focus: f.size[0], size: fyne.NewSize(560, 520),
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
	w.ask(question{title: "Remove panel " + n.ID + "?", yes: "Remove",
		body: wrapped("Its strips go with it; what has been sawn for it stays among the spares. Undo brings it back.", widget.MediumImportance),
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
