package model

import (
	"reflect"
	"testing"

	"heartside/layout/geom"
)

// A face of 100 x 40: half a turn takes (10, 5) to (90, 35), and the corner of
// the picture that was (0, 0)'s is then (100, 40)'s.
func TestFaceTurned(t *testing.T) {
	f := Face{
		Photo: "a.jpg", Corners: &[4]geom.Point{{X: 1, Y: 90}, {X: 99, Y: 91}, {X: 98, Y: 10}, {X: 2, Y: 11}}, Known: true,
		Zones: []Zone{{Kind: Sap, Polygon: geom.Polygon{{X: 10, Y: 5}, {X: 20, Y: 5}, {X: 20, Y: 15}}}},
		Grain: [][]geom.Point{{{X: 10, Y: 5}, {X: 60, Y: 8}}},
	}
	was := cloneFace(f)
	g := f.Turned(100, 40)
	want := Face{
		Photo: "a.jpg", Corners: &[4]geom.Point{{X: 98, Y: 10}, {X: 2, Y: 11}, {X: 1, Y: 90}, {X: 99, Y: 91}}, Known: true,
		Zones: []Zone{{Kind: Sap, Polygon: geom.Polygon{{X: 90, Y: 35}, {X: 80, Y: 35}, {X: 80, Y: 25}}}},
		Grain: [][]geom.Point{{{X: 90, Y: 35}, {X: 40, Y: 32}}},
	}
	if !reflect.DeepEqual(g, want) {
		t.Errorf("got %+v", g)
	}
	if !reflect.DeepEqual(f, was) {
		t.Error("the face itself was changed")
	}
	if !reflect.DeepEqual(g.Turned(100, 40), f) {
		t.Error("two half turns are not none")
	}
}
