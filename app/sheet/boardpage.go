package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// board writes the pages of one board; nothing where nothing is cut from it.
func (b *builder) board(bd *face.Board) {
	parts := b.in.placesOn(bd.ID)
	if len(parts) == 0 {
		return
	}
	l := snapLine(bd)
	cuts := cutList(b.in.Project.Allowances, bd, parts)
	l.zero = cuts[0].p.X
	intro, table, text, check := b.boardIntro(l, cuts), b.cutTable(l, cuts), b.boardText(bd, parts, l, cuts), b.afterTables(bd, parts)
	need := func() float64 {
		return b.acrossHeight(intro) + b.tableWithTextHeight(table, text) + b.heightsOf(check...)
	}
	high := func(share float64) func() float64 {
		return func() float64 {
			return max(min(0.9*b.boardHeight(bd, parts, 1), b.left()*share), b.boardHeight(bd, parts, smallestBoard))
		}
	}
	inside := func() float64 { return b.boardInside(bd, parts) }
	lying, h, marks := bd.Length >= bd.Width, b.boardHeader(bd, parts), b.boardMarks(parts)
	try := func(need func() float64, wishes ...func() float64) bool {
		if b.openFitting(lying, h, marks, need, wishes...) {
			return true
		}
		b.drop()
		return false
	}
	if try(need, inside) || try(need, high(0.42), high(0.3)) || try(need, high(0.26)) {
		b.drawBoardOver(bd, parts, l, cuts, need())
		b.across(intro)
		b.tableWithText(table, text)
		b.tables(check...)
		return
	}
	// What is sawn on one page, what comes after on the next.
	saw := func() float64 { return b.acrossHeight(intro) + b.heightsOf(table) }
	if try(saw, inside) || try(saw, high(0.42), high(0.3), high(0.26)) {
		b.drawBoardOver(bd, parts, l, cuts, saw())
	} else {
		b.open(lying, h, marks)
		b.largest(saw, b.left()*0.55)
		b.drawBoard(bd, parts, l, cuts, max(b.left()-saw(), b.left()*0.3))
	}
	b.across(intro)
	b.tables(table)
	b.more()
	b.largest(func() float64 { return b.heightsOf(check...) + b.textHeight(text) }, b.left())
	b.tables(check...)
	b.paragraphs(text)
}

func (b *builder) boardHeader(bd *face.Board, parts []place) header {
	h := header{title: say.F("Board %s", bd.ID), boxes: []string{say.T("MC %")}}
	if mb := b.in.Project.Board(bd.ID); mb != nil && mb.Spoiled {
		h.facts = append(h.facts, say.T("SPOILED: nothing more is cut from it"))
	}
	h.facts = append(h.facts, speciesName(bd.Species), b.say.size(bd.Length, bd.Width, bd.Thickness))
	h.facts = append(h.facts, b.goneFacts(bd)...)
	if bd.Moisture > 0 {
		h.facts = append(h.facts, say.F("moisture %.1f %%", bd.Moisture))
	}
	switch {
	case bd.BarkFace > 0:
		h.facts = append(h.facts, say.F("face %d is the bark side", bd.BarkFace))
	default:
		if mb := b.in.Project.Board(bd.ID); mb != nil && mb.Bark == model.BarkNone {
			h.facts = append(h.facts, say.T("quarter-sawn: no bark side"))
		} else {
			h.facts = append(h.facts, say.T("bark side not known"))
		}
	}
	switch bd.Planes {
	case face.PlanesFromMarked:
		h.facts = append(h.facts, say.T("face 1 planes from the marked end"))
	case face.PlanesToMarked:
		h.facts = append(h.facts, say.T("face 1 planes to the marked end"))
	}
	h.facts = append(h.facts, partsFact(parts)...)
	h.facts = append(h.facts, say.F("chalk %s on the marked end, at the corner of the marked edge, on the face 1 side", bd.ID))
	return h
}

// isTest reports whether a place is of a test piece.
func isTest(p place) bool { return p.part != nil && p.part.Kind == model.TestPiece }

// partsFact says which panels a board's strips go to: "A1 and A2 for panel top".
func partsFact(parts []place) []string {
	var out []string
	for i := 0; i < len(parts); {
		var names []string
		k := i
		for ; k < len(parts) && parts[k].panel == parts[i].panel && (parts[k].part == nil) == (parts[i].part == nil) && isTest(parts[k]) == isTest(parts[i]); k++ {
			names = append(names, parts[k].number)
		}
		switch m := parts[i].panel; {
		case m != nil:
			out = append(out, say.F("%s for panel %s", say.List(names), m.ID))
		case isTest(parts[i]):
			out = append(out, say.F("%s to try the finish on heartwood and sapwood", say.List(names)))
		case parts[i].part != nil && len(names) == 1:
			out = append(out, say.F("%s is a solid part", names[0]))
		case parts[i].part != nil:
			out = append(out, say.F("%s are solid parts", say.List(names)))
		default:
			out = append(out, say.F("%s for no panel yet", say.List(names)))
		}
		i = k
	}
	return out
}

