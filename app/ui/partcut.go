package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// partCut is the dialog that cuts a part from the board in hand.
type partCut struct {
	w      *Window
	parts  []model.Part
	part   *pick
	size   [2]*field
	number *field
	said   *widget.Label
	shown  [2]string // what the sizes follow
}

// cutPart asks which part is cut from the board in hand.
func (w *Window) cutPart() {
	b := w.board()
	switch {
	case b.Spoiled:
		w.say(spoiledWords(b.ID))
		return
	case len(w.ses.Project().Parts) == 0:
		w.say(say.F("No solid part is named yet. %s names legs, rails and the like.", w.acts.byID["parts"].keyNames()))
		return
	}
	c := newPartCut(w)
	body := container.New(stackLayout{}, pairs(named(say.T("Part")), c.part, named(say.T("Length of the piece")), c.size[0], named(say.T("Width of the piece")), c.size[1], named(say.T("How many")), c.number), c.said,
		wrapped(say.T("The size once it is jointed, before it is cut to its finished length. What the saw and the jointing take is added, as for strips. Each is laid where it fits and shows least unwanted wood."), widget.LowImportance))
	w.ask(question{title: say.F("Cut a part from board %s", b.ID), body: body, yes: say.T("Lay it on the board"), focus: c.part, size: fyne.NewSize(520, 380), do: c.keep})
}

func newPartCut(w *Window) *partCut {
	c := &partCut{w: w, parts: w.ses.Project().Parts}
	first := 0
	for i := len(c.parts) - 1; i >= 0; i-- {
		if len(c.parts[i].Places) < c.parts[i].Count {
			first = i
		}
	}
	index := make([]int, len(c.parts))
	for i := range index {
		index[i] = i
	}
	c.part = choice(w, index, func(i int) string { return title(c.parts[i].ID) }, first)
	c.part.changed = c.show
	c.size = [2]*field{w.newField("", ""), w.newField("", "")}
	c.number = w.newField("1", "1")
	c.said = wrapped("", widget.MediumImportance)
	c.show()
	return c
}

func (c *partCut) chosen() model.Part { return c.parts[max(c.part.SelectedIndex(), 0)] }

// show writes what belongs to the part chosen. Sizes follow until others are
// typed.
func (c *partCut) show() {
	n := c.chosen()
	for i, mm := range [2]float64{n.Length, n.Width} {
		if c.size[i].Text == c.shown[i] {
			c.shown[i] = c.w.ses.Len(mm)
			c.size[i].SetText(c.shown[i])
		}
	}
	c.said.SetText(c.w.partText(n) + c.layerText(n))
}

func (c *partCut) layerText(n model.Part) string {
	b := c.w.board()
	if b == nil {
		return ""
	}
	if k := c.w.layers(n, []string{b.ID}); k > 1 {
		return say.F(" Board %s is %s thick: each takes %s cuttings of it or more.", b.ID, c.w.ses.Len(b.Thickness), itoa(k))
	}
	return ""
}

// mostAtOnce keeps a slip of the finger from laying hundreds.
const mostAtOnce = 40

func (c *partCut) keep() error {
	n := c.chosen()
	l, err := c.read(0, say.T("length of the piece"), n.Length)
	if err != nil {
		return err
	}
	wide, err := c.read(1, say.T("width of the piece"), n.Width)
	if err != nil {
		return err
	}
	many, err := c.number.whole(say.T("how many"), 1, mostAtOnce)
	if err != nil {
		return err
	}
	b := c.w.board()
	if b == nil {
		return say.Error("there is no board in hand any more")
	}
	c.w.layPart(n, b.ID, l, wide, many)
	return nil
}

// read reads a size; where it was not changed it is that of the part, which may
// be finer than its print.
func (c *partCut) read(i int, name string, was float64) (float64, error) {
	if c.size[i].Text == c.w.ses.Len(was) {
		return was, nil
	}
	return c.size[i].size(name)
}

// layPart lays cuttings of a part on a board, each where there is room.
func (w *Window) layPart(n model.Part, board string, l, wide float64, many int) {
	b := w.ses.Board(board)
	if b == nil {
		return
	}
	one := face.Panel{ID: n.ID, Wanted: w.partWanted(n, board)}
	for i := range many {
		one.Strips = append(one.Strips, face.Strip{ID: itoa(i), L: l, W: wide, Up: 1})
	}
	used, a := w.used("", "", ""), w.ses.Allowances()
	w.background(say.F("Looking for room on board %s…", board), func() func() {
		out := cutting.PlaceAll(&one, []*face.Board{b}, used, a)
		return func() { w.keepPart(n, board, out) }
	})
}

// partWanted is the wood a part is to show.
func (w *Window) partWanted(n model.Part, board string) face.Wanted {
	wanted := n.Wanted
	if b := w.ses.Project().Board(board); b != nil && wanted == model.WantDefault {
		wanted = b.Wanted
	}
	switch wanted {
	case model.WantSap:
		return face.WantSap
	case model.WantBoth:
		return face.WantBoth
	}
	return face.WantHeart
}

