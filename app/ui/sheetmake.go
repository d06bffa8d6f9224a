package ui

import (
	"context"
	"fmt"
	"image"
	"strings"
	"time"

	"heartside/app/session"
	"heartside/app/sheet"
	"heartside/layout/face"
	"heartside/model/say"
)

// sheetMaker is the sheet in the making: composed and drawn small beside the
// window, and begun anew when the project or what is chosen changes.
type sheetMaker struct {
	of     string // what the input was gathered for; "" nothing yet
	in     sheet.Input
	turn   int // counts beginnings: what older ones tell is dropped
	ctx    context.Context
	stop   context.CancelFunc
	gate   chan struct{} // one sheet is composed at a time
	doc    *sheet.Document
	lacks  bool // panels are left out: the numbers of pages have gaps
	stale  bool // the pages shown are of what was before
	small  []*image.RGBA
	drawn  int
	busy   bool
	halted bool // by the maker
	wrong  string
	then   []func(*sheet.Document) // waits for the pages
}

// restsOn is all that the sheet depends on besides what is chosen.
func (p *sheetPage) restsOn() string {
	ses := p.w.ses
	key := fmt.Sprintf("%p %v", ses.Committed(), ses.Loading() > 0)
	for _, n := range ses.Committed().Panels {
		for _, x := range ses.Notes(n.ID) { // fixes are found after a change
			key += "\x00" + x.Title
			if len(x.Fixes) > 0 {
				key += "\x01" + x.Fixes[0].Text + x.Fixes[0].Cost
			}
		}
	}
	return key
}

// begin drops what is being made and begins anew.
func (m *sheetMaker) begin(w *Window) (turn int) {
	m.halt()
	m.turn++
	m.ctx, m.stop = context.WithCancel(w.work)
	m.busy, m.halted, m.wrong, m.drawn = true, false, "", 0
	return m.turn
}

func (m *sheetMaker) halt() {
	if m.stop != nil {
		m.stop()
		m.stop = nil
	}
	m.busy = false
}

// gather takes over what the session holds, which is for this goroutine alone,
// once the window has shown that it begins.
func (p *sheetPage) gather() {
	m := &p.m
	m.of = p.restsOn()
	turn := m.begin(p.w)
	m.stale = true
	p.shown()
	p.w.post(func() {
		if p.gone() || turn != m.turn {
			return
		}
		m.in = gathered(p.w.ses, p.w)
		p.compose()
	})
}

// gathered is the input of a sheet that does not change while the session goes
// on.
func gathered(ses *session.Session, w *Window) sheet.Input {
	in := sheet.FromSession(ses, time.Now().Format("2006-01-02"), sheet.A4, w.faces)
	for i := range in.Panels {
		if in.Panels[i].Reading != nil {
			in.Panels[i].Reading = in.Panels[i].Reading.Clone()
		}
	}
	in.Author = w.set.maker()
	type at struct{ panel, strip string }
	numbers := map[at]string{}
	note := func(panel string, list []face.Strip) {
		for i := range list {
			numbers[at{panel, list[i].ID}] = ses.Number(panel, list[i].ID)
		}
	}
	for i := range in.Panels {
		note(in.Panels[i].Panel.ID, in.Panels[i].Panel.Strips)
	}
	note("", in.Spares)
	note("", in.Solid)
	in.Number = func(panel, strip string) string { return numbers[at{panel, strip}] }
	return in
}

// compose makes the pages of what is chosen.
func (p *sheetPage) compose() {
	m := &p.m
	turn := m.begin(p.w)
	m.stale = true
	in, ask := m.in, p.ask
	in.Paper, in.Pages = ask.paper, ask.pages
	var err error
	left, any := ask.some(&in)
	switch {
	case ask.pages == (sheet.Pages{}):
		err = say.Error("no pages are chosen: tick some")
	case len(in.Project.Panels) == 0 && len(in.Spares) == 0 && len(in.Solid) == 0 && !ask.pages.Yard:
		err = say.Errorf("there is no panel yet, so there is nothing to print: go back with Esc and make one with %s, or open the demo with %s",
			p.w.acts.byID["new-panel"].keyNames(), p.w.acts.byID["demo"].keyNames())
	case left && !any:
		err = say.Error("no panel is chosen: tick one")
	}
	if err != nil {
		p.built(turn, nil, err)
		return
	}
	if m.lacks = left; left {
		in = ask.boardsOf(in)
	}
	p.shown()
	gate, ctx := m.gate, m.ctx
	go func() {
		select {
		case gate <- struct{}{}:
			defer func() { <-gate }()
		case <-ctx.Done():
			return
		}
		if ctx.Err() != nil {
			return
		}
		var doc *sheet.Document
		err := sheetSafe(func() (err error) { doc, err = sheet.Build(in); return err })
		if err == nil && left {
			if ask.without(doc); len(doc.Pages) == 0 {
				err = say.Error("there is nothing to print on the pages and panels chosen; choose others")
			}
		}
		p.w.post(func() { p.built(turn, doc, err) })
	}()
}

