package stock

import (
	"cmp"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// tiny is how far a size may be off and still be held, mm: far under what
// cutting checks to.
const tiny = 1e-6

// carve takes a box out of rooms and returns the rooms that are left: again all
// the rectangles that cannot grow, those shorter than long or narrower than wide
// left out. It does not change the list.
func carve(rooms []geom.Rect, box geom.Rect, long, wide float64) []geom.Rect {
	out := make([]geom.Rect, 0, len(rooms)+4)
	fresh := 0
	for _, r := range rooms {
		if !meet(r, box) {
			out = append(out, r)
			fresh++
		}
	}
	keep := func(r geom.Rect) {
		if r.W() >= long-tiny && r.H() >= wide-tiny {
			out = append(out, r)
		}
	}
	for _, r := range rooms {
		if !meet(r, box) {
			continue
		}
		if box.Min.X > r.Min.X {
			keep(geom.R(r.Min.X, r.Min.Y, box.Min.X, r.Max.Y))
		}
		if box.Max.X < r.Max.X {
			keep(geom.R(box.Max.X, r.Min.Y, r.Max.X, r.Max.Y))
		}
		if box.Min.Y > r.Min.Y {
			keep(geom.R(r.Min.X, r.Min.Y, r.Max.X, box.Min.Y))
		}
		if box.Max.Y < r.Max.Y {
			keep(geom.R(r.Min.X, box.Max.Y, r.Max.X, r.Max.Y))
		}
	}
	// Only new ones can lie in others.
	kept := out[:fresh]
	for i := fresh; i < len(out); i++ {
		if !within(out, i) {
			kept = append(kept, out[i])
		}
	}
	return kept
}

// within reports whether room i lies in another; of two alike the later does.
func within(list []geom.Rect, i int) bool {
	r := list[i]
	for k, o := range list {
		if k == i || r.Min.X < o.Min.X-tiny || r.Min.Y < o.Min.Y-tiny || r.Max.X > o.Max.X+tiny || r.Max.Y > o.Max.Y+tiny {
			continue
		}
		same := o.Min.X >= r.Min.X-tiny && o.Min.Y >= r.Min.Y-tiny && o.Max.X <= r.Max.X+tiny && o.Max.Y <= r.Max.Y+tiny
		if !same || k < i {
			return true
		}
	}
	return false
}

// meet reports whether two rectangles share area.
func meet(a, b geom.Rect) bool {
	return a.Min.X < b.Max.X-tiny && b.Min.X < a.Max.X-tiny && a.Min.Y < b.Max.Y-tiny && b.Min.Y < a.Max.Y-tiny
}

// grow returns r longer by x at both ends and wider by y at both edges.
func grow(r geom.Rect, x, y float64) geom.Rect {
	return geom.Rect{Min: geom.Pt(r.Min.X-x, r.Min.Y-y), Max: geom.Pt(r.Max.X+x, r.Max.Y+y)}
}

// cutRect returns the rectangle of a strip that lies square.
func cutRect(s *face.Strip) geom.Rect { return geom.R(s.X, s.Y, s.X+s.L, s.Y+s.W) }

// union returns the area that rectangles cover together, mm2.
func union(list []geom.Rect) float64 {
	if len(list) == 1 {
		return area(list[0])
	}
	xs := make([]float64, 0, 2*len(list))
	for _, r := range list {
		xs = append(xs, r.Min.X, r.Max.X)
	}
	slices.Sort(xs)
	order := append([]geom.Rect(nil), list...)
	slices.SortFunc(order, func(a, b geom.Rect) int { return cmp.Compare(a.Min.Y, b.Min.Y) })
	sum := 0.0
	for i := 0; i+1 < len(xs); i++ {
		dx := xs[i+1] - xs[i]
		if dx <= 0 {
			continue
		}
		top, covered, first := 0.0, 0.0, true
		for _, r := range order {
			if r.Min.X > xs[i] || r.Max.X < xs[i+1] {
				continue
			}
			from := r.Min.Y
			if !first && from < top {
				from = top
			}
			if r.Max.Y > from {
				covered += r.Max.Y - from
			}
			if first || r.Max.Y > top {
				top, first = r.Max.Y, false
			}
		}
		sum += covered * dx
	}
	return sum
}

// Along slanted borders rooms come in hundreds that are nearly alike: one is left
// out where another holds so much of it, and so many are kept of a board at
// most. Engineering choices: on square boards nothing is left out.
const (
	alike     = 0.95
	mostRooms = 48
)

// thin leaves out rooms that are nearly alike, where there are many.
func thin(rooms []geom.Rect) []geom.Rect {
	if len(rooms) <= mostRooms/2 {
		return rooms
	}
	order := append([]geom.Rect(nil), rooms...)
	slices.SortStableFunc(order, func(a, b geom.Rect) int { return cmp.Compare(area(b), area(a)) })
	var out []geom.Rect
	for _, r := range order {
		if len(out) == mostRooms {
			break
		}
		near := false
		for _, o := range out {
			near = near || area(r.Intersect(o)) >= alike*area(r)
		}
		if !near {
			out = append(out, r)
		}
	}
	return out
}
