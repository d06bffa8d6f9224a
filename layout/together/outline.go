package together

import (
	"heartside/layout/face"
	"heartside/layout/geom"
)

// finish gives the face the shapes of the panels and what is hidden of them.
func (f *Face) finish() {
	out := f.Panel
	plain := true
	for k, p := range f.panels {
		at := f.Places[k]
		if f.layout.Way == Along {
			plain = plain && at.H() == out.Width
		} else {
			plain = plain && at.W() == out.Length
		}
		plain = plain && p.Shape == nil
		m := geom.Translate(at.Min.X, at.Min.Y)
		for _, h := range p.Hidden {
			// Only on the panel itself, not on its neighbour.
			if q := m.ApplyTo(h).ClipRect(at); len(q) > 2 {
				out.Hidden = append(out.Hidden, q)
			}
		}
	}
	if !plain {
		out.Shape = joined(f.panels, f.Places)
	}
}

// joined is the outlines of all panels as one ring: from each to the next one
// and all the way back along the same lines, which hold nothing.
func joined(panels []*face.Panel, places []geom.Rect) geom.Polygon {
	var out geom.Polygon
	var first []geom.Point // of each outline
	for k, p := range panels {
		outline := geom.Translate(places[k].Min.X, places[k].Min.Y).ApplyTo(p.Outline())
		if len(outline) < 3 {
			continue
		}
		out = append(out, outline...)
		out = append(out, outline[0])
		first = append(first, outline[0])
	}
	for k := len(first) - 2; k > 0; k-- {
		out = append(out, first[k])
	}
	return out
}
