package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// matchSide is the column beside the pictures: what is done to lay the pair in
// hand so, and what the panel reads then.
type matchSide struct {
	p       *matchPage
	box     fyne.CanvasObject
	body    *fyne.Container
	scroll  *container.Scroll
	head    *widget.Label
	text    *widget.Label
	assumed *widget.Label
	done    *widget.Label
	told    *widget.Label
	use     *pageButton
	other   *pageButton
	after   *figures
	touch   *matchTouch
	found   []fyne.CanvasObject // shown where a pair is in hand
	laid    string
}

func newMatchSide(p *matchPage) *matchSide {
	s := &matchSide{p: p, after: newFigures()}
	s.head, s.text, s.done = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	s.assumed, s.told = wrapped("", widget.MediumImportance), wrapped("", widget.WarningImportance)
	s.head.SizeName, s.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.use = p.button(p.head.short(say.T("Lay them so (Enter)")), p.use)
	s.use.Importance = widget.SuccessImportance
	s.other = p.button(p.head.short(say.T("Another way (O)")), func() { p.sign('o') })
	s.touch = newMatchTouch(p)
	done, then := snug(bold(say.T("What is done"))), snug(bold(say.T("The panel then")))
	figs, used := container.NewPadded(s.after.box), flow([]fyne.CanvasObject{s.use, s.other})
	s.found = []fyne.CanvasObject{used, done, then, figs}
	s.body = container.New(columnLayout{}, snug(s.head), used, snug(s.text), snug(s.assumed), s.touch.box,
		done, snug(s.done), snug(s.told), p.head.more, then, figs, snug(bold(say.T("Keys"))), snug(wrapped(say.T(matchKeys), widget.LowImportance)))
	s.scroll = container.NewVScroll(s.body)
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	return s
}

// show brings the column up to date.
func (s *matchSide) show() {
	e := s.p.gallery.hand()
	title, text, assumed, done, told := say.T("No pair to show"), s.p.empty(), "", "", ""
	var rows []figure
	if e != nil {
		l := e.lay()
		l.Weigh()
		title, text, assumed, done = e.m.Title, e.m.Text, e.m.Assumed, e.change()
		if e.m.Opened != "" {
			text = e.m.Opened + " " + text
		}
		for _, t := range l.Told {
			told += "⚠ " + t + "\n"
		}
		rows = s.figures(l)
	}
	s.touch.show()
	if key := title + text + assumed + done + told + rowsKey(rows) + s.touch.laid; key != s.laid {
		s.laid = key
		put(s.head, title)
		put(s.text, text)
		put(s.assumed, assumed)
		put(s.done, done)
		if told != "" {
			told = told[:len(told)-1]
		}
		put(s.told, told)
		setShown(s.assumed, assumed != "")
		setShown(s.told, told != "")
		setShown(s.done, done != "")
		for _, o := range s.found {
			setShown(o, e != nil)
		}
		s.after.set(rows)
		for range 2 {
			s.body.Refresh()
		}
		s.scroll.Refresh()
	}
	s.use.greyed(e == nil || e.lay().Change == "")
	s.other.greyed(e == nil || len(e.m.Lays) < 2)
}

func rowsKey(rows []figure) string {
	text := ""
	for _, r := range rows {
		text += r.name + r.show + r.back + "\x00"
	}
	return text
}

// figures are the readings now and after.
func (s *matchSide) figures(l *session.Laying) []figure {
	now := afterOf(s.p.w.ses.Reading(s.p.panel))
	row := func(name string, now, then string) figure { return figure{name: name, show: then, back: now} }
	return []figure{
		{name: "", show: say.T("then"), back: say.T("now"), head: true},
		row(say.T("Sapwood"), session.Percent(now.Light), session.Percent(l.After.Light)),
		row(say.T("Contrast coverage"), session.Percent(now.Coverage), session.Percent(l.After.Coverage)),
		row(say.T("Streaks alone"), itoa(now.LoneStreaks), itoa(l.After.LoneStreaks)),
	}
}
