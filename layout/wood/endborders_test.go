package wood

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// A board of 1000 x 200 x 30: on face 1 sapwood from 150 at the marked end to
// 140 at the other; on face 2, as it is seen, sapwood up to 40 all along, which
// is 160 from the marked edge. A knot at the other end hides the border of face
// 2 there. The first station lies 5 mm from the end: 149.95.
func TestEndBorders(t *testing.T) {
	sap1 := Zone{photo.Sap, geom.Polygon{{X: 0, Y: 150}, {X: 1000, Y: 140}, {X: 1000, Y: 200}, {X: 0, Y: 200}}}
	sap2 := Zone{photo.Sap, geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 0}, {X: 1000, Y: 40}, {X: 0, Y: 40}}}
	knot := Zone{photo.Flaw, geom.Polygon{{X: 950, Y: 20}, {X: 1000, Y: 20}, {X: 1000, Y: 60}, {X: 950, Y: 60}}}
	f := Faces{Length: 1000, Width: 200, Thickness: 30}
	f.Side[0] = FromZones(1000, 200, photo.Heart, nil, []Zone{sap1})
	f.Side[1] = FromZones(1000, 200, photo.Heart, nil, []Zone{sap2, knot})
	for other, want := range map[bool][]geom.Point{
		false: {{X: 149.95, Y: 0}, {X: 160, Y: 30}},
		true:  {{X: 140.05, Y: 0}},
	} {
		got := f.EndBorders(other)
		if len(got) != len(want) {
			t.Fatalf("other end %v: %v, want %v", other, got, want)
		}
		for i := range want {
			if math.Hypot(got[i].X-want[i].X, got[i].Y-want[i].Y) > 1e-9 {
				t.Errorf("other end %v: %v, want %v", other, got, want)
			}
		}
	}
	if got := (Faces{Length: 1000, Width: 200, Thickness: 30}).EndBorders(true); got != nil {
		t.Errorf("no face was seen, and %v", got)
	}
}