// boardIntro says from where the cuts are measured.
func (b *builder) boardIntro(l snapped, cuts []cut) string {
	kerf := b.say.len(b.in.Project.Allowances.Kerf)
	off := say.T("as little as will do")
	for i := range cuts {
		if cuts[i].what == cutSquare && cuts[i].p.X > l.end {
			off = b.say.len(cuts[i].p.X - l.end)
		}
	}
	t := say.F("Cut 1 squares the marked end and takes %s off; where checks go deeper, move everything along. Lengths are measured from it, widths from a line snapped on face 1 %s, never from the edge itself. Two points for each cut; saw on the waste side of it, kerf %s.", off, l.describe(b.say), kerf)
	if l.signed() {
		t += say.T(" + lies away from the marked edge, − towards it.")
	}
	crossed, shared := false, false
	for i := range cuts {
		crossed = crossed || cuts[i].what == cutAcross
		shared = shared || !cuts[i].across() && strings.Contains(cuts[i].whom, ", ")
	}
	if crossed {
		t += say.T(" A cross-cut makes the ends that meet it; its kerf lies beyond its line.")
	}
	if shared {
		t += say.T(" A cut for two lies on the line of the first.")
	}
	return t
}

func (b *builder) cutTable(l snapped, cuts []cut) *table {
	t := &table{
		name: say.T("Cuts, in order"),
		head: []string{say.T("Cut"), say.T("What"), say.T("For"), say.T("First point|from cut 1"), say.T("off line"), say.T("Second point|from cut 1"), say.T("off line")},
		left: []bool{false, true, true, false, false, false, false},
	}
	none := map[string]string{}
	for i := range cuts {
		c := &cuts[i]
		switch {
		case c.n == 0:
			if none[c.what] != "" {
				none[c.what] += ", "
			}
			none[c.what] += c.whom
		case c.what == cutSquare:
			t.rows = append(t.rows, []string{fmt.Sprint(c.n), c.name(), say.T("all"), b.say.bare(0), say.T("across"), "–", "–"})
		case c.across():
			t.rows = append(t.rows, []string{fmt.Sprint(c.n), c.name(), c.whom, l.along(b.say, c.p.X), say.T("across"), "–", "–"})
		default:
			t.rows = append(t.rows, []string{
				fmt.Sprint(c.n), c.name(), c.whom,
				l.along(b.say, c.p.X), l.offset(b.say, c.p), l.along(b.say, c.q.X), l.offset(b.say, c.q),
			})
		}
	}
	for _, what := range [...]string{noRip, noEnd} {
		if whom := none[what]; whom != "" {
			t.rows = append(t.rows, []string{"–", (&cut{what: what}).name(), whom, "–", "–", "–", "–"})
		}
	}
	return t
}

// afterTables are what is measured after planing, and the solid parts.
func (b *builder) afterTables(bd *face.Board, parts []place) []*table {
	var out []*table
	if strips := stripsOf(parts); len(strips) > 0 {
		out = append(out, b.checkTable(bd, strips))
	}
	if t := b.solidTable(parts); t != nil {
		out = append(out, t)
	}
	return out
}

// checkTable leaves room for what is measured after planing.
func (b *builder) checkTable(bd *face.Board, parts []place) *table {
	t := &table{
		name: say.T("After planing"),
		head: []string{say.T("Strip"), say.T("Panel"), say.T("Side up"), say.T("Marked|end"), say.T("Take stock off"), say.T("Nicks"),
			say.T("Sapwood, front edge|as sawn"), say.T("expected"), say.T("found"),
			say.T("Sapwood, back edge|as sawn"), say.T("expected"), say.T("found"), say.F("Within|%s?", b.say.len(tellApart))},
		left: []bool{true, true, true, false, true, false, false, false, false, false, false, false, false},
		box:  []bool{8: true, 11: true, 12: true},
		room: []float64{8: 20, 11: 20, 12: 12},
	}
	nicks, one, planed := false, true, false
	for i := range parts {
		p := parts[i]
		one = one && p.panel == parts[0].panel
		n, panel := namesOf(model.RoleOther), "–"
		if p.panel != nil {
			n, panel = namesOf(p.panel.Role), p.panel.ID
		}
		sawn := sawnSap(p.strip)
		front, rear := "", ""
		if p.strip.Planed != nil {
			planed := readSap(p.strip)
			front, rear = b.say.three(planed.front), b.say.three(planed.rear)
		}
		end := n.left.Word
		if p.strip.Turned {
			end = n.right.Word
		}
		nicks = nicks || b.nicks[p.strip] > 0
		expect := [2]string{"–", "–"}
		if p.planed != nil {
			e := sawnSap(p.planed)
			expect, planed = [2]string{b.say.three(e.front), b.say.three(e.rear)}, true
		}
		t.rows = append(t.rows, []string{
			p.label, panel, side(p.strip), end, b.planeTo(bd, p), nickText(b.nicks[p.strip]),
			b.say.three(sawn.front), expect[0], front, b.say.three(sawn.rear), expect[1], rear, "",
		})
	}
	if !planed {
		t.drop(10)
		t.drop(7)
	}
	if !nicks {
		t.drop(5)
	}
	if one {
		t.drop(1) // the head of the page names it
	}
	return t
}

