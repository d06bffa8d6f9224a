package model

import (
	"errors"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// ring makes a polygon of x, y, x, y, ...
func ring(xy ...float64) geom.Polygon {
	var p geom.Polygon
	for i := 0; i+1 < len(xy); i += 2 {
		p = append(p, geom.Pt(xy[i], xy[i+1]))
	}
	return p
}

// table is a project that uses everything a project can hold.
func table() *Project {
	p := NewProject()
	p.Name = "Hall table"
	a := NewBoard("A", "walnut-black", 2400, 210, 26)
	a.Moisture, a.Bark, a.Planes, a.Wanted, a.Note = 8.1, BarkFace2, PlanesFromMarked, WantHeart, "quiet"
	a.Pith = []Pith{{Across: 105, Depth: -60}}
	a.Price, a.Log = &Price{12.5, "board-foot"}, &Log{"L1", 2}
	a.Shape = Shape{Cup: 1, Bow: 4}
	a.Faces[0] = Face{
		Photo: "photos/a1.jpg", Base: Heart, Known: true,
		Corners: &[4]geom.Point{{X: 130, Y: 450}, {X: 3880, Y: 460}, {X: 3900, Y: 95}, {X: 120, Y: 80}},
		Zones:   []Zone{{Sap, ring(0, 0, 2400, 0, 2400, 38, 0, 52)}},
		Grain:   [][]geom.Point{ring(0, 90, 1200, 96, 2400, 88)},
	}
	a.Faces[1] = Face{Known: true, Zones: []Zone{{Sap, ring(0, 150, 2400, 168, 2400, 210, 0, 210)}}}
	b := NewBoard("B", "walnut-black", 1800, 160, 26)
	p.Boards = []*Board{a, b}

	top := NewPanel("top", RoleTop, 900, 450, 20)
	top.Look, top.Rings, top.Hidden = SapOut, RingsBarkUp, []geom.Polygon{ring(0, 0, 50, 0, 50, 50)}
	s := NewPlace("A1", 930, 92)
	s.Board, s.X, s.Y = "A", 40, 8
	t := NewPlace("A2", 930, 95)
	t.Board, t.X, t.Y, t.Stage = "A", 1100, 8, Sawn
	u := NewPlace("3", 930, 90)
	v := NewPlace("B1", 930, 90)
	v.Board, v.X, v.Y, v.Off, v.Up = "B", 30, 20, &[2]float64{2, 1}, 2
	top.Strips = []Strip{s, t, u, v}
	side := NewPanel("side", RoleSide, 700, 380, 20)
	p.Panels = []*Panel{top, side}
	spare := NewPlace("B2", 700, 60)
	spare.Board, spare.X, spare.Y = "B", 1000, 20
	p.Spares = []Strip{spare}
	p.Joined = []Joined{{[2]string{"top", "side"}, "fixed", [2]string{"left", "top"}}}
	p.Kept = []Kept{{"top", "first", []Strip{v, s}}}
	p.Colours = []Colours{{"walnut-black", 1, &colour.Lab{L: 40, A: 8, B: 17}, nil}}
	p.Sets = []Set{NewSet("case", "top", "side")}
	leg := NewPart("leg", Leg, 4, 720, 50, 50)
	leg.Wanted = WantHeart
	leg.Places = []PartPlace{{"B", 20, 90, 740, 56, 0, Planned}, {"A", 30, 110, 740, 56, 1.5, Planned}}
	offer := NewBoard("Y1", "walnut-black", 2300, 180, 26)
	offer.Faces[0] = Face{Known: true, Zones: []Zone{{Sap, ring(0, 0, 2300, 0, 2300, 20, 0, 20)}}}
	p.Yard = &Yard{Species: "walnut-black", Offers: []Offer{{Board: offer, Say: OfferKeep}}}
	p.Parts = []Part{leg}
	return p
}

// must applies an edit that has to succeed.
func must(t *testing.T, p *Project, e Edit) *Project {
	t.Helper()
	q, err := Apply(p, e)
	if err != nil {
		t.Fatalf("%s: %v", e.Label(), err)
	}
	return q
}

// wantRule checks that err holds a broken rule and returns it.
func wantRule(t *testing.T, err error, want Rule) RuleError {
	t.Helper()
	var r RuleError
	for _, e := range unjoin(err) {
		if errors.As(e, &r) && r.Rule == want {
			return r
		}
	}
	t.Fatalf("want rule %s, got %v", want, err)
	return r
}

func unjoin(err error) []error {
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		return j.Unwrap()
	}
	return []error{err}
}

func strip(t *testing.T, p *Project, panel, id string) Strip {
	t.Helper()
	s, ok := p.Panel(panel).Strip(id)
	if !ok {
		t.Fatalf("panel %s has no strip %s", panel, id)
	}
	return s
}

func order(p *Project, panel string) string {
	var s string
	for i, k := range p.Panel(panel).Strips {
		if i > 0 {
			s += " "
		}
		s += k.ID
	}
	return s
}
