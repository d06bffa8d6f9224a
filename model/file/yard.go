package file

import "heartside/model"

// yardV1 is what was recorded at a yard.
type yardV1 struct {
	Species string    `key:"species,required"`
	Wanted  string    `key:"wanted" enum:"heart|sap|both"`
	NoRack  bool      `key:"without-rack"`
	Boards  []offerV1 `key:"boards"`
}

// offerV1 is a board as the rack has them, and what the maker says of it. Its
// wood is the yard's.
type offerV1 struct {
	ID        string   `key:"id,required"`
	Length    float64  `key:"length,required"`
	Width     float64  `key:"width,required"`
	Thickness float64  `key:"thickness,required"`
	Say       string   `key:"say" enum:"keep|leave"`
	Price     *priceV1 `key:"price"`
	Faces     facesV1  `key:"faces"`
	Note      string   `key:"note"`
}

func (v *yardV1) yard() *model.Yard {
	if v == nil {
		return nil
	}
	y := &model.Yard{Species: v.Species, Wanted: model.Wanted(v.Wanted), NoRack: v.NoRack}
	for i := range v.Boards {
		o := &v.Boards[i]
		b := boardV1{ID: o.ID, Species: v.Species, Length: o.Length, Width: o.Width, Thickness: o.Thickness,
			Wanted: v.Wanted, Price: o.Price, Faces: o.Faces, Note: o.Note}
		y.Offers = append(y.Offers, model.Offer{Board: b.board(), Say: model.Decision(o.Say)})
	}
	return y
}

func (e *emitter) yard(y *model.Yard) {
	if y == nil {
		return
	}
	e.line(0, "yard:")
	e.line(2, "species: %s", word(y.Species))
	if y.Wanted != model.WantDefault {
		e.line(2, "wanted: %s", word(string(y.Wanted)))
	}
	if y.NoRack {
		e.line(2, "without-rack: true")
	}
	if len(y.Offers) == 0 {
		return
	}
	e.line(2, "boards:")
	for _, o := range y.Offers {
		b := o.Board
		e.line(4, "- id: %s", word(b.ID))
		e.line(6, "length: %s", e.mm(b.Length))
		e.line(6, "width: %s", e.mm(b.Width))
		e.line(6, "thickness: %s", e.mm(b.Thickness))
		if o.Say != model.OfferOpen {
			e.line(6, "say: %s", word(string(o.Say)))
		}
		if b.Price != nil {
			e.line(6, "price: %s", e.price(b.Price))
		}
		if b.Note != "" {
			e.line(6, "note: %s", word(b.Note))
		}
		e.in = 2 // as deep as a board of the rack, and one list deeper
		e.faces(b)
		e.in = 0
	}
}
