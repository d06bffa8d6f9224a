package match

import (
	"cmp"
	"fmt"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Sibling is two boards parted by one saw cut, or by a cut and little more:
// resawn from one plank, or next to each other in the log. FaceA of A and
// FaceB of B touched before the cut.
//
// How a board is marked leaves no other choice: seen with its marked end at
// the left, face 1 has the marked edge at the bottom. So the faces and the
// ends say how the boards lay on one another.
type Sibling struct {
	A, B         *face.Board
	FaceA, FaceB int  // the faces that touched, 1 or 2
	EndsApart    bool // the marked ends lay at opposite ends of the log
	// DX and DY are how far B lay from where the boards' edges say: its marked
	// end over A's (with EndsApart over A's other end), and its edge over the
	// lower edge of A's face as seen. In the coordinates of FaceA, mm.
	DX, DY float64
	// Agree is the share of the touching faces where the zones say the same
	// wood, where that was looked at.
	Agree float64
	// Assumed: which faces touched was not told, but taken from the order in
	// the log and from where the zones agree.
	Assumed bool
}

// touch maps a point of FaceA, in its own coordinates, to the point of FaceB
// that lay on it. Two faces that look at one another see each other mirrored.
func (s *Sibling) touch() geom.Affine {
	m := geom.Translate(-s.DX, -s.DY)
	if s.EndsApart {
		return m.Then(geom.Affine{A: -1, C: s.A.Length, E: 1})
	}
	return m.Then(geom.Affine{A: 1, E: -1, F: s.B.Width})
}

// Swapped returns the same two boards with A and B exchanged.
func (s Sibling) Swapped() Sibling {
	t := s
	t.A, t.B, t.FaceA, t.FaceB = s.B, s.A, s.FaceB, s.FaceA
	// The other map is the inverse: what remains of it is the displacement.
	inv, _ := s.touch().Inverse()
	t.DX, t.DY = 0, 0
	base := t.touch()
	if s.EndsApart {
		t.DX, t.DY = inv.C-base.C, base.F-inv.F
	} else {
		t.DX, t.DY = base.C-inv.C, inv.F-base.F
	}
	return t
}

// check says what is wrong with the boards.
func (s *Sibling) check() error {
	for _, b := range [2]*face.Board{s.A, s.B} {
		if b == nil || !(b.Length > 0) || !(b.Width > 0) || b.Length > most || b.Width > most {
			return fmt.Errorf("a match needs two boards with a length and a width: enter their sizes")
		}
	}
	if !faceNumber(s.FaceA) || !faceNumber(s.FaceB) {
		return fmt.Errorf("boards %s and %s: say which faces touched, 1 or 2 of each; now %d and %d", s.A.ID, s.B.ID, s.FaceA, s.FaceB)
	}
	return nil
}

func faceNumber(f int) bool { return f == 1 || f == 2 }

// Cut is a board and where in its log it was sawn.
type Cut struct {
	Board *face.Board
	Log   string // "" not known
	Order int    // as cut, from one side of the log to the other
}

// Siblings returns the neighbours in each log, in the order of the logs' names
// and the cuts: boards whose orders are next to one another, each marked
// Assumed. The faces that touched are those of the eight ways to lay the
// boards on one another whose zones agree best; among equals, face 2 of the
// first touched face 1 of the second, with the marked ends at one end, as where
// a log's boards are marked one like the other.
func Siblings(cuts []Cut) []Sibling {
	list := slices.Clone(cuts)
	slices.SortStableFunc(list, func(a, b Cut) int {
		return cmp.Or(cmp.Compare(a.Log, b.Log), cmp.Compare(a.Order, b.Order))
	})
	var out []Sibling
	for i := range list {
		for k := i + 1; k < len(list); k++ {
			a, b := list[i], list[k]
			if a.Log == "" || a.Log != b.Log || b.Order-a.Order > 1 {
				break
			}
			if b.Order-a.Order != 1 {
				continue
			}
			if ways := Ways(a.Board, b.Board); len(ways) > 0 {
				out = append(out, ways[0])
			}
		}
	}
	return out
}

// Ways returns the eight ways two boards may have lain on one another, those
// whose touching faces agree best first.
func Ways(a, b *face.Board) []Sibling {
	var out []Sibling
	for _, apart := range [2]bool{false, true} {
		for _, f := range [4][2]int{{2, 1}, {1, 2}, {2, 2}, {1, 1}} {
			s := Sibling{A: a, B: b, FaceA: f[0], FaceB: f[1], EndsApart: apart, Assumed: true}
			if s.check() != nil {
				return nil
			}
			s.Agree = s.agree()
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Sibling) int { return -cmp.Compare(round3(a.Agree), round3(b.Agree)) })
	return out
}

func round3(v float64) int { return int(1000*v + 0.5) }

// agree compares the touching faces at places 20 mm along and 5 mm across.
func (s *Sibling) agree() float64 {
	m := s.touch()
	fa, fb := &s.A.Faces[s.FaceA-1], &s.B.Faces[s.FaceB-1]
	same, all := 0, 0
	for x := 10.0; x < s.A.Length; x += max(20, s.A.Length/200) {
		for y := 2.5; y < s.A.Width; y += max(5, s.A.Width/100) {
			p := geom.Pt(x, y)
			k, l := fa.At(p, s.A), fb.At(m.Apply(p), s.B)
			if k > face.Sap || l > face.Sap {
				continue
			}
			all++
			if k == l {
				same++
			}
		}
	}
	if all == 0 {
		return 0
	}
	return float64(same) / float64(all)
}
