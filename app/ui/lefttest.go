package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/offcut"
	"heartside/model/say"
)

// testForm asks for test pieces and says where they would lie.
type testForm struct {
	p                    *leftPage
	number, length, wide *field
	usual                offcut.Trial // what the fields begin with, finer than they print
	said                 *fyne.Container
	found                session.Reserved
}

// testAsk asks for test pieces.
func (p *leftPage) testAsk() {
	w, usual := p.w, p.w.ses.UsualTestPiece()
	f := &testForm{p: p, usual: usual, number: w.newField("1", "1"), length: w.newField(w.ses.Len(usual.Length), ""), wide: w.newField(w.ses.Len(usual.Width), ""), said: container.New(stackLayout{})}
	for _, x := range []*field{f.number, f.length, f.wide} {
		x.follow(f.fill)
	}
	body := container.New(stackLayout{}, pairs(named(say.T("How many")), f.number, named(say.T("Length of each")), f.length, named(say.T("Width of each")), f.wide),
		snug(wrapped(say.F("Each holds at least %s of heartwood and of sapwood on one face and no knot, from waste first, then from the smallest piece. Try the whole sequence of the finish on both woods. The size is common practice, no source, or what your machines take at least.", session.Percent(usual.Least)), widget.LowImportance)),
		f.said)
	f.fill()
	w.ask(question{title: say.T("Reserve test pieces"), body: body, yes: say.T("Reserve them"), focus: f.number, size: fyne.NewSize(620, 460), tall: true, do: f.keep})
}

// want reads what is asked.
func (f *testForm) want() (offcut.Trial, error) {
	t := offcut.UsualTrial
	n, err := strconv.Atoi(strings.TrimSpace(f.number.Text))
	if err != nil || n < 1 || n > 50 {
		return t, say.Errorf("how many: “%s” is no count; write 1 to 50", f.number.Text)
	}
	t.Count = n
	if t.Length, err = f.side(f.length, say.T("length of a test piece"), f.usual.Length); err != nil {
		return t, err
	}
	t.Width, err = f.side(f.wide, say.T("width of a test piece"), f.usual.Width)
	return t, err
}

// side reads a size; one that was not touched is what it began with.
func (f *testForm) side(x *field, name string, was float64) (float64, error) {
	if x.Text == f.p.w.ses.Len(was) {
		return was, nil
	}
	return x.size(name)
}

// fill says where they would lie.
func (f *testForm) fill() {
	f.found = session.Reserved{}
	want, err := f.want()
	var wish session.LeftWish
	if err == nil {
		wish, err = f.p.wish()
	}
	if err == nil {
		f.found, err = f.p.w.ses.TestPieces(want, wish)
	}
	f.said.Objects = nil
	add := func(text string, i widget.Importance) { f.said.Add(line(text, i)) }
	switch {
	case err != nil:
		add("⚠ "+ended(sentence(say.Err(err))), widget.WarningImportance)
	case f.found.Found == 0:
		add("⚠ "+say.T(nowhere), widget.WarningImportance)
	case f.found.Found < want.Count:
		add(say.F("⚠ Only %d of %d have room.", f.found.Found, want.Count), widget.WarningImportance)
	}
	for _, l := range f.found.Lines {
		add(l, widget.MediumImportance)
	}
	f.said.Refresh()
	if f.p.w.asks != nil {
		settled(f.p.w.asks.scroll)
	}
}

const nowhere = "No such piece is left. Make it smaller, or let boards that nothing is cut from count, too."

// keep reserves what was found.
func (f *testForm) keep() error {
	if f.found.Edit == nil {
		return say.Error("there is no room for a test piece of that size")
	}
	if err := f.p.w.ses.Commit(f.found.Edit); err != nil {
		return err
	}
	w := f.p.w
	w.post(func() {
		w.say(say.F("%s reserved: cut and labelled like a solid part, on the sheet too. %s moves them.", say.Count(f.found.Found, say.T("test piece is"), say.T("test pieces are")), w.acts.byID["cuttings"].keyNames()))
	})
	return nil
}
