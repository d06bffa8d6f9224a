package outline

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Engineering choices: rows of a strip are judged four at a time, each four by
// itself, since sapwood may step to the ground otherwise than heartwood does.
const (
	fourRows   = 4
	stripRows  = 16 // between the long edges
	beyondRows = 4  // past either
	endWindow  = 3  // columns on either side of an end that are compared
	endLean    = 0.6
	coarsest   = 3.0 // pixels of the fine plane: a column
	sameEnd    = 4.0 // columns: what laying the sides makes good
)

// end is a straight edge from the one long edge to the other, in pixels of the
// small plane.
type end struct {
	a, b   geom.Point
	score  float64
	beyond float64 // how far it runs on past them, 0 to 2
}

// strip is the ground between two long edges and a little beyond, as rows
// along them of columns across.
type strip struct {
	origin, dir, across geom.Point // of the fine plane
	a, b                [2]float64 // heights of the two edges: at the origin, and slope
	step, scale         float64
	n                   int
	v                   [stripRows + 2*beyondRows]float64 // of each row, 0 on the first edge, 1 on the other
	steps               [][]stepOf                        // of each row: the step of colour at each column
	off                 []bool                            // columns beyond the picture
}

// stepOf is a step of colour and its square.
type stepOf struct {
	d  sample
	sq float32
}

// heightOf gives a line's height over the axis of a strip: at the origin, and
// its slope.
func (z *strip) heightOf(l line) [2]float64 {
	k := l.a*z.across.X + l.b*z.across.Y
	return [2]float64{-l.off(z.origin) / k, -(l.a*z.dir.X + l.b*z.dir.Y) / k}
}

// stripOf reads the strip of a pair from base, which shows scale times what
// the pair's plane does.
func stripOf(base *plane, lens photo.Lens, scale float64, p *pair, want *wanted) *strip {
	d, e := geom.Pt(p.l[0].b, -p.l[0].a), geom.Pt(p.l[1].b, -p.l[1].a)
	if d.Dot(e) < 0 {
		d = d.Mul(-1)
	}
	d = d.Add(e)
	d = d.Mul(1 / d.Len())
	z := &strip{origin: geom.Pt(float64(base.w)/2, float64(base.h)/2), dir: d, across: geom.Pt(-d.Y, d.X), scale: scale}
	big := func(l line) line { return line{l.a, l.b, l.c * scale} }
	z.a, z.b = z.heightOf(big(p.l[0])), z.heightOf(big(p.l[1]))
	half := math.Hypot(float64(base.w), float64(base.h)) / 2
	// As fine as the board is narrow.
	usual := max(want.length, want.width) / min(want.length, want.width)
	z.step = min(max(max(math.Abs(z.b[0]-z.a[0]), half/usual)/28, 1), coarsest)
	z.n = int(2 * half / z.step)
	for k := range z.v {
		z.v[k] = 0.06 + 0.88*(float64(k-beyondRows)+0.5)/stripRows
		if k < beyondRows {
			z.v[k] = -0.08 - 0.3*float64(beyondRows-k-1)/(beyondRows-1)
		} else if j := k - beyondRows - stripRows; j >= 0 {
			z.v[k] = 1.08 + 0.3*float64(j)/(beyondRows-1)
		}
	}
	z.off = make([]bool, z.n)
	z.steps = make([][]stepOf, len(z.v))
	all := make([]stepOf, len(z.v)*z.n)
	sum := make([]sample, z.n+1) // colours of the columns before each
	places := make([]place, z.n)
	for k, v := range z.v {
		first, last := z.at(0.5, v), z.at(1.5, v)
		d := last.Sub(first)
		for i := range places {
			places[i] = place{first.X + float64(i)*d.X, first.Y + float64(i)*d.Y}
		}
		bend(lens, places)
		inner := k >= beyondRows && k < beyondRows+stripRows
		for i, at := range places {
			x, y := int(at.x), int(at.y)
			if uint(x) >= uint(base.w) || uint(y) >= uint(base.h) {
				x, y = min(max(x, 0), base.w-1), min(max(y, 0), base.h-1)
				z.off[i] = z.off[i] || inner
			}
			c, s := &base.pix[y*base.w+x], &sum[i]
			sum[i+1] = sample{s[0] + c[0], s[1] + c[1], s[2] + c[2]}
		}
		z.steps[k] = all[k*z.n : (k+1)*z.n]
		for i := endWindow; i+endWindow <= z.n && i < z.n; i++ {
			s := &z.steps[k][i]
			a, b, c := &sum[i-endWindow], &sum[i], &sum[i+endWindow]
			d0, d1, d2 := (c[0]-2*b[0]+a[0])/endWindow, (c[1]-2*b[1]+a[1])/endWindow, (c[2]-2*b[2]+a[2])/endWindow
			*s = stepOf{sample{d0, d1, d2}, d0*d0 + d1*d1 + d2*d2}
		}
	}
	return z
}

