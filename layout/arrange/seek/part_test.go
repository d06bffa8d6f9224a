package seek

import (
	"context"
	"math"
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/together"
)

// banded is a board of 1000 x 110 mm with sapwood from lo to hi across.
func banded(id string, lo, hi float64) face.Strip {
	b := &face.Board{ID: id, Length: 1000, Width: 110, Thickness: 25}
	if hi > lo {
		b.Faces[0].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, lo, 1000, hi).Polygon()}}
	}
	b.Faces[1] = b.Faces[0]
	return face.Strip{ID: id, Board: b, X: 50, Y: 5, L: 900, W: 100, Up: 1}
}

func doorOf(id string, strips ...face.Strip) *face.Panel {
	return &face.Panel{ID: id, Length: 900, Width: 100 * float64(len(strips)), Thickness: 20, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits, Strips: strips}
}

// The left door has one streak, 125 mm from its front edge. The right one's has
// to stand 125 from its back edge to mirror it over the gap, which by itself
// neither door asks for.
func TestSeenTogether(t *testing.T) {
	left := doorOf("left", banded("a", 0, 0), banded("b", 20, 40), banded("c", 0, 0))
	right := doorOf("right", banded("d", 20, 40), banded("e", 0, 0), banded("f", 0, 0))
	f, err := together.Beside([]*face.Panel{left, right}, 3)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Search(context.Background(), Request{Panel: *right, In: f, At: 1, Look: look.SapToSap, Rules: look.DefaultRules, NoRoll: true, Seed: 1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	best := r.Answers[0]
	if best.Strips[1].ID != "d" || !best.Strips[1].Turned {
		t.Errorf("d lies in place %v", best.Strips)
	}
	if best.Score.Points >= r.As.Score.Points || !r.Optimal {
		t.Errorf("%.3f points, before %.3f", best.Score.Points, r.As.Score.Points)
	}
	for _, x := range best.Score.Terms {
		if x.Kind == look.LoneStreak {
			t.Errorf("a streak stands alone: %v", x.Strips)
		}
	}
	// The points are those of the terms, and of the looks.
	sum := 0.0
	for _, x := range best.Score.Terms {
		sum += x.Points
	}
	for _, l := range best.Looks {
		if l.Look == look.SapToSap && math.Abs(l.Points-sum) > 1e-9 || math.Abs(sum-best.Score.Points) > 1e-9 {
			t.Errorf("terms make %.4f, points are %.4f, by looks %.4f", sum, best.Score.Points, l.Points)
		}
	}
}
