package face

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// At returns the kind of wood at p, in the face's own coordinates, on a face
// of board b: Blank outside the board or the outline.
func (f *BoardFace) At(p geom.Point, b *Board) Kind {
	if !geom.R(0, 0, b.Length, b.Width).Contains(p) {
		return Blank
	}
	return f.at(p)
}

func (f *BoardFace) at(p geom.Point) Kind {
	if f.Outline != nil && !f.Outline.Contains(p) {
		return Blank
	}
	for i := len(f.Zones) - 1; i >= 0; i-- {
		if f.Zones[i].Polygon.Contains(p) {
			return f.Zones[i].Kind
		}
	}
	return f.Base
}

// MeanColours returns the mean CIELAB colour of the heartwood and of the
// sapwood of a face, from its photograph and zones. Cells whose neighbours are
// of another kind are left out where enough others are left, as they may hold
// both. Nil where there is no picture of the kind.
func MeanColours(bf *BoardFace) (heart, sap *colour.Lab) {
	f := bf.Field
	if !f.Full() {
		return nil, nil
	}
	kinds := make([]Kind, f.NX*f.NY)
	for j := 0; j < f.NY; j++ {
		for i := 0; i < f.NX; i++ {
			kinds[j*f.NX+i] = bf.at(geom.Pt((float64(i)+0.5)*f.Step, (float64(j)+0.5)*f.Step))
		}
	}
	var pure, all [2]tint
	for k, kind := range kinds {
		c := f.Of(k)
		if kind > Sap || math.IsNaN(c.L) {
			continue
		}
		all[kind].add(c, 1)
		i, j := k%f.NX, k/f.NX
		if (i == 0 || kinds[k-1] == kind) && (i == f.NX-1 || kinds[k+1] == kind) &&
			(j == 0 || kinds[k-f.NX] == kind) && (j == f.NY-1 || kinds[k+f.NX] == kind) {
			pure[kind].add(c, 1)
		}
	}
	var out [2]*colour.Lab
	for kind := range out {
		t := pure[kind]
		if t.area == 0 {
			t = all[kind]
		}
		if c, ok := t.mean(); ok {
			out[kind] = &c
		}
	}
	return out[Heart], out[Sap]
}
