package render

import (
	"image"
	"math"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"

	"heartside/layout/geom"
)

// outlineKey names the shape of a glyph.
type outlineKey struct {
	cut   cut
	index truetype.Index
}

// outline is a glyph's shape in ems, y down from the baseline, curves cut
// into lines; it is filled by winding number.
type outline [][]geom.Point

// curveSteps is how many lines a curve of a glyph becomes: at 60 units an em
// the error stays under a twentieth of a unit.
const curveSteps = 5

// outline returns the shape of a glyph.
func (f *Faces) outline(k outlineKey) outline {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.outlineLocked(k)
}

func (f *Faces) outlineLocked(k outlineKey) outline {
	if o, ok := f.outlines[k]; ok {
		return o
	}
	var o outline
	em := f.em[k.cut]
	if err := f.buf.Load(f.font[k.cut], fixed.Int26_6(em), k.index, font.HintingNone); err == nil {
		from := 0
		for _, end := range f.buf.Ends {
			if ring := flatten(f.buf.Points[from:end], em); len(ring) > 2 {
				o = append(o, ring)
			}
			from = end
		}
	}
	f.outlines[k] = o
	return o
}

// flatten turns a contour of on-curve and control points into lines. Between
// two control points in a row lies a point of the curve, halfway.
func flatten(ps []truetype.Point, em float64) []geom.Point {
	n := len(ps)
	at := func(i int) (geom.Point, bool) {
		p := ps[i%n]
		return geom.Pt(float64(p.X)/em, -float64(p.Y)/em), p.Flags&1 != 0
	}
	if n == 0 {
		return nil
	}
	first := 0
	for first < n {
		if _, on := at(first); on {
			break
		}
		first++
	}
	var start geom.Point
	if first == n { // only control points
		a, _ := at(0)
		b, _ := at(n - 1)
		first, start = n-1, a.Lerp(b, 0.5)
	} else {
		start, _ = at(first)
	}
	out := []geom.Point{start}
	for i := 1; i <= n; i++ {
		p, on := at(first + i)
		if on {
			out = append(out, p)
			continue
		}
		end, endOn := at(first + i + 1)
		if i == n {
			end = start
		} else if endOn {
			i++
		} else {
			end = p.Lerp(end, 0.5)
		}
		from := out[len(out)-1]
		for s := 1; s <= curveSteps; s++ {
			t := float64(s) / curveSteps
			out = append(out, from.Lerp(p, t).Lerp(p.Lerp(end, t), t))
		}
	}
	return out
}

// maskKey names the picture of a glyph at a size and a part of a pixel.
type maskKey struct {
	cut   cut
	index truetype.Index
	size  int32 // 64ths of a pixel an em
	sub   uint8 // quarter pixels to the right
}

// mask is a glyph's coverage; its picture lies at off from the pen.
type mask struct {
	off  image.Point
	w, h int
	a    []uint8
}

// mostMasks bounds the pictures kept.
const mostMasks = 6000

func (f *Faces) mask(k maskKey, r *filler) *mask {
	f.mu.Lock()
	defer f.mu.Unlock()
	if m, ok := f.masks[k]; ok {
		return m
	}
	if len(f.masks) >= mostMasks {
		clear(f.masks)
	}
	m := &mask{}
	f.masks[k] = m
	o := f.outlineLocked(outlineKey{k.cut, k.index})
	if len(o) == 0 {
		return m
	}
	size, dx := float64(k.size)/64, float64(k.sub)/4
	rings := make([][]geom.Point, len(o))
	lo, hi := geom.Pt(math.Inf(1), math.Inf(1)), geom.Pt(math.Inf(-1), math.Inf(-1))
	for i, ring := range o {
		rings[i] = make([]geom.Point, len(ring))
		for j, p := range ring {
			q := geom.Pt(p.X*size+dx, p.Y*size)
			rings[i][j] = q
			lo = geom.Pt(math.Min(lo.X, q.X), math.Min(lo.Y, q.Y))
			hi = geom.Pt(math.Max(hi.X, q.X), math.Max(hi.Y, q.Y))
		}
	}
	b := image.Rect(int(math.Floor(lo.X)), int(math.Floor(lo.Y)), int(math.Ceil(hi.X))+1, int(math.Ceil(hi.Y))+1)
	m.off, m.w, m.h = b.Min, b.Dx(), b.Dy()
	m.a = make([]uint8, m.w*m.h)
	r.fill(rings, true, b, maskPainter{m})
	return m
}
