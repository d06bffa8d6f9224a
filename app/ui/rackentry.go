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

// entryRow is a board being typed.
type entryRow struct {
	e       *boardEntry
	box     *fyne.Container
	letter  *field
	species *speciesField
	size    [3]*field // length, width, thickness
	chalked *tick
	waney   *tick // its long edges are not sawn

	widthHint string
	trouble   *widget.Label
}

// addRow begins the next board: the next letter, the wood, thickness and edges
// of the row before.
func (e *boardEntry) addRow() *entryRow {
	w := e.w
	r := &entryRow{e: e}
	species, thickness, waney := w.nextBoard().Species, "", false
	if n := len(e.rows); n > 0 {
		if f := e.rows[n-1].species.found; f != "" {
			species = f
		}
		thickness, waney = e.rows[n-1].size[2].Text, e.rows[n-1].waney.Checked
	}
	r.letter = w.newField(e.nextLetter(), "A")
	r.letter.narrow = true
	r.species = newSpeciesField(w, species, func() { r.mend() })
	hints := [3]string{"2400", "210", say.T("26, or 4/4")}
	if w.ses.Units() == unit.Inch {
		hints = [3]string{`96`, `8 1/4`, say.T(`1 1/8, or 4/4`)}
	}
	for i := range r.size {
		r.size[i] = w.newField("", hints[i])
		r.size[i].follow(r.mend)
	}
	r.size[2].Text = thickness
	r.widthHint = hints[1]
	r.waney = newTick(w, say.T("waney"), waney, nil)
	r.waney.OnChanged = func(bool) { r.edgesTicked() }
	r.waney.enter = r.next
	r.chalked = newTick(w, say.T("chalked"), false, r.mend)
	r.chalked.enter = r.next
	r.letter.follow(r.mend)
	stops := []fyne.Focusable{r.letter, r.species.field, r.size[0], r.size[1], r.size[2], r.chalked}
	for i, f := range []*field{r.letter, r.species.field, r.size[0], r.size[1], r.size[2]} {
		submit := f.OnSubmitted
		f.OnSubmitted = func(s string) {
			submit(s)
			w.win.Canvas().Focus(stops[i+1])
		}
	}
	r.trouble = wrapped("", widget.DangerImportance)
	r.trouble.Hide()
	units := " (" + string(w.ses.Units()) + ")"
	line := flow(nil)
	for _, c := range []struct {
		letters float32
		head    string
		field   fyne.CanvasObject
	}{
		{12, say.T("Letter"), r.letter}, {27, say.T("Species"), r.species.field}, {13.5, say.F("Length%s", units), r.size[0]}, {13.5, say.F("Width%s", units), r.size[1]},
		{16, say.F("Thickness%s", units), r.size[2]}, {10, say.T("Edges"), r.waney}, {17, say.T("Letter on the board"), r.chalked},
	} {
		head := snug(caption(c.head))
		line.Add(least(c.letters, container.New(stackLayout{}, head, c.field)))
		if len(e.rows) > 0 { // the headings of the first row serve all, as long as the rows are lines
			lay := line.Layout.(*flowLayout)
			lay.heads = append(lay.heads, head)
		}
	}
	r.edgesTicked()
	r.box = container.New(stackLayout{}, line, r.trouble)
	e.rows = append(e.rows, r)
	e.table.Add(r.box)
	settled(e.scroll)
	return r
}

// next goes on to the row after this one, or begins one.
func (r *entryRow) next() {
	i := slices.Index(r.e.rows, r)
	if i == len(r.e.rows)-1 {
		if r.blank() {
			r.e.w.win.Canvas().Focus(r.e.add)
			return
		}
		r.e.addRow()
	}
	to := r.e.rows[i+1]
	r.e.w.win.Canvas().Focus(to.letter)
	into(r.e.scroll, to.box)
}

// blank reports whether nothing of a board is typed into the row.
func (r *entryRow) blank() bool {
	return strings.TrimSpace(r.size[0].Text) == "" && strings.TrimSpace(r.size[1].Text) == ""
}

// mend takes the message away once something is changed.
func (r *entryRow) mend() {
	if r.trouble != nil && r.trouble.Visible() {
		r.trouble.Hide()
		settled(r.e.scroll)
	}
}

// fault is what is wrong with a field.
type fault struct {
	err error
	at  fyne.Focusable
}

// board reads the row.
func (r *entryRow) board() (*model.Board, *fault) {
	id := strings.TrimSpace(r.letter.Text)
	if id == "" {
		return nil, &fault{errors.New(say.F("letter: every board needs one, such as %s", r.e.nextLetter())), r.letter}
	}
	b := model.NewBoard(id, "", 0, 0, 0)
	var err error
	if b.Species, err = r.species.wood(); err != nil {
		return nil, &fault{err, r.species.field}
	}
	if b.Length, err = r.size[0].size(say.T("length")); err != nil {
		return nil, &fault{err, r.size[0]}
	}
	if !r.edges(b) {
		if b.Width, err = r.size[1].size(say.T("width")); err != nil {
			return nil, &fault{err, r.size[1]}
		}
	}
	if b.Thickness, _, err = unit.ParseThickness(r.size[2].Text, r.e.w.ses.Units()); err != nil {
		return nil, &fault{say.Errorf("thickness: %w", err), r.size[2]}
	}
	if b.Width > b.Length {
		return nil, &fault{say.Errorf("width: %s is more than the length; length runs along the grain", r.size[1].Text), r.size[1]}
	}
	b.Wanted = usuallyWanted(b.Species)
	return b, nil
}
