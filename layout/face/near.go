package face

import (
	"math"

	"heartside/layout/geom"
)

// Gaps over which pieces of unwanted wood are taken as one. Engineering
// choices with no published source.
const (
	gapAlong  = 10.0  // mm along X
	gapAcross = 2.0   // mm across Y
	touching  = 1.0   // mm: neighbours by side or corner at a 1 mm grid
	gapInLine = 150.0 // mm along X where Y extents overlap by half
)

// near reports whether two trapezoids that do not overlap lie within gx of one
// another along some row, within gy across some column, or touch by a corner.
func near(a, b *geom.Trapezoid, gx, gy float64) bool {
	if b.X0-a.X1 > gx || a.X0-b.X1 > gx {
		return false
	}
	alo, ahi := min(a.Lo0, a.Lo1), max(a.Hi0, a.Hi1)
	blo, bhi := min(b.Lo0, b.Lo1), max(b.Hi0, b.Hi1)
	reach := max(gy, touching)
	if blo-ahi > reach || alo-bhi > reach {
		return false
	}
	return nearAcross(a, b, 0, 0, gy) || (gx > touching && nearAlong(a, b, gx))
}

// nearAcross looks at the columns that both have, b moved by (dx, dy). Where
// they have none it looks from end to end within touching.
func nearAcross(a, b *geom.Trapezoid, dx, dy, gy float64) bool {
	xa, xb := max(a.X0, b.X0+dx), min(a.X1, b.X1+dx)
	if xb < xa-touching {
		return false
	}
	if xb < xa {
		gy = min(gy, touching)
	}
	return gapAt(a, b, xa, dx, dy) <= gy || gapAt(a, b, xb, dx, dy) <= gy
}

func gapAt(a, b *geom.Trapezoid, x, dx, dy float64) float64 {
	alo, ahi := columnOf(a, x)
	blo, bhi := columnOf(b, x-dx)
	return max(blo+dy-ahi, alo-bhi-dy)
}

// columnOf returns where t lies at x, its nearest end where x is outside.
func columnOf(t *geom.Trapezoid, x float64) (lo, hi float64) {
	s := (x - t.X0) / (t.X1 - t.X0)
	switch {
	case !(s > 0):
		return t.Lo0, t.Hi0
	case s >= 1:
		return t.Lo1, t.Hi1
	}
	return t.Lo0 + s*(t.Lo1-t.Lo0), t.Hi0 + s*(t.Hi1-t.Hi0)
}

// nearAlong looks at the rows that both have. The gap along a row is convex
// in y, with corners where one of the two has a corner.
func nearAlong(a, b *geom.Trapezoid, gx float64) bool {
	for _, y := range [8]float64{a.Lo0, a.Lo1, a.Hi0, a.Hi1, b.Lo0, b.Lo1, b.Hi0, b.Hi1} {
		a0, a1, ok := rowOf(a, y)
		if !ok {
			continue
		}
		b0, b1, ok := rowOf(b, y)
		if ok && max(b0-a1, a0-b1) <= gx {
			return true
		}
	}
	return false
}

// rowOf returns where t lies at height y.
func rowOf(t *geom.Trapezoid, y float64) (x0, x1 float64, ok bool) {
	s0, s1 := 0.0, 1.0
	s0, s1 = under(t.Lo0-y, t.Lo1-y, s0, s1)
	s0, s1 = under(y-t.Hi0, y-t.Hi1, s0, s1)
	if s0 > s1 {
		return 0, 0, false
	}
	w := t.X1 - t.X0
	return t.X0 + s0*w, t.X0 + s1*w, true
}

// under narrows the range s0 to s1 of [0, 1] to where the line from d0 to d1
// is not above 0.
func under(d0, d1, s0, s1 float64) (float64, float64) {
	switch {
	case d0 <= 0 && d1 <= 0:
		return s0, s1
	case d0 > 0 && d1 > 0:
		return 1, 0
	}
	s := d0 / (d0 - d1)
	if d0 > 0 {
		return math.Max(s0, s), s1
	}
	return s0, math.Min(s1, s)
}

// joins is a union of indices; the root of each set is its least index.
type joins []int32

func (j *joins) reset(n int) {
	*j = (*j)[:0]
	for i := range n {
		*j = append(*j, int32(i))
	}
}

func (j joins) root(i int32) int32 {
	for j[i] != i {
		j[i] = j[j[i]]
		i = j[i]
	}
	return i
}

func (j joins) join(a, b int32) {
	a, b = j.root(a), j.root(b)
	if a < b {
		j[b] = a
	} else {
		j[a] = b
	}
}