// planeTo says to what thickness a strip is planed before gluing, and what of
// it comes off which side.
func (b *builder) planeTo(bd *face.Board, p place) string {
	if p.panel == nil {
		return "–"
	}
	to := p.panel.Thickness + b.in.Project.Allowances.AfterGlue
	if bd.Thickness <= to {
		return say.T("nothing off")
	}
	s := *p.strip
	s.Board = bd
	if m, ok := p.panel.Strip(s.ID); ok && m.Off != nil {
		s.Off = face.Off{Set: true, Face: *m.Off}
	}
	off := s.Taken(to)
	if math.Abs(off[0]-off[1]) < 0.05 {
		return say.F("%s, half from each side, to %s", b.say.fine(off[0]+off[1]), b.say.fine(to))
	}
	first, second := 0, 1 // the bark side first
	if bd.BarkFace == 2 {
		first, second = 1, 0
	}
	return say.F("%s %s, %s %s, to %s", say.Of(bd.SideName(first+1)), b.say.fine(off[first]), say.Of(bd.SideName(second+1)), b.say.fine(off[second]), b.say.fine(to))
}

func (b *builder) boardText(bd *face.Board, parts []place, l snapped, cuts []cut) []paragraph {
	var out []paragraph
	if len(stripsOf(parts)) > 0 {
		out = append(out, paragraph{text: say.T("After planing"), bold: true},
			paragraph{text: say.F("Left, middle and right are as the strip lies in its panel, show face up, front edge towards you. Sapwood as sawn is read on the sawn face; planing moves its line.%s Write what you find. Within %s? If not, enter it and check again.", b.expectText(parts), b.say.len(tellApart)), bullet: "–"})
	}
	for _, x := range b.in.Loose {
		if slices.Contains(x.Boards, bd.ID) {
			out = append(out, paragraph{text: x.Title + ". " + x.Text, bullet: "!"})
		}
	}
	if g := guessedFaces(bd); g != "" {
		out = append(out, paragraph{text: g, bullet: "–"})
	}
	for _, t := range b.measuredBelow(parts) {
		out = append(out, paragraph{text: t, bullet: "–"})
	}
	for _, t := range b.notReady(parts) {
		out = append(out, paragraph{text: t, bullet: "–"})
	}
	if t := b.nickedText(parts); t != "" {
		out = append(out, paragraph{text: t, bullet: "–"})
	}
	if spare := b.spareText(bd, parts, l, cuts); spare != "" {
		out = append(out, paragraph{text: say.T("Left over"), bold: true, before: 1.6}, paragraph{text: spare, bullet: "–"})
	}
	return append(out, cautions(b.boardCautions(bd, parts)))
}

// expectText says what the widths expected after planing are.
func (b *builder) expectText(parts []place) string {
	for i := range parts {
		if parts[i].planed != nil {
			return say.T(" Expected is the finished face, worked out between the two sawn ones; what comes off after glue-up moves it a little.")
		}
	}
	return ""
}

// measuredBelow tells of widths measured after planing on the face that does
// not show as the strip lies now.
func (b *builder) measuredBelow(parts []place) []string {
	var out []string
	for _, p := range parts {
		if p.panel == nil {
			continue
		}
		s, ok := p.panel.Strip(p.strip.ID)
		if !ok || s.Planed == nil || s.MeasuredAsShown() {
			continue
		}
		side := say.Of(p.strip.Board.SideName(s.Planed.Face))
		out = append(out, say.F("%s was measured after planing on its %s, which lies down now: not used. Measure the face that shows.", p.label, side))
	}
	return out
}

// notReady names the panels with empty places that strips are sawn for.
func (b *builder) notReady(parts []place) []string {
	var out []string
	for i := range b.in.Panels {
		p := b.in.Panels[i].Panel
		n := emptyPlaces(p)
		for _, q := range parts {
			if n > 0 && q.panel != nil && q.panel.ID == p.ID {
				out = append(out, say.F("Panel %s: %s.", p.ID, emptyText(n)))
				break
			}
		}
	}
	return out
}

func emptyPlaces(p *face.Panel) int {
	n := 0
	for i := range p.Strips {
		if p.Strips[i].Board == nil {
			n++
		}
	}
	return n
}

func emptyText(n int) string {
	return say.F("%s empty, not ready to cut", say.Count(n, say.T("place"), say.T("places")))
}

func guessedFaces(bd *face.Board) string {
	var g []string
	for f := range bd.Faces {
		if bd.Faces[f].Guessed {
			g = append(g, say.F("face %d", f+1))
		}
	}
	if len(g) == 0 {
		return ""
	}
	return say.F("Not looked at, taken straight through from the other face: %s.", strings.Join(g, ", "))
}
