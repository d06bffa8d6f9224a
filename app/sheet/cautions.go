package sheet

import (
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/model/catalog"
	"heartside/model/say"
)

// heavy is the weight, kg, from which a panel's weight is printed.
const heavy = 15

// panelCautions are those of the panel's page. What its glue-up page says is
// not said twice.
func (b *builder) panelCautions(v *view) string {
	list := b.layCautions(v)
	if !b.in.Pages.all().Fit || len(v.Panel.Panel.Strips) == 0 {
		list = append(list, b.buildCautions(v)...)
	}
	return sentences(list)
}

// layCautions apply to making the strips and laying them up.
func (b *builder) layCautions(v *view) []string {
	out := []string{say.T("Hearing and eye protection at the machines. Wood dust harms nose and lungs: extraction and a mask; limits vary by country. Some woods sensitise skin and lungs: see a doctor.")}
	if usesWalnut(v.Panel.Panel) {
		out = append(out, say.T("Walnut shavings never to horses."))
	}
	for _, s := range v.sections() {
		if b.in.Pages.all().Fit && (s.ID == "ageing" || s.ID == "dye") {
			return out // they say it of the colours
		}
	}
	return append(out, say.T("Colours are illustrations: test the finish on an offcut of the same board, heart and sap, full sequence."))
}

// buildCautions apply to gluing up, lifting, finishing and building in.
func (b *builder) buildCautions(v *view) []string {
	var out []string
	if kg, ok := b.weight(v.Panel.Panel); ok && kg >= heavy {
		out = append(out, say.F("Weighs about %s (from the species' mean density): lift it with help.", b.kilos(kg)))
	}
	out = append(out, say.T("Oily rags spread flat to dry; follow the label and the local fire service."))
	damp := say.T("Sapwood of any species is not durable outdoors or in damp")
	if v.Reading.Show.Light.Hi > 0 || v.Reading.Back.Light.Hi > 0 {
		damp += say.T("; in large-pored woods it is what powder-post beetle eats")
	}
	return append(out, damp+".",
		say.T("Strength, sag, tipping, children's furniture, beds and stairs are not checked here: local codes, standards or an engineer."))
}

func sentences(list []string) string { return strings.Join(list, " ") }

// boardCautions are those that apply to sawing this board.
func (b *builder) boardCautions(bd *face.Board, parts []place) string {
	var out []string
	mb := b.in.Project.Board(bd.ID)
	waney := !squareEdged(bd)
	crooked := mb != nil && (mb.Shape.Crook != 0 || mb.Shape.Twist != 0)
	angled := false
	for _, p := range parts {
		angled = angled || p.strip.Angle != 0
	}
	if waney || crooked || angled {
		out = append(out, say.T("Crooked, twisted or waney stock, and cuts at an angle, never against a saw fence without a true edge and a riving knife: straight-line sled, or band saw to the line."))
	}
	out = append(out, say.T("Kerf closing: stop and wedge it."))
	if mc := b.in.Project.Machines; b.smallParts(parts, math.Max(mc.Shortest, 300), math.Max(mc.Narrowest, 50)) {
		out = append(out, say.T("Short, narrow or thin stock: the limit is your machine's manual."))
	}
	out = append(out, say.T("Hearing and eye protection; wood dust harms nose and lungs: extraction and a mask."))
	return strings.Join(out, " ")
}

func (b *builder) smallParts(parts []place, short, narrow float64) bool {
	for _, p := range parts {
		if p.strip.L < short || p.strip.W < narrow {
			return true
		}
	}
	return false
}

func usesWalnut(p *face.Panel) bool {
	for i := range p.Strips {
		if bd := p.Strips[i].Board; bd != nil && strings.Contains(bd.Species, "walnut") {
			return true
		}
	}
	return false
}

// weight estimates a finished panel's weight in kg where every strip's
// density is known: volume times specific gravity (oven-dry mass on volume
// at 12 per cent) times 1.12 for the water.
func (b *builder) weight(p *face.Panel) (float64, bool) {
	var kg float64
	for i := range p.Strips {
		bd := p.Strips[i].Board
		if bd == nil {
			return 0, false
		}
		sg, ok := gravity(bd.Species)
		if !ok {
			return 0, false
		}
		l, w := finishedSize(p, i)
		kg += l * w * p.Thickness * 1e-6 * sg * 1.12
	}
	return kg, kg > 0
}

func gravity(species string) (float64, bool) {
	sg := catalog.Find(species).SG12.Value
	return sg, sg > 0
}

// speciesNames are the names the catalogue gives.
func speciesNames(ids []string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = speciesName(id)
	}
	return out
}

func speciesName(id string) string {
	if n := catalog.Find(id).Name; n != "" {
		return say.Of(n)
	}
	return id
}
