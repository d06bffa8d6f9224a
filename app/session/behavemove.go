package session

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/moisture"
	"heartside/layout/wood/movement"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
)

// woodOf is a wood of the table as the movement takes it.
func woodOf(id string, factor float64) movement.Wood {
	sp := catalog.Find(id)
	n := func(v catalog.Value) movement.Number {
		return movement.Number{Value: v.Value, Flag: moisture.Flag(v.Flag)}
	}
	return movement.Wood{
		Name: speciesName(sp, id),
		CT:   n(sp.Move.Tangential), CR: n(sp.Move.Radial),
		ST: n(sp.Shrink.Tangential), SR: n(sp.Shrink.Radial), SV: n(sp.Shrink.Volume),
		FSP: movement.FSP(id), SapFactor: factor, SG12: n(sp.SG12),
		ET: n(sp.Stiff.TangentialMPa), ER: n(sp.Stiff.RadialMPa),
	}
}

func speciesName(sp catalog.Species, id string) string {
	if sp.Known() {
		return say.Of(sp.Name)
	}
	return id
}

// pithAt returns where the pith lies in a board's section x mm from the marked
// end: (across, depth). Between the places given it runs straight, before the
// first and after the last it keeps on as there.
func pithAt(b *model.Board, x float64) (geom.Point, bool) {
	if len(b.Pith) == 0 {
		return geom.Point{}, false
	}
	at := func(p model.Pith) geom.Point { return geom.Pt(p.Across, p.Depth) }
	before, after := -1, -1
	for i, p := range b.Pith {
		if !p.HasX {
			continue
		}
		if p.X <= x && (before < 0 || p.X > b.Pith[before].X) {
			before = i
		}
		if p.X >= x && (after < 0 || p.X < b.Pith[after].X) {
			after = i
		}
	}
	switch {
	case before < 0 && after < 0:
		return at(b.Pith[0]), true
	case before < 0:
		return at(b.Pith[after]), true
	case after < 0 || before == after:
		return at(b.Pith[before]), true
	}
	p, q := b.Pith[before], b.Pith[after]
	if q.X == p.X {
		return at(p), true
	}
	t := (x - p.X) / (q.X - p.X)
	return at(p).Add(at(q).Sub(at(p)).Mul(t)), true
}

// laidStrip is a strip of a panel as its section lies in its board.
type laidStrip struct {
	strip  *face.Strip
	board  *model.Board
	number string
	width  float64    // within the finished panel, mm
	pith   geom.Point // across from the marked edge, below sawn face 1
	known  bool       // the pith is known
	from   float64    // across, where the strip begins at its middle
	off    [2]float64
	sap    float64 // share of sapwood, mean of both faces
	above  float64 // on the show face
	below  float64 // on the back
}

// pieces are the strips of the panel that lie on boards, front to back, each as
// wide as it is in the finished panel.
func (b *behaving) pieces() []laidStrip {
	var out []laidStrip
	for i := range b.fp.Strips {
		st := &b.fp.Strips[i]
		if st.Board == nil {
			continue
		}
		y := b.fp.StripY(i)
		v0, v1 := math.Max(0, -y), math.Min(st.W, b.fp.Width-y) // what trimming leaves of it
		w := v1 - v0
		if w <= 0 {
			continue
		}
		k := laidStrip{strip: st, board: b.p.Board(st.Board.ID), number: b.s.Number(b.n.ID, st.ID), width: w, off: st.Taken(b.fp.Thickness)}
		if k.board == nil {
			continue
		}
		mid := st.PlaceToFace(1).Apply(geom.Pt(st.L/2, (v0+v1)/2))
		k.from = mid.Y - w/2
		k.pith, k.known = pithAt(k.board, mid.X)
		if i < len(b.read.Strips) {
			k.above, k.below = b.read.Strips[i].Light.Value, b.read.Strips[i].BackLight.Value
			k.sap = (k.above + k.below) / 2
		}
		out = append(out, k)
	}
	return out
}

// rings says how the rings lie in the laidStrip.
func (k *laidStrip) rings() movement.Rings {
	if k.known {
		return movement.FromPith(k.pith, geom.R(k.from, k.off[0], k.from+k.width, k.board.Thickness-k.off[1]))
	}
	if k.board.Bark == model.BarkNone {
		return movement.AtAngle(90)
	}
	return movement.Rings{}
}

