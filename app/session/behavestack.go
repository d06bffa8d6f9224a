package session

import (
	"heartside/layout/wood/moisture"
	"heartside/layout/wood/movement"
	"heartside/model/say"
	"heartside/model/unit"
)

// stack looks through the moisture readings of the panel's boards.
func (b *behaving) stack() []moisture.Finding {
	if b.trouble != nil {
		return nil
	}
	var list []moisture.Reading
	for _, k := range b.pieces() {
		list = append(list, moisture.Reading{Strip: k.number, MC: k.board.Moisture, Known: k.board.Moisture > 0})
	}
	return moisture.Stack(list, b.span, moisture.DefaultStackLimits())
}

// weight is what the finished panel weighs, kg.
func (b *behaving) weight() (kg movement.Size, how moisture.Working, err error) {
	share := b.fp.Outline().Area() / (b.n.Length * b.n.Width)
	for _, k := range b.pieces() {
		mc := b.span.Now.MC
		if k.board.Moisture > 0 {
			mc = k.board.Moisture
		}
		w, e := woodOf(k.board.Species, 1).Weight(k.width*b.n.Length*b.n.Thickness*share, mc)
		if e != nil {
			return kg, how, e
		}
		kg.Value, kg.Lo, kg.Hi = kg.Value+w.Value, kg.Lo+w.Lo, kg.Hi+w.Hi
		if how == nil {
			how = w.Working()
		}
	}
	return kg, how, nil
}

// Weight prints a weight.
func (s *Session) Weight(kg float64) string {
	if s.Units() == unit.Inch {
		return say.F("%.0f lb", kg/0.45359237)
	}
	if kg < 10 {
		return say.F("%.1f kg", kg)
	}
	return say.F("%.0f kg", kg)
}

func (b *behaving) stackSection() (Section, bool) {
	list := b.pieces()
	if len(list) == 0 || b.trouble != nil {
		return Section{}, false
	}
	out := Section{ID: "stack", Title: say.T("The stack before glue-up"), Lead: say.T("Nothing in the readings speaks against gluing it.")}
	out.Rows = []Row{{Name: say.T("Strip"), Values: []string{say.T("board"), say.T("moisture")}, Head: true}}
	for _, k := range list {
		mc := say.T("not read")
		if k.board.Moisture > 0 {
			mc = MC(k.board.Moisture)
		}
		out.Rows = append(out.Rows, Row{Name: k.number, Values: []string{k.board.ID, mc}})
	}
	hard := 0
	for _, f := range b.stack() {
		out.Notes = append(out.Notes, say.Of(f.Text))
		if f.Source != "" || f.Flag != moisture.NoFlag {
			out.How = append(out.How, moisture.Step{Formula: f.Text, Values: []moisture.Value{{Name: say.T("found"), Number: f.Measure}, {Name: say.T("limit"), Number: f.Limit}}, Source: f.Source, Flag: f.Flag})
		}
		if !f.Soft {
			hard++
		}
	}
	switch {
	case hard == 1:
		out.Lead, out.Strong = say.T("One thing speaks against gluing it as it is."), true
	case hard > 1:
		out.Lead, out.Strong = say.F("%d things speak against gluing it as it is.", hard), true
	case len(out.Notes) > 0:
		out.Lead = say.T("Nothing speaks against gluing it, as far as it was read.")
	}
	if kg, how, err := b.weight(); err == nil && kg.Value > 0 {
		out.Rows = append(out.Rows, Row{Name: say.T("Weight of the panel"), Values: []string{"", say.F("about %s", b.s.Weight(kg.Value))}})
		out.How = append(out.How, how...)
		if kg.Value > 25 { // common practice, no source: what one person should not lift alone
			out.Notes = append(out.Notes, say.T("Too heavy to turn over alone: fetch a second person."))
		}
	}
	return out, true
}
