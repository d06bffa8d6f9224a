package ui

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/wood/moisture"
	"heartside/model/unit"
)

// workedOut shows how the figures of a section come about: each step with its
// formula, the numbers in it and where it comes from.
func (w *Window) workedOut(s session.Section) {
	body := container.New(stackLayout{})
	for i, step := range s.How {
		formula := wrapped(itoa(i+1)+".  "+step.Formula, widget.MediumImportance)
		formula.TextStyle.Bold = true
		body.Add(snug(formula))
		if len(step.Values) > 0 {
			body.Add(line(w.valuesText(step.Values), widget.MediumImportance))
		}
		if src := sourceText(step); src != "" {
			body.Add(line(src, widget.LowImportance))
		}
	}
	w.ask(question{title: s.Title + ": how it is worked out", body: body, size: fyne.NewSize(680, 620)})
}

// valuesText prints the numbers of a step, lengths as the project has them.
func (w *Window) valuesText(list []moisture.Value) string {
	var out []string
	for _, v := range list {
		out = append(out, v.Name+" = "+w.valueText(v))
	}
	return strings.Join(out, ";  ")
}

func (w *Window) valueText(v moisture.Value) string {
	switch {
	case v.Unit == "mm" && w.ses.Units() == unit.Inch:
		return significant(v.Number/unit.InchMM) + " in"
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
	switch a := math.Abs(v); {
	case a == 0 || math.IsInf(v, 0) || math.IsNaN(v):
		return strconv.FormatFloat(v, 'f', -1, 64)
	case a < 1e-5 || a >= 1e7:
		return strconv.FormatFloat(v, 'e', 3, 64)
	default:
		digits := max(0, 3-int(math.Floor(math.Log10(a))))
		s := strconv.FormatFloat(v, 'f', digits, 64)
		if strings.Contains(s, ".") {
			s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
		}
		return s
	}
}

// sourceText says where a step comes from and how sure that is.
func sourceText(s moisture.Step) string {
	how := ""
	if s.Flag != moisture.NoFlag {
		how = s.Flag.Text()
	}
	switch {
	case s.Source == "":
		return sentence(how)
	case how == "":
		return s.Source
	}
	return s.Source + " (" + how + ")"
}
