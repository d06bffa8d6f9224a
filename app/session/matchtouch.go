package session

import (
	"strings"

	"heartside/layout/face"
	"heartside/layout/match"
	"heartside/model/say"
)

// Touch is a way two boards sawn from one another may have lain before the cut:
// which faces touched, and whether the marked ends lay at one end.
type Touch struct {
	Own, Other         string // boards: of the strip, and sawn next to it
	OwnFace, OtherFace int    // that touched, 1 or 2
	EndsApart          bool
}

// TouchWay is a Touch with how well the zones of the two faces agree, 0 to 1.
type TouchWay struct {
	Touch
	Agree float64
	Text  string
}

// Edge is a long edge of a strip as it lies in the panel.
type Edge uint8

// Edges.
const (
	EitherEdge Edge = iota
	FrontEdge
	BackEdge
)

// Touches lists the ways the boards sawn next to that of the strip may have
// lain on it: board by board, those whose zones agree best first.
func (q *LeafSearch) Touches() []TouchWay {
	cuts, why := q.cuts()
	if why != "" {
		return nil
	}
	own := cuts[0].Board
	var out []TouchWay
	for _, c := range cuts[1:] {
		for _, s := range match.Ways(own, c.Board) {
			t := TouchWay{Touch: touchOf(&s), Agree: s.Agree}
			ends := say.T("together")
			if s.EndsApart {
				ends = say.T("apart")
			}
			t.Text = say.F("%s of %s on %s of %s, marked ends %s: %s agree", say.Of(own.SideName(s.FaceA)), own.ID,
				say.Of(c.Board.SideName(s.FaceB)), c.Board.ID, ends, Percent(s.Agree))
			out = append(out, t)
		}
	}
	return out
}

func touchOf(s *match.Sibling) Touch {
	return Touch{s.A.ID, s.B.ID, s.FaceA, s.FaceB, s.EndsApart}
}

// chosen is how two boards lay as the maker says, where that was said of them.
func (q *LeafSearch) chosen(sib match.Sibling) match.Sibling {
	h := q.How
	if h == nil {
		return sib
	}
	if sib.A.ID != h.Own {
		sib = sib.Swapped()
	}
	if sib.A.ID != h.Own || sib.B.ID != h.Other {
		return sib
	}
	for _, s := range match.Ways(sib.A, sib.B) {
		if touchOf(&s) == *h {
			s.Assumed = false
			return s
		}
	}
	return sib
}

// opened says which faces of a match show, and at which edge of the strip they
// meet.
func (q *LeafSearch) opened(sib *match.Sibling, own *lying, l *match.Leaf, kind match.Kind, behind bool) string {
	edge := q.role.Sides()[0]
	if behind {
		edge = q.role.Sides()[1]
	}
	at := say.F("%s's %s", q.called(own), edge.Name)
	a, b := own.m.Up, l.Strip.UpFace()
	faces := say.F("%s of %s and %s of %s", theSide(sib.A, a), sib.A.ID, theSide(sib.B, b), sib.B.ID)
	if kind == match.Book {
		return say.F("Opened like a book at %s: the two faces that touched show, %s.", at, faces)
	}
	return say.F("Slipped past %s: the faces that looked the same way show, %s.", at, faces)
}

// theSide is a face in a sentence: "face 2", "the bark side".
func theSide(b *face.Board, f int) string {
	name := b.SideName(f)
	if strings.HasPrefix(name, "face") {
		return say.Of(name)
	}
	return say.F("the %s", say.Of(name))
}
