package session

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/buy"
	"heartside/layout/cost"
	"heartside/model"
	"heartside/model/unit"
)

// Decision is what the maker says of a board on offer.
type Decision string

// Decisions.
const (
	YardOpen  Decision = ""      // nothing yet: it may be bought
	YardKeep  Decision = "keep"  // it is bought in any case
	YardLeave Decision = "leave" // it is not bought
)

// Offer is a board on offer as it was measured at the yard, mm.
type Offer struct {
	ID                       string
	Length, Width, Thickness float64
	Sap                      [2][2]buy.Widths // of face 1 and 2, along the marked edge and the other edge
	Unseen                   [2]bool          // faces that were not looked at
	Rate                     *cost.Rate       // nil where no price is known
	Say                      Decision
	Taken                    bool // it was taken into the rack
}

// Yard is what was recorded of a seller's boards: all of one wood.
type Yard struct {
	Species string
	Wanted  model.Wanted // of a panel that says nothing itself
	Offers  []Offer
	NoRack  bool // the boards in the rack do not count
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

// InRack reports whether a board on offer is in the rack by now. Where taking it
// was undone it is on offer again.
func (s *Session) InRack(o *Offer) bool { return o.Taken && s.Project().Board(o.ID) != nil }

// OnOffer returns the boards that are not in the rack by now.
func (s *Session) OnOffer(y *Yard) []Offer {
	var out []Offer
	for i := range y.Offers {
		if !s.InRack(&y.Offers[i]) {
			out = append(out, y.Offers[i])
		}
	}
	return out
}

// YardID returns the next letter that neither the rack nor the offer has.
func (s *Session) YardID(y *Yard) string {
	p := *s.Project()
	p.Boards = append([]*model.Board(nil), p.Boards...)
	for i := range y.Offers {
		p.Boards = append(p.Boards, &model.Board{ID: y.Offers[i].ID})
	}
	return model.NextBoardID(&p)
}

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
		return w, false, fmt.Errorf("“%s” is %d widths; write one, or three from the marked end, such as %s", text, len(parts), tapeExample(sys))
	}
	for i, part := range parts {
		v, err := unit.Parse(strings.TrimSpace(part), sys)
		switch {
		case err != nil:
			return w, false, fmt.Errorf("%w. Write one width, or three from the marked end, such as %s", err, tapeExample(sys))
		case v < 0:
			return w, false, fmt.Errorf("“%s” is less than nothing; write 0 where there is no sapwood", part)
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
			out = append(out, fmt.Sprintf("face %d not looked at", f+1))
		case o.Sap[f] == [2]buy.Widths{}:
			out = append(out, fmt.Sprintf("face %d clear", f+1))
		default:
			out = append(out, fmt.Sprintf("face %d sapwood %s | %s", f+1, TapeText(o.Sap[f][0], s.Units()), TapeText(o.Sap[f][1], s.Units())))
		}
	}
	return strings.Join(out, ", ")
}

// OfferCost tells what a board on offer costs, and by which rate.
func (s *Session) OfferCost(o *Offer) string {
	v, ok := o.Cost()
	if !ok {
		return "no price"
	}
	volume := o.Length * o.Width * o.Thickness
	return fmt.Sprintf("%s (%s)", unit.FormatMoney(v, ""), unit.FormatVolume(volume, s.Units()))
}

// check tells what is wrong with a board on offer, in the project's units.
func (s *Session) checkOffer(o *Offer) error {
	for _, v := range [...]float64{o.Length, o.Width, o.Thickness} {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("board %s needs a length, a width and a thickness", o.ID)
		}
	}
	for f := range o.Sap {
		for e, name := range [2]string{"marked edge", "other edge"} {
			for _, v := range o.Sap[f][e] {
				if v > o.Width {
					return fmt.Errorf("face %d, %s: sapwood %s wide does not fit a board %s wide", f+1, name, s.Len(v), s.Len(o.Width))
				}
			}
		}
	}
	return nil
}

// PutOffer records a board on offer, at the end or in the place of one that was
// recorded before; at is -1 for a new one.
func (s *Session) PutOffer(y *Yard, at int, o Offer) error {
	if o.ID = strings.TrimSpace(o.ID); o.ID == "" {
		return fmt.Errorf("letter: every board needs one, such as %s", s.YardID(y))
	}
	for i := range y.Offers {
		if i != at && y.Offers[i].ID == o.ID {
			return fmt.Errorf("letter: there is a board %s on the list already; the next free letter is %s", o.ID, s.YardID(y))
		}
	}
	if s.Project().Board(o.ID) != nil {
		return fmt.Errorf("letter: there is a board %s in the rack already; the next free letter is %s", o.ID, s.YardID(y))
	}
	if err := s.checkOffer(&o); err != nil {
		return err
	}
	if at < 0 || at >= len(y.Offers) {
		y.Offers = append(y.Offers, o)
		return nil
	}
	y.Offers[at] = o
	return nil
}
