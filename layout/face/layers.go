package face

import "heartside/layout/geom"

// layers builds the layers of one face of a strip in place coordinates.
type layers struct {
	list   []geom.Layer
	points geom.Polygon // the mapped points, one after another
	around geom.Polygon // a ring about the strip
}

// reset makes ready for a strip of the given size.
func (b *layers) reset(s *Strip) {
	b.list, b.points = b.list[:0], b.points[:0]
	const clear = 1 // mm
	b.around = append(b.around[:0], geom.Pt(-clear, -clear), geom.Pt(s.L+clear, -clear),
		geom.Pt(s.L+clear, s.W+clear), geom.Pt(-clear, s.W+clear))
}

// add lays down a mapped polygon, or with outer set what lies outside it: the
// ring about the strip and the polygon as one ring, the way from one to the
// other gone there and back.
func (b *layers) add(kind Kind, p geom.Polygon, m geom.Affine, outer bool) {
	if len(p) < 3 {
		return
	}
	from := len(b.points)
	if outer {
		b.points = append(b.points, b.around...)
		b.points = append(b.points, b.around[0])
	}
	for _, q := range p {
		b.points = append(b.points, m.Apply(q))
	}
	if outer {
		b.points = append(b.points, m.Apply(p[0]))
	}
	b.list = append(b.list, geom.Layer{Label: int(kind), Polygon: b.points[from:len(b.points):len(b.points)]})
}

// board lays down face f (1 or 2) of the strip's board.
func (b *layers) board(s *Strip, f int) {
	m, ok := s.PlaceToFace(f).Inverse()
	if !ok {
		return
	}
	bf := &s.Board.Faces[f-1]
	rect := geom.Rect{Max: geom.Pt(s.Board.Length, s.Board.Width)}
	outline := bf.Outline
	if len(outline) < 3 {
		outline = rect.Polygon()
	}
	b.add(bf.Base, outline, m, false)
	beyond := bf.Outline != nil && len(bf.Zones) > 0
	for _, z := range bf.Zones {
		b.add(z.Kind, z.Polygon, m, false)
		for _, q := range z.Polygon {
			beyond = beyond || !rect.Contains(q)
		}
	}
	if beyond {
		b.add(Blank, outline, m, true)
	}
	if bf.Outline != nil {
		b.add(Blank, rect.Polygon(), m, true)
	}
}

// planed lays down what was measured on the planed face of the strip.
func (b *layers) planed(s *Strip) {
	m, ok := s.FromPlace().Inverse()
	if !ok {
		return
	}
	b.add(s.Planed.Base, geom.Rect{Max: geom.Pt(s.L, s.W)}.Polygon(), m, false)
	for _, z := range s.Planed.Zones {
		b.add(z.Kind, z.Polygon, m, false)
	}
}

// finish takes away what lies outside the outline, and on the show face what
// is hidden. The strip begins at (left, at) of the panel.
func (b *layers) finish(f *finished, left, at float64, show bool) {
	m := geom.Translate(-left, -at)
	if f.shaped {
		b.add(Blank, f.outline, m, true)
	}
	if show {
		for _, h := range f.hidden {
			b.add(Blank, h, m, false)
		}
	}
}
