package match

import (
	"math"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// plank is a board all of heartwood.
func plank(id string, length, width float64) *face.Board {
	return &face.Board{ID: id, Length: length, Width: width, Thickness: 26}
}

// edged draws wood of a kind along the marked edge of face 1 (f = 1) or along
// the lower edge as seen of face 2: its width at x is w(x). Drawn every 5 mm.
func edged(b *face.Board, f int, kind face.Kind, w func(x float64) float64) *face.Board {
	p := geom.Polygon{geom.Pt(0, 0), geom.Pt(b.Length, 0)}
	for x := b.Length; x >= 0; x -= 5 {
		p = append(p, geom.Pt(x, w(x)))
	}
	b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: kind, Polygon: p})
	return b
}

// beyond draws wood of a kind from w(x) below the upper edge as seen of face f
// up to that edge.
func beyond(b *face.Board, f int, kind face.Kind, w func(x float64) float64) *face.Board {
	p := geom.Polygon{geom.Pt(b.Length, b.Width), geom.Pt(0, b.Width)}
	for x := 0.0; x <= b.Length; x += 5 {
		p = append(p, geom.Pt(x, b.Width-w(x)))
	}
	b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: kind, Polygon: p})
	return b
}

func strip(id string, b *face.Board, x, y, l, w float64) face.Strip {
	return face.Strip{ID: id, Board: b, X: x, Y: y, L: l, W: w, Up: 1}
}

func constant(w float64) func(float64) float64 { return func(float64) float64 { return w } }

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: %.6g, want %.6g within %g", what, got, want, within)
	}
}
