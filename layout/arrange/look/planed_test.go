package look

import (
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// thinner has 20 mm of sapwood along the front edge of its sawn faces and none
// once planed.
type thinner struct{ planed *face.Board }

func (d thinner) Finished([2]float64) *face.Board { return d.planed }

// Sapwood that is planed away meets no heartwood at a joint; before planing it
// does, along all of it.
func TestJointsAreJudgedAsPlaned(t *testing.T) {
	deep := plank("A", face.Heart, [2]float64{0, 20})
	planed := *plank("A", face.Heart)
	planed.Sawn = deep
	deep.Deep = thinner{&planed}
	deep.Faces[1].Zones = []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 80, 1000, 100).Polygon()}}
	p := top(strip(plank("B", face.Heart)), strip(deep))
	p.Thickness = deep.Thickness - 5
	if deep.Thickness <= 5 {
		t.Fatalf("the board is %g mm thick", deep.Thickness)
	}
	near(t, "planed", points(scored(p, AsLaid), JointBorder), 0)
	p.ToPlane = 1
	near(t, "as sawn", points(scored(p, AsLaid), JointBorder), DefaultRules.Border)
}
