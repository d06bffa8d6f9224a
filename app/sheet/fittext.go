package sheet

import (
	"heartside/layout/face"
	"heartside/model/say"
	"heartside/model/unit"
)

// tick is the box before what is ticked off.
const tick = "☐"

// tickText is what is looked at before glue goes on, with what the readings
// say of it.
func (b *builder) tickText(v *view) []paragraph {
	out := []paragraph{{text: say.T("Before the glue"), bold: true}}
	for _, t := range b.ticks(v) {
		out = append(out, paragraph{text: t, bullet: tick})
	}
	for _, s := range v.sections() {
		if s.ID == stackID {
			out = append(out, sectionText(s, true)...)
		}
	}
	return out
}

func (b *builder) ticks(v *view) []string {
	n := v.names
	out := []string{
		say.T("Moisture of every strip read and written down."),
		say.F("Marked ends as drawn, the triangle whole, its point to %s.", n.back.The),
		say.T("Sapwood widths as on the panel's page."),
	}
	if len(pick(v, func(s *face.Strip) bool { return s.Board != nil && s.Planing() != 0 })) > 0 {
		out = append(out, say.T("Planing arrows as on the panel's page."))
	}
	if len(v.Panel.Panel.Strips) < 2 {
		return out
	}
	return append(out,
		say.T("Faces of the joints marked in and out, and flattened so."),
		say.T("Dry run with all clamps: joints close without force, faces level."),
		say.T("Glue, cauls and help at hand; joints fresh from the tool."),
	)
}

// gluingText is what is minded while gluing.
func (b *builder) gluingText(v *view) []paragraph {
	p, mc := v.Panel.Panel, b.in.Project.Machines
	list := b.sections(p)
	if len(p.Strips) < 2 {
		return nil
	}
	var out []paragraph
	add := func(text string) {
		out = append(out, paragraph{text: text, bullet: "–"})
	}
	switch {
	case len(list) > 1:
		add(say.F("%s wide as glued, your machine thicknesses %s: glued in %d sections, thicknessed, then joined.", b.gluedWidth(p), b.say.len(mc.Thickness), len(list)))
	case mc.Thickness > 0 && !list[0].over:
		add(say.F("%s wide as glued, your machine thicknesses %s: one section.", b.gluedWidth(p), b.say.len(mc.Thickness)))
	}
	widest := 0.0
	for _, g := range list {
		widest = max(widest, g.width)
	}
	if mc.Flatten > 0 && widest > mc.Flatten {
		add(say.F("Wider than the %s your machine flattens: glue it flat on level cauls, or use a sled.", b.say.len(mc.Flatten)))
	}
	out = append(out, paragraph{text: b.clampText(v), bullet: "–"})
	add(say.T("Open time, least temperature and clamping time as the glue's label says. No more joints at once than can be closed in the open time."))
	return out
}

// afterText is what is minded once the clamps are off.
func (b *builder) afterText(v *view) []paragraph {
	if len(v.Panel.Panel.Strips) < 2 {
		return nil // nothing is glued
	}
	out := []paragraph{{text: say.T("After glue-up"), bold: true, before: 1.6}}
	add := func(text string) {
		out = append(out, paragraph{text: text, bullet: "–"})
	}
	add(say.T("Wait about a week before the last planing: glue's water swells the wood at the joints, and joints planed flush too soon sink (Wengert, The Wood Doctor's Rx; quoted by another text)."))
	add(say.T("Stand it on edge, air on both faces, away from sun and draught; turn it daily. One wet or covered face cups it."))
	if a := b.in.Project.Allowances.AfterGlue; a > 0 {
		add(say.F("Then take off the last %s, half from each face.", b.say.fine(a)))
	}
	return out
}

func (b *builder) gluedWidth(p *face.Panel) string {
	_, w := gluedSize(p, b.say)
	return b.say.len(w)
}

// fitCautions are those that apply to gluing, lifting and building in. Where
// the panel's page is not printed its own stand here.
func (b *builder) fitCautions(v *view) string {
	list := b.buildCautions(v)
	if !b.in.Pages.Panel {
		list = append(b.layCautions(v), list...)
	}
	return sentences(list)
}

// kilos prints a weight in the project's units.
func (b *builder) kilos(kg float64) string {
	switch {
	case b.say.sys == unit.Inch:
		return say.F("%.0f lb", kg/0.45359237)
	case kg < 10:
		return say.F("%.1f kg", kg)
	}
	return say.F("%.0f kg", kg)
}