// keepPart commits where the cuttings were laid.
func (w *Window) keepPart(n model.Part, board string, out []face.Strip) {
	places := append([]model.PartPlace(nil), n.Places...)
	left := 0
	for i := range out {
		if out[i].Board == nil {
			left++
			continue
		}
		places = append(places, model.PartPlace{Board: board, X: out[i].X, Y: out[i].Y, L: out[i].L, W: out[i].W, Angle: out[i].Angle, Stage: model.Planned})
	}
	got := len(places) - len(n.Places)
	if got == 0 {
		w.say(say.F("Board %s has no room for part %s of %s × %s with its allowances. Take another board in hand.", board, n.ID, w.ses.Len(out[0].L), w.ses.Len(out[0].W)))
		return
	}
	if !w.commit(model.PlacePart{Part: n.ID, Places: places}) {
		return
	}
	text := say.F("%s of part %s laid on board %s.", say.Count(got, say.T("cutting"), say.T("cuttings")), n.ID, board)
	if left > 0 {
		text += say.F(" For %s more there is no room.", itoa(left))
	}
	w.say(text)
}

// cuttingsOn lists the ids of the cuttings of parts on a board.
func (w *Window) cuttingsOn(board string) []string {
	var out []string
	for _, n := range w.ses.Project().Parts {
		for i, k := range n.Places {
			if k.Board == board {
				out = append(out, session.CuttingID(n.ID, i))
			}
		}
	}
	return out
}

// cuttingsAsk lists the cuttings on the board in hand; one by itself is asked
// about at once.
func (w *Window) cuttingsAsk() {
	b := w.board()
	list := w.cuttingsOn(b.ID)
	switch len(list) {
	case 0:
		w.say(say.F("No cutting of a solid part lies on board %s. %s lays one there.", b.ID, w.acts.byID["cut-part"].keyNames()))
		return
	case 1:
		w.cuttingAsk(list[0], nil)
		return
	}
	t := &things{w: w, title: say.F("Solid parts on board %s", b.ID), drop: say.T("Take off"), none: say.T("None lies on it any more.")}
	t.about = say.T("Where each is cut, and how large it is once jointed.")
	t.list = func() []thing {
		var out []thing
		for _, id := range w.cuttingsOn(b.ID) {
			out = append(out, thing{name: title(w.ses.Number("", id)), text: w.cuttingText(id),
				change: func() { w.cuttingAsk(id, t) }, drop: func() { w.takeOff(id) }})
		}
		return out
	}
	t.ask()
}

// cuttingText says where a cutting lies.
func (w *Window) cuttingText(id string) string {
	n, i, ok := session.CuttingOf(w.ses.Project(), id)
	if !ok {
		return ""
	}
	k, l := n.Places[i], w.ses.Len
	return say.F("%s × %s, %s from the marked end, %s from the marked edge.", l(k.L), l(k.W), l(k.X), l(k.Y))
}

// cuttingAsk changes one cutting by figures, or takes it off its board.
func (w *Window) cuttingAsk(id string, from *things) {
	n, i, ok := session.CuttingOf(w.ses.Project(), id)
	if !ok {
		return
	}
	k := n.Places[i]
	length, width, x, y := w.lengthField(k.L, true), w.lengthField(k.W, true), w.lengthField(k.X, true), w.lengthField(k.Y, true)
	turned := angleText(k.Angle)
	angle := w.newField(turned, "0")
	refill := func() {
		if from != nil {
			from.fill()
		}
	}
	body := pairs(named(say.T("Length of the piece")), length, named(say.T("Width of the piece")), width,
		named(say.T("From the marked end")), x, named(say.T("From the marked edge")), y, named(say.T("Angle, degrees")), angle)
	w.ask(question{title: say.F("%s on board %s", title(w.ses.Number("", id)), k.Board), body: body, yes: say.T("Keep"), focus: x, size: fyne.NewSize(480, 360),
		other: say.T("Take it off the board"), also: func() { w.takeOff(id); refill() },
		do: func() error {
			var errs [5]error
			t := k
			t.L, errs[0] = length.kept(say.T("length of the piece"), k.L)
			t.W, errs[1] = width.kept(say.T("width of the piece"), k.W)
			t.X, errs[2] = x.kept(say.T("from the marked end"), k.X)
			t.Y, errs[3] = y.kept(say.T("from the marked edge"), k.Y)
			if angle.Text != turned {
				t.Angle, errs[4] = angle.number(say.T("angle"))
			}
			if err := first(errs[:]...); err != nil {
				return err
			}
			places := append([]model.PartPlace(nil), n.Places...)
			places[i] = t
			if err := w.ses.Commit(model.PlacePart{Part: n.ID, Places: places, Verb: say.T("Move")}); err != nil {
				return err
			}
			refill()
			return nil
		}})
}

// takeOff takes a cutting off its board.
func (w *Window) takeOff(id string) {
	n, i, ok := session.CuttingOf(w.ses.Project(), id)
	if !ok {
		return
	}
	name := w.ses.Number("", id)
	places := append(append([]model.PartPlace(nil), n.Places[:i]...), n.Places[i+1:]...)
	if w.commit(model.PlacePart{Part: n.ID, Places: places, Verb: say.T("Lift")}) {
		w.say(say.F("%s is off board %s. %s lays it again.", title(name), n.Places[i].Board, w.acts.byID["undo"].keyNames()))
	}
}

// solidMenu is the menu of a cutting on the board in hand.
func (w *Window) solidMenu(id string) *fyne.Menu {
	return fyne.NewMenu("",
		fyne.NewMenuItem(say.T("Place and size…"), func() { w.cuttingAsk(id, nil) }),
		fyne.NewMenuItem(say.T("Take it off the board"), func() { w.takeOff(id) }))
}