// movement sums the movement of the panel's strips. notes say what it rests on.
func (b *behaving) movement() (*movement.Panel, []string, error) {
	if b.trouble != nil {
		return nil, nil, b.trouble
	}
	list := b.pieces()
	if len(list) == 0 {
		return nil, nil, say.Errorf("no strip of %s lies on a board yet", b.n.ID)
	}
	var strips []movement.Strip
	var unknown, unread int
	var total float64
	for i := range list {
		k := &list[i]
		s := movement.Strip{ID: k.number, Wood: woodOf(k.board.Species, b.p.Behaviour.Factor()), Width: k.width, SapShare: k.sap, Rings: k.rings()}
		if k.board.Moisture > 0 {
			mc := k.board.Moisture
			s.MC = &mc
		} else {
			unread++
		}
		if !s.Rings.Known() {
			unknown++
		}
		total += k.width
		strips = append(strips, s)
	}
	var notes []string
	if rest := b.n.Width - total; rest > 1 {
		strips = append(strips, movement.Strip{ID: say.T("not placed yet"), Wood: strips[len(strips)-1].Wood, Width: rest})
		notes = append(notes, say.F("The strips placed so far make %s of its %s; the rest is taken as %s, flat-sawn.", b.s.Len(total), b.s.Len(b.n.Width), strips[0].Wood.Name))
	}
	m, err := movement.Sum(strips, b.span, movement.DefaultOptions())
	if err != nil {
		return nil, nil, err
	}
	if unknown > 0 {
		notes = append(notes, say.F("%s: how the rings lie is not known, so flat-sawn is taken, which moves most. An end photographed, or the pith entered, settles it.", ofStrips(unknown, len(list))))
	}
	if unread > 0 {
		notes = append(notes, say.F("%s: no moisture reading, so the wood is taken as settled in the air now.", ofStrips(unread, len(list))))
	}
	return m, notes, nil
}

func ofStrips(n, all int) string {
	switch {
	case n == all && all == 1:
		return say.T("The strip")
	case n == all:
		return say.T("All strips")
	case n == 1:
		return say.F("1 of %d strips", all)
	}
	return say.F("%d of %d strips", n, all)
}

func (b *behaving) widthSection() (Section, bool) {
	out := Section{ID: "width", Title: say.T("Width through the year")}
	m, notes, err := b.movement()
	if err != nil {
		out.Lead = say.Upper(err.Error()) + "."
		return out, true
	}
	dry, wet := m.Change(moisture.Dry), m.Change(moisture.Wet)
	out.Lead = say.F("%s wide today; %s in the driest season, %s in the dampest: it moves %s in all.",
		b.s.Len(m.Now), b.s.Len(m.Dry.Value), b.s.Len(m.Wet.Value), b.s.Fine(math.Abs(m.Wet.Value-m.Dry.Value)))
	out.Rows = []Row{
		{Values: []string{say.T("today"), say.T("driest"), say.T("dampest")}, Head: true},
		{Name: say.T("Width"), Values: []string{b.s.Len(m.Now), b.s.Len(m.Dry.Value), b.s.Len(m.Wet.Value)}},
		{Name: say.T("Change"), Values: []string{"", b.s.signed(dry.Value), b.s.signed(wet.Value)}},
		{Name: say.T("single boards may differ:"), Values: []string{"", b.s.between(dry), b.s.between(wet)}, Quiet: true},
	}
	out.Notes = append(notes, say.Of(movement.AverageText))
	if f := b.p.Behaviour.Factor(); f != 1 {
		out.Notes = append(out.Notes, say.F("Sapwood is taken to move %.2f times as heartwood does: a factor entered in the settings.", f))
	}
	for i := range m.Strips {
		if i == 0 || m.Strips[i].Strip.Wood.Name != m.Strips[i-1].Strip.Wood.Name {
			for _, step := range m.Strips[i].Working(moisture.Dry, m.Options) {
				step.Formula = say.F("Strip %s, driest: %s", m.Strips[i].Strip.ID, say.Of(step.Formula))
				out.How = append(out.How, step)
			}
		}
	}
	out.How = append(out.How, m.Working(moisture.Dry)...)
	out.How = append(out.How, m.Working(moisture.Wet)...)
	return out, true
}
