package session

import (
	"math"

	"heartside/layout/wood/movement"
	"heartside/model"
	"heartside/model/say"
)

// What is taken where the project does not say it. Common practice, no source.
const (
	usualGroove = 10.0 // mm deep
	usualInset  = 50.0 // mm, the outer rows of screws from the panel's edges
	usualGap    = 1.0  // mm, least gap round a door or a drawer front
	usualShank  = 4.0  // mm, of a screw
)

// fixedOf is the line of a panel that stays where it is.
func fixedOf(n *model.Panel) movement.Fixed {
	line := model.LineMiddle
	if n.Fitting != nil {
		line = n.Fitting.Line
	}
	switch {
	case line == model.LineFront || n.Role == model.RoleDoor && n.Fitting == nil: // a door hangs on its hinges
		return movement.Fixed{Line: movement.Front}
	case line == model.LineBack:
		return movement.Fixed{Line: movement.Back}
	case n.Role == model.RoleDrawerFront && n.Fitting == nil: // it rests on its bottom edge
		return movement.Fixed{Line: movement.Front}
	}
	return movement.Fixed{Line: movement.Middle}
}

func (b *behaving) lineWords(f movement.Fixed) string {
	sides := b.n.Role.Sides()
	switch f.Line {
	case movement.Front:
		return sides[0].The
	case movement.Back:
		return sides[1].The
	}
	return say.T("the middle")
}

// fitSection says what room the panel needs where it is built in.
func (b *behaving) fitSection() (Section, bool) {
	m, _, err := b.movement()
	if err != nil {
		return Section{}, false
	}
	fit := model.Fitting{}
	if b.n.Fitting != nil {
		fit = *b.n.Fitting
	}
	fixed := fixedOf(b.n)
	out := Section{ID: "fit", Title: say.T("Room to move")}
	out.Lead = say.F("Measured from %s, which stays where it is, at today's moisture.", b.lineWords(fixed))
	switch fit.Held {
	case model.HeldGroove:
		err = b.inGroove(&out, m, fixed, fit)
	case model.HeldBreadboard:
		err = b.breadboard(&out, m, fixed, fit)
	case model.HeldSlots:
		err = b.slots(&out, m, fixed, fit)
	default:
		if b.n.Role == model.RoleDoor || b.n.Role == model.RoleDrawerFront {
			err = b.gaps(&out, m, fixed)
			break
		}
		if err = b.slots(&out, m, fixed, fit); err == nil {
			out.Notes = append(out.Notes, say.T("How it is held has not been said; these are slots for screws or buttons. “How it is built in” has grooves and breadboard ends too."))
		}
	}
	if err != nil {
		out.Lead, out.Rows, out.Strong = say.Upper(err.Error())+".", nil, true
	}
	return out, true
}

// rowsOf are the rows of screws, buttons or pins, mm from the front edge.
func (b *behaving) rowsOf(fit model.Fitting, m *movement.Panel) []float64 {
	var out []float64
	for _, y := range fit.Rows {
		out = append(out, math.Min(y, m.Now))
	}
	if out == nil && m.Now > 2*usualInset {
		out = []float64{usualInset, m.Now / 2, m.Now - usualInset}
	}
	if out == nil {
		out = []float64{m.Now / 2}
	}
	return out
}

func (b *behaving) slots(out *Section, m *movement.Panel, fixed movement.Fixed, fit model.Fitting) error {
	rows := b.rowsOf(fit, m)
	list, err := m.Slots(fixed, rows, movement.Clearance)
	if err != nil {
		return err
	}
	out.Rows = append(out.Rows, Row{Name: say.F("Row, from %s", b.n.Role.Sides()[0].The), Values: []string{say.F("slot for a %s shank", b.s.Fine(usualShank)), say.T("away"), say.T("towards")}, Head: true})
	for _, k := range list {
		if k.Round {
			out.Rows = append(out.Rows, Row{Name: b.s.Len(k.At), Values: []string{say.T("round hole"), "–", "–"}})
			continue
		}
		out.Rows = append(out.Rows, Row{Name: b.s.Len(k.At), Values: []string{b.s.Fine(k.Length(usualShank)), b.s.Fine(k.Away), b.s.Fine(k.Toward)}})
		out.How = append(out.How, k.Working()...)
	}
	out.Notes = append(out.Notes, say.F("Away and towards: the room the shank needs beside where it sits today, away from %s and towards it, %s clearance in each. Slots are in the part that stays.", b.lineWords(fixed), b.s.Fine(movement.Clearance)))
	if fit.Rows == nil {
		out.Notes = append(out.Notes, say.T("The rows are usual ones, not yours."))
	}
	return nil
}

