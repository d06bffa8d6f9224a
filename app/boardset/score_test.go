package boardset

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// drawn makes a mask from rows of letters: h heart, s sap, f flaw.
func drawn(rows ...string) *photo.Mask {
	m := photo.NewMask(float64(len(rows[0])), float64(len(rows)), 1)
	for j, r := range rows {
		for i, c := range r {
			m.Pix[j*m.W+i] = map[rune]photo.Label{'h': photo.Heart, 's': photo.Sap, 'f': photo.Flaw, '.': photo.Outside}[c]
		}
	}
	return m
}

// Counted by hand: 4 cells in both, 6 in either, the flaw counts neither way;
// 11 cells of wood, 2 of them wrong.
func TestJudgeByHand(t *testing.T) {
	truth := drawn("sssf", "ssss"[:2]+"hh", "hhhh")
	got := drawn("sshs", "sshs", "hhhh")
	s := Judge(got, truth)
	if want := 4. / 6; math.Abs(s.IoU-want) > 1e-12 {
		t.Errorf("IoU %g, want %g", s.IoU, want)
	}
	if want := 9. / 11; math.Abs(s.Accuracy-want) > 1e-12 {
		t.Errorf("accuracy %g, want %g", s.Accuracy, want)
	}
	if s.Share != 6./12 || s.Truth != 5./12 {
		t.Errorf("shares %g of %g, want 0.5 of %g", s.Share, s.Truth, 5./12)
	}
}

// A straight border 2 cells off is within 3 mm all along; one 5 off nowhere.
func TestJudgeBorder(t *testing.T) {
	band := func(rows int) *photo.Mask {
		m := photo.NewMask(40, 30, 1)
		for k := range m.Pix {
			m.Pix[k] = photo.Heart
			if k/m.W < rows {
				m.Pix[k] = photo.Sap
			}
		}
		return m
	}
	for _, c := range []struct {
		rows int
		want float64
	}{{10, 1}, {12, 1}, {13, 1}, {15, 0}, {0, 0}} {
		if s := Judge(band(c.rows), band(10)); s.Boundary != c.want {
			t.Errorf("border at %d against 10: F %g, want %g", c.rows, s.Boundary, c.want)
		}
	}
	if s := Judge(band(0), band(0)); s.IoU != 1 || s.Boundary != 1 || s.Accuracy != 1 {
		t.Errorf("nothing found where nothing is: %+v", s)
	}
}

// The distance by its definition, over all pairs.
func TestDistances(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 60 {
		w, h := 1+r.IntN(14), 1+r.IntN(14)
		in := make([]bool, w*h)
		for i := range in {
			in[i] = r.IntN(7) == 0
		}
		got := distances(in, w, h)
		for k := range in {
			want := math.Inf(1)
			for q, v := range in {
				if v {
					want = math.Min(want, math.Hypot(float64(k%w-q%w), float64(k/w-q/w)))
				}
			}
			if got[k] != want && math.Abs(got[k]-want) > 1e-9 {
				t.Fatalf("%d x %d, cell %d: %g, want %g", w, h, k, got[k], want)
			}
		}
	}
}

func TestCornerErrors(t *testing.T) {
	// Two pixels a mm, upright: 3 px right and 4 px down are 2.5 mm.
	truth := [4]geom.Point{{X: 0, Y: 200}, {X: 400, Y: 200}, {X: 400, Y: 0}, {X: 0, Y: 0}}
	found := truth
	found[1] = found[1].Add(geom.Pt(3, 4))
	got, err := CornerErrors(found, truth, 200, 100)
	if err != nil || math.Abs(got[1]-2.5) > 1e-9 || got[0] > 1e-9 {
		t.Errorf("errors %v, %v; want 2.5 mm at the second corner only", got, err)
	}
}

func TestCorrectStrokesTheError(t *testing.T) {
	truth := photo.NewMask(300, 60, 1)
	got := photo.NewMask(300, 60, 1)
	for k := range truth.Pix {
		truth.Pix[k], got.Pix[k] = photo.Heart, photo.Heart
		if j := k / truth.W; j < 20 {
			truth.Pix[k] = photo.Sap
		}
		if i, j := k%truth.W, k/truth.W; j < 20 && i < 100 {
			got.Pix[k] = photo.Sap
		}
	}
	c, ok := Correct(got, truth)
	if !ok || c.Kind != photo.Sap || len(c.Points) < 100 || len(c.Points) > strokeLength {
		t.Fatalf("correction %v %v with %d points", ok, c.Kind, len(c.Points))
	}
	for _, p := range c.Points {
		if p.X < 100 || p.Y < 40 || p.Y > 60 || math.Abs(p.Y-50) > 1.5 {
			t.Fatalf("a stroke at %v; the missed sapwood is x > 100, y 40 to 60, its middle y 50", p)
		}
	}
	if _, ok := Correct(truth, truth); ok {
		t.Error("a stroke where all is right")
	}
}
