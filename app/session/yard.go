package session

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/buy"
	"heartside/layout/cost"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// Offer is a board on offer as a tape finds it, mm.
type Offer struct {
	ID                       string
	Length, Width, Thickness float64
	Sap                      [2][2]buy.Widths // of face 1 and 2, along the marked edge and the other edge
	Unseen                   [2]bool          // faces that were not looked at
	Rate                     *cost.Rate       // nil where no price is known
	Say                      model.Decision
	Faces                    [2]model.Face // from photographs; the zero value where a face is taped
	Note                     string
}

// Yard is what was recorded of a seller's boards: all of one wood.
type Yard struct {
	Species string
	Wanted  model.Wanted // of a panel that says nothing itself
	Offers  []Offer
	NoRack  bool // the boards in the rack do not count
}

// Yard returns what the project holds of boards on offer.
func (s *Session) Yard() Yard {
	m := s.Project().AtYard()
	y := Yard{Species: m.Species, Wanted: m.Wanted, NoRack: m.NoRack}
	for _, o := range m.Offers {
		y.Offers = append(y.Offers, offerOf(o))
	}
	return y
}

// offerOf is a board on offer as a tape would find it.
func offerOf(m model.Offer) Offer {
	b := m.Board
	o := Offer{ID: b.ID, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Say: m.Say, Note: b.Note}
	if b.Price != nil {
		o.Rate = RateOf(b.Price.Amount, b.Price.Per)
	}
	for f := range b.Faces {
		if o.Unseen[f] = !looked(&b.Faces[f]); o.Unseen[f] {
			continue
		}
		marked, other := model.FaceTape(b, f+1)
		o.Sap[f] = [2]buy.Widths{buy.Widths(marked), buy.Widths(other)}
		if b.Faces[f].Photo != "" {
			o.Faces[f] = b.Faces[f]
		}
	}
	return o
}

// Cost returns what the whole board costs; false where no price is known.
func (o *Offer) Cost() (float64, bool) {
	if o.Rate == nil {
		return 0, false
	}
	v, err := o.Rate.Of(cost.Size{Length: o.Length, Width: o.Width, Thickness: o.Thickness})
	return v, err == nil
}

func (o *Offer) board() buy.Board {
	return buy.Board{ID: o.ID, Length: o.Length, Width: o.Width, Thickness: o.Thickness, Sap: o.Sap, Unseen: o.Unseen}
}

// pictured reports whether a face was measured in a photograph.
func (o *Offer) pictured() bool { return o.Faces[0].Photo != "" || o.Faces[1].Photo != "" }

// YardID returns the next letter that neither the rack nor the offer has.
func (s *Session) YardID() string { return model.NextBoardID(s.Project()) }

// TapeOf reads the sapwood widths along an edge: one that holds all along, or
// three, at the marked end, in the middle and at the other end, as "22/30/41".
// Where a width has a fraction of an inch the three stand apart by ";" or by a
// slash between spaces. ok is false for an empty text: nobody looked.
func TapeOf(text string, sys unit.System) (w buy.Widths, ok bool, err error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return w, false, nil
	}
	parts := []string{text}
	switch {
	case strings.Contains(text, ";"):
		parts = strings.Split(text, ";")
	case strings.Contains(text, " / "):
		parts = strings.Split(text, " / ")
	case strings.Count(text, "/") == 2 && !strings.ContainsAny(text, " \"″”"):
		parts = strings.Split(text, "/")
	case sys != unit.Inch && strings.Count(text, "/") == 1 && !strings.ContainsAny(text, " \"″”in"):
		parts = strings.Split(text, "/")
	}
	if len(parts) != 1 && len(parts) != 3 {
		return w, false, say.Errorf("“%s” is %d widths; write one, or three from the marked end, such as %s", text, len(parts), tapeExample(sys))
	}
	for i, part := range parts {
		v, err := unit.Parse(strings.TrimSpace(part), sys)
		switch {
		case err != nil:
			return w, false, say.Errorf("%w. Write one width, or three from the marked end, such as %s", err, tapeExample(sys))
		case v < 0:
			return w, false, say.Errorf("“%s” is less than nothing; write 0 where there is no sapwood", part)
		}
		w[i] = v
	}
	if len(parts) == 1 {
		w = buy.Widths{w[0], w[0], w[0]}
	}
	return w, true, nil
}

func tapeExample(sys unit.System) string {
	if sys == unit.Inch {
		return `1/2; 3/4; 1 1/4`
	}
	return "22/30/41"
}

// TapeText writes widths so that TapeOf reads them.
func TapeText(w buy.Widths, sys unit.System) string {
	var parts []string
	for _, v := range w {
		s := unit.Format(v, sys)
		if sys != unit.Inch {
			s = strings.TrimSuffix(s, " mm")
		}
		parts = append(parts, s)
	}
	switch {
	case w[0] == w[1] && w[1] == w[2]:
		return parts[0]
	case sys == unit.Inch:
		return strings.Join(parts, "; ")
	}
	return strings.Join(parts, "/")
}

