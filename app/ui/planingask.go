package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// planeAsk works out what strips show by where the stock comes off, in the
// background, and then asks.
func (w *Window) planeAsk() {
	n := w.panel()
	job := w.ses.Planings(n.ID)
	if job == nil {
		return
	}
	ctx := w.work
	w.background(say.T("Working out what the strips show below their sawn faces…"), func() func() {
		got, err := job(ctx)
		return func() {
			if err == nil && w.asks == nil {
				(&planeForm{w: w, list: got, title: title(n.ID)}).ask()
			}
		}
	})
}

// planeForm is the dialog that chooses the face the stock comes off: a button
// a choice, each one change that can be undone.
type planeForm struct {
	w     *Window
	list  *session.Planings
	title string
	grid  *fyne.Container
	best  *dialogButton
	cells map[string][5]*dialogButton // by strip, "" for all
}

// shareNames are the choices in words.
func shareNames() [5]string {
	return [5]string{say.T("none"), say.T("a quarter"), say.T("half"), say.T("three quarters"), say.T("all")}
}

func (f *planeForm) ask() {
	body := container.New(stackLayout{})
	body.Add(line(say.T("How much of what is planed off before glue-up comes off the face that shows; the rest comes off its back. The figures are the light wood each strip then shows, finished and trimmed."), widget.MediumImportance))
	f.grid = container.New(planeGrid{})
	f.fill()
	body.Add(f.grid)
	f.best = newDialogButton(f.w, say.T("Best for each strip"), func() { f.commit(f.w.ses.PlaneBest(f.list)) })
	able(f.best, f.anyBest())
	body.Add(container.NewHBox(f.best))
	for _, s := range f.notes() {
		l := wrapped(s, widget.LowImportance)
		l.SizeName = theme.SizeNameCaptionText
		body.Add(snug(l))
	}
	var focus fyne.Focusable
	if f.anyFree() {
		focus = f.cells[""][max(f.list.Now, 0)]
	}
	f.w.ask(question{title: say.F("%s: which face the stock comes off", f.title), body: body, focus: focus, size: fyne.NewSize(820, 640)})
}

// fill lists the strips with their choices.
func (f *planeForm) fill() {
	f.cells = map[string][5]*dialogButton{}
	g := f.grid
	g.Objects = nil
	g.Add(head(say.T("Off the show face")))
	for _, name := range shareNames() {
		h := head(name)
		h.Alignment = fyne.TextAlignCenter
		g.Add(h)
	}
	if f.anyFree() {
		f.row("", say.T("All strips"), "", f.list.Light, f.list.Best, "")
	}
	for i := range f.list.Strips {
		x := &f.list.Strips[i]
		name, about := say.F("Strip %s", x.Number), ""
		if x.Board != "" {
			name = say.F("Strip %s, board %s", x.Number, x.Board)
			about = f.w.ses.Fine(x.Before) + ", " + x.Show
		}
		f.row(x.Strip, name, about, x.Light, x.Best, x.Why)
	}
	f.mark()
}

// row adds the choices of a strip, "" for all.
func (f *planeForm) row(id, name, about string, light [5]float64, best int, why string) {
	l := widget.NewLabel(name)
	l.TextStyle.Bold = true
	l.Truncation = fyne.TextTruncateEllipsis
	words := container.New(stackLayout{}, snug(l))
	if about != "" {
		words.Add(snug(head(about)))
	}
	f.grid.Add(words)
	if why != "" {
		for i := range light {
			cell := widget.NewLabel("")
			if i == 0 {
				cell = head(sentence(why))
				cell.Truncation = fyne.TextTruncateOff
			}
			f.grid.Add(cell)
		}
		return
	}
	var cells [5]*dialogButton
	for i := range light {
		text := session.Percent(light[i])
		if i == best {
			text += say.T(" · best")
		}
		cells[i] = newDialogButton(f.w, text, func() { f.commit(f.w.ses.PlaneEdit(f.list, id, i)) })
		f.grid.Add(cells[i])
	}
	f.cells[id] = cells
}

