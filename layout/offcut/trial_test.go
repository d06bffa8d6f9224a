package offcut

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// worked are usual allowances, and rest and joint of 5 mm together.
var worked = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 2, Ends: 25}

func board(l, w float64) *face.Board {
	return &face.Board{ID: "A", Length: l, Width: w, Thickness: 26}
}

func strip(b *face.Board, x, y, l, w float64) face.Strip {
	return face.Strip{ID: "s", Board: b, X: x, Y: y, L: l, W: w, Up: 1}
}

func offcuts(t *testing.T, b *face.Board, strips []face.Strip, least Least) []Offcut {
	t.Helper()
	list, err := Of(b, strips, worked, least)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// zone draws wood on a face.
func zone(b *face.Board, f int, k face.Kind, r geom.Rect) {
	b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: k, Polygon: r.Polygon()})
}

func trials(t *testing.T, b *face.Board, s []face.Strip, list []Offcut, w Trial) []Piece {
	t.Helper()
	got, err := Trials(b, s, worked, list, w)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// Sapwood 40 wide along the marked edge of face 1: a piece 80 wide holds most of
// the rarer wood at the edge itself: half and half, 200 x 40 = 8000 mm2 of each.
func TestTrialHoldsBothWoods(t *testing.T) {
	b := board(2000, 200)
	zone(b, 1, face.Sap, geom.R(0, 0, 2000, 40))
	got := trials(t, b, nil, nil, UsualTrial)
	if len(got) != 1 {
		t.Fatalf("%+v", got)
	}
	p := got[0]
	if p.Place != geom.R(0, 0, 200, 80) || p.Face != 1 || p.FarFace || p.Offcut != -1 || p.Board != "A" {
		t.Errorf("%+v", p)
	}
	layouttest.Near(t, "heartwood", p.Heart, 8000, 1)
	layouttest.Near(t, "sapwood", p.Sap, 8000, 1)
	// On face 2 the marked edge is at the top.
	b = board(2000, 200)
	zone(b, 2, face.Sap, geom.R(0, 160, 2000, 200))
	if got = trials(t, b, nil, nil, UsualTrial); len(got) != 1 || got[0].Face != 2 || got[0].Place != geom.R(0, 0, 200, 80) {
		t.Errorf("%+v", got)
	}
	// Of sapwood 19 wide there is less than a quarter of 80.
	b = board(2000, 200)
	zone(b, 1, face.Sap, geom.R(0, 0, 2000, 19))
	if got = trials(t, b, nil, nil, UsualTrial); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// Sapwood is left only in the last 300 mm, beyond a strip.
func TestTrialIsFoundInWhatIsLeft(t *testing.T) {
	b := board(2000, 200)
	zone(b, 1, face.Sap, geom.R(0, 0, 2000, 60))
	s := []face.Strip{strip(b, 25, 5, 1640, 90)} // the blank 0 to 1690, 0 to 100
	got := trials(t, b, s, nil, UsualTrial)
	if len(got) != 1 || got[0].Place.Min.X < 1693 || got[0].Place.Max.X > 2000 || got[0].Place.Min.Y != 20 {
		t.Errorf("%+v", got) // 40 of 80, from 20 up
	}
	// A knot through the middle of the rest: none.
	zone(b, 1, face.Flaw, geom.R(1840, 0, 1860, 200))
	if got = trials(t, b, s, nil, UsualTrial); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// Waste first: under a blank 44 from the edge a lane of 41 is no offcut of 50,
// and holds pieces 40 wide with both woods; only then the offcut.
func TestWasteIsUsedFirst(t *testing.T) {
	b := board(1000, 200)
	zone(b, 1, face.Sap, geom.R(0, 0, 1000, 20))
	zone(b, 1, face.Sap, geom.R(0, 180, 1000, 200))
	s := []face.Strip{strip(b, 25, 49, 550, 141)} // blank 0 to 600, 44 to 195
	list := offcuts(t, b, s, Usual)
	if len(list) != 1 || list[0].Place != geom.R(603, 0, 1000, 200) {
		t.Fatalf("%+v", list)
	}
	got := trials(t, b, s, list, Trial{Length: 250, Width: 40, Count: 4, Least: 0.4})
	if len(got) != 4 {
		t.Fatalf("%+v", got)
	}
	for i, p := range got {
		if i < 2 != (p.Offcut == -1) || i < 2 && p.Place.Max.Y > 41 {
			t.Errorf("%d: %+v", i, p)
		}
		for _, q := range got[:i] {
			if !p.Place.Inset(-2.999).Intersect(q.Place).Empty() {
				t.Errorf("%v is less than a kerf from %v", p.Place, q.Place)
			}
		}
	}
}

// Of two offcuts the smaller one gives the piece.
func TestTheSmallOffcutGivesIt(t *testing.T) {
	b := board(2000, 200)
	zone(b, 1, face.Sap, geom.R(0, 0, 2000, 60))
	s := []face.Strip{strip(b, 425, 5, 500, 190)} // blank 400 to 950
	list := offcuts(t, b, s, Usual)
	if len(list) != 2 || list[1].Length() != 397 {
		t.Fatalf("%+v", list)
	}
	if got := trials(t, b, s, list, UsualTrial); len(got) != 1 || got[0].Offcut != 1 || got[0].Place.Max.X > 397 {
		t.Errorf("%+v", got)
	}
}

// Whatever is cut: offcuts are of the least size, on the board, a kerf away from
// each other and from every blank, largest first; and no rectangle of that size
// is left over, looked for on a grid of 10 mm.
func TestOffcutsAreClearAndNothingIsForgotten(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	many := 0
	for range 60 {
		b := board(float64(800+10*r.IntN(120)), float64(120+10*r.IntN(15)))
		var s []face.Strip
		for range 1 + r.IntN(4) {
			s = append(s, strip(b, 25+float64(10*r.IntN(80)), 5+float64(10*r.IntN(10)), float64(100+10*r.IntN(40)), float64(30+10*r.IntN(6))))
		}
		least := Least{float64(100 + 50*r.IntN(5)), float64(30 + 10*r.IntN(4))}
		list := offcuts(t, b, s, least)
		var taken []geom.Rect
		for i := range s {
			taken = append(taken, geom.R(s[i].X-25, s[i].Y-5, s[i].X+s[i].L+25, s[i].Y+s[i].W+5))
		}
		whole := geom.R(0, 0, b.Length, b.Width)
		last := math.Inf(1)
		for i := range list {
			p := list[i].Place
			if p.W() < least.Length-1e-6 || p.H() < least.Width-1e-6 || p.Intersect(whole) != p || list[i].Area() > last+1e-6 {
				t.Errorf("%v of %v", p, whole)
			}
			last = list[i].Area()
			for _, q := range taken {
				if !p.Inset(-2.999).Intersect(q).Empty() {
					t.Errorf("%v is less than a kerf from %v", p, q)
				}
			}
			taken = append(taken, p)
		}
		many += len(list)
		for x := 0.0; x+least.Length+6 <= b.Length; x += 10 {
			for y := 0.0; y+least.Width+6 <= b.Width; y += 10 {
				free := true
				for _, q := range taken {
					free = free && geom.R(x, y, x+least.Length+6, y+least.Width+6).Intersect(q.Inset(-3)).Empty()
				}
				if free {
					t.Fatalf("%g x %g at %g, %g is free beside %v", least.Length, least.Width, x, y, taken)
				}
			}
		}
	}
	if many < 60 {
		t.Errorf("only %d offcuts", many)
	}
}
