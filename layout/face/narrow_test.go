package face

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// block is a panel of one strip that is its whole board, 900 x 100 x 20, with
// sapwood on face 1 up to y = a and on face 2 the same way, up to b over it.
func block(a, b float64) *Panel {
	board := &Board{ID: "A", Length: 900, Width: 100, Thickness: 20, AssumedHeart: drawnHeart, AssumedSap: drawnSap}
	board.Faces[0].Zones = zones(Sap, rect(0, 0, 900, a))
	board.Faces[1].Zones = zones(Sap, rect(0, 100-b, 900, 100))
	return &Panel{ID: "p", Length: 900, Width: 100, Thickness: 20, Limit: [2]float64{1, 1}, Limits: DefaultLimits,
		Strips: []Strip{{ID: "s", Board: board, L: 900, W: 100, Up: 1}}}
}

// At y the two distances are a - y and b - y, so the sap line runs straight
// through the thickness from a to b and the end holds (a + b)/2 of the width,
// as long as nothing is cut off at 40 mm: within 0 to 100 it is not, where a
// and b differ by less.
func TestEndsCutTheWedge(t *testing.T) {
	for _, c := range [][2]float64{{30, 30}, {30, 50}, {20, 40}, {60, 45}} {
		for _, turned := range []bool{false, true} {
			for up := 1; up <= 2; up++ {
				p := block(c[0], c[1])
				p.Strips[0].Up, p.Strips[0].Turned = up, turned
				r := ReadFull(p)
				for _, n := range r.Ends {
					layouttest.Near(t, "end", n.Light.Value, (c[0]+c[1])/2/100, 0.01)
				}
				// The marked edge is all sapwood, the far one all heartwood.
				marked, far := r.Edges[0], r.Edges[1]
				if turned != (up == 2) {
					marked, far = far, marked
				}
				layouttest.Near(t, "marked edge", marked.Light.Value, 1, 1e-9)
				layouttest.Near(t, "far edge", far.Light.Value, 0, 1e-9)
			}
		}
	}
}

// The front edge of a strip cut 40 from the marked edge: d1 = -10, d2 = 10 at
// every x, so half of it is sapwood; with d1 = -10 and d2 = 30 three quarters.
func TestEdgeCutsBetweenTheFaces(t *testing.T) {
	for _, c := range []struct{ a, b, want float64 }{{30, 50, 0.5}, {30, 70, 0.75}, {30, 35, 0}, {45, 60, 1}} {
		p := block(c.a, c.b)
		p.Width = 60
		p.Strips[0].Y, p.Strips[0].W = 40, 60
		r := ReadFull(p)
		layouttest.Near(t, "front", r.Edges[0].Light.Value, c.want, 1e-6)
		layouttest.Near(t, "unwanted", r.Edges[0].Unwanted.Value, c.want, 1e-6)
		p.Wanted = WantSap
		layouttest.Near(t, "swapped", ReadFull(p).Edges[0].Unwanted.Value, 1-c.want, 1e-6)
		// A thicker board: half of the difference comes off each face, the middle
		// half of the thickness stays. Of f(z) = d1 + z (d2 - d1) the sap begins at
		// z0 = -d1/(d2 - d1); the share of [1/4, 3/4] above it.
		p.Wanted, p.Thickness = WantHeart, 10
		z0 := math.Min(0.75, math.Max(0.25, (40-c.a)/(c.b-c.a)))
		want := (0.75 - z0) / 0.5
		if c.a > 40 {
			want = 1
		}
		r = ReadFull(p)
		layouttest.Near(t, "front of a thicker board", r.Edges[0].Light.Value, want, 1e-6)
		if !r.SawnFaces || !r.Strips[0].AsSawn {
			t.Error("read on the sawn face, and not said so")
		}
	}
}

// Distances are held to 40 mm: sapwood 100 deep on face 2 counts as 40 against
// -20 on face 1, so the line lies at a third.
func TestDistanceIsHeldTo40(t *testing.T) {
	p := block(10, 100)
	p.Width = 70
	p.Strips[0].Y, p.Strips[0].W = 30, 70
	layouttest.Near(t, "front", ReadFull(p).Edges[0].Light.Value, 2.0/3, 1e-6)
}

func TestUnseenEdgeHasARange(t *testing.T) {
	p := block(30, 30)
	f := &p.Strips[0].Board.Faces[0]
	f.Zones = append(f.Zones, zones(Unseen, rect(0, 0, 225, 10))...)
	r := ReadFull(p)
	layouttest.Near(t, "seen", r.Edges[0].Light.Value, 0.75, 0.004)
	layouttest.Near(t, "hopeful", r.Edges[0].Light.Lo, 0.75, 0.004)
	layouttest.Near(t, "pessimistic", r.Edges[0].Light.Hi, 1, 1e-9)
}

// A knot that reaches an edge or an end is told, once where it shows on both
// faces; one inside is not.
func TestFlawInEdge(t *testing.T) {
	cases := []struct {
		name string
		one  geom.Polygon
		two  geom.Polygon // over face 1's coordinates
		side Side
		want int
	}{
		{"inside", rect(400, 40, 420, 60), nil, Front, 0},
		{"at the front", rect(400, -5, 420, 10), nil, Front, 1},
		{"at the back edge", rect(400, 90, 420, 120), nil, Rear, 1},
		{"at the left end", rect(-5, 40, 10, 50), nil, Left, 1},
		{"at the right end", rect(890, 40, 900, 50), nil, Right, 1},
		{"at the front through both faces", rect(400, -5, 420, 10), rect(405, -5, 425, 8), Front, 1},
		{"at the front at two places", rect(400, -5, 420, 10), rect(500, -5, 520, 8), Front, 2},
		{"on the back only", nil, rect(500, -5, 520, 8), Front, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p := block(0, 0)
			b := p.Strips[0].Board
			if c.one != nil {
				b.Faces[0].Zones = zones(Flaw, c.one)
			}
			if c.two != nil {
				b.Faces[1].Zones = zones(Flaw, b.Other().ApplyTo(c.two))
			}
			r := ReadFull(p)
			if got := count(r, FlawInEdge); got != c.want {
				t.Errorf("%d, want %d\n%s", got, c.want, describe(r))
			}
			total := 0
			for _, n := range [4]Narrow{r.Edges[0], r.Edges[1], r.Ends[0], r.Ends[1]} {
				total += n.Flaws
				if n.Side == c.side && n.Flaws != c.want {
					t.Errorf("%d flaws at side %d", n.Flaws, n.Side)
				}
			}
			if total != c.want {
				t.Errorf("%d flaws in all", total)
			}
		})
	}
	// Trimmed away it is gone.
	p := block(0, 0)
	p.Strips[0].Board.Faces[0].Zones = zones(Flaw, rect(400, 0, 420, 4))
	p.Width = 90 // 5 come off each edge
	if r := ReadFull(p); count(r, FlawInEdge) != 0 || count(r, FlawOnShow) != 0 {
		t.Errorf("trimmed away\n%s", describe(r))
	}
}
