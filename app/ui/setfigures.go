package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// seenTogether is the part of the column that tells with what the panel on
// screen is seen, and what is read of all.
type seenTogether struct {
	w     *Window
	box   *fyne.Container
	name  *widget.Label
	rows  *figures
	shown string
}

func newSeenTogether(w *Window) *seenTogether {
	s := &seenTogether{w: w, name: wrapped("", widget.MediumImportance), rows: newFigures()}
	s.name.TextStyle.Bold = true
	s.box = container.New(stackLayout{}, widget.NewSeparator(), snug(s.name), s.rows.box)
	s.box.Hide()
	return s
}

// show brings it up to date and reports whether the column has to be laid out
// anew.
func (s *seenTogether) show() bool {
	panel := s.w.ses.Selected().Panel
	r, ok := s.w.ses.SetReading(panel)
	if !ok {
		if s.shown == "" {
			return false
		}
		s.shown = ""
		s.box.Hide()
		return true
	}
	text, rows := setLine(panel, r.Set), s.w.setRows(r)
	s.rows.set(rows)
	key := text + fmt.Sprint(rows)
	if key == s.shown {
		return false
	}
	s.shown = key
	s.name.SetText(text)
	s.box.Show()
	return true
}
