package ui

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/app/sheet"
	"heartside/model"
	"heartside/model/say"
)

// benchPapers tells which papers are to be printed again.
type benchPapers struct {
	p    *benchPage
	box  *fyne.Container
	of   string // what the comparison was made for
	turn int    // counts beginnings: older ones are dropped
	said string
	got  session.Papers
}

func newBenchPapers(p *benchPage) *benchPapers { return &benchPapers{p: p} }

func (b *benchPapers) build() fyne.CanvasObject {
	b.box = container.New(stackLayout{})
	b.fill()
	return b.box
}

// halt drops what is being compared.
func (b *benchPapers) halt() { b.turn++ }

// restsOn is what the pages of the sheet depend on.
func (b *benchPapers) restsOn() string {
	q := *b.p.w.ses.Committed()
	marks := make([]string, 0, len(q.Printed))
	for _, k := range q.Printed {
		marks = append(marks, k.Page, k.Of, k.Mark)
	}
	return sheet.Code(&q) + "\x00" + q.Name + "\x00" + strings.Join(marks, " ")
}

// follow compares the papers anew where something has changed, once the hand
// rests.
func (b *benchPapers) follow() {
	w := b.p.w
	key := b.restsOn()
	if key == b.of || w.ses.Previewing() || w.page != page(b.p) {
		return
	}
	b.of = key
	b.turn++
	turn := b.turn
	printed := w.ses.Committed().Printed
	if len(printed) == 0 {
		b.got, b.said = session.Papers{}, ""
		b.fill()
		return
	}
	b.said = say.T("Comparing with what was printed…")
	b.fill()
	time.AfterFunc(400*time.Millisecond, func() {
		w.post(func() {
			if turn == b.turn && w.work.Err() == nil && w.page == page(b.p) {
				b.compare(turn, printed)
			}
		})
	})
}

// compare makes the pages of every kind that was printed, beside the window.
func (b *benchPapers) compare(turn int, printed []model.PrintedPage) {
	w := b.p.w
	in := gathered(w.ses, w)
	in.Pages = sheet.Pages{}
	for _, k := range printed {
		if at := in.Pages.Of(sheet.Kind(k.Page)); at != nil {
			*at = true
		}
	}
	if paper, err := sheet.ParsePaper(printed[len(printed)-1].Paper); err == nil {
		in.Paper = paper
	}
	go func() {
		var now []model.PrintedPage
		err := sheetSafe(func() error {
			doc, err := sheet.Build(in)
			if err == nil {
				now = doc.Marks()
			}
			return err
		})
		w.post(func() {
			if turn != b.turn || w.work.Err() != nil {
				return
			}
			b.said, b.got = "", session.ComparePapers(printed, now)
			if err != nil {
				b.said, b.got = sentence(say.Err(err))+".", session.Papers{}
			}
			b.fill()
			w.trace.line("papers again=%d fresh=%d gone=%d", len(b.got.Again), len(b.got.Fresh), len(b.got.Gone))
		})
	}()
}

// fill shows what is known of the papers.
func (b *benchPapers) fill() {
	w := b.p.w
	b.box.Objects = []fyne.CanvasObject{snug(bold(say.T("Papers at the bench")))}
	add := func(text string, i widget.Importance) { b.box.Add(snug(wrapped(text, i))) }
	words := b.got.Words()
	switch {
	case len(w.ses.Committed().Printed) == 0:
		add(say.F("No sheet has been printed from this project yet. %s makes one; from then on its pages are watched here.", w.acts.byID["sheet"].keyNames()), widget.LowImportance)
	case b.said != "":
		add(b.said, widget.LowImportance)
	case len(words) == 0:
		add(say.T("✓ All pages that were printed still hold."), widget.MediumImportance)
	default:
		for _, t := range words {
			add("⚠ "+t, widget.WarningImportance)
		}
	}
	var row []fyne.CanvasObject
	if len(b.got.Again)+len(b.got.Fresh) > 0 {
		row = append(row, newPageButton(w, say.T("To the sheet"), func() { w.act("sheet") }))
	}
	if len(b.got.Gone) > 0 {
		row = append(row, newPageButton(w, say.T("They are thrown away"), func() {
			w.ses.ThrownAway(b.got.Gone)
			w.takeKeys()
		}))
	}
	if len(row) > 0 {
		b.box.Add(flow(row))
	}
	b.box.Add(widget.NewSeparator())
	b.box.Refresh()
	if b.p.scroll != nil {
		settled(b.p.scroll)
	}
}
