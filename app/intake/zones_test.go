package intake

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// A band of 30 mm along the far edge and a knot of 20 x 20 in it.
func TestZonesAndBack(t *testing.T) {
	f := model.Face{Base: model.Heart, Zones: []model.Zone{
		{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 70}, {X: 300, Y: 70}, {X: 300, Y: 100}, {X: 0, Y: 100}}},
		{Kind: model.Flaw, Polygon: geom.Polygon{{X: 100, Y: 75}, {X: 120, Y: 75}, {X: 120, Y: 95}, {X: 100, Y: 95}}},
	}}
	m, err := MaskOf(&f, 300, 100)
	if err != nil {
		t.Fatal(err)
	}
	s := m.Shares()
	if s[photo.Sap] != (30.*300-400)/30000 || s[photo.Flaw] != 400./30000 || m.At(0, 0) != photo.Sap || m.At(0, 99) != photo.Heart || m.At(110, 15) != photo.Flaw {
		t.Fatalf("shares %v", s)
	}
	zones, base, err := ZonesOf(m)
	if err != nil || base != model.Heart {
		t.Fatalf("base %q, %v", base, err)
	}
	area := map[model.ZoneKind]float64{}
	for _, z := range zones {
		area[z.Kind] += z.Polygon.Area()
	}
	// Of layers that lie on one another, the knot lies on the band.
	if math.Abs(area[model.Sap]-9000) > 60 || math.Abs(area[model.Flaw]-400) > 40 {
		t.Errorf("areas %v", area)
	}
}

func TestZonesOnSapwood(t *testing.T) {
	m := photo.NewMask(200, 50, 1)
	for k := range m.Pix {
		m.Pix[k] = photo.Sap
		if j := k / m.W; j > 40 {
			m.Pix[k] = photo.Heart
		}
	}
	zones, base, err := ZonesOf(m)
	if err != nil || base != model.Sap || len(zones) != 1 || zones[0].Kind != model.Heart {
		t.Errorf("%v on %q, %v", zones, base, err)
	}
}

// Outside the outline of a waney board is nothing.
func TestMaskOfOutline(t *testing.T) {
	f := model.Face{Outline: geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 40}, {X: 0, Y: 20}}}
	m, err := MaskOf(&f, 100, 50)
	if err != nil || m.At(0, 0) != photo.Outside || m.At(0, 49) != photo.Heart {
		t.Fatalf("%v", err)
	}
	n := 0
	for _, l := range m.Pix {
		if l == photo.Heart {
			n++
		}
	}
	if n < 2990 || n > 3010 { // a trapezium of 100 x (20 + 40) / 2
		t.Errorf("%d cells of wood, want 3000", n)
	}
}