// at returns the place of a column and a share of the way across, in pixels of
// the fine plane.
func (z *strip) at(column, v float64) geom.Point {
	u := (column - float64(z.n)/2) * z.step
	h := (1-v)*(z.a[0]+z.a[1]*u) + v*(z.b[0]+z.b[1]*u)
	return z.origin.Add(z.dir.Mul(u)).Add(z.across.Mul(h))
}

// lean returns how many columns off each row is on an edge that leans.
func (z *strip) lean(by float64) (off [stripRows + 2*beyondRows]int) {
	for k := range off {
		off[k] = int(math.Floor(by*(z.v[k]-0.5) + 0.5))
	}
	return off
}

// edgeOf judges some rows at a column, where they lie off columns off.
func (z *strip) edgeOf(from, count, column int, off *[stripRows + 2*beyondRows]int) float64 {
	var s0, s1, s2, sq float32
	n := 0
	for k := from; k < from+count; k++ {
		i := column + off[k]
		if i < endWindow || i+endWindow > z.n {
			continue
		}
		v := &z.steps[k][i]
		s0 += v.d[0]
		s1 += v.d[1]
		s2 += v.d[2]
		sq += v.sq
		n++
	}
	if n < 3 {
		return 0
	}
	edge, _ := judged(s0*s0+s1*s1+s2*s2, sq, float64(n))
	return edge
}

// ends returns the edges that may end a board, best first.
func (z *strip) ends(most int) []end {
	type found struct {
		column, lean, score float64
	}
	wide := make([]float64, z.n)
	top := 0
	for i := range wide {
		u := (float64(i) - float64(z.n)/2) * z.step
		wide[i] = math.Abs(z.b[0]+z.b[1]*u-z.a[0]-z.a[1]*u) / z.step
		if !z.off[i] {
			top = max(top, int(endLean*wide[i]/2)+1)
		}
	}
	// A long end is looked for at every other lean: laying the sides finds it.
	turn := 2.0
	if z.step >= coarsest {
		turn, top = 4, (top+1)/2
	}
	scores := make([][]float64, 2*top+1)
	for l := range scores {
		scores[l] = make([]float64, z.n)
		lean := turn * float64(l-top)
		by := z.lean(lean)
		for i := endWindow; i+endWindow <= z.n && i < z.n; i++ {
			if z.off[i] || wide[i] < 6 || math.Abs(lean) > endLean*wide[i]+1 {
				continue
			}
			for k := 0; k < stripRows; k += fourRows {
				scores[l][i] += z.edgeOf(beyondRows+k, fourRows, i, &by) * fourRows / stripRows
			}
		}
	}
	var all []found
	for l := range scores {
		for i := 1; i+1 < z.n; i++ {
			v := scores[l][i]
			if v < leastEnd || v < scores[l][i-1] || v < scores[l][i+1] {
				continue
			}
			if l > 0 && scores[l-1][i] > v || l+1 < len(scores) && scores[l+1][i] > v {
				continue
			}
			all = append(all, found{float64(i), turn * float64(l-top), v})
		}
	}
	var kept []found
	var out []end
next:
	for _, i := range ranked(len(all), func(i int) float64 { return all[i].score }) {
		f := all[i]
		if len(kept) >= most {
			break
		}
		for _, k := range kept {
			a, b := f.column-f.lean/2-k.column+k.lean/2, f.column+f.lean/2-k.column-k.lean/2
			if math.Abs(a) < sameEnd && math.Abs(b) < sameEnd {
				continue next
			}
		}
		kept = append(kept, f)
		e := end{
			a: z.at(f.column-f.lean/2, 0).Mul(1 / z.scale), b: z.at(f.column+f.lean/2, 1).Mul(1 / z.scale),
			score: f.score,
		}
		by := z.lean(f.lean)
		for _, from := range [...]int{0, beyondRows + stripRows} {
			e.beyond += min(z.edgeOf(from, beyondRows, int(f.column), &by)/(f.score+0.05), 1)
		}
		out = append(out, e)
	}
	return out
}