// OfferWords tells a board on offer in one line.
func (s *Session) OfferWords(o *Offer) string {
	return fmt.Sprintf("%s × %s × %s", s.Len(o.Length), s.Len(o.Width), s.Len(o.Thickness))
}

// OfferSap tells the sapwood of a board on offer.
func (s *Session) OfferSap(o *Offer) string {
	var out []string
	for f := range o.Sap {
		switch {
		case o.Unseen[f]:
			out = append(out, say.F("face %d not looked at", f+1))
		case o.Sap[f] == [2]buy.Widths{}:
			out = append(out, say.F("face %d clear", f+1))
		default:
			out = append(out, say.F("face %d sapwood %s | %s", f+1, TapeText(o.Sap[f][0], s.Units()), TapeText(o.Sap[f][1], s.Units())))
		}
	}
	return strings.Join(out, ", ")
}

// OfferCost tells what a board on offer costs, and by which rate.
func (s *Session) OfferCost(o *Offer) string {
	v, ok := o.Cost()
	if !ok {
		return say.T("no price")
	}
	volume := o.Length * o.Width * o.Thickness
	return fmt.Sprintf("%s (%s)", s.Money(v), unit.FormatVolume(volume, s.Units()))
}

// check tells what is wrong with a board on offer, in the project's units.
func (s *Session) checkOffer(o *Offer) error {
	for _, v := range [...]float64{o.Length, o.Width, o.Thickness} {
		if !(v > 0) || math.IsInf(v, 0) {
			return say.Errorf("board %s needs a length, a width and a thickness", o.ID)
		}
	}
	for f := range o.Sap {
		for e, name := range [2]string{say.T("marked edge"), say.T("other edge")} {
			for _, v := range o.Sap[f][e] {
				if v > o.Width {
					return say.Errorf("face %d, %s: sapwood %s wide does not fit a board %s wide", f+1, name, s.Len(v), s.Len(o.Width))
				}
			}
		}
	}
	return nil
}

// PutOffer returns the edit that records a board on offer at the end of the list
// or, where was is not "", in the place of that one.
func (s *Session) PutOffer(was string, o Offer) (model.PutOffer, error) {
	edit := model.PutOffer{Was: was}
	if o.ID = strings.TrimSpace(o.ID); o.ID == "" {
		return edit, say.Errorf("letter: every board needs one, such as %s", s.YardID())
	}
	if o.ID != was && s.Project().Offer(o.ID) != nil {
		return edit, say.Errorf("letter: there is a board %s on the list already; the next free letter is %s", o.ID, s.YardID())
	}
	if s.Project().Board(o.ID) != nil {
		return edit, say.Errorf("letter: there is a board %s in the rack already; the next free letter is %s", o.ID, s.YardID())
	}
	if err := s.checkOffer(&o); err != nil {
		return edit, err
	}
	y := s.Project().AtYard()
	edit.Offer = model.Offer{Board: o.model(y.Species, y.Wanted), Say: o.Say}
	return edit, nil
}

// model is a board on offer as the project has boards.
func (o *Offer) model(species string, wanted model.Wanted) *model.Board {
	b := model.NewBoard(o.ID, species, o.Length, o.Width, o.Thickness)
	b.Wanted, b.Note = wanted, o.Note
	if o.Rate != nil {
		b.Price = &model.Price{Amount: o.Rate.Amount, Per: string(o.Rate.Per)}
	}
	for f := range o.Sap {
		switch {
		case o.Unseen[f]: // nothing is said of it
		case o.Faces[f].Photo != "":
			b.Faces[f] = o.Faces[f]
		default:
			b.Faces[f] = model.Face{Known: true, Base: model.Heart,
				Zones: model.FaceTapeZones(f+1, o.Length, o.Width, model.Tape(o.Sap[f][0]), model.Tape(o.Sap[f][1]))}
		}
	}
	return b
}

// TakeKept returns the edit that takes the boards that are kept into the rack, as
// one step.
func (s *Session) TakeKept() (model.TakeOffers, error) {
	var edit model.TakeOffers
	for _, o := range s.Project().AtYard().Offers {
		if o.Say != model.OfferKeep {
			continue
		}
		if s.Project().Board(o.Board.ID) != nil {
			return edit, say.Errorf("there is a board %s in the rack already: change the letter of the one you keep, on the wood too", o.Board.ID)
		}
		edit.IDs = append(edit.IDs, o.Board.ID)
	}
	if len(edit.IDs) == 0 {
		return edit, say.Error("no board is kept yet: say “keep” at those you buy")
	}
	return edit, nil
}
