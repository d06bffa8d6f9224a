package cutting

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Mark is a place on a rip line: X from the marked end, Offset from the
// snapped line, positive towards the other edge. mm.
type Mark struct{ X, Offset float64 }

// Cut tells how one strip's blank is sawn out of its board.
type Cut struct {
	Strip      string
	Order      int     // as sawn, from 1
	Section    int     // the length of board it is sawn from, from 1 at the marked end
	CrossAt    float64 // where that length ends and the kerf of its cross-cut begins, from the marked end; 0 for the last
	Start, End float64 // where the blank begins and ends, from the marked end
	Near, Far  [2]Mark // the rip lines nearer the marked edge and beyond, at the blank's start and end
	Kerf       float64
}

// Line returns the y at which a line is snapped along a board, from which rip
// lines are measured: the marked edge itself on a square-edged board, else the
// innermost point of the wane along that edge of face 1, so that the line lies
// on wood from end to end.
func Line(b *face.Board) float64 {
	out := outlineOf(b, 1)
	if out == nil {
		return 0
	}
	const wood = 1
	line := 0.0
	for _, t := range geom.Decompose(nil, geom.R(0, 0, b.Length, b.Width).Polygon(), 0, []geom.Layer{{Label: wood, Polygon: out}}) {
		if t.Label == wood && t.Lo0+t.Lo1 < b.Width { // a border of the marked half
			line = math.Max(line, math.Max(t.Lo0, t.Lo1))
		}
	}
	return line
}

// Cuts returns the strips of a board in the order of sawing: length by length
// from the marked end, and in each length from the snapped line outwards. A
// length is parted off where a straight cross-cut touches no blank, right at
// the end of its last blank, so that the cross-cut makes that end too; what is
// free beyond stays with the rest of the board. Strips of other boards are
// passed over.
func Cuts(b *face.Board, strips []face.Strip, a Allowances) []Cut {
	line := Line(b)
	var list []Cut
	var boxes []geom.Rect
	for i := range strips {
		s := &strips[i]
		if !sound(s) || s.Board != b && s.Board.ID != b.ID {
			continue
		}
		q := Blank(s, a)
		box := q.Bounds()
		c := Cut{Strip: s.ID, Start: box.Min.X, End: box.Max.X, Kerf: a.Kerf}
		c.Near, c.Far = rips(q, line)
		list, boxes = append(list, c), append(boxes, box)
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, k int) int {
		return cmp.Or(cmp.Compare(boxes[i].Min.X, boxes[k].Min.X), cmp.Compare(list[i].Strip, list[k].Strip))
	})
	section, end := 0, math.Inf(-1)
	var crosses []float64
	for _, i := range order {
		if gap := boxes[i].Min.X - end; gap >= a.Kerf-slack {
			if section > 0 {
				crosses = append(crosses, end)
			}
			section++
		}
		list[i].Section = section
		end = math.Max(end, boxes[i].Max.X)
	}
	for i := range list {
		if n := list[i].Section; n <= len(crosses) {
			list[i].CrossAt = crosses[n-1]
		}
	}
	slices.SortFunc(list, func(x, y Cut) int {
		return cmp.Or(cmp.Compare(x.Section, y.Section),
			cmp.Compare(x.Near[0].Offset+x.Near[1].Offset, y.Near[0].Offset+y.Near[1].Offset),
			cmp.Compare(x.Start, y.Start), cmp.Compare(x.Strip, y.Strip))
	})
	for i := range list {
		list[i].Order = i + 1
	}
	return list
}

// rips returns the two rip lines of a blank, each from its start. The strip's
// angle is above -90 and at most 90, so its far edge never lies nearer the
// marked edge than its near one.
func rips(q geom.Polygon, line float64) (near, far [2]Mark) {
	mark := func(p geom.Point) Mark { return Mark{p.X, p.Y - line} }
	near, far = [2]Mark{mark(q[0]), mark(q[1])}, [2]Mark{mark(q[3]), mark(q[2])}
	for _, r := range [...]*[2]Mark{&near, &far} {
		if r[0].X > r[1].X {
			r[0], r[1] = r[1], r[0]
		}
	}
	return near, far
}
