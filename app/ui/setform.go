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
)

// setsAsk lists the panels that are seen together.
func (w *Window) setsAsk() {
	t := &things{w: w, title: say.T("Panels seen together"), drop: say.T("Forget"), fresh: say.T("New…"),
		about: say.T("Doors of one case, drawer fronts one above another or in a row: the eye takes them for one face. They are judged as one, and Ctrl+G arranges one of them or all at once."),
		none:  say.T("No panels are named as a set yet.")}
	t.make = func() { w.setAsk(model.Set{}, t) }
	t.list = func() []thing {
		var out []thing
		for _, s := range w.ses.Project().Sets {
			out = append(out, thing{name: s.Name, text: w.setText(s),
				change: func() { w.setAsk(s, t) },
				drop:   func() { w.commit(model.DropSet{Name: s.Name}) }})
		}
		return out
	}
	if len(w.ses.Project().Panels) < 2 {
		w.tellAll(t.title, say.T("It takes two panels. Ctrl+T makes another one."))
		return
	}
	t.ask()
}

// setForm is the dialog that a set is described with.
type setForm struct {
	w       *Window
	was     model.Set // name "" for a new one
	name    *field
	offered string // the name that follows what is ticked, "" one was typed
	panels  []*orderTick
	list    *fyne.Container
	gap     *field
	way     *pick
	match   *pick
}

func setWays() []model.SetWay { return []model.SetWay{model.Beside, model.Along} }

func setMatches() []model.SetMatch {
	return []model.SetMatch{model.MatchNone, model.MatchMirrored, model.MatchSlipped, model.MatchInOrder}
}

func newSetForm(w *Window, was model.Set) *setForm {
	f := &setForm{w: w, was: was}
	p := w.ses.Project()
	s := was
	if was.Name == "" {
		s = model.NewSet("", w.ses.Selected().Panel)
	}
	ids := slices.Clone(s.Panels)
	for _, n := range p.Panels {
		if !slices.Contains(ids, n.ID) {
			ids = append(ids, n.ID)
		}
	}
	f.list = container.New(stackLayout{})
	for _, id := range ids {
		f.panels = append(f.panels, newOrderTick(f, id, slices.Contains(s.Panels, id)))
	}
	f.name = w.newField(s.Name, say.T("Doors"))
	if was.Name == "" {
		f.offered = f.usualName()
		f.name.Text = f.offered
	}
	f.gap = w.lengthField(s.Gap, true)
	f.way = choice(w, setWays(), setWayWords, s.Way)
	f.match = choice(w, setMatches(), setMatchWords, s.Match)
	f.show()
	return f
}

func (f *setForm) body() fyne.CanvasObject {
	return container.New(stackLayout{},
		pairs(named(say.T("Name")), f.name),
		bold(say.T("Which, in the order they stand")),
		wrapped(say.T("Space ticks a panel; ↑ and ↓ move it earlier or later. From the left or from the bottom."), widget.LowImportance),
		f.list,
		pairs(named(say.T("They stand")), f.way, named(say.T("Gap between two")), f.gap, named(say.T("Grain")), f.match),
	)
}

// show writes the panels in their order, with the number of each that is
// ticked.
func (f *setForm) show() {
	n := 0
	objs := make([]fyne.CanvasObject, 0, len(f.panels))
	for _, t := range f.panels {
		text := title(t.id)
		if m := f.w.ses.Project().Panel(t.id); m != nil {
			text += "  ·  " + f.w.ses.Len(m.Length) + " × " + f.w.ses.Len(m.Width)
		}
		if t.Checked {
			n++
			text = itoa(n) + ".  " + text
		}
		if t.Text != text {
			t.Text = text
			t.Refresh()
		}
		objs = append(objs, container.NewBorder(nil, nil, nil, t.buttons, t))
	}
	f.list.Objects = objs
	f.list.Refresh()
	if f.offered != "" && f.name.Text == f.offered {
		f.offered = f.usualName()
		f.name.SetText(f.offered)
	}
}

