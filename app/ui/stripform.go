package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model"
	"heartside/model/say"
)

// stripAsk changes a strip by figures: the way without a pointer.
func (w *Window) stripAsk() {
	panel, s, _ := w.strip()
	length, width := w.lengthField(s.L, true), w.lengthField(s.W, true)
	rows := []fyne.CanvasObject{named(say.T("Length as glued")), length, named(say.T("Width as glued")), width}
	x, y := w.lengthField(s.X, true), w.lengthField(s.Y, true)
	turned := angleText(s.Angle)
	angle := w.newField(turned, "0")
	shift := w.lengthField(s.Shift, true)
	if !s.Empty() {
		rows = append(rows, named(say.T("From the marked end")), x, named(say.T("From the marked edge")), y, named(say.T("Angle, degrees")), angle)
	}
	rows = append(rows, named(say.T("Shifted along the panel")), shift)
	w.ask(question{title: say.F("Strip %s", w.ses.Number(panel, s.ID)), body: pairs(rows...), yes: say.T("Keep"), focus: length, size: fyne.NewSize(440, 360),
		do: func() error {
			t := s
			var errs [6]error
			t.L, errs[0] = length.kept(say.T("length"), s.L)
			t.W, errs[1] = width.kept(say.T("width"), s.W)
			t.X, errs[2] = x.kept(say.T("from the marked end"), s.X)
			t.Y, errs[3] = y.kept(say.T("from the marked edge"), s.Y)
			t.Shift, errs[4] = shift.kept(say.T("shift"), s.Shift)
			if angle.Text != turned { // the print is coarser than what stands there
				t.Angle, errs[5] = angle.number(say.T("angle"))
			}
			if err := first(errs[:]...); err != nil {
				return err
			}
			return w.ses.Commit(model.SetStrip{Panel: panel, Strip: t, Verb: say.T("Size")})
		}})
}

// angleText prints degrees to a tenth.
func angleText(deg float64) string {
	return say.Decimal(strings.TrimSuffix(strings.Replace(fmt.Sprintf("%.1f", deg), "-0.0", "0.0", 1), ".0"))
}

// planedAsk takes the sapwood widths found on a strip after planing.
func (w *Window) planedAsk() {
	panel, s, _ := w.strip()
	sides := w.panel().Role.Sides()
	was := w.planedNow(panel, s)
	var in [2][3]*field
	head := func(t string) fyne.CanvasObject {
		l := widget.NewLabel(t)
		l.SizeName, l.Importance = theme.SizeNameCaptionText, widget.LowImportance
		return l
	}
	g := container.NewGridWithColumns(4, head(""), head(say.T("left")), head(say.T("middle")), head(say.T("right")))
	for e, name := range [2]string{title(sides[1].Name), title(sides[0].Name)} {
		g.Add(named(name))
		for i := range in[e] {
			in[e][i] = w.lengthField(was[1-e][i], true)
			in[e][i].narrow = true
			g.Add(in[e][i])
		}
	}
	q := question{title: say.F("Strip %s after planing", w.ses.Number(panel, s.ID)), yes: say.T("Judge again"), focus: in[0][0], size: fyne.NewSize(620, 330),
		body: container.NewVBox(wrapped(say.T("Sapwood widths on the face that shows, measured from each long side as the strip lies in the panel. Only this strip is judged again."), widget.MediumImportance), g),
		do: func() error {
			var tape [2]model.Tape // front, back, as it lies
			for e := range in {
				for i, f := range in[e] {
					v, err := f.kept(say.T("sapwood width"), was[1-e][i])
					if err != nil {
						return err
					}
					if v < 0 || v > s.W {
						return say.Errorf("sapwood width: %s does not fit a strip %s wide", f.Text, w.ses.Len(s.W))
					}
					tape[1-e][i] = v
				}
			}
			near, far := ownTape(s, tape)
			return w.ses.Commit(model.SetPlaned{Panel: panel, Strip: s.ID, Planed: &model.PlanedSap{Near: near, Far: far, Face: s.Up}})
		}}
	if s.Planed != nil {
		q.other = say.T("Forget the measures")
		q.also = func() { w.commit(model.SetPlaned{Panel: panel, Strip: s.ID}) }
	}
	w.ask(q)
}

// planedNow is what the dialog begins with: the measures taken, or what the
// readings expect. Front, then back, from the left, as the strip lies.
func (w *Window) planedNow(panel string, s model.Strip) [2]model.Tape {
	if s.Planed != nil && s.MeasuredAsShown() {
		return lyingTape(s, s.Planed.Near, s.Planed.Far)
	}
	r, fp := w.ses.Reading(panel), w.ses.Panel(panel)
	for i := range fp.Strips {
		if fp.Strips[i].ID == s.ID && i < len(r.Strips) {
			return [2]model.Tape{model.Tape(r.Strips[i].Front), model.Tape(r.Strips[i].Rear)}
		}
	}
	return [2]model.Tape{}
}

// ownTape turns widths as the strip lies (front and back, from the left) into
// the strip's own (along t = 0 and t = W, from s = 0).
func ownTape(s model.Strip, lying [2]model.Tape) (near, far model.Tape) {
	near, far = lying[0], lying[1]
	if s.Turned != (s.Up == 2) {
		near, far = far, near
	}
	if s.Turned {
		slices.Reverse(near[:])
		slices.Reverse(far[:])
	}
	return near, far
}

// lyingTape is ownTape the other way.
func lyingTape(s model.Strip, near, far model.Tape) [2]model.Tape {
	a, b := ownTape(s, [2]model.Tape{near, far})
	return [2]model.Tape{a, b}
}
