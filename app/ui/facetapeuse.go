package ui

import (
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
	"heartside/model/unit"
)

// measuredSize is a size of the board found in the picture.
type measuredSize struct {
	title               string
	verb                string  // of the change it makes
	no                  string  // the way back
	length, width       float64 // mm
	lengthOff, widthOff float64 // give or take, mm; 0 not told
	notes               []string
	doubt               string // why it is not to be proposed, "" nothing
	then                func() // once it is taken or refused
}

// agreeing is how near a size is the one entered, as a share. An engineering
// choice: under what most shrink between wet and dry.
const agreeing = 0.01

// told is a length as finely as it is taken: to the mm, or to 1/16 in.
func (w *Window) told(mm float64) float64 {
	if w.ses.Units() == unit.Inch {
		return math.Round(mm*16/unit.InchMM) * unit.InchMM / 16
	}
	return math.Round(mm)
}

// offer shows a size that was measured beside the one entered. Where the two
// agree the one entered is proposed, else the one measured.
func (c *faceCorners) offer(m measuredSize) {
	p := c.p
	m.length, m.width = p.w.told(m.length), p.w.told(m.width)
	within := math.Abs(m.length-p.length) <= m.lengthOff && math.Abs(m.width-p.width) <= m.widthOff
	small := off(m.length, p.length) < agreeing && off(m.width, p.width) < agreeing
	verdict := wrapped(say.T("The measured size is another than the one entered."), widget.WarningImportance)
	switch {
	case m.doubt != "":
		verdict = wrapped("⚠ "+m.doubt, widget.WarningImportance)
	case small:
		verdict = wrapped(say.T("✓ It agrees within 1 % with the size entered, which stays."), widget.SuccessImportance)
	case within:
		verdict = wrapped(say.T("✓ The difference is no more than the give or take: the size entered stays."), widget.SuccessImportance)
	}
	verdict.TextStyle.Bold = true
	body := container.NewVBox(p.sizeTable(m), verdict)
	for _, n := range m.notes {
		body.Add(wrapped(n, widget.MediumImportance))
	}
	if n := p.laid(); n > 0 {
		body.Add(wrapped(say.F("%s laid on this board keep their place in %s from its marked end and edge.", say.Count(n, say.T("strip"), say.T("strips")), unitWord(p.w)), widget.LowImportance))
	}
	q := question{title: m.title, body: body, plain: true, no: m.no, yes: say.T("Use this size"), other: say.T("Keep the size entered"), size: fyne.NewSize(660, 560)}
	use := func() { c.useSize(m.length, m.width, m.verb, m.then) }
	keep := func() {
		if m.then != nil {
			m.then()
		}
		p.w.say(say.F("Board %s keeps its size, %s.", p.board, p.w.sizeOf(p.length, p.width)))
	}
	q.do, q.also = func() error { p.w.post(use); return nil }, keep
	if small || within || m.doubt != "" {
		q.yes, q.other = q.other, q.yes
		q.do, q.also = func() error { p.w.post(keep); return nil }, use
	}
	p.w.ask(q)
}

func unitWord(w *Window) string {
	if w.ses.Units() == unit.Inch {
		return say.T("inches")
	}
	return "mm"
}

func (w *Window) sizeOf(length, width float64) string {
	return w.ses.Len(length) + " × " + w.ses.Len(width)
}

// laid counts the strips on the board.
func (p *facePage) laid() int {
	n := 0
	for _, panel := range p.w.ses.Committed().Panels {
		for _, s := range panel.Strips {
			if s.Board == p.board {
				n++
			}
		}
	}
	return n
}

// sizeTable is what was entered beside what was measured. With large text it
// is told in sentences, which break where a row cannot.
func (p *facePage) sizeTable(m measuredSize) fyne.CanvasObject {
	w := p.w
	rows := [][]string{{"", say.T("Entered"), say.T("Measured"), say.T("Give or take"), say.T("Difference")}}
	for _, v := range []struct {
		name          string
		was, now, off float64
	}{{say.T("Length"), p.length, m.length, m.lengthOff}, {say.T("Width"), p.width, m.width, m.widthOff}} {
		rows = append(rows, []string{v.name, w.ses.Len(v.was), w.ses.Len(v.now), giveWords(w, v.off), differenceWords(w, v.now-v.was, v.was)})
	}
	if !(m.lengthOff > 0) {
		for r := range rows {
			rows[r] = slices.Delete(rows[r], 3, 4)
		}
	}
	if w.large() {
		box := container.NewVBox()
		for _, cells := range rows[1:] {
			text := cells[0]
			for i, c := range cells[1:] {
				text += ", " + say.Lower(rows[0][i+1]) + " " + c
			}
			box.Add(wrapped(strings.Replace(text, ",", ":", 1)+".", widget.MediumImportance))
		}
		return box
	}
	g := &fyne.Container{Layout: sizeTableLayout{columns: len(rows[0])}}
	for r, cells := range rows {
		for i, text := range cells {
			l := named(text)
			switch {
			case r == 0:
				l.Importance = widget.LowImportance
			case i == 2:
				l.TextStyle.Bold = true
			}
			g.Add(l)
		}
	}
	return g
}

// sizeTableLayout lays its objects in rows of columns as wide as they need.
type sizeTableLayout struct{ columns int }

func (t sizeTableLayout) measure(o []fyne.CanvasObject) (wide []float32, high float32) {
	wide = make([]float32, t.columns)
	for i, c := range o {
		m := c.MinSize()
		wide[i%t.columns] = fyne.Max(wide[i%t.columns], m.Width)
		high = fyne.Max(high, m.Height)
	}
	return wide, high
}

// MinSize implements fyne.Layout.
func (t sizeTableLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	wide, high := t.measure(o)
	var sum float32
	for _, v := range wide {
		sum += v
	}
	return fyne.NewSize(sum, high*float32(len(o)/t.columns))
}

// Layout implements fyne.Layout. Room to spare goes between the columns.
func (t sizeTableLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	wide, high := t.measure(o)
	gap := (size.Width - t.MinSize(o).Width) / float32(t.columns)
	gap = fyne.Max(fyne.Min(gap, 4*theme.InnerPadding()), 0)
	var x, y float32
	for i, c := range o {
		k := i % t.columns
		if k == 0 {
			x, y = 0, high*float32(i/t.columns)
		}
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(wide[k], high))
		x += wide[k] + gap
	}
}

// giveWords is a give or take, rounded up.
func giveWords(w *Window, mm float64) string {
	step := 1.0
	switch {
	case w.ses.Units() == unit.Inch:
		step = unit.InchMM / 16
	case mm < 2:
		step = 0.1
	}
	return w.ses.Len(step * math.Ceil(mm/step))
}

// differenceWords is how much more or less was measured than entered.
func differenceWords(w *Window, by, was float64) string {
	if by == 0 || was <= 0 {
		return say.T("none")
	}
	sign := "+"
	if by < 0 {
		sign = "−"
	}
	return say.Print("%s%s (%s%.1f %%)", sign, w.ses.Len(math.Abs(by)), sign, 100*math.Abs(by)/was)
}
