package sheet

import (
	"fmt"

	"heartside/app/session"
	"heartside/model/say"
	"heartside/model/unit"
)

// fit writes the pages on gluing up and building in one panel; nothing where it
// has no strips.
func (b *builder) fit(p *Panel) {
	m := b.in.Project.Panel(p.Panel.ID)
	if m == nil || len(p.Panel.Strips) == 0 {
		return
	}
	v := b.viewOf(p, m)
	reads, order := b.readTables(v), b.glueTable(v)
	end := []paragraph{cautions(b.fitCautions(v))}
	need := func() float64 {
		h := highOf(b.endsOf(v)) + b.readHeight(v, reads) + b.blockHeight(order, b.gluingText(v)) + b.blockHeight(nil, b.afterText(v)) + b.blockHeight(nil, end)
		for _, s := range v.fitSections() {
			t := sectionTable(s)
			h += b.blockHeight(t, sectionText(s, t != nil))
		}
		return h
	}
	b.open(false, b.fitHeader(v), fitMarks(v))
	if !b.endsNamed(v) { // lying there is more room for the numbers
		b.drop()
		b.open(true, b.fitHeader(v), fitMarks(v))
	}
	b.largest(need, b.left())
	b.drawEnds(v, b.endsOf(v))
	b.readings(v, reads)
	b.block(order, b.gluingText(v))
	b.block(nil, b.afterText(v))
	for _, s := range v.fitSections() {
		t := sectionTable(s)
		b.block(t, sectionText(s, t != nil))
	}
	b.block(nil, end)
}

// readings draws the moisture readings with what is ticked off before the glue
// beside or under them.
func (b *builder) readings(v *view, reads []*table) {
	text := b.tickText(v)
	b.keep(b.readHeight(v, reads))
	if len(reads) == 1 {
		b.tableWithText(reads[0], text)
		return
	}
	b.tables(reads...)
	b.paragraphs(text)
}

func (b *builder) readHeight(v *view, reads []*table) float64 {
	if len(reads) == 1 {
		return b.tableWithTextHeight(reads[0], b.tickText(v))
	}
	return b.heightsOf(reads...) + b.textHeight(b.tickText(v))
}

// sections are all that is said of how a panel's wood behaves.
func (v *view) sections() []session.Section {
	if v.Behaviour == nil {
		return nil
	}
	return append([]session.Section{v.Behaviour.Air}, v.Behaviour.Sections...)
}

// fitSections are those that have a block of their own.
func (v *view) fitSections() []session.Section {
	var out []session.Section
	for _, s := range v.sections() {
		if s.ID != stackID {
			out = append(out, s)
		}
	}
	return out
}

// stackID is the section on the stack before glue-up: its readings have boxes
// beside them, and what it says stands with what is ticked off.
const stackID = "stack"

func (b *builder) fitHeader(v *view) header {
	p := v.Panel.Panel
	h := header{title: say.F("Glue-up and fit: %s", p.ID), boxes: []string{say.T("MC %"), say.T("RH %")}}
	l, w := gluedSize(p, b.say)
	h.facts = append(h.facts,
		say.F("glued up %s", b.say.size(l, w, p.Thickness+b.in.Project.Allowances.AfterGlue)),
		say.F("finished %s", b.say.size(p.Length, p.Width, p.Thickness)), say.Count(len(p.Strips), say.T("strip"), say.T("strips")))
	if kg, ok := b.weight(p); ok {
		h.facts = append(h.facts, say.F("weighs about %s", b.kilos(kg)))
	}
	if n := emptyPlaces(p); n > 0 {
		h.facts = append(h.facts, emptyText(n))
	}
	return h
}

// sourcesPage writes where the numbers of all panels come from, each source once.
func (b *builder) sourcesPage() {
	var all []session.Section
	for i := range b.in.Panels {
		all = append(all, b.viewOf(&b.in.Panels[i], b.in.Project.Panel(b.in.Panels[i].Panel.ID)).sections()...)
	}
	text := sourceText(all)
	if len(text) == 0 {
		return
	}
	b.open(false, header{title: say.T("Sources")}, append([]mark{wordMark("!", say.T("from memory, not confirmed"))}, headMarks()...))
	b.em = least
	b.flow(text)
}

// clampText says how many clamps a panel takes.
func (b *builder) clampText(v *view) string {
	l, _ := gluedSize(v.Panel.Panel, b.say)
	fewest, most := clampsFor(l)
	many := say.F("%d to %d", fewest, most)
	if fewest == most {
		many = fmt.Sprint(fewest)
	}
	apart := say.T("200 mm to 300 mm")
	if b.say.sys == unit.Inch {
		apart = say.T(`8" to 12"`)
	}
	return say.F("Clamps: %s, %s apart, above and below by turns (common practice, no source).", many, apart)
}
