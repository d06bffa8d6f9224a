package together

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Trimmed returns strip i of a panel as what is left of it when the panel is
// trimmed to its finished size, false where that is nothing.
func Trimmed(p *face.Panel, i int) (face.Strip, bool) {
	return (&Face{}).trimmed(p, i, p.StripY(i))
}

// trimmed is Trimmed for a strip that begins at y.
func (f *Face) trimmed(p *face.Panel, i int, y float64) (face.Strip, bool) {
	s := p.Strips[i]
	left := p.Left(i)
	// What comes off in front, behind, at the left and at the right.
	front, rear := math.Max(-y, 0), math.Max(y+s.W-p.Width, 0)
	l, r := math.Max(-left, 0), math.Max(left+s.L-p.Length, 0)
	w, length := s.W-front-rear, s.L-l-r
	if w < 1e-6 || length < 1e-6 {
		return face.Strip{}, false
	}
	// The middle of what is left, in the panel, tells its shift.
	middle := left + l + length/2
	if s.Turned {
		l, r = r, l
	}
	if s.Turned != (s.UpFace() == 2) {
		front, rear = rear, front
	}
	sin, cos := math.Sincos(s.Angle * math.Pi / 180)
	s.X, s.Y = s.X+l*cos-front*sin, s.Y+l*sin+front*cos
	s.L, s.W = length, w
	s.Shift = middle - p.Length/2
	if s.Planed != nil {
		s.Planed = f.cutDown(s.Planed, l, front)
	}
	return s, true
}

// cutKey is all that a planed face depends on when it is cut down.
type cutKey struct {
	planed *face.PlanedFace
	s, t   float64
}

// cutDown moves what was found after planing to the corner that is left. The
// same cut gives the same pointer, by which readers know it.
func (f *Face) cutDown(planed *face.PlanedFace, s, t float64) *face.PlanedFace {
	key := cutKey{planed, s, t}
	if got := f.cuts[key]; got != nil {
		return got
	}
	out := &face.PlanedFace{Base: planed.Base}
	m := geom.Translate(-s, -t)
	for _, z := range planed.Zones {
		out.Zones = append(out.Zones, face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
	}
	if f.cuts != nil {
		f.cuts[key] = out
	}
	return out
}
