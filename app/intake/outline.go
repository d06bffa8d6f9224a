package intake

import (
	"context"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/trace"
	"heartside/model/say"
)

// Outline gives the face another outline, mm, and splits what lies within
// anew; nil: the rectangle. Strokes from before no longer count; what was set
// by hand stays where there is wood.
func (e *Editor) Outline(ctx context.Context, ring geom.Polygon) error {
	was := e.now()
	act, wood, in := say.T("Straight edges"), e.Squared, (*photo.Mask)(nil)
	if ring != nil {
		act, in = say.T("Waney edges"), ringMask(ring, photo.NewMask(e.Squared.Length, e.Squared.Width, pxPerMM))
		if !slices.Contains(in.Pix, photo.Heart) {
			return say.Error("the outline holds nothing of the face")
		}
		wood = within(e.Squared, in)
	}
	st, err := splitNow(ctx, wood)
	if err != nil {
		return err
	}
	st.act, st.ring = act, ring
	if was.by != nil {
		by := *was.by
		by.Pix = slices.Clone(was.by.Pix)
		for k := range by.Pix {
			if in != nil && in.Pix[k] == photo.Outside {
				by.Pix[k] = photo.Outside
			}
		}
		st.by = &by
		st.mask = laid(st.mask, &by)
	}
	st.changed = changeOf(was.mask, st.mask, nil)
	e.push(*st)
	return nil
}

// Ring is the outline of the face as it is now, mm, and whether it is the one
// that was traced, to the point; else it is drawn from the mask, nil where all
// of that is wood.
func (e *Editor) Ring() (ring geom.Polygon, traced bool, err error) {
	st := e.now()
	if st.ring != nil && slices.EqualFunc(st.mask.Pix, ringMask(st.ring, st.mask).Pix, func(a, b photo.Label) bool { return (a == photo.Outside) == (b == photo.Outside) }) {
		return st.ring, true, nil
	}
	ring, err = OutlineOf(st.mask)
	return ring, false, err
}

// without returns a mask in which some cells are no wood.
func without(m *photo.Mask, gone []bool) *photo.Mask {
	if gone == nil {
		return m
	}
	out := *m
	out.Pix = slices.Clone(m.Pix)
	for k, no := range gone {
		if no {
			out.Pix[k] = photo.Outside
		}
	}
	return &out
}

// asBefore returns a mask that is no wood where another is none, and wood where
// that is.
func asBefore(m, was *photo.Mask) *photo.Mask {
	out := *m
	out.Pix = slices.Clone(m.Pix)
	for k, l := range was.Pix {
		if l == photo.Outside || out.Pix[k] == photo.Outside {
			out.Pix[k] = l
		}
	}
	return &out
}

// cutFrom returns the cells that are said to be no wood after an act.
func cutFrom(gone []bool, was, now *photo.Mask) []bool {
	var out []bool
	for k, l := range now.Pix {
		if no := l == photo.Outside; no != (was.Pix[k] == photo.Outside) {
			if out == nil {
				out = make([]bool, len(now.Pix))
				copy(out, gone)
			}
			out[k] = no
		}
	}
	if out == nil {
		return gone
	}
	return out
}

// outlineOff is how far the outline drawn from a mask may lie off it, mm, and
// outlineLeast the least piece of wood that counts, mm2.
const outlineOff, outlineLeast = 0.8, 400

// OutlineOf draws the outline of a mask: the largest piece of wood in it. It
// is nil where all of the mask is wood.
func OutlineOf(m *photo.Mask) (geom.Polygon, error) {
	two, off := *m, false
	two.Pix = make([]photo.Label, len(m.Pix))
	for k, l := range m.Pix {
		two.Pix[k] = photo.Sap
		if l == photo.Outside {
			two.Pix[k], off = photo.Heart, true
		}
	}
	if !off {
		return nil, nil
	}
	zones, _, err := trace.Polygons(&two, trace.Options{Tolerance: outlineOff, Least: outlineLeast})
	if err != nil {
		return nil, err
	}
	var out geom.Polygon
	for _, z := range zones {
		if z.Kind == photo.Sap && (out == nil || z.Polygon.Area() > out.Area()) {
			out = z.Polygon
		}
	}
	if out == nil {
		return nil, say.Error("nothing of the face is left as wood; take the last act back")
	}
	return out, nil
}

// WithHoles returns a mask in which what is not wood within an outline is a
// flaw: an outline has no holes.
func WithHoles(m *photo.Mask, outline geom.Polygon) *photo.Mask {
	if outline == nil {
		return m
	}
	out := *m
	out.Pix = append([]photo.Label(nil), m.Pix...)
	in := ringMask(outline, m)
	for k, l := range m.Pix {
		if l == photo.Outside && in.Pix[k] != photo.Outside {
			out.Pix[k] = photo.Flaw
		}
	}
	return &out
}

// WoodIn tells which cells of a mask lie in an outline; all for nil.
func WoodIn(outline geom.Polygon, like *photo.Mask) []bool {
	out := make([]bool, len(like.Pix))
	var in *photo.Mask
	if outline != nil {
		in = ringMask(outline, like)
	}
	for k := range out {
		out[k] = in == nil || in.Pix[k] != photo.Outside
	}
	return out
}

// ringMask is a mask like another with heartwood in a ring and nothing
// outside.
func ringMask(ring geom.Polygon, like *photo.Mask) *photo.Mask {
	m := *like
	m.Pix = make([]photo.Label, len(like.Pix))
	if out, err := trace.Fill(&m, ring, photo.Heart); err == nil {
		return out
	}
	return &m
}

// within returns a squared face without what a mask says is no wood; itself
// where all of it is.
func within(s *photo.Squared, m *photo.Mask) *photo.Squared {
	if slices.Contains(m.Pix, photo.Outside) {
		return cut(s, m)
	}
	return s
}

// cut returns a squared face that is transparent where a mask has no wood.
func cut(s *photo.Squared, m *photo.Mask) *photo.Squared {
	pix := *s.Pix
	pix.Pix = append([]uint8(nil), s.Pix.Pix...)
	nx, ny := pix.Rect.Dx(), pix.Rect.Dy()
	for j := range ny {
		row := pix.Pix[j*pix.Stride:]
		of := m.Pix[min(j*m.H/ny, m.H-1)*m.W:]
		for i := range nx {
			if of[min(i*m.W/nx, m.W-1)] == photo.Outside {
				row[4*i+3] = 0
			}
		}
	}
	return &photo.Squared{Pix: &pix, PxPerMM: s.PxPerMM, Length: s.Length, Width: s.Width}
}
