package ui

import (
	"math"
	"slices"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// cardOrder is the order of the cards: what a panel does to what is built round
// it, then what it does to itself, then what happens before glue-up and what
// all of it rests on.
func cardOrder() []string {
	return []string{"width", "cup", "fit", "joined", "planing", "ageing", "dye", "stack", "flatten", "air"}
}

// ordered are the sections in the order of the cards. Air that cannot be used
// comes first: nothing else can be said then.
func ordered(b *session.Behaviour) []session.Section {
	list := append([]session.Section{b.Air}, b.Sections...)
	rank := func(s session.Section) int {
		i := slices.Index(cardOrder(), s.ID)
		switch {
		case s.ID == "air" && s.Strong:
			return -1
		case i < 0:
			return len(list) + len(cardOrder())
		}
		return i
	}
	slices.SortStableFunc(list, func(a, b session.Section) int { return rank(a) - rank(b) })
	return list
}

// card is one matter.
func (p *behavePage) card(b *session.Behaviour, s session.Section) fyne.CanvasObject {
	name := wrapped(s.Title, widget.MediumImportance)
	name.SizeName, name.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	if s.Strong {
		name.Importance = widget.DangerImportance
		name.SetText("⚠ " + s.Title)
	}
	body := container.New(stackLayout{}, snug(name))
	lead, rows := s.Lead, s.Rows
	var drawn []fyne.CanvasObject
	switch {
	case s.ID == "width":
		if y, ok := p.w.ses.YearWidth(b.Panel.ID); ok { // the bars say the widths
			lead = say.F("It moves %s in all between the driest and the dampest season.", p.w.ses.Fine(math.Abs(y.Wet-y.Dry)))
			rows = boundsOnly(rows)
			drawn = newWidthBars(p.w, y).object()
		}
	case s.EndOn:
		drawn = newBowDrawing(p).objects()
	case s.ID == "ageing" && p.w.ses.Reading(b.Panel.ID).Placed > 0:
		p.ages = newAgesPicture(p, s)
		drawn = append(p.ages.objects(), toneRows(p.w, s.Tones, nil)...)
	case s.ID == "planing":
		drawn = p.planeButtons()
	case s.ID == "dye":
		drawn = dyeRows(p.w, b, s)
	case len(s.Tones) > 0:
		drawn = toneRows(p.w, s.Tones, nil)
	}
	if lead != "" {
		body.Add(snug(wrapped(lead, widget.MediumImportance)))
	}
	if s.ID != "planing" { // its buttons stand below the figures
		body.Objects = append(body.Objects, drawn...)
	}
	if len(rows) > 0 {
		for _, part := range tablesOf(rows) {
			body.Add(newBehaveTable(part))
		}
	}
	if s.ID == "planing" {
		body.Objects = append(body.Objects, drawn...)
	}
	p.notes(body, s)
	if len(s.How) > 0 {
		how := newBehaveButton(p, say.T("How is this worked out?"), func() { p.w.workedOut(s) })
		how.Importance, how.Alignment, how.Icon = widget.LowImportance, widget.ButtonAlignLeading, theme.QuestionIcon()
		body.Add(container.NewHBox(how))
	}
	card := onGround(body)
	if s.Strong {
		card.Add(container.New(edgeLayout{}, canvas.NewRectangle(theme.Color(theme.ColorNameError))))
	}
	return card
}

// boundsOnly leaves out the rows that the bars of the width say.
func boundsOnly(rows []session.Row) []session.Row {
	var out []session.Row
	for _, r := range rows {
		if (r.Head || r.Quiet) && len(r.Values) > 1 {
			r.Values = r.Values[1:] // today is as it is
			out = append(out, r)
		}
	}
	return out
}

// dyeRows shows what the sapwood would be dyed to beside the heartwood it is to
// match.
func dyeRows(w *Window, b *session.Behaviour, s session.Section) []fyne.CanvasObject {
	heart := heartTones(b)
	out := toneRows(w, s.Tones, heart)
	if heart != nil && len(out) > 0 {
		l := wrapped(say.T("Above the heartwood, below the dyed sapwood."), widget.LowImportance)
		l.SizeName = theme.SizeNameCaptionText
		out = append(out, snug(l))
	}
	return out
}

// What is shown of the notes before they are unfolded: one, or two short ones.
// An engineering choice.
const (
	openNotes   = 2
	openLetters = 190
)

// openOf is how many of the notes are shown at first.
func openOf(notes []string) int {
	letters := 0
	for i, n := range notes {
		letters += utf8.RuneCountInString(n)
		if i > 0 && (i >= openNotes || letters > openLetters) {
			return i
		}
	}
	return len(notes)
}

// notes adds what to know and to do, the first ones open, the rest folded.
func (p *behavePage) notes(body *fyne.Container, s session.Section) {
	list := once(s.Notes)
	open := openOf(list)
	for _, n := range list[:open] {
		body.Add(snug(wrapped(n, widget.LowImportance)))
	}
	if open == len(list) {
		return
	}
	rest := container.New(stackLayout{})
	for _, n := range list[open:] {
		rest.Add(snug(wrapped(n, widget.LowImportance)))
	}
	more := newBehaveButton(p, "", nil)
	more.Importance, more.Alignment = widget.LowImportance, widget.ButtonAlignLeading
	tell := func() {
		rest.Hidden = !p.open[s.ID]
		if rest.Hidden {
			more.Icon = theme.MenuDropDownIcon()
			more.SetText(say.F("More (%s)", itoa(len(list)-open)))
		} else {
			more.Icon = theme.MenuDropUpIcon()
			more.SetText(say.T("Less"))
		}
	}
	more.OnTapped = func() {
		p.open[s.ID] = !p.open[s.ID]
		tell()
		p.refolded()
		p.reveal(more)
	}
	tell()
	body.Add(rest)
	body.Add(container.NewHBox(more))
}

// once leaves out what was said before.
func once(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// edgeLayout sets its one object along the left edge.
type edgeLayout struct{}

// MinSize implements fyne.Layout.
func (edgeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(4, 0) }

// Layout implements fyne.Layout.
func (edgeLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(4, size.Height))
}
