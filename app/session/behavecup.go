package session

import (
	"math"

	"heartside/layout/wood/cup"
	"heartside/model"
	"heartside/model/say"
)

// steady is the modulus across the grain where the table has none: the mean
// ratio of the table's rows to a usual stiffness along the grain, N/mm2. Cup
// itself does not depend on it.
const steady = 0.06 * 1.10 * 11000

// cupWays are the ways of laying up in words.
func cupWays(n cup.LayupName) string {
	switch n {
	case cup.LaidHeartUp:
		return say.T("All heart side up")
	case cup.LaidBarkUp:
		return say.T("All bark side up")
	case cup.LaidAlternate:
		return say.T("Heart and bark by turns")
	case cup.LaidBestFace:
		return say.T("Least unwanted wood up")
	}
	return say.T("As laid")
}

// barkUp says how the bark side lies in the panel.
func (k *laidStrip) barkUp() cup.Bark {
	bark := 0
	switch k.board.Bark {
	case model.BarkFace1:
		bark = 1
	case model.BarkFace2:
		bark = 2
	case model.BarkNone:
		return cup.BarkBeside
	default:
		return cup.BarkUnknown
	}
	if k.strip.UpFace() == bark {
		return cup.BarkUp
	}
	return cup.BarkDown
}

// laid is a strip as the cup takes it.
func (b *behaving) laid(k *laidStrip) (cup.Laid, error) {
	t := b.n.Thickness
	if t <= 0 {
		return cup.Laid{}, say.Error("the panel has no thickness yet")
	}
	s := cup.Strip{ID: k.number, Section: cup.Section{Width: k.width, Thickness: t}, PithKnown: k.known, Bark: k.barkUp()}
	if k.known {
		var err error
		s.Section, err = cup.Cut{Pith: k.pith, From: k.from, Width: k.width, Off: k.off[0], Thickness: t, Up: k.strip.UpFace(), Turned: k.strip.Turned}.Section()
		if err != nil {
			return cup.Laid{}, err
		}
	}
	w := woodOf(k.board.Species, b.p.Behaviour.Factor())
	out := cup.Laid{Strip: s, Radial: w.CR.Value, Tangential: w.CT.Value}
	from := b.span.Now.MC
	if k.board.Moisture > 0 {
		from = k.board.Moisture
	}
	for _, at := range []struct {
		mc float64
		to *cup.Change
	}{{b.span.Dry.MC, &out.Dry}, {b.span.Wet.MC, &out.Wet}} {
		e, err := w.Strain(from, at.mc)
		if err != nil {
			return out, err
		}
		at.to.Strains = cup.Strains{R: e.Radial, T: e.Tangential}
		if f := b.p.Behaviour.Factor(); f != 1 {
			// Sapwood of the two faces is taken to reach half way down: the
			// shares of both faces as layers of their own.
			sap := cup.Sap{FromBack: []float64{k.below / 2}, FromShow: []float64{k.above / 2}}
			bend, err := cup.SapBend(sap, t, e.At(k.rings().Flat()), f)
			if err != nil {
				return out, err
			}
			at.to.Bend = bend.Kappa
		}
	}
	if out.Tangential == 0 { // a wood known by its shrinkage only
		e, err := w.Strain(10, 11)
		if err != nil {
			return out, err
		}
		out.Tangential, out.Radial = e.Tangential, e.Radial
	}
	return out, nil
}

// best says which strips are to be rolled over to show less unwanted wood.
func (b *behaving) best() []bool {
	var out []bool
	for i := range b.fp.Strips {
		if b.fp.Strips[i].Board == nil || i >= len(b.read.Strips) {
			continue
		}
		r := &b.read.Strips[i]
		d := r.Light.Value - r.BackLight.Value
		if b.fp.Wanted.Wood() != 0 { // sapwood is wanted
			d = -d
		}
		out = append(out, d > 0.005)
	}
	return out
}

// cups returns the panel's cup in every way of laying it up.
func (b *behaving) cups() (*cup.Comparison, error) {
	if b.trouble != nil {
		return nil, b.trouble
	}
	list := b.pieces()
	if len(list) == 0 {
		return nil, say.Errorf("no strip of %s lies on a board yet", b.n.ID)
	}
	var laid []cup.Laid
	for i := range list {
		l, err := b.laid(&list[i])
		if err != nil {
			return nil, err
		}
		laid = append(laid, l)
	}
	best := b.best()
	if len(best) != len(laid) {
		best = nil
	}
	return cup.Compare(laid, best, b.p.Behaviour.FaceDifference)
}

