package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// benchRow is a strip on the bench page.
type benchRow struct {
	p      *benchPage
	at     int
	b      session.BenchStrip
	box    *fyne.Container
	grip   *benchGrip
	steps  []*pageButton
	in     [2][3]*field // back, front edge as it lies; from the left
	hopes  [2][3]*widget.Label
	told   *widget.Label
	fixes  *fyne.Container
	filled [2][3]string // what the program wrote into the fields
	taken  bool         // widths after planing were entered, when last shown
}

func newBenchRow(p *benchPage, at int, b session.BenchStrip) *benchRow {
	r := &benchRow{p: p, at: at, b: b}
	w := p.w
	r.grip = newBenchGrip(r)
	var steps []fyne.CanvasObject
	for _, s := range session.Stages() {
		x := newPageButton(w, "", func() { p.stage(r, s) })
		r.steps = append(r.steps, x)
		steps = append(steps, x)
	}
	role := model.RoleOther
	if n := w.ses.Project().Panel(b.Panel); n != nil {
		role = n.Role
	}
	sides := role.Sides()
	heads := [3]string{say.T("left"), say.T("middle"), say.T("right")}
	if b.Turned {
		heads[2] = say.T("right, marked end")
	} else {
		heads[0] = say.T("left, marked end")
	}
	small := func(s string) *widget.Label {
		l := widget.NewLabel(s)
		l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
		return l
	}
	edges := [2]fyne.CanvasObject{}
	for e, name := range [2]string{sides[1].Name, sides[0].Name} {
		g := container.NewGridWithColumns(3)
		for i := range r.in[e] {
			r.hopes[e][i] = small("")
			r.in[e][i] = r.width(e, i)
			g.Add(container.NewVBox(small(heads[i]), r.in[e][i], r.hopes[e][i]))
		}
		edges[e] = container.NewVBox(snug(wrapped(say.F("%s, sapwood after planing", sentence(name)), widget.LowImportance)), g)
	}
	r.told = wrapped("", widget.MediumImportance)
	r.told.Hide()
	r.fixes = container.New(stackLayout{})
	r.box = container.New(stackLayout{}, flow(append([]fyne.CanvasObject{r.grip}, steps...)), flow([]fyne.CanvasObject{edges[0], edges[1]}), snug(r.told), r.fixes)
	return r
}

func (r *benchRow) id() benchID { return benchID{r.b.Panel, r.b.Strip} }

// width is the field of one width.
func (r *benchRow) width(e, i int) *field {
	f := r.p.w.newField("", "")
	f.narrow = true
	f.OnSubmitted = func(string) {
		if strings.TrimSpace(f.Text) == "" {
			f.SetText(r.p.w.ses.Len(r.b.Expected[1-e][i]))
		}
		r.take()
		next := e*3 + i + 1
		if next < 6 {
			r.p.w.win.Canvas().Focus(r.in[next/3][next%3])
			return
		}
		r.p.take(r.at + 1)
	}
	f.left = r.take
	f.keys = func(ev *fyne.KeyEvent) bool {
		switch ev.Name {
		case fyne.KeyDown:
			r.p.take(r.at + 1)
		case fyne.KeyUp:
			r.p.take(r.at)
		default:
			return false
		}
		return true
	}
	return f
}

// take makes the widths part of the project once all six are there and one of
// them is new.
func (r *benchRow) take() {
	var lying [2]model.Tape
	n, changed := 0, false
	for e := range r.in {
		for i, f := range r.in[e] {
			if strings.TrimSpace(f.Text) == "" {
				continue
			}
			n++
			if f.Text == r.filled[e][i] && r.b.Measured != nil {
				lying[1-e][i] = r.b.Measured[1-e][i] // finer than its print, perhaps
				continue
			}
			changed = true
			v, err := f.length(say.T("sapwood width"))
			if err == nil && (v < 0 || v > r.b.Width) {
				err = say.Errorf("sapwood width: %s does not fit strip %s, which is %s wide", f.Text, r.b.Number, r.p.w.ses.Len(r.b.Width))
			}
			if err != nil {
				r.p.w.say("⚠ " + sentence(say.Err(err)) + ".")
				return
			}
			lying[1-e][i] = v
		}
	}
	switch {
	case !changed:
	case n < 6:
		r.p.w.say(say.F("Strip %s: %d of 6 widths typed. Enter in an empty field takes the width expected.", r.b.Number, n))
	default:
		e := session.MeasureEdit(r.p.w.ses.Committed(), r.b.Panel, r.b.Strip, lying)
		r.p.w.post(func() { r.p.commit(e, say.F("Strip %s is measured", r.b.Number)) })
	}
}

// forget drops what was measured.
func (r *benchRow) forget() {
	if r.b.Measured == nil && !r.b.Below {
		r.p.w.say(say.F("Nothing was measured on strip %s.", r.b.Number))
		return
	}
	r.p.commit(model.SetPlaned{Panel: r.b.Panel, Strip: r.b.Strip}, say.F("What was measured on strip %s is forgotten", r.b.Number))
}

func (r *benchRow) turnTick() {
	r.p.ticked[r.id()] = !r.p.ticked[r.id()]
	r.grip.Refresh()
}

