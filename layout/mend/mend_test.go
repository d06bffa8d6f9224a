package mend

import (
	"context"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

var allow = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}

func board(id string, length, width float64) *face.Board {
	return &face.Board{ID: id, Length: length, Width: width, Thickness: 25}
}

func strip(id string, b *face.Board, x float64) face.Strip {
	return face.Strip{ID: id, Board: b, X: x + 25, Y: 5, L: 920, W: 90, Up: 1}
}

func top(strips ...face.Strip) *face.Panel {
	return &face.Panel{ID: "top", Length: 900, Width: 90*float64(len(strips)) - 10, Thickness: 20, PanelEdge: 5, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, Strips: strips}
}

func ask(spoiled *face.Board, boards []*face.Board, panels ...*face.Panel) *Request {
	return &Request{Panels: panels, Boards: boards, Spoiled: func(b *face.Board) bool { return b == spoiled }, Allowances: allow, Rules: look.DefaultRules}
}

func TestSpareThatIsThereIsTaken(t *testing.T) {
	a, b, c := board("A", 1000, 110), board("B", 1000, 110), board("C", 3000, 110)
	q := ask(a, []*face.Board{a, b, c}, top(strip("A1", a, 0), strip("B1", b, 0)))
	q.Spares = []face.Strip{strip("C1", c, 0)}
	r := Replace(context.Background(), q)
	if len(r.Changes) != 1 || len(r.Missing) != 0 || len(r.Spares) != 0 || !r.Least {
		t.Fatalf("%+v", r)
	}
	x := r.Changes[0]
	if !x.Spare || x.Now.ID != "C1" || x.Was.ID != "A1" || r.Panels[0][1].ID != "B1" || r.Panels[0][0].ID != "C1" {
		t.Errorf("%+v", x)
	}
}

// With no spare it is cut from free wood, clear of what lies there: 970 of
// 1000 mm and a kerf are taken on C, so only its other end is left.
func TestCutAnewWhereThereIsRoom(t *testing.T) {
	a, b, c := board("A", 1000, 110), board("B", 1000, 110), board("C", 2000, 110)
	p := top(strip("A1", a, 0), strip("B1", b, 0), strip("C1", c, 0))
	q := ask(a, []*face.Board{a, b, c}, p)
	r := Replace(context.Background(), q)
	if len(r.Changes) != 1 || r.Changes[0].Spare || r.Changes[0].Now.Board != c || r.Changes[0].Now.ID != "A1" {
		t.Fatalf("%+v %+v", r.Changes, r.Missing)
	}
	now := *p
	now.Strips = r.Panels[0]
	for _, w := range cutting.NewChecker(nil, allow, cutting.Machines{}).Panel(&now) {
		t.Errorf("the new place: %s %v", w.Kind, w.Strips)
	}
}

// The spare is long enough for both strips lost, and the free wood for one of
// them only: the other gets the spare.
func TestTheOnlyWoodForOneIsLeftToIt(t *testing.T) {
	a, b, c := board("A", 2000, 110), board("B", 700, 110), board("C", 1000, 110)
	long := top(strip("A1", a, 0))
	short := &face.Panel{ID: "side", Length: 500, Width: 80, Thickness: 20, PanelEdge: 5, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits,
		Strips: []face.Strip{{ID: "A2", Board: a, X: 1100, Y: 5, L: 520, W: 90, Up: 1}}}
	for _, panels := range [][]*face.Panel{{long, short}, {short, long}} {
		q := ask(a, []*face.Board{a, b, c}, panels...)
		q.Spares = []face.Strip{strip("C1", c, 0)}
		r := Replace(context.Background(), q)
		if len(r.Changes) != 2 || len(r.Missing) != 0 {
			t.Fatalf("%d replaced, %d missing", len(r.Changes), len(r.Missing))
		}
		for _, x := range r.Changes {
			if (x.Was.ID == "A1") != x.Spare {
				t.Errorf("%s gets %s of board %s", x.Was.ID, x.Now.ID, x.Now.Board.ID)
			}
		}
	}
}

// Two strips lost and room for both on one board: they keep clear of each
// other.
func TestNewPlacesKeepClear(t *testing.T) {
	a, c := board("A", 2000, 110), board("C", 1000, 250)
	p := top(strip("A1", a, 0), strip("A2", a, 1000))
	r := Replace(context.Background(), ask(a, []*face.Board{a, c}, p))
	if len(r.Changes) != 2 {
		t.Fatalf("%+v", r.Missing)
	}
	now := *p
	now.Strips = r.Panels[0]
	for _, w := range cutting.NewChecker(nil, allow, cutting.Machines{}).Panel(&now) {
		t.Errorf("the new places: %s %v", w.Kind, w.Strips)
	}
}

// The face and the end that suit the look are chosen: of C, only face 2 is
// clear.
func TestTheBetterFaceShows(t *testing.T) {
	a, b, c := board("A", 1000, 110), board("B", 1000, 110), board("C", 1000, 110)
	c.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 40, 1000, 60).Polygon()}}
	q := ask(a, []*face.Board{a, b, c}, top(strip("A1", a, 0), strip("B1", b, 0)))
	q.Looks = []look.Name{look.HeartOnly}
	r := Replace(context.Background(), q)
	if len(r.Changes) != 1 || r.Changes[0].Now.UpFace() != 2 {
		t.Errorf("%+v", r.Changes)
	}
}

func TestSawnStripsStay(t *testing.T) {
	a, c := board("A", 2000, 110), board("C", 3000, 110)
	sawn := strip("A1", a, 0)
	sawn.Stage = face.Sawn
	r := Replace(context.Background(), ask(a, []*face.Board{a, c}, top(sawn, strip("A2", a, 1000))))
	if len(r.Changes) != 1 || r.Changes[0].Was.ID != "A2" || r.Panels[0][0].Board != a {
		t.Errorf("%+v", r.Changes)
	}
}

// A blank of 920 x 90 is 970 x 99: board C gives it the width, but 800 mm.
func TestWhatIsMissingIsSaid(t *testing.T) {
	a, c := board("A", 1000, 110), board("C", 800, 110)
	r := Replace(context.Background(), ask(a, []*face.Board{a, c}, top(strip("A1", a, 0))))
	if len(r.Changes) != 0 || len(r.Missing) != 1 {
		t.Fatalf("%+v", r)
	}
	m := r.Missing[0]
	if m.NeedL != 970 || m.NeedW != 99 || m.Longest != 800 {
		t.Errorf("needs %g x %g, the longest free is %g", m.NeedL, m.NeedW, m.Longest)
	}
	if r.Panels[0][0].Board != a {
		t.Error("the strip is gone from the panel")
	}
}

func TestCalledOff(t *testing.T) {
	a, c := board("A", 1000, 110), board("C", 3000, 110)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	r := Replace(ctx, ask(a, []*face.Board{a, c}, top(strip("A1", a, 0))))
	if len(r.Panels) != 1 || len(r.Panels[0]) != 1 || r.Least {
		t.Errorf("%+v", r)
	}
}
