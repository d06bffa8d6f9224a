package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// The fields of a board on offer, in the order of the Enter key.
const (
	yardLetter = iota
	yardLength
	yardWidth
	yardThick
	yardSap11 // face 1, marked edge
	yardSap12
	yardSap21
	yardSap22
	yardPrice
	yardSay
	yardFields
)

// yardEntry is where a board on offer is typed.
type yardEntry struct {
	p       *yardPage
	species *speciesField
	in      [yardFields]*field
	per     *pick
	title   *widget.Label
	record  *pageButton
	photo   *pageButton
	drop    *pageButton // gives up a change
	trouble *widget.Label
	box     *fyne.Container
}

func newYardEntry(p *yardPage) *yardEntry {
	w, st := p.w, p.st
	e := &yardEntry{p: p}
	e.species = newSpeciesField(w, p.yard().Species, e.wood)
	e.species.OnSubmitted = func(string) { e.species.settle(); w.win.Canvas().Focus(e.in[yardLetter]) }
	hints := [yardFields]string{"A", "2400", "210", say.T("26, or 5/4"), "22/30/41", "0", "22/30/41", "0", say.T("not known"), say.T("keep, leave")}
	if w.ses.Units() == unit.Inch {
		hints = [yardFields]string{"A", "96", "8 1/4", say.T("1 1/8, or 5/4"), "1; 1 1/4; 2", "0", "1; 1 1/4; 2", "0", say.T("not known"), say.T("keep, leave")}
	}
	if st.draft[yardLetter] == "" {
		st.draft[yardLetter] = w.ses.YardID()
	}
	for i := range e.in {
		f := w.newField(st.draft[i], hints[i])
		f.narrow = true
		f.follow(func() { st.draft[i] = f.Text; e.tell("") })
		f.OnSubmitted = func(string) { e.enter(i) }
		e.in[i] = f
	}
	e.in[yardSay].left = e.spell
	e.per = choice(w, pricings(), pricingWords, st.per)
	e.per.changed = func() { st.per = chosen(e.per, pricings()) }
	units := " (" + string(w.ses.Units()) + ")"
	e.title = bold("")
	cell := func(letters float32, head string, o fyne.CanvasObject) fyne.CanvasObject {
		return least(letters, container.New(stackLayout{}, snug(caption(head)), o))
	}
	what := flow([]fyne.CanvasObject{cell(24, say.T("Wood of all boards here"), e.species.field)})
	size := flow([]fyne.CanvasObject{cell(10, say.T("Letter"), e.in[yardLetter]), cell(13, say.F("Length%s", units), e.in[yardLength]), cell(13, say.F("Width%s", units), e.in[yardWidth]), cell(15, say.F("Thickness%s", units), e.in[yardThick])})
	sap := flow([]fyne.CanvasObject{
		cell(19, say.T("Face 1, marked edge"), e.in[yardSap11]), cell(19, say.T("Face 1, other edge"), e.in[yardSap12]),
		cell(19, say.T("Face 2, marked edge"), e.in[yardSap21]), cell(19, say.T("Face 2, other edge"), e.in[yardSap22])})
	pay := flow([]fyne.CanvasObject{cell(13, w.priceName(), e.in[yardPrice]), cell(18, say.T("for"), e.per), cell(13, say.T("Keep or leave"), e.in[yardSay])})
	note := wrapped(say.F("Sapwood widths%s: one that holds all along, or three from the marked end. 0 is clear; a face left empty was not looked at.", units), widget.LowImportance)
	e.record = newPageButton(w, say.T("Record the board"), e.keep)
	e.record.Importance = widget.HighImportance
	e.photo = newPageButton(w, say.T("Sapwood from photographs…"), e.photos)
	e.drop = newPageButton(w, say.T("Give up the change"), e.begin)
	e.trouble = wrapped("", widget.DangerImportance)
	e.trouble.Hide()
	e.box = container.New(stackLayout{}, what, snug(e.title), size, sap, snug(note), pay, snug(e.trouble), flow([]fyne.CanvasObject{e.record, e.photo, e.drop}))
	e.named()
	return e
}

// named says what is being typed.
func (e *yardEntry) named() {
	e.title.SetText(say.T("A board on offer"))
	if was := e.p.st.was; was != "" {
		e.title.SetText(say.F("Board %s is changed", was))
	}
	setShown(e.drop, e.p.st.was != "")
}

// follow keeps to the project where that was changed elsewhere, or by undo.
func (e *yardEntry) follow() {
	w, st := e.p.w, e.p.st
	if st.was != "" && w.ses.Project().Offer(st.was) == nil {
		st.was = "" // what is typed is recorded as a new one
		e.named()
	}
	if id := e.p.yard().Species; id != e.species.found && w.win.Canvas().Focused() != fyne.Focusable(e.species.field) {
		e.species.was, e.species.found = id, id
		e.species.SetText(speciesName(id))
	}
	e.freeLetter()
}

// first is the field that has the keys when the page comes: the first empty one
// where a board is half typed.
func (e *yardEntry) first() fyne.Focusable {
	if e.blank() {
		return e.in[yardLetter]
	}
	for i := yardLength; i <= yardThick; i++ {
		if strings.TrimSpace(e.in[i].Text) == "" {
			return e.in[i]
		}
	}
	return e.in[yardSap11]
}

