package session

import (
	"fmt"
	"slices"
	"strings"

	"heartside/layout/face"
	"heartside/layout/offcut"
	"heartside/layout/stock"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// LeftWish is what is asked about what is left of the boards.
type LeftWish struct {
	Uncut bool         // boards that nothing is cut from, too
	Least offcut.Least // of use, mm
	Also  *offcut.Want // a small part that the maker has in mind, nil none
}

// Leftover is a piece of board that is left.
type Leftover struct {
	offcut.Offcut
	Name string // Aa: board and letter, which no strip has
	Size string
	At   string // where on the board
	Wood string // what it holds
	Cost string // its share of what the board cost, "" not known
	Uses []string
}

// LeftBoard is what is left of a board.
type LeftBoard struct {
	Board  string
	Pieces []Leftover
	Strips []face.Strip // what is cut from it
	Labels []string     // of these: strip number, or name of the part
}

// LeftRead is what is left of the boards of a project.
type LeftRead struct {
	Lead   string
	Boards []LeftBoard
}

// Pieces returns all pieces, the largest of a board first.
func (l *LeftRead) Pieces() []Leftover {
	var out []Leftover
	for i := range l.Boards {
		out = append(out, l.Boards[i].Pieces...)
	}
	return out
}

// cutFrom is all that lies on boards: strips of panels, spares and solid parts.
func (v *view) cutFrom() []face.Strip {
	var out []face.Strip
	for _, n := range v.project.Panels {
		out = append(out, laidOnBoards(v.panels[n.ID].Strips)...)
	}
	return append(out, laidOnBoards(v.beside())...)
}

// Left tells what is left of the boards once all that lies on them is cut.
func (s *Session) Left(w LeftWish) (LeftRead, error) {
	v := s.view()
	p := v.project
	all, a := v.cutFrom(), AllowancesOf(p.Allowances)
	wants := s.wantsOfLeft(w.Also)
	var out LeftRead
	area, count := 0.0, 0
	for _, m := range p.Boards {
		b := v.boards[m.ID]
		strips := slices.DeleteFunc(slices.Clone(all), func(st face.Strip) bool { return st.Board.ID != m.ID })
		if m.Spoiled || len(strips) == 0 && !w.Uncut {
			continue
		}
		list, err := offcut.Of(b, strips, a, w.Least)
		if err != nil {
			return LeftRead{}, err
		}
		uses, err := offcut.Uses(list, wants, a, p.Allowances.AfterGlue)
		if err != nil {
			return LeftRead{}, err
		}
		t, err := stock.NewTable(b, 0, leftCell, 0)
		if err != nil {
			return LeftRead{}, err
		}
		lb := LeftBoard{Board: m.ID, Strips: strips}
		for i := range strips {
			lb.Labels = append(lb.Labels, s.cutLabel(strips[i].ID))
		}
		for i, o := range list {
			piece := Leftover{Offcut: o, Name: leftName(m.ID, i), Wood: leftWood(m, t, &o), Cost: s.leftCost(m, &o)}
			piece.Size = fmt.Sprintf("%s × %s × %s", s.Len(o.Length()), s.Len(o.Width()), s.Len(o.Thickness))
			piece.At = say.F("%s to %s from the marked end, %s to %s from the marked edge",
				s.Len(o.Place.Min.X), s.Len(o.Place.Max.X), s.Len(o.Place.Min.Y), s.Len(o.Place.Max.Y))
			for _, u := range uses {
				if u.Offcut == i {
					piece.Uses = append(piece.Uses, say.F("%d of %s (%d along × %d across)", u.Count(), u.Want, u.Along, u.Across))
				}
			}
			lb.Pieces = append(lb.Pieces, piece)
		}
		area, count = area+offcut.Left(list), count+len(list)
		out.Boards = append(out.Boards, lb)
	}
	least := fmt.Sprintf("%s × %s", s.Len(w.Least.Length), s.Len(w.Least.Width))
	switch {
	case len(p.Boards) == 0:
		out.Lead = say.T("There are no boards yet.")
	case len(out.Boards) == 0:
		out.Lead = say.T("Nothing is cut from a board yet, so all of them are whole.")
	case count == 0:
		out.Lead = say.F("Nothing of %s or more is left.", least)
	default:
		out.Lead = say.F("%s of %s or more, %s of face together.", countWords(count, say.T("piece"), say.T("pieces")), least, s.Area(area))
	}
	return out, nil
}

// cutLabel is what a strip or a cutting of a part is called on its board.
func (s *Session) cutLabel(id string) string {
	if name, ok := cuttingName(s.Project(), id); ok {
		return name
	}
	for _, n := range s.Project().Panels {
		for _, st := range n.Strips {
			if st.ID == id {
				return s.Number(n.ID, id)
			}
		}
	}
	return id
}

// leftName is the name of the piece of a board that is left, counted from 0: Aa, Ab
// and so on, for A1 is a strip's number.
func leftName(board string, i int) string {
	out := ""
	for i++; i > 0; i = (i - 1) / 26 {
		out = string(rune('a'+(i-1)%26)) + out
	}
	return board + out
}

// leftCell is how finely what an offcut holds is measured, mm. An engineering
// choice.
const leftCell = 2.0

// leftWood says what wood a piece holds on each face.
func leftWood(b *model.Board, t *stock.Table, o *offcut.Offcut) string {
	var out []string
	for f := 1; f <= 2; f++ {
		w := t.On(f, o.Place)
		all := w.Heart + w.Sap + w.Flaw + w.Unseen
		if all <= 0 {
			continue
		}
		sap := w.Sap / all
		switch {
		case w.Unseen > 0.5*all || !looked(&b.Faces[f-1]):
			out = append(out, say.F("face %d not looked at", f))
		case sap < 0.005:
			out = append(out, say.F("face %d heartwood", f))
		case sap > 0.995:
			out = append(out, say.F("face %d sapwood", f))
		default:
			out = append(out, say.F("face %d with %s sapwood", f, Percent(sap)))
		}
	}
	if o.Flaw {
		out = append(out, say.T("a knot, split or wane in it"))
	}
	return strings.Join(out, ", ")
}

// leftCost is a piece's share of what its board cost, by area.
func (s *Session) leftCost(b *model.Board, o *offcut.Offcut) string {
	if b.Price == nil {
		return ""
	}
	price := priceOf(b)
	v := price.PerArea * o.Area()
	if price.Whole > 0 {
		v = price.Whole * o.Area() / (b.Length * b.Width)
	}
	return s.Money(v)
}

// wantsOfLeft are the small parts that offcuts might give: solid parts that lie
// nowhere yet, empty places of panels, and what the maker names.
func (s *Session) wantsOfLeft(also *offcut.Want) []offcut.Want {
	var out []offcut.Want
	if also != nil {
		out = append(out, *also)
	}
	p := s.Project()
	for _, x := range s.PartsToPlan() {
		if n, _ := p.Part(x.ID); x.Missing > 0 {
			name := n.ID
			if x.Layers > 1 {
				name = say.F("layers of %s, %d each", n.ID, x.Layers)
			}
			out = append(out, offcut.Want{ID: name, Length: n.Length, Width: n.Width, Thickness: n.Thickness / float64(x.Layers)})
		}
	}
	for _, n := range p.Panels {
		sizes := map[[2]float64]bool{}
		for _, st := range n.Strips {
			if size := [2]float64{st.L, st.W}; st.Empty() && !sizes[size] { // places alike stand once
				sizes[size] = true
				out = append(out, offcut.Want{ID: say.F("strips %s × %s of %s", s.Len(st.L), s.Len(st.W), n.ID), Length: st.L, Width: st.W, Thickness: n.Thickness, Clear: true})
			}
		}
	}
	return out
}

// SmallPart reads a part that offcuts might give, as "300 x 30 x 15": length, width
// and, where it matters, thickness. It is nil for an empty text.
func SmallPart(text string, sys unit.System) (*offcut.Want, error) {
	if text = strings.TrimSpace(text); text == "" {
		return nil, nil
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("x×*X", r) })
	if len(parts) < 2 || len(parts) > 3 {
		return nil, say.Errorf("“%s” is no size of a part; write length x width x thickness", text)
	}
	var v [3]float64
	for i, t := range parts {
		mm, err := unit.Parse(strings.TrimSpace(t), sys)
		if err != nil {
			return nil, fmt.Errorf("“%s”: %w", text, err)
		}
		if !(mm > 0) {
			return nil, say.Errorf("“%s”: a part has no side of %s; write more than 0", text, unit.Format(mm, sys))
		}
		v[i] = mm
	}
	return &offcut.Want{ID: text, Length: v[0], Width: v[1], Thickness: v[2]}, nil
}
