package face

import (
	"math"
	"slices"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// PlanedField is the colour field of a face once it is planed: where another
// wood has come to light the photograph of the sawn face no longer tells, and
// the mean colour of that wood on the sawn face stands for it. Where nothing
// changes it is the field itself.
func PlanedField(sawn, planed *BoardFace) *colour.Field {
	f := sawn.Field
	if !f.Full() {
		return f
	}
	was, now := kindsOn(sawn, f), kindsOn(planed, f)
	means := [2]*colour.Lab{Heart: sawn.Heart, Sap: sawn.Sap}
	out := f
	for i, k := range now {
		if k == was[i] || k > Sap || means[k] == nil {
			continue
		}
		if out == f {
			out = f.Copy()
		}
		out.Set(i, *means[k])
	}
	return out
}

// kindsOn are the kinds of a face under the middles of a field's cells.
func kindsOn(bf *BoardFace, f *colour.Field) []Kind {
	out := make([]Kind, f.NX*f.NY)
	for i := range out {
		out[i] = bf.Base
	}
	var xs []float64
	for _, z := range bf.Zones {
		box := z.Polygon.Bounds()
		for j := max(0, int(box.Min.Y/f.Step)-1); j < f.NY && float64(j)*f.Step < box.Max.Y; j++ {
			xs = crossed(xs[:0], z.Polygon, (float64(j)+0.5)*f.Step)
			for k := 0; k+1 < len(xs); k += 2 {
				for i := max(0, int(math.Ceil(xs[k]/f.Step-0.5))); i < f.NX && (float64(i)+0.5)*f.Step < xs[k+1]; i++ {
					out[j*f.NX+i] = z.Kind
				}
			}
		}
	}
	return out
}

// crossed appends where a line at y meets a polygon, from left to right.
func crossed(xs []float64, p geom.Polygon, y float64) []float64 {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	slices.Sort(xs)
	return xs
}
