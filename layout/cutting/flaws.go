package cutting

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Why a flaw that the show face does not show is warned of.
const (
	FlawOnBack   = "back"   // in the finished strip, on the face that is not seen
	FlawInMargin = "margin" // outside the finished strip but nearer than the margin
)

// leastFlaw is the area under which a flaw counts as rounding, mm2.
const leastFlaw = 1.0

// flawed is a flaw that a strip should keep clear of.
type flawed struct {
	side    face.Side
	why     string
	box     geom.Rect // place coordinates
	measure float64   // mm2 for back, mm of clear distance for margin
}

// flawsOf finds the flaws of both faces that touch the finished strip from
// where the reading of the show face does not see them: on the back of a panel
// whose back nobody looks at, and within the margin; and where the back has no
// wood. A flaw that shows, or comes out in an edge or end of the panel, is the
// reading's to tell.
func flawsOf(p *face.Panel, s *face.Strip, f *finished, margin float64) []flawed {
	var out []flawed
	if len(f.ring) < 3 {
		return nil
	}
	var shown []body
	for _, side := range [...]face.Side{face.Show, face.Back} {
		n := s.UpFace()
		if side == face.Back {
			n = 3 - n
		}
		bf := &s.Board.Faces[n-1]
		wane := side == face.Back && len(bf.Outline) >= 3
		if !wane && !flawNear(s, n, margin) || side == face.Back && bf.Guessed {
			continue
		}
		layers, ok := flawLayers(s, n, wane, f.box.Inset(-margin))
		if !ok {
			continue
		}
		pieces := geom.Decompose(nil, f.ring, int(bf.Base), layers)
		if wane && overOutline(s, geom.Rect{Max: geom.Pt(s.L, s.W)}) <= slack {
			for _, b := range bodies(pieces, int(face.Blank)) {
				if b.area >= leastFlaw {
					out = append(out, flawed{side, FlawOnBack, b.box, b.area})
				}
			}
		}
		inside := bodies(pieces, int(face.Flaw))
		if side == face.Show {
			shown = inside
		} else if !p.BothShow {
			for i := range inside {
				if b := &inside[i]; b.area >= leastFlaw && !reachesRim(p, f, b) && !over(shown, b) {
					out = append(out, flawed{side, FlawOnBack, b.box, b.area})
				}
			}
		}
		if margin <= 0 {
			continue
		}
		wide := f.box.Inset(-margin)
		if wane {
			layers = layers[:len(layers)-1]
		}
		near := bodies(geom.Decompose(nil, wide.Polygon(), int(bf.Base), layers), int(face.Flaw))
		for i := range near {
			b := &near[i]
			if b.area < leastFlaw || over(inside, b) || side == face.Back && over(shown, b) {
				continue
			}
			if d := gapTo(f.ring, b); d > 0 && d < margin-slack {
				out = append(out, flawed{side, FlawInMargin, b.box, d})
			}
		}
	}
	return dropThrough(out)
}

// dropThrough leaves one of two flaws in the margin that lie over one another.
func dropThrough(list []flawed) []flawed {
	var out []flawed
	for _, x := range list {
		twin := false
		for _, o := range out {
			twin = twin || o.why == x.why && o.side != x.side && !o.box.Intersect(x.box).Empty()
		}
		if !twin {
			out = append(out, x)
		}
	}
	return out
}

// flawNear reports whether a flaw of face n may lie within the margin.
func flawNear(s *face.Strip, n int, margin float64) bool {
	var box geom.Rect
	for _, z := range s.Board.Faces[n-1].Zones {
		if z.Kind != face.Flaw || len(z.Polygon) < 3 {
			continue
		}
		if box.Empty() {
			m := s.ToBoard()
			if n == 2 {
				m = m.Then(s.Board.Other())
			}
			box = m.ApplyTo(geom.R(-margin, -margin, s.L+margin, s.W+margin).Polygon()).Bounds()
		}
		if !z.Polygon.Bounds().Intersect(box).Empty() {
			return true
		}
	}
	return false
}

// flawLayers returns the zones of face n in place coordinates; with wane, what
// lies outside the outline is blank, on top of them.
func flawLayers(s *face.Strip, n int, wane bool, box geom.Rect) ([]geom.Layer, bool) {
	m, ok := s.PlaceToFace(n).Inverse()
	if !ok {
		return nil, false
	}
	bf := &s.Board.Faces[n-1]
	var layers []geom.Layer
	for _, z := range bf.Zones {
		if len(z.Polygon) >= 3 {
			layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: m.ApplyTo(z.Polygon)})
		}
	}
	if wane {
		out := m.ApplyTo(bf.Outline)
		layers = append(layers, geom.Layer{Label: int(face.Blank), Polygon: around(box.Union(out.Bounds()).Inset(-1), out)})
	}
	return layers, true
}

// reachesRim reports whether a flaw comes out in an edge or end of the
// finished panel.
func reachesRim(p *face.Panel, f *finished, b *body) bool {
	rim := geom.Translate(-f.left, -f.at).ApplyTo(p.Outline())
	for i := range b.parts {
		for _, q := range corners(&b.parts[i]) {
			if _, _, d := rim.Nearest(q); d <= slack {
				return true
			}
		}
	}
	return false
}

// over reports whether one of the bodies lies over b.
func over(list []body, b *body) bool {
	for i := range list {
		if list[i].area >= leastFlaw && !list[i].box.Intersect(b.box).Empty() {
			return true
		}
	}
	return false
}

// gapTo returns the distance from a ring to a body outside it.
func gapTo(ring geom.Polygon, b *body) float64 {
	least := math.Inf(1)
	for i := range b.parts {
		q := corners(&b.parts[i])
		least = math.Min(least, math.Min(reach(ring, q), reach(q, ring)))
	}
	return least
}
