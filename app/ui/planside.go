package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
	"heartside/model/unit"
)

// planSide is the column beside the plans: what the plan in hand takes, where
// everything comes from, and what it lacks.
type planSide struct {
	p      *planPage
	box    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	head   *widget.Label
	lacks  *widget.Label
	from   *widget.Label
	minded *widget.Label
	over   [2]*widget.Label // over from and minded
	use    *pageButton
	turn   *pageButton
	facts  *figures
	laid   string
}

func newPlanSide(p *planPage) *planSide {
	s := &planSide{p: p, facts: newFigures()}
	s.head, s.from = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	s.lacks, s.minded = wrapped("", widget.WarningImportance), wrapped("", widget.MediumImportance)
	s.head.SizeName, s.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.use = p.button(say.T("Lay them so (Enter)"), p.use)
	s.use.Importance = widget.SuccessImportance
	s.turn = p.button(say.T("Panels or boards (P)"), p.turnPictures)
	anew := p.button(say.T("Ask anew… (A)"), p.askAnew)
	s.over = [2]*widget.Label{bold(say.T("Where it comes from")), bold(say.T("Minded"))}
	s.body = container.New(columnLayout{}, snug(s.head), flow([]fyne.CanvasObject{s.use, s.turn, anew}), snug(s.lacks), container.NewPadded(s.facts.box),
		snug(s.over[0]), snug(s.from), snug(s.over[1]), snug(s.minded), snug(bold(say.T("Keys"))), snug(wrapped(say.T(planKeys), widget.LowImportance)))
	s.scroll = container.NewVScroll(s.body)
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	return s
}

// sentences makes a text of lines, each a sentence on a line of its own.
func sentences(list []string, sign string) string {
	var out []string
	for _, l := range list {
		out = append(out, sign+ended(sentence(l)))
	}
	return strings.Join(out, "\n")
}

// show brings the column up to date.
func (s *planSide) show() {
	e := s.p.gallery.hand()
	head, lacks, from := say.T("Nothing in hand"), "", ""
	var rows []figure
	if e != nil {
		head, lacks, from = e.Title, sentences(e.Short, "⚠ "), sentences(e.Lines, "")
		rows = planFigures(s.p.w, e)
	}
	minded := sentences(s.p.only, "")
	if key := head + lacks + from + minded + rowsKey(rows); key != s.laid {
		s.laid = key
		for l, text := range map[*widget.Label]string{s.head: head, s.lacks: lacks, s.from: from, s.minded: minded} {
			put(l, text)
			setShown(l, text != "")
		}
		setShown(s.over[0], from != "")
		setShown(s.over[1], minded != "")
		s.facts.set(rows)
		for range 2 {
			s.body.Refresh()
		}
		s.scroll.Refresh()
	}
	s.use.greyed(e == nil || e.Edit == nil || !s.p.current())
}

// planFigures are what a plan comes to.
func planFigures(w *Window, e *session.Planned) []figure {
	sys := w.ses.Units()
	rows := []figure{
		{name: say.T("Wood used up"), show: unit.FormatArea(e.Used, sys)},
		{name: say.T("Of it lost"), show: unit.FormatArea(e.Lost, sys)},
	}
	if e.Cost > 0 {
		rows = append(rows, figure{name: say.T("Cost by the boards' prices"), show: say.Print("%.2f", e.Cost)})
	}
	if len(e.Panels) > 0 {
		rows = append(rows, figure{name: say.T("Joints"), show: itoa(e.Joints)},
			figure{name: say.T("Points against the looks"), show: pointWords(e.Points)},
			figure{name: say.T("Unwanted wood on show"), show: session.Percent(e.Unwanted)})
	}
	return append(rows, figure{name: say.T("Boards cut"), show: itoa(len(e.Cut))}, figure{name: say.T("Boards left whole"), show: itoa(len(e.Whole))})
}
