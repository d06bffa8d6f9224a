package session

import (
	"cmp"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/offcut"
	"heartside/model"
	"heartside/model/say"
)

// Reserved is test pieces found on what is left, and the edit that reserves them.
type Reserved struct {
	Lines []string
	Edit  model.Edit // nil where none was found
	Found int
}

// UsualTestPiece is what a test piece mostly measures, or where the machines take no
// less, that.
func (s *Session) UsualTestPiece() offcut.Trial {
	p, t := s.Project(), offcut.UsualTrial
	l, w := cutting.BlankSize(t.Length, t.Width, AllowancesOf(p.Allowances))
	t.Length += max(0, p.Machines.Shortest-l)
	t.Width += max(0, p.Machines.Narrowest-w)
	return t
}

// TestPieces finds places for test pieces that hold heartwood and sapwood on what
// is left of boards, from waste first. They are cut out as solid parts are.
func (s *Session) TestPieces(want offcut.Trial, w LeftWish) (Reserved, error) {
	v := s.view()
	p := v.project
	a := AllowancesOf(p.Allowances)
	all := v.cutFrom()
	blank := want
	blank.Ends, blank.Edges = a.Ends, a.Joint+a.Rest
	blank.Length, blank.Width = cutting.BlankSize(want.Length, want.Width, a)
	type found struct {
		offcut.Piece
		size float64 // of the offcut it is taken from; 0 for waste
	}
	var list []found
	for _, m := range p.Boards {
		if m.Spoiled {
			continue
		}
		b := v.boards[m.ID]
		strips := slices.DeleteFunc(slices.Clone(all), func(st face.Strip) bool { return st.Board.ID != m.ID })
		if len(strips) == 0 && !w.Uncut {
			continue
		}
		offcuts, err := offcut.Of(b, strips, a, w.Least)
		if err != nil {
			return Reserved{}, err
		}
		pieces, err := offcut.Trials(b, strips, a, offcuts, blank)
		if err != nil {
			return Reserved{}, err
		}
		for _, x := range pieces {
			f := found{Piece: x}
			if x.Offcut >= 0 {
				f.size = offcuts[x.Offcut].Area()
			}
			list = append(list, f)
		}
	}
	slices.SortStableFunc(list, func(x, y found) int { return cmp.Compare(x.size, y.size) })
	list = list[:min(len(list), want.Count)]
	out := Reserved{Found: len(list)}
	if len(list) == 0 {
		return out, nil
	}
	part := model.NewPart(s.testPieceName(), model.TestPiece, len(list), want.Length, want.Width, 0)
	part.Wanted = model.WantBoth
	inset := geom.Pt(a.Ends, a.Joint+a.Rest)
	for i, x := range list {
		at := x.Place.Min.Add(inset)
		part.Places = append(part.Places, model.PartPlace{Board: x.Board, X: at.X, Y: at.Y, L: want.Length, W: want.Width, Stage: model.Planned})
		if i == 0 || x.Thickness < part.Thickness {
			part.Thickness = x.Thickness
		}
		from := say.T("from waste")
		if x.Offcut >= 0 {
			from = say.F("from %s", leftName(x.Board, x.Offcut))
		}
		text := say.F("Board %s, %s: %s from the marked end, %s from the marked edge; finish face %d, %s heartwood and %s sapwood",
			x.Board, from, s.Len(at.X), s.Len(at.Y), x.Face, s.Area(x.Heart), s.Area(x.Sap))
		if x.FarFace {
			text += say.T("; the other face holds both too")
		}
		out.Lines = append(out.Lines, text+".")
	}
	out.Edit = model.PutPart{Part: part}
	return out, nil
}

// testPieceName is a name for test pieces that no part and no panel has.
func (s *Session) testPieceName() string {
	name := say.T("test piece")
	for n := 2; ; n++ {
		if _, is := s.Project().Part(name); !is && s.Project().Panel(name) == nil {
			return name
		}
		name = say.F("test piece %d", n)
	}
}
