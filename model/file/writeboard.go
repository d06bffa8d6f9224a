package file

import (
	"strconv"

	"heartside/model"
)

func (e *emitter) board(b *model.Board) {
	e.line(2, "- id: %s", word(b.ID))
	e.line(4, "species: %s", word(b.Species))
	e.line(4, "length: %s", e.mm(b.Length))
	e.line(4, "width: %s", e.mm(b.Width))
	e.line(4, "thickness: %s", e.mm(b.Thickness))
	if b.Moisture != 0 {
		e.line(4, "moisture: %s", e.mm(b.Moisture))
	}
	if b.Price != nil {
		e.line(4, "price: %s", e.price(b.Price))
	}
	if b.Bark != model.BarkUnknown {
		e.line(4, "bark: %s", word(string(b.Bark)))
	}
	e.pith(b.Pith)
	if b.Heart != 0 {
		e.line(4, "heart-radius: %s", e.mm(b.Heart))
	}
	if b.Planes != model.PlanesUnknown {
		e.line(4, "planes: %s", word(string(b.Planes)))
	}
	if b.Log != nil {
		e.line(4, "log: %s", flow("name", word(b.Log.Name), "order", strconv.Itoa(b.Log.Order)))
	}
	if s := b.Shape; s != (model.Shape{}) {
		e.line(4, "shape: %s", flow("cup", e.mm(s.Cup), "bow", e.mm(s.Bow), "crook", e.mm(s.Crook), "twist", e.mm(s.Twist)))
	}
	if b.Wanted != model.WantDefault {
		e.line(4, "wanted: %s", word(string(b.Wanted)))
	}
	if b.Edges != model.EdgesSawn {
		e.line(4, "edges: %s", word(string(b.Edges)))
	}
	if b.Note != "" {
		e.line(4, "note: %s", word(b.Note))
	}
	if b.Spoiled {
		e.line(4, "spoiled: true")
	}
	if b.Cut != [2]float64{} {
		e.line(4, "cut: %s", flow("marked", e.mm(b.Cut[0]), "other", e.mm(b.Cut[1])))
	}
	e.faces(b)
	if b.Ends != [2]model.End{} {
		e.line(4, "ends: %s", flow("a", e.end(b.Ends[0]), "b", e.end(b.Ends[1])))
	}
}

func (e *emitter) end(v model.End) string {
	var pairs []string
	if v.Photo != "" {
		pairs = append(pairs, "photo", word(v.Photo))
	}
	if v.Corners != nil {
		pairs = append(pairs, "corners", e.points(v.Corners[:], 10, 18))
	}
	if len(pairs) == 0 {
		return "{}"
	}
	return flow(pairs...)
}

func (e *emitter) pith(list []model.Pith) {
	one := func(q model.Pith) string {
		var pairs []string
		if q.HasX {
			pairs = append(pairs, "x", e.mm(q.X))
		}
		return flow(append(pairs, "across", e.mm(q.Across), "depth", e.mm(q.Depth))...)
	}
	switch len(list) {
	case 0:
	case 1:
		e.line(4, "pith: %s", one(list[0]))
	default:
		e.line(4, "pith:")
		for _, q := range list {
			e.line(6, "- %s", one(q))
		}
	}
}

func (e *emitter) faces(b *model.Board) {
	if !told(b.Faces[0]) && !told(b.Faces[1]) {
		return
	}
	e.line(4, "faces:")
	for i, f := range b.Faces {
		if told(f) {
			e.face(i+1, f)
		}
	}
}

// told reports whether there is anything to write of a face.
func told(f model.Face) bool {
	return f.Known || f.Photo != "" || f.Corners != nil || f.Bow != 0 || f.White != nil || f.Split != nil || len(f.Tones) > 0 || f.Reference != "" || f.Base != "" || len(f.Outline) > 0 || len(f.Zones) > 0 || len(f.Grain) > 0
}

func (e *emitter) face(n int, f model.Face) {
	if bare := f; bare.Known {
		if bare.Known = false; !told(bare) {
			e.line(6, "%d: {}", n)
			return
		}
	}
	e.line(6, "%d:", n)
	if f.Photo != "" {
		e.line(8, "photo: %s", word(f.Photo))
	}
	if f.Corners != nil {
		e.line(8, "corners: %s", e.points(f.Corners[:], 10, 18))
	}
	if f.Bow != 0 {
		e.line(8, "bow: %s", e.fine(f.Bow))
	}
	if f.White != nil {
		e.line(8, "white: [%s, %s, %s]", e.fine(f.White[0]), e.fine(f.White[1]), e.fine(f.White[2]))
	}
	if f.Split != nil {
		e.line(8, "split: %s", flow("by", word(string(f.Split.By)), "sure", e.fine(f.Split.Sure)))
	}
	e.tones(f.Tones)
	if f.Reference != "" {
		e.line(8, "reference: %s", word(f.Reference))
	}
	if f.Base != "" {
		e.line(8, "base: %s", word(string(f.Base)))
	}
	if len(f.Outline) > 0 {
		e.line(8, "outline: %s", e.points(f.Outline, 10, 18))
	}
	if len(f.Zones) > 0 {
		e.line(8, "zones:")
		for _, z := range f.Zones {
			e.line(10, "- {kind: %s, polygon: %s}", word(string(z.Kind)), e.points(z.Polygon, 14, 36))
		}
	}
	if !f.Known {
		e.line(8, "not-looked-at: true")
	}
	if len(f.Grain) > 0 {
		e.line(8, "grain:")
		for _, line := range f.Grain {
			e.line(10, "- %s", e.points(line, 14, 12))
		}
	}
}

func (e *emitter) tones(list []model.Tone) {
	if len(list) == 0 {
		return
	}
	e.line(8, "tones:")
	for _, t := range list {
		e.line(10, "- %s", flow("kind", word(string(t.Kind)), "lab", e.mms(t.Mean.L, t.Mean.A, t.Mean.B), "spread", e.mm(t.Spread)))
	}
}
