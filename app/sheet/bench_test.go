package sheet

import (
	"fmt"
	"math"
	"testing"

	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/model"
)

// twelve is a panel of 12 strips from 8 boards, sapwood along both edges of each
// face with a line of 40 points.
func twelve(t testing.TB) *session.Session {
	p := model.NewProject()
	p.Name = "Twelve strips of eight boards"
	p.Allowances = model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5, AfterGlue: 1.5}
	m := model.NewPanel("top", model.RoleTop, 1200, 930, 20)
	for i := range 8 {
		b := model.NewBoard(string(rune('A'+i)), "walnut-black", 1400, 230, 26)
		b.Bark, b.Moisture = model.BarkFace1, 8
		for f := range b.Faces {
			var low, high geom.Polygon
			for k := range 40 {
				x := 1400 * float64(k) / 39
				d := 18 + 6*math.Sin(float64(k+5*i))
				low, high = append(low, geom.Pt(x, d)), append(high, geom.Pt(1400-x, 230-d))
			}
			b.Faces[f] = model.Face{Known: true, Base: model.Heart, Zones: []model.Zone{
				{Kind: model.Sap, Polygon: append(low, geom.Pt(1400, 0), geom.Pt(0, 0))},
				{Kind: model.Sap, Polygon: append(high, geom.Pt(0, 230), geom.Pt(1400, 230))}}}
		}
		p.Boards = append(p.Boards, b)
		for k := range 1 + (i+1)%2 { // two and one by turns
			m.Strips = append(m.Strips, model.Strip{ID: fmt.Sprint(len(m.Strips) + 1), Board: b.ID, X: 60, Y: 12 + 110*float64(k), L: 1250, W: 80, Up: 1})
		}
	}
	p.Panels = append(p.Panels, m)
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	s := session.New(p, session.Options{})
	t.Cleanup(s.Close)
	return s
}

// Sheet of a 12-strip panel with 8 boards as PDF, with its size.
func BenchmarkSheet12(b *testing.B) {
	f, s := faces(b), twelve(b)
	var size int
	for b.Loop() {
		d, err := Build(FromSession(s, "25 November 2026", A4, f))
		if err != nil {
			b.Fatal(err)
		}
		pdf, err := d.PDF()
		if err != nil {
			b.Fatal(err)
		}
		size = len(pdf)
	}
	b.ReportMetric(float64(size)/1e6, "MB")
}
