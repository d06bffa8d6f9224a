package sheet

import (
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// tellApart is what a rule tells from another width with certainty, mm. Common
// practice, no source.
const tellApart = 3.0

// looks are what is found on a planed strip that bears no mark, with one way of
// it up and towards the front.
type looks struct {
	wood string
	l, w float64
	sap  sapRead
	flaw [2][]geom.Rect // above and below, as seen through the strip
}

func looksOf(s *face.Strip) looks {
	wood, _, _ := strings.Cut(s.Board.Species, "-")
	out := looks{wood: wood, l: s.L, w: s.W, sap: sawnSap(s)}
	own := geom.R(0, 0, s.L, s.W)
	for side := range out.flaw {
		f := s.UpFace()
		if side == 1 {
			f = 3 - f
		}
		m, ok := s.PlaceToFace(f).Inverse()
		if !ok {
			continue
		}
		for _, z := range s.Board.Faces[f-1].Zones {
			if z.Kind != face.Flaw {
				continue
			}
			if r := m.ApplyTo(z.Polygon).Bounds().Intersect(own); !r.Empty() {
				out.flaw[side] = append(out.flaw[side], r)
			}
		}
	}
	return out
}

// turned are the looks after turning the strip end for end.
func (a looks) turned() looks {
	b := a
	swap := func(v face.Widths) face.Widths { return face.Widths{v[2], v[1], v[0]} }
	b.sap = sapRead{swap(a.sap.rear), swap(a.sap.front), swap(a.sap.belowRear), swap(a.sap.belowFront)}
	for side := range a.flaw {
		b.flaw[side] = nil
		for _, r := range a.flaw[side] {
			b.flaw[side] = append(b.flaw[side], geom.R(a.l-r.Max.X, a.w-r.Max.Y, a.l-r.Min.X, a.w-r.Min.Y))
		}
	}
	return b
}

// rolled are the looks after rolling the strip over about its length.
func (a looks) rolled() looks {
	b := a
	b.sap = sapRead{a.sap.belowRear, a.sap.belowFront, a.sap.rear, a.sap.front}
	for side := range a.flaw {
		b.flaw[side] = nil
		for _, r := range a.flaw[1-side] {
			b.flaw[side] = append(b.flaw[side], geom.R(r.Min.X, a.w-r.Max.Y, r.Max.X, a.w-r.Min.Y))
		}
	}
	return b
}

// ways are the four ways a strip can lie, as it should first.
func (a looks) ways() [4]looks {
	t := a.turned()
	return [4]looks{a, t, a.rolled(), t.rolled()}
}

// like reports whether a rule finds no difference.
func (a looks) like(b looks) bool {
	if a.wood != b.wood || !near(a.l, b.l) || !near(a.w, b.w) {
		return false
	}
	x := [...]face.Widths{a.sap.front, a.sap.rear, a.sap.belowFront, a.sap.belowRear}
	y := [...]face.Widths{b.sap.front, b.sap.rear, b.sap.belowFront, b.sap.belowRear}
	for i := range x {
		for k := range x[i] {
			if !near(x[i][k], y[i][k]) {
				return false
			}
		}
	}
	return sameFlaws(a.flaw[0], b.flaw[0]) && sameFlaws(a.flaw[1], b.flaw[1])
}

func near(a, b float64) bool { return math.Abs(a-b) <= tellApart }

// sameFlaws pairs the flaws of two faces.
func sameFlaws(a, b []geom.Rect) bool {
	if len(a) != len(b) {
		return false
	}
	used := make([]bool, len(b))
	for _, p := range a {
		found := false
		for k, q := range b {
			if !used[k] && near(p.Min.X, q.Min.X) && near(p.Min.Y, q.Min.Y) && near(p.Max.X, q.Max.X) && near(p.Max.Y, q.Max.Y) {
				used[k], found = true, true
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// alike is a set of strips that a rule cannot tell apart, in the order of the
// sheet; one strip alone looks the same another way round.
type alike struct{ parts []place }

// findAlike looks for them among all strips of the sheet.
func findAlike(parts []place) []alike {
	all := make([][4]looks, len(parts))
	for i, p := range parts {
		all[i] = looksOf(p.lying()).ways()
	}
	group := make([]int, len(parts))
	for i := range group {
		group[i] = i
	}
	self := make([]bool, len(parts))
	for i := range parts {
		for _, way := range all[i][1:] {
			self[i] = self[i] || all[i][0].like(way)
		}
		for k := 0; k < i; k++ {
			if group[k] == group[i] {
				continue
			}
			for _, way := range all[k] {
				if !all[i][0].like(way) {
					continue
				}
				from, to := max(group[i], group[k]), min(group[i], group[k])
				for j := 0; j <= i; j++ {
					if group[j] == from {
						group[j] = to
					}
				}
				break
			}
		}
	}
	var out []alike
	for i := range parts {
		if group[i] != i {
			continue
		}
		var a alike
		for k := i; k < len(parts); k++ {
			if group[k] == i {
				a.parts = append(a.parts, parts[k])
			}
		}
		if len(a.parts) > 1 || self[i] {
			out = append(out, a)
		}
	}
	return out
}
