package sheet

import (
	"fmt"
	"math"

	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// tallyRow is how high a row to write in is, mm.
const tallyRow = 7.6

// exampleWaste is the waste the need is worked out for on the yard's page. An
// example, no source: the maker's own goes before.
const exampleWaste = 0.30

// yard writes the tally to fill in where boards are bought: what the job needs,
// and rows for boards.
func (b *builder) yard() {
	b.open(true, header{title: say.T("Yard tally"), boxes: []string{say.T("RH %")}}, []mark{
		wordMark(say.T("Face 1"), say.T("the face you look at first")), wordMark("a", say.T("marked edge")), wordMark("b", say.T("other edge")),
		wordMark(say.T("RH"), say.T("humidity of the air")), wordMark(say.T("MC"), say.T("moisture of the wood")), wordMark(say.T("Code"), say.T("changes with the layout")),
	})
	b.em = body
	b.tableWithText(b.needTable(), b.needText())
	t := tallyTable()
	rows := int((b.left() - t.lay(b.f, b.area.W()).full() - 1) / tallyRow)
	if rows < 8 {
		b.more()
		rows = int((b.left() - t.lay(b.f, b.area.W()).full() - 1) / tallyRow)
	}
	for i := range max(rows, 1) {
		row := make([]string, len(t.head))
		row[0] = fmt.Sprint(i + 1)
		t.rows = append(t.rows, row)
	}
	l := t.lay(b.f, b.area.W())
	if free := b.area.W() - total(l.cols); free > 0 {
		for c := range l.cols[1:] {
			l.cols[c+1] += free / float64(len(l.cols)-1)
		}
	}
	_, b.area.Min.Y = l.draw(b.k(), b.area.Min.X, b.area.Min.Y, b.area.Max.Y, 0, true)
}

func tallyTable() *table {
	t := &table{
		name: say.T("Boards"),
		head: []string{"", say.T("Letter"), say.T("Species"), say.T("Length"), say.T("Width"), say.T("Thick-|ness"), say.T("MC %"),
			say.T("Sapwood, face 1|a"), say.T("Face 1|b"), say.T("Sapwood, face 2|a"), say.T("Face 2|b"), say.T("Edges sawn|or waney"), say.T("Knots,|splits"), say.T("Price"), say.T("For"), say.T("Keep"), say.T("Leave")},
		tall: tallyRow,
	}
	n := len(t.head)
	t.left, t.box, t.room = make([]bool, n), make([]bool, n), make([]float64, n)
	for c := 1; c < n; c++ {
		t.box[c], t.room[c] = true, 12
	}
	return t
}

// needTable lists what the job takes: panels and solid parts.
func (b *builder) needTable() *table {
	t := &table{
		name: say.T("What the job needs"),
		head: []string{say.T("For"), say.T("Pieces"), say.T("Finished"), say.T("Longest|blank"), say.T("Planed from|at least"), say.T("Wood, finished")},
		left: []bool{true, false, false, false, false, false},
	}
	a := b.in.Project.Allowances
	for i := range b.in.Panels {
		p := b.in.Panels[i].Panel
		n, long := "–", p.Length+2*a.Ends
		for k := range p.Strips {
			l, _ := blankSize(a, &p.Strips[k])
			long = math.Max(long, l)
		}
		if len(p.Strips) > 0 {
			n = say.Count(len(p.Strips), say.T("strip"), say.T("strips"))
		}
		t.rows = append(t.rows, []string{say.F("panel %s", p.ID), n, b.say.size(p.Length, p.Width, p.Thickness), b.say.bare(long),
			b.say.fine(p.Thickness + a.AfterGlue), unit.FormatVolume(p.Length*p.Width*p.Thickness, b.say.sys)})
	}
	for _, n := range b.in.Project.Parts {
		if n.Kind == model.TestPiece {
			continue
		}
		t.rows = append(t.rows, []string{n.ID, fmt.Sprintf("%d, %s", n.Count, n.Kind.Noun()), b.say.size(n.Length, n.Width, n.Thickness),
			b.say.bare(n.Length + 2*a.Ends), b.say.fine(n.Thickness), unit.FormatVolume(float64(n.Count)*n.Length*n.Width*n.Thickness, b.say.sys)})
	}
	return t
}

// need is the finished wood of the job, mm3.
func (b *builder) need() float64 {
	var v float64
	for i := range b.in.Panels {
		p := b.in.Panels[i].Panel
		v += p.Length * p.Width * p.Thickness
	}
	for _, n := range b.in.Project.Parts {
		if n.Kind == model.TestPiece {
			continue
		}
		v += float64(n.Count) * n.Length * n.Width * n.Thickness
	}
	return v
}

func (b *builder) needText() []paragraph {
	need := b.need()
	return []paragraph{
		{text: say.F("All of it: %s finished. What is bought is need / (1 − waste): with %s waste %s. The share is an example, with no source: planing, edges, ends, knots and unwanted sapwood make yours. Boards of one log match best; a second trip brings wood of another tree.", unit.FormatVolume(need, b.say.sys), unit.FormatPercent(exampleWaste), unit.FormatVolume(need/(1-exampleWaste), b.say.sys)), bullet: "–"},
		{text: say.T("Give each board a letter before anything else and chalk it on the marked end, at the corner of the marked edge, on the face 1 side."), bullet: "–"},
		{text: say.T("Look at both faces and both ends: one good face hides a face that is three quarters sapwood. Measure sapwood at both ends and the middle of each edge; steamed or rough wood looks all alike, so skim a patch."), bullet: "–"},
		{text: say.T("Grading: the current published rules and the seller's written terms."), bullet: "–"},
	}
}
