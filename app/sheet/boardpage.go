package sheet

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/model"
)

// board writes the pages of one board; nothing where nothing is cut from it.
func (b *builder) board(bd *face.Board) {
	parts := b.in.placesOn(bd.ID)
	if len(parts) == 0 {
		return
	}
	l := snapLine(bd)
	cuts := cutList(b.in.Project.Allowances, bd, parts)
	b.open(bd.Length >= bd.Width, b.boardHeader(bd, parts), boardMarks())
	intro, table, text, check := b.boardIntro(l), b.cutTable(l, cuts), b.boardText(bd, parts), b.checkTable(bd, parts)
	need := b.acrossHeight(intro) + b.tableWithTextHeight(table, text) + b.heightsOf(check)
	b.drawBoard(bd, parts, l, cuts, max(b.left()-need, b.left()*0.3))
	b.across(intro)
	b.tableWithText(table, text)
	b.tables(check)
}

func (b *builder) boardHeader(bd *face.Board, parts []place) header {
	h := header{title: "Board " + bd.ID, boxes: []string{"MC %"}}
	h.facts = append(h.facts, speciesName(bd.Species), b.say.size(bd.Length, bd.Width, bd.Thickness))
	if bd.Moisture > 0 {
		h.facts = append(h.facts, fmt.Sprintf("moisture %.1f %%", bd.Moisture))
	}
	switch {
	case bd.BarkFace > 0:
		h.facts = append(h.facts, fmt.Sprintf("face %d is the bark side", bd.BarkFace))
	default:
		if mb := b.in.Project.Board(bd.ID); mb != nil && mb.Bark == model.BarkNone {
			h.facts = append(h.facts, "quarter-sawn: no bark side")
		} else {
			h.facts = append(h.facts, "bark side not known")
		}
	}
	switch bd.Planes {
	case face.PlanesFromMarked:
		h.facts = append(h.facts, "face 1 planes from the marked end")
	case face.PlanesToMarked:
		h.facts = append(h.facts, "face 1 planes to the marked end")
	}
	h.facts = append(h.facts, plural(len(parts), "strip"))
	h.facts = append(h.facts, fmt.Sprintf("chalk %s on the marked end, at the corner of the marked edge, on the face 1 side", bd.ID))
	return h
}

// boardIntro says from where the cuts are measured.
func (b *builder) boardIntro(l snapped) string {
	kerf := b.say.len(b.in.Project.Allowances.Kerf)
	t := "Measured from the marked end and from a line snapped on face 1 " + l.describe(b.say) +
		", never from the edge between. Two points for each cut; saw on the waste side of it, kerf " + kerf + "."
	if l.signed() {
		t += " + lies away from the marked edge, − towards it."
	}
	return t
}

func (b *builder) cutTable(l snapped, cuts []cut) *table {
	t := &table{
		name: "Cuts, in order",
		head: []string{"Cut", "What", "For", "First point|from end", "off line", "Second point|from end", "off line"},
		left: []bool{false, true, true, false, false, false, false},
	}
	for i, c := range cuts {
		if c.p == c.q {
			t.rows = append(t.rows, []string{fmt.Sprint(i + 1), c.what, c.whom, b.say.bare(c.p.X), "across", "–", "–"})
			continue
		}
		t.rows = append(t.rows, []string{
			fmt.Sprint(i + 1), c.what, c.whom,
			b.say.bare(c.p.X), l.offset(b.say, c.p), b.say.bare(c.q.X), l.offset(b.say, c.q),
		})
	}
	return t
}

// checkTable leaves room for what is measured after planing.
func (b *builder) checkTable(bd *face.Board, parts []place) *table {
	t := &table{
		name: "After planing",
		head: []string{"Strip", "Side up", "Marked|end", "Take off", "Sapwood, front edge|as sawn", "as planed", "Sapwood, back edge|as sawn", "as planed", "Within|" + b.say.len(3) + "?"},
		left: []bool{true, true, false, true, false, false, false, false, false},
		box:  []bool{false, false, false, false, false, true, false, true, true},
		room: []float64{0, 0, 0, 0, 0, 30, 0, 30, 14},
	}
	for _, p := range parts {
		n := namesOf(model.RoleOther)
		if p.panel != nil {
			n = namesOf(p.panel.Role)
		}
		front, rear := ownWidths(p.strip)
		end := n.left
		if p.strip.Turned {
			end = n.right
		}
		t.rows = append(t.rows, []string{
			p.label, sideUp(p.strip), end, b.stockOff(bd, p),
			b.say.three(front), "", b.say.three(rear), "", "",
		})
	}
	return t
}

// stockOff says what is taken off which side before gluing.
func (b *builder) stockOff(bd *face.Board, p place) string {
	if p.panel == nil {
		return "–"
	}
	var off [2]float64
	if s, ok := p.panel.Strip(p.strip.ID); ok && s.Off != nil {
		off = *s.Off
	} else {
		spare := bd.Thickness - p.panel.Thickness - b.in.Project.Allowances.AfterGlue
		if spare <= 0 {
			return "nothing"
		}
		off = [2]float64{spare / 2, spare / 2}
	}
	if math.Abs(off[0]-off[1]) < 0.05 {
		return b.say.len(off[0]) + " each side"
	}
	return fmt.Sprintf("%s %s, %s %s", bd.SideName(1), b.say.len(off[0]), bd.SideName(2), b.say.len(off[1]))
}

func (b *builder) boardText(bd *face.Board, parts []place) []paragraph {
	out := []paragraph{
		{text: "After planing", bold: true},
		{text: fmt.Sprintf("Left, middle and right are as the strip lies in its panel, show face up, front edge towards you. Sapwood as sawn is read on the sawn face; planing moves its line. Within %s after planing? If not, enter the new widths and check again.", b.say.len(3)), bullet: "–"},
	}
	if g := guessedFaces(bd); g != "" {
		out = append(out, paragraph{text: g, bullet: "–"})
	}
	if spare := b.spareText(bd, parts); spare != "" {
		out = append(out, paragraph{text: "Left over", bold: true, before: 1.6}, paragraph{text: spare, bullet: "–"})
	}
	return append(out, cautions(b.boardCautions(bd, parts)))
}

func guessedFaces(bd *face.Board) string {
	var g []string
	for f := range bd.Faces {
		if bd.Faces[f].Guessed {
			g = append(g, fmt.Sprintf("face %d", f+1))
		}
	}
	if len(g) == 0 {
		return ""
	}
	return "Not looked at, taken straight through from the other face: " + strings.Join(g, ", ") + "."
}
