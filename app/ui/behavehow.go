package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/wood/moisture"
	"heartside/model/say"
	"heartside/model/unit"
)

// workedOut shows how the figures of a section come about: each step with its
// formula, the numbers in it and where it comes from.
func (w *Window) workedOut(s session.Section) {
	body := container.New(stackLayout{})
	list := groupSteps(s.How)
	for i, g := range list {
		if i > 0 {
			body.Add(widget.NewSeparator())
		}
		number := widget.NewLabel(itoa(i+1) + ".")
		number.Importance = widget.LowImportance
		step := container.New(stackLayout{}, line(say.Of(g.step.Formula), widget.MediumImportance))
		for _, v := range g.values {
			l := wrapped(w.valuesText(v), widget.MediumImportance)
			l.SizeName = theme.SizeNameCaptionText
			step.Add(snug(l))
		}
		if src := sourceText(g.step); src != "" {
			if g.step.Source != "" {
				src = say.F("Source: %s", src)
			}
			l := wrapped(src, widget.LowImportance)
			l.SizeName = theme.SizeNameCaptionText
			step.Add(snug(l))
		}
		body.Add(container.New(gutterLayout{}, snug(number), step))
	}
	w.ask(question{title: say.F("%s: how it is worked out", s.Title), body: body, size: fyne.NewSize(700, 620)})
}

// stepGroup is a step that is done once or more, each time with its values.
type stepGroup struct {
	step   moisture.Step
	values [][]moisture.Value
}

// groupSteps joins steps that follow one another and differ in their values alone,
// and leaves out what was worked out before.
func groupSteps(how moisture.Working) []stepGroup {
	var out []stepGroup
	seen := map[string]bool{}
	for _, s := range how {
		key := fmt.Sprint(s)
		if seen[key] {
			continue
		}
		seen[key] = true
		if n := len(out) - 1; n >= 0 && out[n].step.Formula == s.Formula && out[n].step.Source == s.Source && out[n].step.Flag == s.Flag {
			out[n].values = append(out[n].values, s.Values)
			continue
		}
		g := stepGroup{step: s}
		if len(s.Values) > 0 {
			g.values = [][]moisture.Value{s.Values}
		}
		out = append(out, g)
	}
	return out
}

// gutterLayout sets a number into a gutter and the rest beside it.
type gutterLayout struct{}

func (gutterLayout) gutter() float32 { return 2.6 * theme.TextSize() }

// MinSize implements fyne.Layout.
func (l gutterLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	m := o[1].MinSize()
	return fyne.NewSize(m.Width+l.gutter(), fyne.Max(m.Height, o[0].MinSize().Height))
}

// Layout implements fyne.Layout.
func (l gutterLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(l.gutter(), o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(l.gutter(), 0))
	o[1].Resize(fyne.NewSize(size.Width-l.gutter(), size.Height))
}

// valuesText prints the numbers of a step, lengths as the project has them.
func (w *Window) valuesText(list []moisture.Value) string {
	var out []string
	for _, v := range list {
		out = append(out, say.Of(v.Name)+" = "+w.valueText(v))
	}
	return strings.Join(out, ";  ")
}

func (w *Window) valueText(v moisture.Value) string {
	switch {
	case v.Unit == "mm" && w.ses.Units() == unit.Inch:
		return say.F("%s in", significant(v.Number/unit.InchMM))
	case v.Unit == "C" && w.ses.Units() == unit.Inch:
		return significant(v.Number*9/5+32) + " °F"
	case v.Unit == "C":
		return significant(v.Number) + " °C"
	case v.Unit == "deg":
		return significant(v.Number) + "°"
	case v.Unit == "":
		return significant(v.Number)
	}
	return significant(v.Number) + " " + v.Unit
}

// significant prints a number to four figures, small ones in full.
func significant(v float64) string {
	if v < 0 {
		return "−" + significant(-v)
	}
	switch a := math.Abs(v); {
	case a == 0 || math.IsInf(v, 0) || math.IsNaN(v):
		return say.Number(v)
	case a < 1e-5 || a >= 1e7:
		return say.Print("%.3e", v)
	default:
		digits := max(0, 3-int(math.Floor(math.Log10(a))))
		s := strconv.FormatFloat(v, 'f', digits, 64)
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		return say.Decimal(s)
	}
}

// sourceText says where a step comes from and how sure that is.
func sourceText(s moisture.Step) string {
	how := ""
	if s.Flag != moisture.NoFlag {
		how = say.Of(s.Flag.Text())
	}
	switch {
	case s.Source == "":
		return sentence(how)
	case how == "":
		return say.Of(s.Source)
	}
	return say.Of(s.Source) + " (" + how + ")"
}