// blank reports whether nothing of a board is typed.
func (e *yardEntry) blank() bool {
	for i := range e.in {
		if i != yardLetter && i != yardThick && i != yardPrice && strings.TrimSpace(e.in[i].Text) != "" {
			return false
		}
	}
	return true
}

// wood takes the wood of all boards.
func (e *yardEntry) wood() {
	w, y := e.p.w, e.p.yard()
	if e.species == nil || e.species.found == "" || e.species.found == y.Species {
		return
	}
	y.Species, y.Wanted = e.species.found, usuallyWanted(e.species.found)
	for _, b := range w.ses.Project().Boards {
		if b.Species == y.Species && b.Wanted != model.WantDefault {
			y.Wanted = b.Wanted
		}
	}
	e.p.set(y)
}

// enter goes on from a field; from the last one the board is recorded.
func (e *yardEntry) enter(i int) {
	if i == yardSay {
		e.spell()
		e.keep()
		return
	}
	e.p.w.win.Canvas().Focus(e.in[i+1])
}

// decisionWords says what is to be done with a board.
func decisionWords(d model.Decision) string {
	switch d {
	case model.OfferKeep:
		return say.In("board", "keep")
	case model.OfferLeave:
		return say.In("board", "leave")
	}
	return ""
}

// decided reads what is to be done with a board: first letters are enough, in
// English whatever is spoken.
func decided(text string) (model.Decision, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	if t == "" {
		return model.OfferOpen, nil
	}
	for _, d := range [...]model.Decision{model.OfferKeep, model.OfferLeave} {
		if strings.HasPrefix(decisionWords(d), t) {
			return d, nil
		}
	}
	for _, d := range [...]model.Decision{model.OfferKeep, model.OfferLeave} {
		if strings.HasPrefix(string(d), t) {
			return d, nil
		}
	}
	return "", say.Errorf("keep or leave: “%s” is neither; write k or l, or nothing where that is still open", text)
}

// spell writes first letters in full.
func (e *yardEntry) spell() {
	if d, err := decided(e.in[yardSay].Text); err == nil && decisionWords(d) != e.in[yardSay].Text {
		e.in[yardSay].SetText(decisionWords(d))
	}
}

func (e *yardEntry) tell(s string) {
	if e.trouble == nil || e.trouble.Text == s {
		return
	}
	e.trouble.Hidden = s == ""
	e.trouble.SetText(s)
	e.p.relaid()
}

// keep records the board and begins the next one.
func (e *yardEntry) keep() {
	w := e.p.w
	o, bad := e.read()
	var edit model.PutOffer
	if bad == nil {
		var err error
		if edit, err = w.ses.PutOffer(e.p.st.was, o); err != nil {
			bad = &fault{err, e.in[yardLetter]}
		}
	}
	if bad != nil {
		e.tell(ended(sentence(say.Err(bad.err))))
		w.win.Canvas().Focus(bad.at)
		return
	}
	if y := e.p.yard(); edit.Offer.Board.Species == "" { // the first one
		edit.Offer.Board.Species, edit.Offer.Board.Wanted = y.Species, y.Wanted
	}
	if !w.commit(edit) {
		return
	}
	e.begin()
	w.say(say.F("Board %s is recorded. Chalk %s on its marked end, on the side you call face 1.", o.ID, o.ID))
}

// begin empties the fields for the next board. Thickness and a rate stay.
func (e *yardEntry) begin() {
	st := e.p.st
	st.was, st.faces = "", [2]model.Face{}
	st.reading++ // of photographs of the board before
	e.photo.greyed(false)
	for i := range e.in {
		if i == yardThick || i == yardPrice && st.per != "board" {
			continue
		}
		e.in[i].SetText("")
	}
	e.in[yardLetter].SetText(e.p.w.ses.YardID())
	e.named()
	e.p.relaid()
	e.p.w.win.Canvas().Focus(e.in[yardLetter])
}

// freeLetter offers another letter where nothing is typed yet.
func (e *yardEntry) freeLetter() {
	if e.blank() && e.p.st.was == "" {
		e.in[yardLetter].SetText(e.p.w.ses.YardID())
	}
}

// change puts a recorded board back into the fields.
func (e *yardEntry) change(o session.Offer) {
	st, w := e.p.st, e.p.w
	if !e.blank() || st.was != "" {
		w.say(say.T("A board is half typed: record it first, or empty its fields."))
		w.win.Canvas().Focus(e.first())
		return
	}
	st.was, st.faces = o.ID, o.Faces
	text := [yardFields]string{o.ID, w.ses.Len(o.Length), w.ses.Len(o.Width), w.ses.Len(o.Thickness)}
	for f := range o.Sap {
		for k := range o.Sap[f] {
			if !o.Unseen[f] {
				text[yardSap11+2*f+k] = session.TapeText(o.Sap[f][k], w.ses.Units())
			}
		}
	}
	if o.Rate != nil {
		text[yardPrice] = say.Print("%g", o.Rate.Amount)
		st.per = string(o.Rate.Per)
		relabel(e.per, pricings(), pricingWords, st.per)
	}
	text[yardSay] = decisionWords(o.Say)
	for k := range e.in {
		e.in[k].SetText(text[k])
	}
	st.taped, st.sized = [2][2]string{e.widths(0), e.widths(1)}, e.size()
	e.named()
	e.p.relaid()
	w.win.Canvas().Focus(e.in[yardLength])
}