// move moves a panel in the order.
func (f *setForm) move(t *orderTick, by int) {
	i := slices.Index(f.panels, t)
	if k := i + by; i >= 0 && k >= 0 && k < len(f.panels) {
		f.panels[i], f.panels[k] = f.panels[k], f.panels[i]
		f.w.mended()
		f.show()
	}
}

// ticked are the ids that are ticked, in their order.
func (f *setForm) ticked() []string {
	var out []string
	for _, t := range f.panels {
		if t.Checked {
			out = append(out, t.id)
		}
	}
	return out
}

// usualName names a set after what its panels are.
func (f *setForm) usualName() string {
	p := f.w.ses.Project()
	name := ""
	for i, id := range f.ticked() {
		n := p.Panel(id)
		if n == nil {
			continue
		}
		words := roleWords(n.Role)
		if n.Role == model.RoleOther || i > 0 && words != name {
			name = ""
			break
		}
		name = words
	}
	if name == "" {
		name = say.T("Set")
	} else {
		name = plural(name)
	}
	free := name
	for k := 2; ; k++ {
		if _, taken := p.Set(free); !taken || free == f.was.Name {
			return free
		}
		free = name + " " + itoa(k)
	}
}

// plural is the name of several of a kind.
func plural(word string) string {
	if word == "Shelf" {
		return say.T("Shelves")
	}
	if !strings.HasPrefix(say.Language(), "en") { // other languages have their own ways
		return word
	}
	return word + "s"
}

// set reads the form.
func (f *setForm) set() (model.Set, error) {
	out := model.Set{Name: strings.Join(strings.Fields(f.name.Text), " "), Panels: f.ticked(),
		Way: chosen(f.way, setWays()), Match: chosen(f.match, setMatches())}
	if out.Name == "" {
		return out, say.Error("name: the set needs one, such as Doors")
	}
	if _, taken := f.w.ses.Project().Set(out.Name); taken && out.Name != f.was.Name {
		return out, errors.New(say.F("name: there is a set “%s” already; give this one another name", out.Name))
	}
	if len(out.Panels) < 2 {
		return out, say.Error("panels: tick two or more that are seen together")
	}
	was := f.was.Gap
	if f.was.Name == "" {
		was = model.DefaultGap
	}
	gap, err := f.gap.kept(say.T("gap"), was)
	out.Gap = gap
	return out, err
}

// setAsk makes a set or changes one, then lists them again.
func (w *Window) setAsk(was model.Set, from *things) {
	f := newSetForm(w, was)
	q := question{title: say.T("Panels seen together"), body: f.body(), yes: say.T("Keep"), focus: f.name, size: fyne.NewSize(620, 560)}
	if was.Name != "" {
		q.title = say.F("Seen together: %s", was.Name)
	}
	q.do = func() error {
		s, err := f.set()
		if err != nil {
			return err
		}
		if err := w.ses.Commit(model.PutSet{Was: was.Name, Set: s}); err != nil {
			return err
		}
		from.fill()
		return nil
	}
	w.ask(q)
}

// orderTick is a panel of the list: ticked or not, and moved by the arrows.
type orderTick struct {
	tick
	f       *setForm
	id      string
	buttons fyne.CanvasObject
}

func newOrderTick(f *setForm, id string, on bool) *orderTick {
	t := &orderTick{f: f, id: id}
	t.w, t.Checked = f.w, on
	t.OnChanged = func(bool) {
		f.w.mended()
		f.show()
	}
	t.ExtendBaseWidget(t)
	up, down := newDialogButton(f.w, say.T("Earlier"), func() { f.move(t, -1) }), newDialogButton(f.w, say.T("Later"), func() { f.move(t, 1) })
	up.Importance, down.Importance = widget.LowImportance, widget.LowImportance
	t.buttons = container.NewHBox(up, down)
	return t
}

// TypedKey implements fyne.Focusable.
func (t *orderTick) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		t.f.move(t, -1)
	case fyne.KeyDown:
		t.f.move(t, 1)
	default:
		t.tick.TypedKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (t *orderTick) FocusGained() {
	t.Check.FocusGained()
	t.w.reached(t)
}
