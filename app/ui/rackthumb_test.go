package ui

import (
	"image/color"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// Every sap zone of a small face is hatched, however many zones lie on it, and
// a flaw on top takes the hatch away.
func TestSmallFaceHatchesEveryZone(t *testing.T) {
	box := func(kind model.ZoneKind, x0, y0, x1, y1 float64) model.Zone {
		return model.Zone{Kind: kind, Polygon: geom.Polygon{geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1)}}
	}
	b := &model.Board{ID: "A", Length: 200, Width: 100}
	b.Faces[0] = model.Face{Known: true, Zones: []model.Zone{
		box(model.Sap, 0, 0, 200, 30), box(model.Sap, 0, 70, 200, 100), box(model.Flaw, 100, 70, 200, 100),
	}}
	line := color.NRGBA{R: 255, A: 255}
	img := smallFace(t.Context(), b, 1, nil, 1, thumbLook{line: line, ground: color.NRGBA{A: 255}, ink: color.NRGBA{B: 255, A: 255}})
	lines := func(x0, y0, x1, y1 int) (n int) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				if img.RGBAAt(x, y).R == 255 {
					n++
				}
			}
		}
		return n
	}
	// Row 0 is the far edge. Every seventh pixel of sapwood is a line.
	for _, c := range []struct {
		name           string
		x0, y0, x1, y1 int
		share          int
	}{
		{"sap at the near edge", 10, 75, 190, 95, 180 * 20 / 7},
		{"sap at the far edge", 10, 5, 90, 25, 80 * 20 / 7},
		{"flaw over sap", 110, 5, 190, 25, 0},
		{"heart", 10, 35, 190, 65, 0},
	} {
		if got := lines(c.x0, c.y0, c.x1, c.y1); got < c.share-40 || got > c.share+40 {
			t.Errorf("%s: %d pixels of line, want about %d", c.name, got, c.share)
		}
	}
}
