package sheet

import (
	"strings"

	"heartside/app/session"
	"heartside/model/say"
)

// readRows is how many rows of a table of readings stand in one column.
const readRows = 12

// sectionTable are the figures of a section of a panel's behaviour, nil where
// it has none. Rows that head others after the first stand within it.
func sectionTable(s session.Section) *table {
	if len(s.Rows) == 0 {
		return nil
	}
	most := 0
	for _, r := range s.Rows {
		most = max(most, len(r.Values))
	}
	row := func(r session.Row) []string {
		out := append([]string{r.Name}, r.Values...)
		for len(out) < most+1 {
			out = append(out, "")
		}
		return out
	}
	t := &table{name: s.Title, left: make([]bool, most+1)}
	t.left[0] = true
	rows := s.Rows
	if rows[0].Head {
		t.head, rows = row(rows[0]), rows[1:]
	} else {
		t.head = make([]string, most+1)
	}
	for _, r := range rows {
		t.rows = append(t.rows, row(r))
		t.heads = append(t.heads, r.Head)
	}
	return t
}

// readTables are the moisture readings of the strips with boxes to write in
// what is read before glue-up; many rows are parted.
func (b *builder) readTables(v *view) []*table {
	t := &table{
		name: say.T("Moisture before glue-up"),
		head: []string{say.T("Strip"), say.T("Board"), say.T("Entered"), say.T("Read now, %")},
		left: []bool{true, true, false, false},
		box:  []bool{3: true},
		room: []float64{3: 18},
	}
	for i := range v.Panel.Panel.Strips {
		bd := v.Panel.Panel.Strips[i].Board
		if bd == nil {
			continue
		}
		mc := say.T("not read")
		if bd.Moisture > 0 {
			mc = session.MC(bd.Moisture)
		}
		t.rows = append(t.rows, []string{v.numbers[i], bd.ID, mc, ""})
	}
	n := len(t.rows)
	if n == 0 {
		return nil
	}
	parts := (n + readRows - 1) / readRows
	each := (n + parts - 1) / parts
	var out []*table
	for i := 0; i < n; i += each {
		c := *t
		c.rows = t.rows[i:min(i+each, n)]
		if i > 0 {
			c.name = say.T("continued")
		}
		out = append(out, &c)
	}
	return out
}

// block draws a table with what is said of it beside or under it, on a fresh
// page where it goes on that but not on the rest of this one.
func (b *builder) block(t *table, text []paragraph) {
	if t == nil {
		b.keep(b.textHeight(text))
		b.paragraphs(text)
	} else {
		b.keep(b.tableWithTextHeight(t, text))
		b.tableWithText(t, text)
	}
	b.area.Min.Y += blockGap
}

// blockGap is left free under a block, mm.
const blockGap = 1.5

// blockHeight is how high a block comes out.
func (b *builder) blockHeight(t *table, text []paragraph) float64 {
	if t == nil {
		return b.textHeight(text) + blockGap
	}
	return b.tableWithTextHeight(t, text) + blockGap
}

// keep goes on to a further page where what is so high goes on that but not on
// the rest of this one, unless most of this one is free.
func (b *builder) keep(high float64) {
	if high > b.left() && b.left() < 0.5*b.page.H {
		b.more()
	}
}

// sectionText is what a section says beside its figures.
func sectionText(s session.Section, table bool) []paragraph {
	var out []paragraph
	if !table {
		out = append(out, paragraph{text: s.Title, bold: true, before: 1.6})
	}
	if s.Lead != "" {
		p := paragraph{text: s.Lead}
		if s.Strong {
			p.bullet, p.bold = "!", true
		}
		out = append(out, p)
	}
	for _, n := range s.Notes {
		if n = strings.TrimSpace(n); n != "" {
			out = append(out, paragraph{text: n, bullet: "–"})
		}
	}
	return out
}
