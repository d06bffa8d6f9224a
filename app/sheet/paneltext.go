package sheet

import (
	"fmt"
	"strings"

	"heartside/layout/face"
	"heartside/model/say"
	"heartside/model/unit"
)

// textHeight estimates how high paragraphs come out on the current page.
func (b *builder) textHeight(list []paragraph) float64 {
	if len(list) == 0 {
		return 0
	}
	n := b.columns()
	w := b.columnWidth(n)
	return evenHeight(set(b.f, list, w, b.em), n) + 2
}

// panelText is what a panel's page says in sentences.
func (b *builder) panelText(v *view) []paragraph {
	out := b.warningText(v)
	out = append(out, b.alikeText(v.m.ID)...)
	out = append(out, paragraph{text: say.T("Laying up"), bold: true, before: 1.6})
	n := v.names
	out = append(out,
		paragraph{text: say.F("Drawn from the show side, %s towards you. Lay the strips as drawn, check each against its sapwood widths with a rule, and chalk the triangle over all of them, its point to %s.", n.front.The, n.back.The), bullet: "–"},
		paragraph{text: say.F("When flattening edges against a fence, pass the %s of every strip with the show face to the fence (in) and its %s with the show face away from it (out): an angle that is a little off then cancels at each joint (common practice, no source).", n.back.Name, n.front.Name), bullet: "–"},
	)
	if rest := b.restsOn(v); len(rest) > 0 {
		out = append(out, paragraph{text: say.T("What this rests on"), bold: true, before: 1.6})
		out = append(out, rest...)
	}
	return append(out, cautions(b.panelCautions(v)))
}

// cautions are one paragraph.
func cautions(s string) paragraph {
	return paragraph{text: say.F("Cautions. %s", s), before: 1.6}
}

func (b *builder) warningText(v *view) []paragraph {
	var out []paragraph
	if n := emptyPlaces(v.Panel.Panel); n > 0 {
		out = append(out, paragraph{text: emptyText(n) + ".", bold: true})
	}
	switch {
	case len(v.Panel.Panel.Strips) == 0:
		return []paragraph{{text: say.T("No strips yet, not ready to cut."), bold: true}}
	case len(v.Notes) == 0 && len(out) > 0:
		return out
	case len(v.Notes) == 0:
		return []paragraph{{text: say.T("No warnings."), bold: true}}
	}
	out = append(out, paragraph{text: say.Count(len(v.Notes), say.T("warning"), say.T("warnings")), bold: true})
	for i, x := range v.Notes {
		t := strings.TrimSpace(strings.TrimSuffix(x.Title, ".") + ". " + x.Text)
		for _, u := range x.Under {
			t += say.F(" Also: %s.", strings.TrimSuffix(u, "."))
		}
		if x.Fix != "" {
			t += say.F(" Mend: %s.", strings.TrimSuffix(x.Fix, "."))
		}
		out = append(out, paragraph{text: t, bullet: fmt.Sprintf("%d.", i+1)})
	}
	return out
}

// restsOn says what was assumed or not looked at.
func (b *builder) restsOn(v *view) []paragraph {
	var out []paragraph
	add := func(text string) {
		out = append(out, paragraph{text: text, bullet: "–"})
	}
	r := v.Reading
	if r.SawnFaces {
		add(say.T("Sapwood is read on the sawn faces; planing moves its line. Measure again after planing."))
	}
	if v.planed() {
		add(say.T("Sapwood is that of the finished faces, worked out between the sawn ones. What still comes off after glue-up moves its line a little."))
	}
	if c := r.Show.Contrast; c.Known && c.Assumed {
		add(say.T("Colours are assumed from the species, not taken from photographs: an illustration."))
	}
	if r.Show.Contrast.Split {
		add(say.T("The photographs share no grey or white reference: colours of different boards are not compared."))
	}
	if r.Show.UnseenPart > 0 {
		add(say.F("%s of the show face is not seen yet; shares are a range.", unit.FormatPercent(r.Show.UnseenPart)))
	}
	var guessed []string
	for i := range r.Strips {
		if r.Strips[i].Guessed && i < len(v.numbers) {
			guessed = append(guessed, v.numbers[i])
		}
	}
	if len(guessed) > 0 {
		add(say.F("A face was not looked at and is taken straight through from the other one: strips %s.", strings.Join(guessed, ", ")))
	}
	if unknown := unknownPlaning(v); len(unknown) > 0 {
		add(say.F("Planing direction not known or mixed, so no arrow: strips %s.", strings.Join(unknown, ", ")))
	}
	if measured := measuredStrips(v); len(measured) > 0 {
		add(say.F("Measured after planing: strips %s.", strings.Join(measured, ", ")))
	}
	return out
}

// planed reports whether more is known of the panel than its sawn faces.
func (v *view) planed() bool {
	for i := range v.fin.Strips {
		if v.fin.Strips[i].Board != v.Panel.Panel.Strips[i].Board {
			return true
		}
	}
	return false
}

func unknownPlaning(v *view) []string {
	return pick(v, func(s *face.Strip) bool { return s.Board != nil && s.Planing() == 0 })
}

func measuredStrips(v *view) []string {
	return pick(v, func(s *face.Strip) bool { return s.Planed != nil })
}

func pick(v *view, f func(*face.Strip) bool) []string {
	var out []string
	for i := range v.Panel.Panel.Strips {
		if f(&v.Panel.Panel.Strips[i]) {
			out = append(out, v.numbers[i])
		}
	}
	return out
}
