package wane

import (
	"image"
	"math"
	"slices"

	"heartside/layout/geom"
)

// Engineering choices: how far within the rectangle an end may lie, mm and as
// a share of the length, and how far from square it may be sawn, mm a mm.
const (
	endWithin      = 40.0
	endWithinShare = 0.06
	endSlope       = 0.25
)

// end finds a sawn end of the board near a short side of the rectangle: a
// straight line, mm of the picture, from the lower edge up. ring is the board
// as far as it is known.
func (t *tracer) end(ring geom.Polygon, far bool) (line [2]geom.Point, sure float64) {
	x := t.around.Min.X
	if far {
		x = t.around.Max.X
	}
	flat := [2]geom.Point{geom.Pt(x, 0), geom.Pt(x, 1)}
	in := math.Max(endWithin, endWithinShare*t.around.W())
	// A little within, where both edges are there.
	low, high := math.Inf(1), math.Inf(-1)
	inner := x + in
	if far {
		inner = x - in
	}
	if on := upright(ring, inner); len(on) >= 2 {
		low, high = on[0], on[len(on)-1]
	}
	if !(high-low > 12) {
		return flat, 0
	}
	inset := math.Min(6, (high-low)/6)
	low, high = low+inset, high-inset
	// The stretch turned a quarter, so that the board lies below.
	img, px := t.s.Pix, float64(t.s.Pix.Rect.Dx())/t.s.Length
	py := float64(t.s.Pix.Rect.Dy()) / t.s.Width
	outer := 0.0
	if far {
		outer = t.s.Length
	}
	deep := int(math.Abs(inner-outer) * px)
	wide := int((high - low) * py)
	if deep < 12 || wide < 12 {
		return flat, 0
	}
	turned := image.NewRGBA(image.Rect(0, 0, wide, deep))
	for j := range deep {
		i := j
		if far {
			i = img.Rect.Dx() - 1 - j
		}
		for k := range wide {
			row := min(max(int((t.s.Width-high)*py)+k, 0), img.Rect.Dy()-1)
			copy(turned.Pix[turned.PixOffset(k, j):][:4], img.Pix[img.PixOffset(i, row):][:4])
		}
	}
	u := &tracer{}
	u.c = cellsOf(turned, max(wide/4, 4), deep)
	u.dx, u.dy = (high-low)/float64(u.c.nx), math.Abs(inner-outer)/float64(u.c.ny)
	u.i1, u.of = u.c.nx, make([]float64, len(u.c.f))
	for k := range u.of {
		f := *u.c.at(k%u.c.nx, k/u.c.nx)
		f[3], f[4] = f[4], f[3]
		u.of[k] = -mostLean / 2
		if u.c.seen[k] {
			u.of[k] = t.likes.lean(&f)
		}
	}
	u.seed = make([]int, u.c.nx)
	for i := range u.seed {
		u.seed[i] = u.c.ny - 1
	}
	p := u.edge(u.steps(), 0)
	// The straight line through it that most of it agrees on (Theil 1950, Sen
	// 1968).
	at := func(i int) geom.Point {
		y := high - (float64(i)+0.5)*u.dx
		if far {
			return geom.Pt(t.s.Length-float64(p.row[i])*u.dy, y)
		}
		return geom.Pt(float64(p.row[i])*u.dy, y)
	}
	var slopes, offs []float64
	for i := range p.row {
		for k := i + max(len(p.row)/4, 1); k < len(p.row); k++ {
			a, b := at(i), at(k)
			slopes = append(slopes, (b.X-a.X)/(b.Y-a.Y))
		}
	}
	if len(slopes) == 0 {
		return flat, 0
	}
	slices.Sort(slopes)
	slope := math.Min(math.Max(slopes[len(slopes)/2], -endSlope), endSlope)
	for i := range p.row {
		q := at(i)
		offs = append(offs, q.X-slope*q.Y)
		sure += sureOf(p.margin[i]) / float64(len(p.row))
	}
	slices.Sort(offs)
	off := offs[len(offs)/2]
	return [2]geom.Point{geom.Pt(off, 0), geom.Pt(off+slope, 1)}, sure
}

// upright returns where a ring crosses x, in rising y.
func upright(ring geom.Polygon, x float64) []float64 {
	turned := make(geom.Polygon, len(ring))
	for i, p := range ring {
		turned[i] = geom.Pt(p.Y, p.X)
	}
	return crossings(turned, x)
}
