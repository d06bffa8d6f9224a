package ui

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// partsAsk lists the solid parts.
func (w *Window) partsAsk() {
	t := &things{w: w, title: say.T("Solid parts"), drop: say.T("Forget"), fresh: say.T("New…"),
		about: say.F("Legs, rails, breadboard ends and the like that take their wood from the same boards. %s cuts one from the board in hand.", w.acts.byID["cut-part"].keyNames()),
		none:  say.T("No solid part is named yet.")}
	t.make = func() { w.partAsk(model.Part{}, t) }
	t.list = func() []thing {
		var out []thing
		for _, n := range w.ses.Project().Parts {
			out = append(out, thing{name: title(n.ID), text: w.partText(n),
				change: func() { w.partAsk(n, t) },
				drop:   func() { w.commit(model.DropPart{ID: n.ID}) }})
		}
		return out
	}
	t.ask()
}

// partForm is the dialog that a solid part is described with.
type partForm struct {
	w      *Window
	was    model.Part // id "" for a new one
	name   *field
	kind   *pick
	number *field
	size   [3]*field
	wanted *pick
}

func partKinds() []model.PartKind {
	return []model.PartKind{model.Leg, model.Rail, model.BreadboardEnd, model.TestPiece, model.OtherPart}
}

func partKindWords(k model.PartKind) string {
	if k == model.OtherPart {
		return say.T("Other")
	}
	return say.Upper(k.Noun())
}

// usualParts is how many of a kind a piece of furniture mostly has: four legs,
// two ends; four rails. Common practice, no source.
func usualParts(k model.PartKind) int {
	switch k {
	case model.Leg, model.Rail:
		return 4
	case model.BreadboardEnd:
		return 2
	}
	return 1
}

func newPartForm(w *Window, was model.Part) *partForm {
	f := &partForm{w: w, was: was}
	n := was
	if was.ID == "" {
		n = model.NewPart(f.freeName(model.Leg), model.Leg, usualParts(model.Leg), 0, 0, 0)
	}
	f.name = w.newField(n.ID, say.T("leg"))
	f.kind = choice(w, partKinds(), partKindWords, n.Kind)
	f.number = w.newField(itoa(n.Count), "4")
	offered, many := n.ID, f.number.Text
	f.kind.changed = func() { // name and number follow until others are typed
		k := chosen(f.kind, partKinds())
		if was.ID == "" && f.name.Text == offered {
			offered = f.freeName(k)
			f.name.SetText(offered)
		}
		if was.ID == "" && f.number.Text == many {
			many = itoa(usualParts(k))
			f.number.SetText(many)
		}
	}
	known := was.ID != ""
	f.size = [3]*field{w.lengthField(n.Length, known), w.lengthField(n.Width, known), w.lengthField(n.Thickness, known)}
	f.wanted = choice(w, wanteds(), wantedWords, n.Wanted)
	return f
}

// freeName is an id for a new part of a kind: "leg", then "leg B", as "leg 2" is
// the second of one kind.
func (f *partForm) freeName(k model.PartKind) string {
	p := f.w.ses.Project()
	name := k.Noun()
	free := name
	for next := 'B'; next <= 'Z'; next++ {
		if _, taken := p.Part(free); !taken && p.Panel(free) == nil {
			break
		}
		free = name + " " + string(next)
	}
	return free
}

func (f *partForm) body() fyne.CanvasObject {
	rows := container.New(stackLayout{}, pairs(
		named(say.T("It is a")), f.kind, named(say.T("Name")), f.name, named(say.T("How many")), f.number,
		named(say.T("Length, along the grain")), f.size[0], named(say.T("Width")), f.size[1], named(say.T("Thickness")), f.size[2],
		named(say.T("Wood wanted")), f.wanted,
	), wrapped(say.T("Finished size. Where it is thicker than the board it is glued up of layers, and each layer is a cutting of its own."), widget.LowImportance))
	if len(f.was.Places) > 0 {
		rows.Add(line(f.w.placesText(f.was), widget.MediumImportance))
	}
	return rows
}

