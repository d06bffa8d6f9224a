package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// thing is a row of a dialog that lists things of the project.
type thing struct {
	name, text   string
	change, drop func()
}

// things is a dialog that lists things of the project, with what changes or
// forgets each and what makes a new one.
type things struct {
	w     *Window
	title string
	none  string // said where there is none
	about string // what they are
	drop  string // on the button that takes one away
	fresh string // on the button that makes one; "" none is made here
	make  func()
	list  func() []thing
	box   *fyne.Container
}

// ask shows the dialog; with nothing in it yet it goes on to a new one.
func (t *things) ask() {
	t.box = container.New(stackLayout{})
	t.fill()
	body := container.New(stackLayout{}, wrapped(t.about, widget.LowImportance), t.box)
	var focus fyne.Focusable
	if t.fresh != "" {
		b := newDialogButton(t.w, t.fresh, t.make)
		body.Add(container.NewHBox(b))
		focus = b
	}
	t.w.ask(question{title: t.title, body: body, focus: focus, size: fyne.NewSize(620, 420), tall: true})
	if t.fresh != "" && len(t.list()) == 0 {
		t.make()
	}
}

// fill lists what there is now.
func (t *things) fill() {
	t.box.RemoveAll()
	list := t.list()
	if len(list) == 0 {
		t.box.Add(wrapped(t.none, widget.MediumImportance))
	}
	for _, x := range list {
		name := wrapped(x.name, widget.MediumImportance)
		name.TextStyle.Bold = true
		words := container.New(stackLayout{}, snug(name), line(x.text, widget.MediumImportance))
		change := newDialogButton(t.w, say.T("Change…"), x.change)
		drop := newDialogButton(t.w, t.drop, func() {
			x.drop()
			t.refill()
		})
		buttons := container.NewVBox(container.NewHBox(change, drop))
		t.box.Add(container.NewBorder(nil, widget.NewSeparator(), nil, buttons, words))
	}
	t.box.Refresh()
}

// refill lists anew after a row went, and gives the keys back to the dialog.
func (t *things) refill() {
	t.fill()
	if a := t.w.asks; a != nil {
		if a.q.focus != nil {
			t.w.win.Canvas().Focus(a.q.focus)
		} else {
			t.w.win.Canvas().Focus(a.main)
		}
	}
}