// mark shows what is chosen.
func (f *planeForm) mark() {
	show := func(id string, now int) {
		for i, b := range f.cells[id] {
			if b == nil {
				continue
			}
			want := widget.LowImportance
			if i == now {
				want = widget.HighImportance
			}
			if b.Importance != want {
				b.Importance = want
				b.Refresh()
			}
		}
	}
	show("", f.list.Now)
	for i := range f.list.Strips {
		show(f.list.Strips[i].Strip, f.list.Strips[i].Now)
	}
}

// commit makes a choice, one step of the history.
func (f *planeForm) commit(e model.Edit, ok bool) {
	if !ok {
		return
	}
	if err := f.w.ses.Commit(e); err != nil {
		f.w.asks.tell(say.Err(err))
		return
	}
	f.w.ses.Renew(f.list)
	f.mark()
}

func (f *planeForm) anyFree() bool {
	for i := range f.list.Strips {
		if f.list.Strips[i].Why == "" {
			return true
		}
	}
	return false
}

func (f *planeForm) anyBest() bool {
	for i := range f.list.Strips {
		if f.list.Strips[i].Best >= 0 {
			return true
		}
	}
	return false
}

// notes say what the figures rest on.
func (f *planeForm) notes() []string {
	var out, order []string
	by := map[string][]string{}
	other := []string{}
	after := 0.0
	for i := range f.list.Strips {
		x := &f.list.Strips[i]
		after = max(after, x.Stock.After)
		if x.Why != "" {
			continue
		}
		if x.Now < 0 {
			other = append(other, x.Number)
		}
		if x.How != "" {
			if by[x.How] == nil {
				order = append(order, x.How)
			}
			by[x.How] = append(by[x.How], x.Number)
		}
	}
	strips := func(list []string) string {
		if len(list) == 1 {
			return say.F("Strip %s", list[0])
		}
		return say.F("Strips %s", strings.Join(list, ", "))
	}
	if len(other) > 0 {
		out = append(out, say.F("%s: something else was typed into the project.", strips(other)))
	}
	for _, how := range order {
		out = append(out, strips(by[how])+": "+how+".")
	}
	switch {
	case f.list.Wanted == face.WantBoth:
		out = append(out, say.T("Both woods are wanted, so none is best."))
	case f.list.Wanted == face.WantSap:
		out = append(out, say.T("Best shows most light wood, which is wanted here; where less than half a point lies between, none is."))
	default:
		out = append(out, say.T("Best shows least light wood; where less than half a point lies between, none is."))
	}
	if after > 0 {
		out = append(out, say.F("%s more come off the panel after glue-up, taken to be half from each face. Taking all of it off one face lets a board cup more while it dries: plane it a little over size first and let it rest (common practice, no source).", f.w.ses.Fine(after)))
	}
	return out
}

// planeGrid sets a name and five choices in each row, the name wider.
type planeGrid struct{}

const planeColumns = 6

func (planeGrid) heights(o []fyne.CanvasObject) (out []float32) {
	for i := 0; i+planeColumns <= len(o); i += planeColumns {
		var h float32
		for _, x := range o[i : i+planeColumns] {
			h = fyne.Max(h, x.MinSize().Height)
		}
		out = append(out, h)
	}
	return out
}

// MinSize implements fyne.Layout.
func (l planeGrid) MinSize(o []fyne.CanvasObject) fyne.Size {
	var high float32
	for _, h := range l.heights(o) {
		high += h + 2
	}
	return fyne.NewSize(300, high)
}

// Layout implements fyne.Layout.
func (l planeGrid) Layout(o []fyne.CanvasObject, size fyne.Size) {
	name := 0.25 * size.Width
	cell := (size.Width - name) / (planeColumns - 1)
	var y float32
	for r, h := range l.heights(o) {
		for c := range planeColumns {
			x := o[r*planeColumns+c]
			m := fyne.Min(x.MinSize().Height, h)
			if c == 0 {
				x.Move(fyne.NewPos(0, y+(h-m)/2))
				x.Resize(fyne.NewSize(name-4, m))
				continue
			}
			x.Move(fyne.NewPos(name+cell*float32(c-1)+2, y+(h-m)/2))
			x.Resize(fyne.NewSize(cell-4, m))
		}
		y += h + 2
	}
}