// built takes the pages, and has them drawn.
func (p *sheetPage) built(turn int, doc *sheet.Document, err error) {
	m := &p.m
	if turn != m.turn || p.gone() {
		return
	}
	m.stale = false
	then := m.then
	m.then = nil
	if err != nil {
		m.halt()
		m.doc, m.small, m.wrong = nil, nil, ended(sentence(plainSheetError(err)))
		p.shown()
		if len(then) > 0 {
			p.w.say(m.wrong)
		}
		p.w.trace.line("sheet pages=0")
		return
	}
	p.place(doc)
	p.draw(turn)
	for _, f := range then {
		f(doc)
	}
}

// place shows the pages of a new sheet; the page in hand stays where the sheet
// still has it, and old pictures until new ones are drawn.
func (p *sheetPage) place(doc *sheet.Document) {
	m := &p.m
	was := m.doc
	small := make([]*image.RGBA, len(doc.Pages))
	at := min(p.at, len(doc.Pages)-1)
	if was != nil {
		for i, of := range samePages(was, doc) {
			if of >= 0 && of < len(m.small) {
				small[i] = m.small[of]
			}
			if of == p.at {
				at = i
			}
		}
	}
	m.doc, m.small, p.at = doc, small, max(at, 0)
}

// samePages tells for every page of a sheet which one it was of another, -1
// none.
func samePages(was, now *sheet.Document) []int {
	type subject struct {
		kind         sheet.Kind
		panel, board string
	}
	at := map[subject][]int{}
	for i, q := range was.Pages {
		k := subject{q.Kind, q.Panel, q.Board}
		at[k] = append(at[k], i)
	}
	out := make([]int, len(now.Pages))
	for i, q := range now.Pages {
		out[i] = -1
		k := subject{q.Kind, q.Panel, q.Board}
		if l := at[k]; len(l) > 0 { // the first of a subject is the first there, and so on
			out[i], at[k] = l[0], l[1:]
		}
	}
	return out
}

// redraw draws the pages again, for another look at them.
func (p *sheetPage) redraw() {
	if p.m.doc == nil || p.m.stale {
		return // it is on its way
	}
	p.draw(p.m.begin(p.w))
}

// draw draws all pages small, one after the other.
func (p *sheetPage) draw(turn int) {
	m := &p.m
	ctx, doc, grey, wide := m.ctx, m.doc, p.ask.grey, float64(p.list.picture())*p.view.pixels
	p.shown()
	go func() {
		for i := range doc.Pages {
			if ctx.Err() != nil {
				return
			}
			img := rastered(doc, i, wide/doc.Pages[i].W*mmPerInch, grey)
			p.w.post(func() { p.drew(turn, i, img) })
		}
	}()
}

const mmPerInch = 25.4

// Limits of package sheet to what it draws, dots an inch.
const leastDPI, mostDPI = 10, 1200

// sheetSafe turns a panic in the making of a page into an error.
func sheetSafe(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("the sheet cannot be made of this project (%v); choose other pages", r)
		}
	}()
	return f()
}

// rastered is a picture of a page; an empty one where it cannot be drawn.
func rastered(doc *sheet.Document, page int, dpi float64, grey bool) (img *image.RGBA) {
	err := sheetSafe(func() (err error) {
		img, err = doc.Raster(page, min(max(dpi, leastDPI), mostDPI))
		return err
	})
	if err != nil || img == nil {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	if grey {
		greyed(img)
	}
	return img
}

// drew takes a small picture.
func (p *sheetPage) drew(turn, page int, img *image.RGBA) {
	m := &p.m
	if turn != m.turn || p.gone() || page >= len(m.small) {
		return
	}
	m.small[page] = img
	if m.drawn++; m.drawn == len(m.doc.Pages) {
		m.halt()
		p.w.trace.line("sheet pages=%d", len(m.doc.Pages))
	}
	p.list.drew(page)
	if page == p.at && p.view.rough() {
		p.view.Refresh()
	}
	p.side.show()
}

// stopMaking ends the making; what was drawn stays.
func (p *sheetPage) stopMaking() {
	if !p.m.busy {
		p.w.say(say.T("The pages are made."))
		return
	}
	p.m.turn++
	p.m.halt()
	p.m.halted, p.m.then = true, nil
	p.shown()
}

// makeAgain makes the pages anew.
func (p *sheetPage) makeAgain() {
	p.m.of = ""
	p.follow()
}

// with does something with the pages, once they are those of the project as it
// is now.
func (p *sheetPage) with(do func(*sheet.Document)) {
	m := &p.m
	switch {
	case m.doc != nil && !m.stale:
		do(m.doc)
		return
	case m.wrong != "":
		p.w.say(m.wrong)
		return
	}
	m.then = append(m.then, do)
	if !m.busy {
		p.makeAgain()
	}
}

// plainSheetError leaves out of an error that it is of the sheet, which its page
// says itself.
func plainSheetError(err error) string {
	of, _, _ := strings.Cut(say.T("layout sheet: %w"), "%")
	return strings.TrimPrefix(say.Err(err), of)
}
