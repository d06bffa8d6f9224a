package look

import (
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// span is a stretch across a strip of one kind.
type span struct {
	lo, hi float64
	kind   face.Kind
}

// layers are the zones of the face that shows, in place coordinates.
type layers struct {
	width   float64
	base    face.Kind
	outline geom.Polygon // nil: none
	zones   []face.Zone
	cuts    []float64
	spans   []span
}

func layersOf(s *face.Strip) *layers {
	up := s.UpFace()
	f := &s.Board.Faces[up-1]
	z := &layers{width: s.W, base: f.Base}
	back, ok := s.PlaceToFace(up).Inverse()
	if !ok {
		return z
	}
	z.outline = back.ApplyTo(geom.R(0, 0, s.Board.Length, s.Board.Width).Polygon())
	if f.Outline != nil {
		z.outline = back.ApplyTo(f.Outline)
	}
	zones := f.Zones
	if s.Planed != nil {
		back, _ = s.FromPlace().Inverse()
		z.base, zones = s.Planed.Base, s.Planed.Zones
	}
	for _, q := range zones {
		z.zones = append(z.zones, face.Zone{Kind: q.Kind, Polygon: back.ApplyTo(q.Polygon)})
	}
	return z
}

// at cuts the strip across at u. The list is the layers' own.
func (z *layers) at(u float64) []span {
	z.cuts = append(z.cuts[:0], 0, z.width)
	hits := func(p geom.Polygon) {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.X <= u) == (b.X <= u) {
				continue
			}
			if v := a.Y + (b.Y-a.Y)*(u-a.X)/(b.X-a.X); v > 0 && v < z.width {
				z.cuts = append(z.cuts, v)
			}
		}
	}
	hits(z.outline)
	for i := range z.zones {
		hits(z.zones[i].Polygon)
	}
	slices.Sort(z.cuts)
	z.spans = z.spans[:0]
	for i := 1; i < len(z.cuts); i++ {
		a, b := z.cuts[i-1], z.cuts[i]
		if b-a < 1e-9 {
			continue
		}
		k := z.kind(u, (a+b)/2)
		if n := len(z.spans); n > 0 && z.spans[n-1].kind == k {
			z.spans[n-1].hi = b
		} else {
			z.spans = append(z.spans, span{a, b, k})
		}
	}
	return z.spans
}

// kind is the wood at a point that lies on no border.
func (z *layers) kind(u, v float64) face.Kind {
	if !within(z.outline, u, v) {
		return face.Blank
	}
	for i := len(z.zones) - 1; i >= 0; i-- {
		if within(z.zones[i].Polygon, u, v) {
			return z.zones[i].Kind
		}
	}
	return z.base
}

// within counts the borders passed on the way out (Shimrat 1962).
func within(p geom.Polygon, u, v float64) bool {
	in := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.X <= u) != (b.X <= u) && v < a.Y+(b.Y-a.Y)*(u-a.X)/(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// reach is how far a kind of wood reaches from an edge in, through flaws that
// have it behind them; negative where that is not known.
func reach(spans []span, k face.Kind, way int) float64 {
	far, at, i := 0.0, 0.0, 0
	if way < 0 {
		i = len(spans) - 1
	}
	for ; i >= 0 && i < len(spans); i += way {
		switch spans[i].kind {
		case k:
			at += spans[i].hi - spans[i].lo
			far = at
		case face.Flaw:
			at += spans[i].hi - spans[i].lo
		case face.Unseen:
			if far == 0 {
				return -1
			}
			return far
		case face.Blank:
			if at == 0 {
				return -1
			}
			return far
		default:
			return far
		}
	}
	if far == 0 {
		return -1
	}
	return far
}
