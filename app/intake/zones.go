package intake

import (
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/trace"
	"heartside/model"
)

// kinds pair what a mask and a project call the same wood.
var kinds = map[photo.Label]model.ZoneKind{
	photo.Heart: model.Heart, photo.Sap: model.Sap, photo.Flaw: model.Flaw, photo.Unseen: model.Unseen,
}

// LabelOf returns what a mask calls a kind of zone; heart for none.
func LabelOf(k model.ZoneKind) photo.Label {
	for l, z := range kinds {
		if z == k {
			return l
		}
	}
	return photo.Heart // the base of a face that says nothing
}

// ZonesOf draws the zones of a mask, and the base they lie on: sapwood where
// it covers more than half.
func ZonesOf(m *photo.Mask) ([]model.Zone, model.ZoneKind, error) {
	o := trace.Defaults()
	o.SapBase = true
	list, base, err := trace.Polygons(m, o)
	if err != nil {
		return nil, "", err
	}
	var out []model.Zone
	for _, z := range list {
		out = append(out, model.Zone{Kind: kinds[z.Kind], Polygon: z.Polygon})
	}
	return out, kinds[base], nil
}

// MaskOf returns the zones of a face of a board as a mask of 1 cell a mm.
func MaskOf(f *model.Face, length, width float64) (*photo.Mask, error) {
	var list []trace.Zone
	for _, z := range f.Zones {
		list = append(list, trace.Zone{Kind: LabelOf(z.Kind), Polygon: z.Polygon})
	}
	m, err := trace.Rasterise(list, LabelOf(f.Base), length, width, 1)
	if err != nil || len(f.Outline) == 0 {
		return m, err
	}
	for k := range m.Pix {
		x := (float64(k%m.W) + 0.5) * m.Length / float64(m.W)
		y := m.Width - (float64(k/m.W)+0.5)*m.Width/float64(m.H)
		if !f.Outline.Contains(geom.Pt(x, y)) {
			m.Pix[k] = photo.Outside
		}
	}
	return m, nil
}
