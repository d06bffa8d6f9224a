package snapshot

import (
	"math"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// round returns a board from a perfectly round log: the pith straight, across
// mm from the marked edge and high mm above face 1.
func round(across, high, heart, wood float64) *Board {
	b := &Board{Seed: 3, Level: 1, Length: 300, Width: 260, Thickness: 25, Kind: Kind{
		Name: "test", Heart: colour.Lab{L: 45, A: 10, B: 18}, Sap: colour.Lab{L: 72, A: 5, B: 20}, Ring: 3, Late: 2, Rings: 0.5,
	}}
	b.n = newNoise(3)
	b.Log = Log{Across: across, Depth: -high, Heart: heart, Wood: wood}
	b.Log.grow(3, b.Length, b.n.sub(90), newDice(3, 9))
	b.ready()
	return b
}

// On a face h from the pith of a round log of heart radius R the heart is
// 2 sqrt(R^2 - h^2) wide. Worked for R = 100 and wood of 130: h 60 gives half
// of 80.00 and wood of half 115.33; h 85 gives 52.68 and 98.36. The board is
// 260 wide round the pith, so that bark is left beyond the wood.
func TestRoundLogIsTheClosedForm(t *testing.T) {
	b := round(130, 60, 100, 130)
	for _, c := range []struct {
		face        int
		heart, wood float64 // half widths
	}{{1, 80.00, 115.33}, {2, 52.68, 98.36}} {
		s := b.Mask(c.face, 2, 0).Shares()
		for l, want := range map[photo.Label]float64{
			photo.Heart: 2 * c.heart / 260,
			photo.Sap:   2 * (c.wood - c.heart) / 260,
			photo.Flaw:  1 - 2*c.wood/260,
		} {
			// Rows of half a millimetre: each of two or four borders may be
			// off by half a row.
			if math.Abs(s[l]-want) > 1.0/260 {
				t.Errorf("face %d, label %d: share %.4f, closed form %.4f", c.face, l, s[l], want)
			}
		}
	}
}

// Two mm below the bark face the heart is 2 sqrt(100^2 - 83^2) = 111.56 wide.
func TestTruthBelowAFace(t *testing.T) {
	b := round(130, 60, 100, 200)
	if got, want := b.Mask(2, 2, 2).Shares()[photo.Heart], 111.56/260; math.Abs(got-want) > 0.5/260 {
		t.Errorf("2 mm below face 2: share %.4f, closed form %.4f", got, want)
	}
}

// The pith is 40 from the marked edge and 60 over face 1: on face 1 heart ends
// at 40 + 80 from the marked edge; on face 2, which is seen rolled over, at
// 260 - (40 + 52.68) = 167.32 from its lower edge, with heart above.
func TestFaceTwoIsRolledOver(t *testing.T) {
	b := round(40, 60, 100, 400)
	for _, c := range []struct {
		face int
		y    float64
		want photo.Label
	}{{1, 118, photo.Heart}, {1, 122, photo.Sap}, {2, 165, photo.Sap}, {2, 169, photo.Heart}} {
		m := b.Mask(c.face, 1, 0)
		if got := m.At(50, m.H-1-int(c.y)); got != c.want {
			t.Errorf("face %d at y %g: label %d, want %d", c.face, c.y, got, c.want)
		}
	}
}

// A log that draws in by 20 mm a metre has its heart of 100 at 103 at the
// marked end of 300 mm, and at 97 at the other; a leaning pith moves by 10 mm
// a metre from 40 halfway.
func TestStations(t *testing.T) {
	b := round(40, 60, 100, 130)
	b.Log.Taper, b.Log.Lean = 20, [2]float64{10, 0}
	s := b.Stations(9)
	if len(s) != 9 || s[0].X != 0 || s[8].X != 300 {
		t.Fatalf("stations %+v", s)
	}
	for i, want := range map[int]Station{0: {Heart: 103, Wood: 133, Across: 38.5}, 4: {Heart: 100, Wood: 130, Across: 40}, 8: {Heart: 97, Wood: 127, Across: 41.5}} {
		g := s[i]
		if math.Abs(g.Heart-want.Heart) > 1e-9 || math.Abs(g.Wood-want.Wood) > 1e-9 || math.Abs(g.Across-want.Across) > 1e-9 || g.Depth != -60 {
			t.Errorf("station %d: %+v, want %+v", i, g, want)
		}
		if math.Abs(g.Least-want.Heart) > 1e-9 || math.Abs(g.Greatest-want.Heart) > 1e-9 {
			t.Errorf("station %d: a round heart from %g to %g", i, g.Least, g.Greatest)
		}
	}
}

// A knot is a flaw of its own size: a branch
// straight up through face 1, 85 above the pith, with radius 10 at 100 mm has
// radius 10 (0.35 + 0.65 x 0.85) = 9.03 there.
func TestKnotIsAFlaw(t *testing.T) {
	b := round(130, -85, 100, 400)
	b.Log.Knots = []Knot{{X: 150, D: -1, Size: 10, Ends: 300}}
	got := b.Mask(1, 2, 0).Shares()[photo.Flaw] * 300 * 260
	if want := math.Pi * 9.025 * 9.025; math.Abs(got-want) > 0.03*want {
		t.Errorf("knot covers %.1f mm2, by hand %.1f", got, want)
	}
}

// The least differences of the levels are an engineering choice, here written
// down a second time so that a slip of the plan shows.
func TestPlansKeepTheirLevel(t *testing.T) {
	least := [6]float64{0, 16, 14, 12, 11, 9.5}
	cases, kinds := map[string]bool{}, map[string]bool{}
	for seed := uint64(1); seed <= 120; seed++ {
		level := 1 + int(seed%5)
		b := Plan(seed, level)
		cases[b.Case], kinds[b.Kind.Name] = true, true
		if d := difference(b.Kind.Heart, b.Kind.Sap); d < least[level]-1e-9 {
			t.Errorf("seed %d, level %d: heart and sap differ by %.1f", seed, level, d)
		}
		m := b.Mask(1, 0.1, 0).Shares()
		switch {
		case b.Case == "none" && m[photo.Sap] > 0.02, b.Case == "all sap" && m[photo.Heart] > 0.02:
			t.Errorf("seed %d, case %s: heart %.3f, sap %.3f", seed, b.Case, m[photo.Heart], m[photo.Sap])
		}
	}
	if len(cases) < 8 || len(kinds) < 15 {
		t.Errorf("120 plans make %d cases and %d woods", len(cases), len(kinds))
	}
}