// part reads the form.
func (f *partForm) part() (model.Part, error) {
	out := f.was
	out.ID = strings.Join(strings.Fields(f.name.Text), " ")
	if out.ID == "" {
		return out, say.Error("name: the part needs one, such as leg")
	}
	for _, n := range f.w.ses.Project().Parts {
		if strings.EqualFold(n.ID, out.ID) && n.ID != f.was.ID {
			return out, errors.New(say.F("name: there is a part “%s” already; give this one another name", n.ID))
		}
	}
	out.Kind, out.Wanted = chosen(f.kind, partKinds()), chosen(f.wanted, wanteds())
	var err error
	if out.Count, err = f.number.whole(say.T("how many"), 1, 1000); err != nil {
		return out, err
	}
	for i, x := range []struct {
		name string
		to   *float64
	}{{say.T("length"), &out.Length}, {say.T("width"), &out.Width}, {say.T("thickness"), &out.Thickness}} {
		if f.was.ID != "" && f.size[i].Text == f.w.ses.Len(*x.to) {
			continue
		}
		if *x.to, err = f.size[i].size(x.name); err != nil {
			return out, err
		}
	}
	return out, nil
}

// whole reads a whole number within bounds.
func (f *field) whole(name string, least, most int) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(f.Text))
	if err != nil || n < least || n > most {
		return 0, say.Errorf("%s: “%s” is no such number; write %d to %d", name, f.Text, least, most)
	}
	return n, nil
}

// partAsk makes a part or changes one, then lists them again.
func (w *Window) partAsk(was model.Part, from *things) {
	f := newPartForm(w, was)
	q := question{title: say.T("New solid part"), body: f.body(), yes: say.T("Keep"), focus: f.size[0], size: fyne.NewSize(560, 480)}
	if was.ID != "" {
		q.title, q.focus = title(was.ID), f.name
	}
	q.do = func() error {
		n, err := f.part()
		if err != nil {
			return err
		}
		if err := w.ses.Commit(model.PutPart{Was: was.ID, Part: n}); err != nil {
			return err
		}
		from.fill()
		return nil
	}
	w.ask(q)
}

// partText is a part in one line or two.
func (w *Window) partText(n model.Part) string {
	l := w.ses.Len
	text := say.F("%s of %s × %s × %s", itoa(n.Count), l(n.Length), l(n.Width), l(n.Thickness))
	if n.Kind != model.OtherPart && !strings.HasPrefix(strings.ToLower(n.ID), strings.ToLower(n.Kind.Noun())) {
		text += ", " + n.Kind.Noun()
	}
	return text + ". " + w.placesText(n)
}

// placesText says where the cuttings of a part lie.
func (w *Window) placesText(n model.Part) string {
	if len(n.Places) == 0 {
		return say.T("Not laid on a board yet.")
	}
	var boards []string
	for _, k := range n.Places {
		if !slices.Contains(boards, k.Board) {
			boards = append(boards, k.Board)
		}
	}
	on := say.T("board ")
	if len(boards) > 1 {
		on = say.T("boards ")
	}
	text := say.F("%s on %s%s.", say.Count(len(n.Places), say.T("cutting lies"), say.T("cuttings lie")), on, say.List(boards))
	if least := w.layers(n, boards); least > 1 {
		text += say.F(" It is glued up of %s layers or more.", itoa(least))
	}
	return text
}

// layers is the least number of layers that a part takes of the thinnest of
// some boards, before anything is planed off; 1 where one will do.
func (w *Window) layers(n model.Part, boards []string) int {
	least := 1
	for _, id := range boards {
		if b := w.ses.Project().Board(id); b != nil && b.Thickness > 0 {
			for float64(least)*b.Thickness < n.Thickness {
				least++
			}
		}
	}
	return least
}
