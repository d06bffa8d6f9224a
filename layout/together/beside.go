package together

import (
	"fmt"
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Gap is the id of the empty places between panels.
const Gap = "gap"

// Face is several panels as one.
type Face struct {
	Panel *face.Panel
	// Of tells for each strip of Panel which of the panels it belongs to, -1
	// for a gap, and At which of its strips it is.
	Of, At []int
	panels []*face.Panel
}

// Beside lays panels one behind another across the grain, each strip trimmed to
// its panel's finished size, with gaps of gap mm between. The first panel's
// wanted wood and limits hold for all, which must want the same. Panels
// shorter than the longest lie in the middle of its length; nobody sees wood
// beside them. Shapes other than the rectangle are not looked at.
func Beside(panels []*face.Panel, gap float64) (*Face, error) {
	if len(panels) < 2 {
		return nil, fmt.Errorf("%d panel: a face seen together needs two", len(panels))
	}
	first := panels[0]
	out := &face.Panel{
		ID: "together", Length: first.Length, Thickness: first.Thickness, BothShow: first.BothShow,
		Wanted: first.Wanted, Limit: [2]float64{1, 1}, Limits: first.Limits,
	}
	f := &Face{Panel: out, panels: panels}
	for _, p := range panels {
		if !(p.Length > 0) || !(p.Width > 0) {
			return nil, fmt.Errorf("panel %s: no length or no width; give its finished size first", p.ID)
		}
		if p.Wanted != first.Wanted {
			return nil, fmt.Errorf("panels %s and %s want other wood: what is seen together must want the same", first.ID, p.ID)
		}
		out.Length = math.Max(out.Length, p.Length)
	}
	for k, p := range panels {
		if k > 0 && gap > 0 {
			out.Strips = append(out.Strips, face.Strip{ID: fmt.Sprintf("%s %d", Gap, k), L: out.Length, W: gap, Up: 1, Pinned: true})
			out.Width += gap
			f.Of, f.At = append(f.Of, -1), append(f.At, 0)
		}
		covered := 0.0
		for i := range p.Strips {
			s, ok := Trimmed(p, i)
			if !ok {
				continue
			}
			// What a panel's strips leave uncovered in front stays open.
			if y := math.Max(p.StripY(i), 0); y > covered+1e-9 {
				f.open(k, y-covered, p.Length)
			}
			s.ID = p.ID + "/" + s.ID
			out.Strips = append(out.Strips, s)
			f.Of, f.At = append(f.Of, k), append(f.At, i)
			covered = math.Min(p.StripY(i)+p.Strips[i].W, p.Width)
		}
		if covered < p.Width-1e-9 {
			f.open(k, p.Width-covered, p.Length)
		}
		out.Width += p.Width
	}
	return f, nil
}

// open adds an empty place that is no gap.
func (f *Face) open(k int, width, length float64) {
	f.Panel.Strips = append(f.Panel.Strips, face.Strip{ID: fmt.Sprintf("open %d", len(f.Of)), L: length, W: width, Up: 1, Pinned: true})
	f.Of, f.At = append(f.Of, -1), append(f.At, k)
}

// Trimmed returns strip i of a panel as what is left of it when the panel is
// trimmed to its finished size, false where that is nothing.
func Trimmed(p *face.Panel, i int) (face.Strip, bool) {
	s := p.Strips[i]
	y, left := p.StripY(i), p.Left(i)
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
	a := s.Angle * math.Pi / 180
	sin, cos := math.Sincos(a)
	s.X, s.Y = s.X+l*cos-front*sin, s.Y+l*sin+front*cos
	s.L, s.W = length, w
	s.Shift = middle - p.Length/2
	if s.Planed != nil {
		s.Planed = cutDown(s.Planed, l, front)
	}
	return s, true
}

// cutDown moves what was found after planing to the corner that is left.
func cutDown(f *face.PlanedFace, s, t float64) *face.PlanedFace {
	out := &face.PlanedFace{Base: f.Base}
	m := geom.Translate(-s, -t)
	for _, z := range f.Zones {
		out.Zones = append(out.Zones, face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
	}
	return out
}
