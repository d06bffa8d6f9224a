package session

import (
	"math"
	"strings"

	"heartside/layout/wood/depth"
	"heartside/layout/wood/moisture"
	"heartside/model/say"
	"heartside/model/unit"
)

// planeSection tells what planing does to what the strips show.
func (b *behaving) planeSection() (Section, bool) {
	list := b.s.StripPlanings(b.n.ID)
	if len(list) == 0 {
		return Section{}, false
	}
	out := Section{ID: "planing", Title: say.T("Planing")}
	planed, pending := 0, 0
	most := StripPlaning{Move: -1}
	for _, k := range list {
		switch {
		case !(k.Stock.All() > 0):
			continue
		case k.Pending:
			pending++
		case k.Known && k.Move > most.Move:
			most = k
		}
		planed++
	}
	switch {
	case planed == 0:
		out.Lead = say.F("The boards are no thicker than the panel, %s: nothing is planed off, and the sawn faces are what shows.", b.s.Len(b.n.Thickness))
		return out, true
	case pending > 0:
		out.Lead = say.T("What lies below the sawn faces is being worked out.")
	case most.Move < 0:
		out.Lead = say.T("What lies below the sawn faces is not known: both faces of a board must be.")
	case most.Move < 0.05:
		out.Lead = say.T("Planing moves no sap line.")
	default:
		out.Lead = say.F("The sap line moves most on strip %s: %s on the show face.", most.Number, b.s.Fine(most.Move))
	}
	out.Rows = b.planeRows(list)
	out.Notes = b.planeNotes(list)
	out.How = b.planeHow(list)
	return out, true
}

// planeRows are the table: what comes off each board, then what that does.
func (b *behaving) planeRows(list []StripPlaning) []Row {
	s := b.s
	bare := func(mm float64) string { return strings.TrimSuffix(s.Fine(mm), " mm") }
	size := func(mm float64) string { return strings.TrimSuffix(s.Len(mm), " mm") }
	name := say.T("Planed off")
	if s.Units() != unit.Inch {
		name = say.T("Planed off, mm")
	}
	rows := []Row{{Name: name, Values: []string{say.T("board"), say.T("face 1"), say.T("face 2"), say.T("after glue"), say.T("finished")}, Head: true}}
	for _, k := range list {
		rows = append(rows, Row{Name: k.Number, Values: []string{size(k.Stock.Thickness), bare(k.Stock.Off[0]), bare(k.Stock.Off[1]), bare(k.Stock.After), size(k.Stock.Finished)}})
	}
	rows = append(rows, Row{Name: say.T("Light wood shown"), Values: []string{say.T("sawn"), say.T("finished"), say.T("line moves")}, Head: true})
	for _, k := range list {
		moves := say.T("not known")
		switch {
		case k.Pending:
			moves = "…"
		case k.Known:
			moves = s.Fine(k.Move)
		}
		rows = append(rows, Row{Name: k.Number + ": " + k.Board + ", " + k.Show, Values: []string{Percent(k.Sawn), Percent(k.Finished), moves}})
	}
	return rows
}

// planeNotes say how the lines are known, and what to do.
func (b *behaving) planeNotes(list []StripPlaning) []string {
	type group struct {
		words   string
		numbers []string
	}
	var groups []group
	add := func(words, number string) {
		for i := range groups {
			if groups[i].words == words {
				groups[i].numbers = append(groups[i].numbers, number)
				return
			}
		}
		groups = append(groups, group{words, []string{number}})
	}
	for _, k := range list {
		switch {
		case !(k.Stock.All() > 0) || k.Pending:
		case k.Known:
			add(b.s.HowKnown(k.Note), k.Number)
		default:
			add(say.T("not known, since both faces of its board must be; the sawn face is read"), k.Number)
		}
	}
	var out []string
	for _, g := range groups {
		word := say.T("Strip ")
		if len(g.numbers) > 1 {
			word = say.T("Strips ")
		}
		out = append(out, word+strings.Join(g.numbers, ", ")+": "+g.words+".")
	}
	out = append(out, say.T("What comes off the panel after glue-up is taken to be half from each face."))
	for _, k := range list {
		if k.Stock.Chosen {
			out = append(out, say.T("What comes off which face was chosen for some strips; the others give half to each."))
			break
		}
	}
	return append(out, say.T("Skim both faces before you cut to the layout and look again: correct the zones where the wood shows something else."))
}

