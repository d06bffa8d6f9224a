package sheet

import (
	"fmt"

	"heartside/app/session"
	"heartside/model/say"
)

// record writes down which board and face went where, and the steps of colour and
// finish: for a matching piece or a repair.
func (b *builder) record() {
	b.open(false, header{title: say.T("Record")}, []mark{wordMark(say.T("Code"), say.T("changes with the layout"))})
	b.em = body
	for i := range b.in.Panels {
		p := &b.in.Panels[i]
		if len(p.Panel.Strips) == 0 {
			continue
		}
		b.tables(b.recordTable(p))
		b.paragraphs([]paragraph{{text: session.SapToColour(p.Reading, b.in.Project.Units) + "."}})
	}
	b.paragraphs(b.finishText())
}

// recordTable lists the strips of a panel.
func (b *builder) recordTable(p *Panel) *table {
	t := &table{name: say.F("Panel %s, %s: strips from the front", p.Panel.ID, b.say.size(p.Panel.Length, p.Panel.Width, p.Panel.Thickness)), head: []string{say.T("Strip"), say.T("Board"), say.T("Side up"), say.T("Lies"), say.T("Length × width, from"), say.T("Wood")}, left: []bool{true, true, true, true, true, true}}
	for _, r := range session.RecordOf(b.in.Project, p.Panel) {
		t.rows = append(t.rows, []string{r.Number, r.Board, r.Side, r.End, r.Place, r.Wood})
	}
	return t
}

// finishText are the steps, and rows to write on where there are none.
func (b *builder) finishText() []paragraph {
	out := []paragraph{{text: session.PlaceNote()}, {text: say.T("Colour and finish"), bold: true, before: 1.6}}
	for i := range b.in.Project.Record {
		s := &b.in.Project.Record[i]
		text := session.StepWords(s)
		if s.Date != "" {
			text += ", " + s.Date
		}
		if s.Note != "" {
			text += "; " + s.Note
		}
		out = append(out, paragraph{text: text, bullet: fmt.Sprintf("%d.", i+1)})
	}
	if len(b.in.Project.Record) == 0 {
		out = append(out, paragraph{text: say.T("No step is recorded. To write down by hand:")})
		for range 6 {
			out = append(out, paragraph{text: say.T("what ______________  product and thinning ______________________  on sapwood / heartwood / all  day __________"), before: 2})
		}
	}
	return append(out, paragraph{text: say.T("Try every step on a test piece of the same board first, heartwood and sapwood, the full sequence. Dye stays put while the heartwood goes on changing. Follow the label and the local fire service; oily rags spread flat to dry. Some woods and finishes sensitise skin and lungs: gloves, a mask, air."), before: 1.6})
}