func (b *behaving) gaps(out *Section, m *movement.Panel, fixed movement.Fixed) error {
	front, back, err := m.Gaps(fixed, usualGap)
	if err != nil {
		return err
	}
	sides := b.n.Role.Sides()
	out.Rows = append(out.Rows, Row{Name: say.T("Gap to leave"), Values: []string{say.T("today"), say.T("driest"), say.T("dampest")}, Head: true})
	for i, g := range []movement.Gap{front, back} {
		out.Rows = append(out.Rows, Row{Name: say.Upper(sides[i].Name), Values: []string{b.s.Fine(g.Leave), b.s.Fine(g.DryGap), b.s.Fine(g.WetGap)}})
		out.How = append(out.How, g.Working()...)
	}
	out.Notes = append(out.Notes, say.F("Today's gap is right for wood at %s; made in another season the same door needs another gap. At least %s stays at the dampest.", MC(m.Span.Now.MC), b.s.Fine(usualGap)))
	return nil
}

// grooveOf is how deep the groove of a fitting is.
func grooveOf(f model.Fitting) float64 {
	if f.Groove == 0 {
		return usualGroove
	}
	return f.Groove
}

func inGroove(m *movement.Panel, fixed movement.Fixed, depth float64) (*movement.GrooveFit, error) {
	return m.InGroove(fixed, movement.Groove{Depth: depth, Clearance: movement.Clearance, Overlap: movement.LeastOverlap})
}

func (b *behaving) inGroove(out *Section, m *movement.Panel, fixed movement.Fixed, fit model.Fitting) error {
	depth := grooveOf(fit)
	if fit.Groove == 0 {
		out.Notes = append(out.Notes, say.F("The groove is taken as %s deep.", b.s.Len(depth)))
	}
	g, err := inGroove(m, fixed, depth)
	if err != nil {
		return err
	}
	sides := b.n.Role.Sides()
	out.Rows = append(out.Rows, Row{Name: say.T("To the bottom of the groove"), Values: []string{say.T("today"), say.T("driest"), say.T("dampest")}, Head: true})
	for i, k := range []movement.GrooveSide{g.Front, g.Back} {
		out.Rows = append(out.Rows,
			Row{Name: say.F("%s, gap", say.Upper(sides[i].Name)), Values: []string{b.s.Fine(k.Leave), b.s.Fine(k.DryGap), b.s.Fine(k.WetGap)}},
			Row{Name: say.T("in the groove"), Values: []string{b.s.Fine(k.OverlapNow), b.s.Fine(k.OverlapDry), b.s.Fine(k.Depth - k.WetGap)}, Quiet: true})
		out.How = append(out.How, k.Working()...)
		if !k.Holds {
			out.Strong = true
			out.Notes = append(out.Notes, say.F("At %s the groove must be %s deep, or the panel comes out of it in the driest season.", sides[i].The, b.s.Fine(k.DepthNeeded)))
		}
	}
	out.Rows = append(out.Rows, Row{Name: say.T("Between the groove bottoms"), Values: []string{b.s.Len(g.Bottoms), "", ""}},
		Row{Name: say.T("Between the frame's edges"), Values: []string{b.s.Len(g.Shoulders), "", ""}})
	out.Notes = append(out.Notes, say.F("The panel is pinned at %s only, and never glued into the groove. Colour and finish it before it goes in: bare wood comes to light when it shrinks.", b.lineWords(fixed)))
	return nil
}

func (b *behaving) breadboard(out *Section, m *movement.Panel, fixed movement.Fixed, fit model.Fitting) error {
	rows := b.rowsOf(fit, m)
	k, err := m.Breadboard(fixed, m.Now, rows, movement.Clearance)
	if err != nil {
		return err
	}
	sides := b.n.Role.Sides()
	out.Rows = append(out.Rows, Row{Name: say.T("End cut to today's width stands out by"), Values: []string{say.T("today"), say.T("driest"), say.T("dampest")}, Head: true})
	for i, p := range []movement.Proud{k.Front, k.Back} {
		out.Rows = append(out.Rows, Row{Name: say.Upper(sides[i].Name), Values: []string{b.s.Fine(p.Now), b.s.signed(p.Dry), b.s.signed(p.Wet)}})
	}
	out.Rows = append(out.Rows, Row{Name: say.F("Pin, from %s", sides[0].The), Values: []string{say.F("slot for a %s pin", b.s.Fine(6)), say.T("away"), say.T("towards")}, Head: true})
	for _, p := range k.Pins {
		if p.Round {
			out.Rows = append(out.Rows, Row{Name: b.s.Len(p.At), Values: []string{say.T("round, glued"), "–", "–"}})
			continue
		}
		out.Rows = append(out.Rows, Row{Name: b.s.Len(p.At), Values: []string{b.s.Fine(p.Length(6)), b.s.Fine(p.Away), b.s.Fine(p.Toward)}})
		out.How = append(out.How, p.Working()...)
	}
	out.How = append(out.How, k.Working()...)
	out.Notes = append(out.Notes, say.F("Glued at %s only, over a few centimetres. Slots are in the tongue. Minus: the panel stands beyond the end.", b.lineWords(fixed)),
		say.F("The end's length changes by no more than %s.", b.s.Fine(math.Abs(movement.Lengthwise(m.Now, m.Span.Dry.MC, m.Span.Wet.MC).Hi))))
	return nil
}