// planeHow is how the line below the faces is worked out.
func (b *behaving) planeHow(list []StripPlaning) moisture.Working {
	var out moisture.Working
	k := firstPlaned(list)
	if k == nil {
		return nil
	}
	t := k.Stock.Taken()
	z := t[0]
	if k.Up == 2 {
		z = k.Stock.Thickness - t[1]
	}
	mm := func(name string, v float64) moisture.Value { return moisture.Value{Name: name, Number: v, Unit: "mm"} }
	out = append(out, moisture.Step{
		Formula: say.T("off a face = what was chosen for it, else half of (board - panel - after glue-up); after glue-up half from each face"),
		Values:  []moisture.Value{mm(say.T("board"), k.Stock.Thickness), mm(say.T("panel"), k.Stock.Finished), mm(say.T("after glue-up"), k.Stock.After), mm(say.T("off face 1 in all"), t[0]), mm(say.T("off face 2 in all"), t[1])},
		Flag:    moisture.Choice})
	how := map[depth.How]bool{}
	worst := map[depth.How]float64{}
	for i := range list {
		if x := &list[i]; x.Known && x.Stock.All() > 0 {
			how[x.Note.How] = true
			worst[x.Note.How] = math.Max(worst[x.Note.How], x.Note.Uncertain)
		}
	}
	about := func(h depth.How) []moisture.Value {
		if worst[h] > 0 {
			return []moisture.Value{mm(say.T("give or take, the most of the strips"), math.Round(worst[h]*10)/10)}
		}
		return nil
	}
	if how[depth.Between] || how[depth.About] {
		out = append(out, moisture.Step{
			Formula: say.T("a place at depth z below face 1 of a board T thick is sapwood where (1 - z/T) d1 + (z/T) d2 > 0; d1 and d2 are how far it lies into the sapwood of face 1 and of face 2, across the board, less than 0 in heartwood, held to 40 mm"),
			Values:  append([]moisture.Value{{Name: say.F("strip %s: z/T", k.Number), Number: z / k.Stock.Thickness}, mm("z", z), mm("T", k.Stock.Thickness)}, about(depth.Between)...),
			Source:  say.T("rule of the project"), Flag: moisture.Choice})
	}
	if how[depth.Between] || how[depth.About] {
		out = append(out, moisture.Step{
			Formula: say.T("a line that both faces show is bent outward as heartwood of 90 mm radius would be where no pith is told, and left as the nearer face shows it where it stands within 15 degrees of upright; where one face shows none it lies as far beyond the edge as the sections beside it say"),
			Source:  say.T("rule of the project"), Flag: moisture.Choice})
	}
	if how[depth.About] {
		out = append(out, moisture.Step{
			Formula: say.T("where the pith is told, the line is drawn about it: its angle and its radius go over from what face 1 shows to what face 2 does, so that it runs through both sawn lines"),
			Values:  about(depth.About), Source: say.T("rule of the project"), Flag: moisture.Choice})
	}
	if how[depth.OneFace] || how[depth.Circle] {
		out = append(out, moisture.Step{
			Formula: say.T("heartwood at distance h from the pith is 2 sqrt(R R - h h) wide, R being its radius"),
			Values:  append(about(depth.OneFace), about(depth.Circle)...), Source: say.T("geometry of a circle"), Flag: moisture.Derived})
	}
	out = append(out, moisture.Step{
		Formula: say.T("knots and other flaws, and places not seen, are those of the nearer sawn face"),
		Flag:    moisture.Choice})
	out = append(out, moisture.Step{
		Formula: say.T("the line moves by the greatest difference in sapwood width along either edge of the strip, sawn and finished, looked at every 5 mm"),
		Flag:    moisture.Choice})
	return out
}

// firstPlaned is the strip whose numbers stand in the working.
func firstPlaned(list []StripPlaning) *StripPlaning {
	for i := range list {
		if list[i].Stock.All() > 0 && list[i].Known {
			return &list[i]
		}
	}
	return nil
}
