package session

import (
	"context"
	"strings"
	"testing"
)

// search prepares a search for the leaves of A1 of twins.
func touchSearch(t *testing.T) (*Session, *LeafSearch) {
	t.Helper()
	s := New(twins(), Options{})
	t.Cleanup(s.Close)
	q, err := s.Leaves("top", "A1")
	if err != nil {
		t.Fatal(err)
	}
	return s, q
}

// Eight ways: four pairs of faces, the marked ends together or apart. Best are
// the two sapwood edges on one another, 2 mm off of 200 at most.
func TestWaysTheBoardsMayHaveLain(t *testing.T) {
	_, q := touchSearch(t)
	ways := q.Touches()
	if len(ways) != 8 {
		t.Fatalf("%d ways", len(ways))
	}
	seen := map[Touch]bool{}
	for i, w := range ways {
		seen[w.Touch] = true
		if i > 0 && w.Agree > ways[i-1].Agree+1e-3 {
			t.Errorf("way %d agrees over %g, the one before over %g", i, w.Agree, ways[i-1].Agree)
		}
	}
	if len(seen) != 8 || ways[0].Touch != (Touch{"A", "B", 2, 1, false}) || !strings.HasPrefix(ways[0].Text, "face 2 of A on face 1 of B, marked ends together: 9") {
		t.Errorf("%d different, the best is %+v", len(seen), ways[0])
	}
}

// The maker says that face 1 of A lay on face 2 of B with the marked ends
// apart. By hand: (x, y) of A, face 1, lay on (1000 - x, y) of face 2 of B,
// which is (1000 - x, 200 - y) in face-1 coordinates. The strip from (50, 10) to
// (950, 130) lay on the one from (50, 70) to (950, 190). In a book match A1 shows
// face 1, at (u, v) the wood at (50 + u, 10 + v); its leaf shows at (u, v) what
// lay on (u, 120 - v), which is (950 - u, 70 + v) of B: face 2 up and turned end
// for end. Face 1 of A is light above 110 of 200, face 2 of B nowhere: they agree
// over 55 %.
func TestTheMakerSaysHowTheBoardsLay(t *testing.T) {
	s, q := touchSearch(t)
	q.How = &Touch{"A", "B", 1, 2, true}
	got := q.Run(context.Background())
	m := oneMatch(t, got.List, "Book match from board B, behind A1")
	if want := "As chosen: face 1 of board A lay on face 2 of board B, the marked ends apart. Their zones agree there over 55 %, which is little"; !strings.HasPrefix(m.Assumed, want) {
		t.Errorf("chosen: %q", m.Assumed)
	}
	if m.Opened != "Opened like a book at A1's back edge: the two faces that touched show, face 1 of A and face 2 of B." {
		t.Errorf("opened: %q", m.Opened)
	}
	if !strings.HasPrefix(m.Lays[0].Change, "roll over A1; cut a strip from board B, 50 mm from the marked end and 70 mm from the marked edge") {
		t.Errorf("change %q", m.Lays[0].Change)
	}
	if err := s.Commit(m.Lays[0].Edit); err != nil {
		t.Fatal(err)
	}
	st := s.Committed().Panel("top").Strips
	if st[0].Up != 1 || len(st) != 2 || st[1].Board != "B" || st[1].X != 50 || st[1].Y != 70 || st[1].Up != 2 || !st[1].Turned {
		t.Errorf("the panel lies as %+v", st)
	}
	if n, _ := s.Depth(); n != 1 {
		t.Errorf("%d steps", n)
	}
}

// Slipped, the faces that looked the same way show: A1 shows face 2, which
// looked away from B, and face 2 of B, which touched A, looked that way too.
func TestSlippedAsTheMakerSays(t *testing.T) {
	_, q := touchSearch(t)
	q.How = &Touch{"A", "B", 1, 2, false}
	m := oneMatch(t, q.Run(context.Background()).List, "Slip match from board B, in front of A1")
	if m.Opened != "Slipped past A1's front edge: the faces that looked the same way show, face 2 of A and face 2 of B." {
		t.Errorf("opened: %q", m.Opened)
	}
}

// Only the edge asked for.
func TestTheEdgeThatTouches(t *testing.T) {
	for edge, want := range map[Edge]string{FrontEdge: "in front of A1", BackEdge: "behind A1"} {
		_, q := touchSearch(t)
		q.Edge = edge
		got := q.Run(context.Background())
		if len(got.List) != 2 {
			t.Errorf("%s: %d matches", want, len(got.List))
		}
		for _, m := range got.List {
			if !strings.HasSuffix(m.Title, want) {
				t.Errorf("%s: %q", want, m.Title)
			}
		}
	}
}
