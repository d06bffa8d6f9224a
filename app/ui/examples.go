package ui

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/assets"
	"heartside/model/say"
)

// example is a project built into the program, invented for looking round.
type example struct {
	file  string
	name  string
	about string // what there is to see or to try
}

// examples lists them from the simplest on.
func examples() []example {
	return []example{
		{"tabletop.yaml", say.T("Table top"), say.T("Six strips from three walnut boards. Light wood lies along both outside edges and nowhere else.")},
		{"pair-of-doors.yaml", say.T("Pair of doors"), say.T("Two cherry doors seen together. One strip lies wrong on purpose: look at the warning on the right door and its fixes.")},
		{"drawer-row.yaml", say.T("Row of drawers"), say.T("Four drawer fronts in order from one board, so that the sap lines run on from front to front.")},
		{"maple-shelf.yaml", say.T("Maple shelf"), say.T("Here sapwood is wanted and the dark heart is not: every reading turns round.")},
		{"waney-slab.yaml", say.T("Waney slab"), say.T("A desk top from a slab with its bark edges on, and one square-edged board.")},
	}
}

// addExampleActions lists the examples.
func (w *Window) addExampleActions() {
	w.acts.add(&Action{ID: "examples", Label: say.T("Examples…"), Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyN)},
		Hint: say.T("Invented projects to look round in; what you do in one is done to a copy."), Do: w.examplesAsk})
}

// examplesAsk offers the examples.
func (w *Window) examplesAsk() {
	body := container.New(stackLayout{}, wrapped(say.T("Invented projects without photographs. Each opens as a copy that has no file yet: try anything."), widget.LowImportance))
	var first fyne.Focusable
	for _, x := range examples() {
		open := newDialogButton(w, say.F("Open “%s”", x.name), func() {
			w.asks.close()
			w.pastDraft(func() {
				w.guard(say.T("open an example"), func() {
					if err := w.openExample(x.file); err != nil {
						w.fail(say.T("The example could not be opened"), err)
					}
				})
			})
		})
		if first == nil {
			first = open
		}
		body.Add(container.New(stackLayout{}, widget.NewSeparator(), container.NewHBox(open), line(x.about, widget.MediumImportance)))
	}
	w.ask(question{title: say.T("Examples"), body: body, focus: first, size: fyne.NewSize(600, 520)})
}

// openExample shows an example as a project that has no file yet.
func (w *Window) openExample(name string) error {
	data, err := fs.ReadFile(assets.Examples, "examples/"+name)
	if err != nil {
		return say.Errorf("example: %w", err)
	}
	w.surf.forget()
	if err := w.ses.OpenFrom(data, name, exampleSource{}); err != nil {
		return err
	}
	w.opened()
	return nil
}

// exampleSource reads pictures added to an example: it brings none of its own.
type exampleSource struct{}

// Open implements session.Source.
func (exampleSource) Open(name string) (io.ReadCloser, error) {
	at := filepath.FromSlash(name)
	if !filepath.IsAbs(at) {
		return nil, say.Errorf("open %s: examples have no pictures: %w", name, fs.ErrNotExist)
	}
	return os.Open(at)
}