// tell shows a strip as it is now.
func (r *benchRow) tell(b session.BenchStrip) {
	r.b = b
	now := 0
	for i, s := range session.Stages() {
		if s == b.Stage {
			now = i
		}
	}
	for i, s := range session.Stages() {
		mark, importance := "○ ", widget.LowImportance
		switch {
		case i == now:
			mark, importance = "● ", widget.HighImportance
		case i < now:
			mark, importance = "✓ ", widget.MediumImportance
		}
		if text := mark + sentence(s.Words()); r.steps[i].Text != text {
			r.steps[i].Text, r.steps[i].Importance = text, importance
			r.steps[i].Refresh()
		}
	}
	for e := range r.in {
		for i, f := range r.in[e] {
			hope := say.F("expected %s", r.p.w.ses.Len(b.Expected[1-e][i]))
			if !b.Known {
				hope = say.T("not known")
			}
			if r.hopes[e][i].Text != hope {
				r.hopes[e][i].SetText(hope)
			}
			text := ""
			if b.Measured != nil {
				text = r.p.w.ses.Len(b.Measured[1-e][i])
			}
			if text != r.filled[e][i] || b.Measured == nil && r.taken {
				r.filled[e][i] = text
				f.SetText(text)
			}
		}
	}
	r.taken = b.Measured != nil
	r.tellWords()
	r.grip.Refresh()
}

// tellWords tells how what was measured differs, and what follows.
func (r *benchRow) tellWords() {
	var lines []string
	var fixes []fyne.CanvasObject
	importance := widget.MediumImportance
	switch {
	case r.b.Below:
		lines = append(lines, say.T("⚠ It was measured on the face that lies down now: measure the face that shows."))
		importance = widget.WarningImportance
	case r.b.Measured == nil:
	case len(r.b.Diffs) == 0:
		lines = append(lines, say.F("✓ As expected, within %s.", r.p.w.ses.Len(session.Within)))
	default:
		importance = widget.WarningImportance
		for _, d := range r.b.Diffs {
			lines = append(lines, "⚠ "+sentence(d)+".")
		}
		said := false
		for _, n := range r.p.w.ses.Notes(r.b.Panel) {
			if !concerns(n.Strips, r.b.Strip) {
				continue
			}
			said = true
			lines = append(lines, n.Title+".")
			if len(n.Fixes) > 0 && len(fixes) == 0 {
				fix := n.Fixes[0]
				fixes = append(fixes, newPageButton(r.p.w, sentence(fix.Text)+" ("+fix.Cost+")", func() {
					if err := r.p.w.ses.Apply(fix); err != nil {
						r.p.w.fail(say.T("This cannot be done"), err)
					}
				}))
			}
		}
		if !said {
			lines = append(lines, say.T("Readings are of what was measured; nothing is warned of for this strip."))
		}
	}
	text := strings.Join(lines, "\n")
	if text != r.told.Text {
		r.told.Importance = importance
		r.told.SetText(text)
	}
	if r.told.Hidden = text == ""; r.told.Hidden {
		r.told.Hide()
	}
	r.fixes.Objects = fixes
	r.fixes.Refresh()
}

func concerns(strips []string, id string) bool {
	for _, s := range strips {
		if s == id {
			return true
		}
	}
	return false
}

// benchGrip is the number of a strip, by which it is taken in hand.
type benchGrip struct {
	widget.BaseWidget
	r    *benchRow
	held bool
	text *canvas.Text
	ring *canvas.Rectangle
}

func newBenchGrip(r *benchRow) *benchGrip {
	g := &benchGrip{r: r, text: canvas.NewText("", nil), ring: canvas.NewRectangle(nil)}
	g.text.TextStyle.Bold = true
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *benchGrip) CreateRenderer() fyne.WidgetRenderer {
	g.dress()
	return widget.NewSimpleRenderer(container.NewStack(g.ring, container.NewPadded(g.text)))
}

// Refresh implements fyne.Widget.
func (g *benchGrip) Refresh() {
	g.dress()
	g.BaseWidget.Refresh()
}

// dress writes and colours what is shown.
func (g *benchGrip) dress() {
	th := g.r.p.w.look
	v := g.r.p.w.app.Settings().ThemeVariant()
	box := "☐ "
	if g.r.p.ticked[g.r.id()] {
		box = "☑ "
	}
	g.text.Text = say.F("%s%s  board %s", box, g.r.b.Number, g.r.b.Board)
	if g.r.p.every {
		g.text.Text += "  " + g.r.b.Panel
	}
	g.text.TextSize = theme.Size(theme.SizeNameSubHeadingText)
	g.text.Color = th.Color(theme.ColorNameForeground, v)
	g.ring.CornerRadius, g.ring.StrokeWidth = 4, 0
	g.ring.FillColor = nil
	if g.held {
		g.ring.StrokeWidth = 2
		g.ring.StrokeColor = th.Color(theme.ColorNamePrimary, v)
		g.ring.FillColor = th.Color(theme.ColorNameSelection, v)
	}
	g.text.Refresh()
	g.ring.Refresh()
}

// Tapped implements fyne.Tappable.
func (g *benchGrip) Tapped(*fyne.PointEvent) {
	g.r.p.take(g.r.at)
	g.r.turnTick()
}

// FocusGained implements fyne.Focusable.
func (g *benchGrip) FocusGained() {
	g.held, g.r.p.at = true, g.r.at
	g.Refresh()
	g.r.p.w.reached(g)
}

// FocusLost implements fyne.Focusable.
func (g *benchGrip) FocusLost() {
	g.held = false
	g.Refresh()
}

// TypedKey implements fyne.Focusable.
func (g *benchGrip) TypedKey(ev *fyne.KeyEvent) {
	if !g.r.p.w.pageKey(ev) {
		g.r.p.key(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (g *benchGrip) TypedRune(r rune) { g.r.p.sign(r) }