func (b *behaving) cupSection() (Section, bool) {
	out := Section{ID: "cup", Title: say.T("Cup and bow, held by nothing"), EndOn: true}
	c, err := b.cups()
	if err != nil {
		return Section{}, false
	}
	now := c.Layups[0]
	out.Lead = say.F("By its rings the show face %s in the driest season and %s in the dampest, at most.", b.bowWords(mostBow(now.Dry)), b.bowWords(mostBow(now.Wet)))
	out.Rows = append(out.Rows, Row{Name: say.T("Bow of the whole panel"), Values: []string{say.T("driest"), say.T("dampest")}, Head: true})
	for _, l := range c.Layups {
		out.Rows = append(out.Rows, Row{Name: cupWays(l.Name), Values: []string{b.bows(l.Dry), b.bows(l.Wet)}})
	}
	if c.Points > 0 {
		out.Rows = append(out.Rows, Row{Name: say.F("Show face drier by %.1f points, for scale", c.Points), Values: []string{b.bows(c.Gradient), ""}})
	}
	out.Rows = append(out.Rows, Row{Name: say.T("Cup of a single strip, at most"), Values: []string{b.s.Fine(now.Dry.Smooth.Washboard), b.s.Fine(now.Wet.Smooth.Washboard)}})
	out.Notes = append(out.Notes, say.T("Two figures: glue lines that stay planes, where each strip cups mostly by itself, and the slope carried on from strip to strip, which mostly bows more. Plus: the show face is hollow."))
	if h := b.heldWords(now.Dry); h != "" {
		out.Notes = append(out.Notes, h)
	}
	if r := now.Dry.Range; r.Hi-r.Lo > 0.05 {
		out.Notes = append(out.Notes, say.F("Where the pith is not known it may lie anywhere from 50 to 300 mm off: as laid the bow in the driest season is then %s to %s.", b.s.signed(r.Lo), b.s.signed(r.Hi)))
	}
	out.Notes = append(out.Notes, say.T("Neither all one way nor by turns is right for every panel; the figures are here to choose by."),
		say.T("A finish on one face, or a top that lies on its face in a dry room, bends a panel more than its rings do: both faces get the same finish."))
	for _, p := range now.Dry.Strips {
		if p.Rings != nil && p.Rings.Inside {
			out.Notes = append(out.Notes, say.F("Strip %s holds the pith: such wood mostly splits from it. Saw the pith out.", p.ID))
			out.Strong = true
		}
	}
	out.How = append(out.How, now.Dry.Working...)
	for _, s := range now.Dry.Strips {
		if s.Rings != nil && len(out.How) < 12 {
			out.How = append(out.How, s.Rings.Working...)
		}
	}
	out.How = append(out.How, c.Gradient.Working...)
	return out, true
}

// bows prints the bow of a panel as both ways of glueing have it.
func (b *behaving) bows(p *cup.Panel) string {
	least, most := b.s.signed(p.Glued.Sagitta), b.s.signed(p.Smooth.Sagitta)
	if least == most {
		return most
	}
	return say.F("%s to %s", least, most)
}

// heldWords says what is left of the bow where two lines hold the panel.
func (b *behaving) heldWords(p *cup.Panel) string {
	lines := []float64{usualInset, p.Width - usualInset}
	if f := b.n.Fitting; f != nil && len(f.Rows) >= 2 {
		lines = f.Rows
	}
	if p.Width <= 3*usualInset {
		return ""
	}
	e := steady
	if list := b.pieces(); len(list) > 0 {
		if v := woodOf(list[0].board.Species, 1).ET.Value; v > 0 {
			e = v
		}
	}
	h, err := cup.Hold(&p.Smooth, lines, b.n.Thickness, e)
	if err != nil {
		return ""
	}
	if len(lines) > 2 {
		most := 0.0
		for _, f := range h.Forces {
			most = math.Max(most, math.Abs(f))
		}
		return say.F("Held at %d rows, %s of it is left; a row must bear up to %.0f N a metre of its length, the most there is before the wood gives way with time.", len(lines), b.s.Fine(math.Abs(h.Greatest)), most)
	}
	return say.F("Held down at two lines %s apart, %s of it is left between and beside them: two lines hold a panel in place, not flat.", b.s.Len(lines[len(lines)-1]-lines[0]), b.s.Fine(math.Abs(h.Greatest)))
}

func (b *behaving) bowWords(v float64) string {
	switch {
	case math.Abs(v) < 0.05:
		return say.T("stays flat")
	case v > 0:
		return say.F("goes hollow by %s", b.s.Fine(v))
	}
	return say.F("rises by %s", b.s.Fine(-v))
}
