package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// solidTable lists the solid parts that are cut from a board, nil where there
// are none: as sawn, as jointed, finished.
func (b *builder) solidTable(parts []place) *table {
	t := &table{
		name: say.T("Solid parts"),
		head: []string{say.T("Part"), say.T("It is a"), say.T("Saw"), say.T("Joint to"), say.T("Finished"), say.T("Thickness"), say.T("Wood wanted")},
		left: []bool{true, true, false, false, false, false, true},
	}
	thick := false
	for _, p := range parts {
		if p.part == nil {
			continue
		}
		n := p.part
		bl, bw := blankSize(b.in.Project.Allowances, p.strip)
		to := b.say.fine(n.Thickness)
		if n.Thickness > p.strip.Board.Thickness {
			to += " *"
			thick = true
		}
		t.rows = append(t.rows, []string{p.label, n.Kind.Noun(), b.say.cell(bl, bw), b.say.cell(p.strip.L, p.strip.W), b.say.cell(n.Length, n.Width), to, woodOfPart(n, b.in.Project.Board(p.strip.Board.ID))})
	}
	if thick {
		t.name += say.T(" (* thicker than the board: glued up of layers)")
	}
	if len(t.rows) == 0 {
		return nil
	}
	return t
}

// woodOfPart says which wood a part is to show: its own wish, else its board's.
func woodOfPart(n *model.Part, b *model.Board) string {
	w := n.Wanted
	if n.Kind == model.TestPiece {
		return say.T("both, to try the finish")
	}
	if w == model.WantDefault && b != nil {
		w = b.Wanted
	}
	switch w {
	case model.WantSap:
		return say.T("sapwood")
	case model.WantBoth:
		return say.T("both")
	}
	return say.T("heartwood")
}

// solidSize writes the size of a part beside its number where there is room.
func (d *boardDrawing) solidSize(p place, m geom.Affine) {
	if p.part == nil {
		return
	}
	st := aligned(style(least), render.Middle)
	s := d.b.say.cell(p.strip.L, p.strip.W)
	scale := math.Abs(d.m.A)
	high := d.b.f.CapHeight(st)
	if p.strip.W*scale < high+2 {
		return
	}
	for _, t := range [...]float64{0.22, 0.78, 0.35, 0.65, 0.5} {
		c := m.Apply(p.strip.ToBoard().Apply(geom.Pt(p.strip.L*t, p.strip.W/2)))
		y := c.Y + high/2
		r := textBox(d.b.f, c.X, y, s, st).Inset(-0.8)
		if r.W() > 0.5*p.strip.L*scale || touches(r, d.taken) || !d.rows().Contains(r.Min) || !d.rows().Contains(r.Max) {
			continue
		}
		d.taken = append(d.taken, r)
		d.plates = append(d.plates, platedText{geom.Pt(c.X, y), s, st})
		return
	}
}
