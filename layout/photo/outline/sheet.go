package outline

import (
	"context"
	"fmt"
	"image"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Paper is the size of a sheet, mm.
type Paper struct{ Long, Short float64 }

// The usual papers: ISO 216 A4, and Letter of ANSI/ASME Y14.1.
var (
	A4     = Paper{297, 210}
	Letter = Paper{279.4, 215.9}
)

// Sheet looks for a white sheet of paper that lies whole in the picture. The
// corners are in the order of a face, the long side as its length, in pixels
// as the picture shows them; confidence is 0 to 1.
func Sheet(ctx context.Context, img image.Image, paper Paper) (corners [4]geom.Point, confidence float64, err error) {
	if err := check(img, paper.Long, paper.Short); err != nil {
		return corners, 0, fmt.Errorf("finding a sheet of paper: %w", err)
	}
	src := sourceOf(img)
	base, err := planeOf(ctx, &src, baseLong)
	if err != nil {
		return corners, 0, err
	}
	small, err := base.smaller(ctx, (max(base.w, base.h)+smallLong-1)/smallLong)
	if err != nil {
		return corners, 0, err
	}
	b, err := beamsOf(ctx, small.paperOnly())
	if err != nil {
		return corners, 0, err
	}
	quads, err := quadsOf(ctx, b, base.paperOnly(), &wanted{float64(small.w), float64(small.h), paper.Long, paper.Short, 0}, 4*mostRough)
	if err != nil {
		return corners, 0, err
	}
	s := &seeker{src: &src, base: base, length: paper.Long, width: paper.Short}
	var sheets []candidate
	for _, q := range quads {
		if err := ctx.Err(); err != nil {
			return corners, 0, err
		}
		if small.white(q.c) < 0.5 {
			continue
		}
		for i := range q.c {
			q.c[i] = q.c[i].Mul(small.factor)
		}
		sheets = append(sheets, s.settle(q.c, small.factor)...)
	}
	if sheets, err = s.choose(ctx, best(sheets, mostFine, base.factor)); err != nil {
		return corners, 0, err
	}
	for i := range sheets {
		sheets[i].score += math.Log(0.02 + small.white(scaledBy(sheets[i].c, 1/small.factor)))
	}
	sheets = best(sheets, mostFine, s.finest())
	if len(sheets) == 0 {
		return corners, 0, fmt.Errorf("finding a sheet of paper: no white sheet lies whole in the picture; mark its corners by hand")
	}
	f := s.found(sheets[0], sheets)
	return f.View.Corners, f.Whole, nil
}

func scaledBy(q [4]geom.Point, k float64) [4]geom.Point {
	for i := range q {
		q[i] = q[i].Mul(k)
	}
	return q
}

// paperOnly keeps light without colour, so that wood and its grain fade.
func (p *plane) paperOnly() *plane {
	q := &plane{w: p.w, h: p.h, factor: p.factor, pix: make([]sample, len(p.pix))}
	for i, s := range p.pix {
		c := math.Hypot(float64(s[1]), float64(s[2])) / chroma
		q.pix[i][0] = float32(max(0, float64(s[0])-4*c))
	}
	return q
}

// white tells how far the inside of a quadrilateral is paper, 0 to 1: hardly
// any colour against the light, and lighter than what lies round it. Half is
// the middle of either doubt; engineering choice.
func (p *plane) white(q [4]geom.Point) float64 {
	var c geom.Point
	for _, v := range q {
		c = c.Add(v.Mul(0.25))
	}
	in, around, colour := 0.0, 0.0, 0.0
	const n = 8
	for k := 0; k < n*n; k++ {
		u, v := (float64(k%n)+0.5)/n, (float64(k/n)+0.5)/n
		at := q[0].Lerp(q[1], u).Lerp(q[3].Lerp(q[2], u), v)
		s := p.at(at.X, at.Y)
		in += float64(s[0]) / (n * n)
		colour += math.Hypot(float64(s[1]), float64(s[2])) / chroma / (n * n)
	}
	for k := 0; k < 4*n; k++ {
		at := q[k/n].Lerp(q[(k/n+1)%4], (float64(k%n)+0.5)/n)
		at = c.Add(at.Sub(c).Mul(1.15))
		around += float64(p.at(at.X, at.Y)[0]) / (4 * n)
	}
	lighter := math.Log((in + 8) / (around + 8))
	grey := colour / (in + 8)
	return 1 / (1 + math.Exp(-12*(lighter-0.2))) / (1 + math.Exp(40*(grey-0.13)))
}

// SizeFromSheet returns the length and width, mm, of the board at view from a
// sheet of paper that lies beside it on the ground. The face lies thickness
// above the sheet, nearer to the camera, and is reckoned with; 0 where it is
// not known makes the board too large by its thickness over the camera's
// height. wide and high are the picture's, pixels.
func SizeFromSheet(view photo.View, sheet [4]geom.Point, paper Paper, thickness float64, wide, high int) (length, width float64, err error) {
	lens := photo.LensOf(wide, high, view.Bow)
	m, _, err := photo.View{Corners: sheet, Bow: view.Bow}.FromFace(wide, high, paper.Long, paper.Short)
	if err != nil {
		return 0, 0, fmt.Errorf("the board's size from a sheet: %w", err)
	}
	straight := sheet
	for i := range straight {
		straight[i] = lens.Straight(straight[i])
	}
	longer := float64(max(wide, high))
	f := shapeOf(straight, lens.Middle, longer, paper.Long, paper.Short, fineSpread/2).focal * longer
	if !(f > 0) {
		return 0, 0, fmt.Errorf("the board's size from a sheet: the four corners are no picture of a sheet; mark them again")
	}
	// The pose of the sheet's plane (Zhang 2000): the columns of the map
	// without the camera are two axes and the place of the sheet's corner.
	var col [3]vec
	for k := range col {
		col[k] = vec{
			(m[k] - lens.Middle.X*m[6+k]) / f,
			(m[3+k] - lens.Middle.Y*m[6+k]) / f,
			m[6+k],
		}
	}
	scale := 2 / (col[0].len() + col[1].len())
	if col[2][2] < 0 {
		scale = -scale
	}
	for k := range col {
		for c := range col[k] {
			col[k][c] *= scale
		}
	}
	up := col[0].cross(col[1])
	// Towards the camera: against the place of the sheet.
	if up.dot(col[2]) > 0 {
		up = vec{-up[0], -up[1], -up[2]}
	}
	l := up.len()
	var at [4]vec
	for i, p := range view.Corners {
		u := lens.Straight(p)
		d := vec{(u.X - lens.Middle.X) / f, (u.Y - lens.Middle.Y) / f, 1}
		den := d.dot(up) / l
		if math.Abs(den) < 1e-6 {
			return 0, 0, fmt.Errorf("the board's size from a sheet: the camera looks along the ground")
		}
		k := (col[2].dot(up)/l + thickness) / den
		at[i] = vec{k * d[0], k * d[1], k * d[2]}
	}
	side := func(a, b int) float64 {
		return vec{at[a][0] - at[b][0], at[a][1] - at[b][1], at[a][2] - at[b][2]}.len()
	}
	return (side(0, 1) + side(3, 2)) / 2, (side(0, 3) + side(1, 2)) / 2, nil
}
