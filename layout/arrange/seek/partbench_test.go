package seek

import (
	"testing"

	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/together"
)

// A door of six strips arranged beside another one, whose strips were measured
// after planing: 2000 readings.
func BenchmarkBeside(b *testing.B) {
	left, _ := drawn(1, 6, 0)
	right, _ := drawn(2, 6, 0)
	left.ID, right.ID = "left", "right"
	for i := range left.Strips {
		s := &left.Strips[i]
		s.Planed = &face.PlanedFace{Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, s.L, 12).Polygon()}}}
	}
	f, err := together.Beside([]*face.Panel{left, right}, 3)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		r, err := Search(b.Context(), Request{Panel: *right, In: f, At: 1, Look: look.SapToSap, Rules: look.DefaultRules, Seed: 1, Readings: 2000}, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(r.Answers[0].Score.Points, "points")
	}
}
