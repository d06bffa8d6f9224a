package split

import (
	"image"
	"image/color"
	"math"

	"heartside/layout/photo"
)

// copyFace cuts x0..x1, y0..y1 out of a face, pixels.
func copyFace(b *boardFace, x0, x1, y0, y1 int) boardFace {
	w, h := x1-x0, y1-y0
	o := boardFace{name: b.name, level: b.level, w: w, h: h, truth: make([]uint8, w*h)}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.SetRGBA(x, y, b.s.Pix.RGBAAt(x+x0, y+y0))
			o.truth[y*w+x] = b.truth[(y+y0)*b.w+x+x0]
		}
	}
	o.s = &photo.Squared{Pix: img, PxPerMM: 1, Length: float64(w), Width: float64(h)}
	o.share = o.measured()
	return o
}

func (b *boardFace) measured() float64 {
	n, s := 0.0, 0.0
	for _, k := range b.truth {
		if k == 1 || k == 2 {
			n++
		}
		if k == 2 {
			s++
		}
	}
	if n == 0 {
		return 0
	}
	return s / n
}

// relight changes the light of a face by a factor per channel and place.
func relight(b *boardFace, by func(x, y float64) (r, g, bl, add float64)) boardFace {
	o := copyFace(b, 0, b.w, 0, b.h)
	lin := func(v uint8) float64 { return math.Pow(float64(v)/255, 2.2) }
	enc := func(v float64) uint8 { return uint8(255*math.Pow(math.Min(math.Max(v, 0), 1), 1/2.2) + .5) }
	for y := range b.h {
		for x := range b.w {
			c := o.s.Pix.RGBAAt(x, y)
			r, g, bl, add := by(float64(x), float64(y))
			o.s.Pix.SetRGBA(x, y, color.RGBA{enc(lin(c.R)*r + add), enc(lin(c.G)*g + add), enc(lin(c.B)*bl + add), 255})
		}
	}
	return o
}

func mirrored(b *boardFace, fx, fy bool) boardFace {
	o := copyFace(b, 0, b.w, 0, b.h)
	for y := range b.h {
		for x := range b.w {
			sx, sy := x, y
			if fx {
				sx = b.w - 1 - x
			}
			if fy {
				sy = b.h - 1 - y
			}
			o.s.Pix.SetRGBA(x, y, b.s.Pix.RGBAAt(sx, sy))
			o.truth[y*b.w+x] = b.truth[sy*b.w+sx]
		}
	}
	return o
}

// stacked puts two faces one above the other.
func stacked(a, b *boardFace) boardFace {
	o := copyFace(a, 0, a.w, 0, a.h)
	o.h = a.h + b.h
	img := image.NewRGBA(image.Rect(0, 0, a.w, o.h))
	copy(img.Pix, a.s.Pix.Pix)
	copy(img.Pix[len(a.s.Pix.Pix):], b.s.Pix.Pix)
	o.truth = append(append([]uint8{}, a.truth...), b.truth...)
	o.s = &photo.Squared{Pix: img, PxPerMM: 1, Length: float64(o.w), Width: float64(o.h)}
	o.share = o.measured()
	return o
}

// sapRows is the share of sapwood of each row.
func sapRows(b *boardFace) []float64 {
	out := make([]float64, b.h)
	for y := range out {
		n := 1e-9
		for _, k := range b.truth[y*b.w : (y+1)*b.w] {
			if k == 2 {
				out[y]++
			}
			if k == 1 || k == 2 {
				n++
			}
		}
		out[y] /= n
	}
	return out
}

type variant struct {
	name string
	of   func(b *boardFace) (boardFace, bool)
}

func always(f func(b *boardFace) boardFace) func(b *boardFace) (boardFace, bool) {
	return func(b *boardFace) (boardFace, bool) { return f(b), true }
}

func light(f func(b *boardFace, x, y float64) (r, g, bl, add float64)) func(b *boardFace) (boardFace, bool) {
	return always(func(b *boardFace) boardFace {
		return relight(b, func(x, y float64) (float64, float64, float64, float64) { return f(b, x, y) })
	})
}

func grey(v float64) (float64, float64, float64, float64) { return v, v, v, 0 }

// variants are changes of a face that must not change the answer, or change
// it in a way that is known.
func variants() []variant {
	return []variant{
		{"as is", always(func(b *boardFace) boardFace { return *b })},
		{"mirror x", always(func(b *boardFace) boardFace { return mirrored(b, true, false) })},
		{"mirror y", always(func(b *boardFace) boardFace { return mirrored(b, false, true) })},
		{"dark", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) { return .5, .5, .5, 0 })},
		{"warm", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) { return 1.05, .85, .65, 0 })},
		{"cool", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) { return .75, .9, 1.15, 0 })},
		{"left half", always(func(b *boardFace) boardFace { return copyFace(b, 0, b.w/2, 0, b.h) })},
		{"right half", always(func(b *boardFace) boardFace { return copyFace(b, b.w/2, b.w, 0, b.h) })},
		{"heart only", func(b *boardFace) (boardFace, bool) {
			r := sapRows(b)
			a, best0, best1 := 0, 0, 0
			for y := 0; y <= b.h; y++ {
				if y == b.h || r[y] > 0 {
					if y-a > best1-best0 {
						best0, best1 = a, y
					}
					a = y + 1
				}
			}
			best0, best1 = min(best0+4, b.h), max(best1-4, 0)
			if best1-best0 < 60 || b.share == 0 {
				return boardFace{}, false
			}
			return copyFace(b, 0, b.w, best0, best1), true
		}},
		{"wide sap", func(b *boardFace) (boardFace, bool) {
			// Cut so that the sapwood covers 60 % or so.
			return cutTo(b, .6)
		}},
		{"narrow heart", func(b *boardFace) (boardFace, bool) {
			o, ok := cutTo(b, .7)
			if !ok {
				return o, false
			}
			r := sapRows(&o)
			m := mirrored(&o, true, true)
			if r[0] > r[o.h-1] {
				return stacked(&o, &m), true
			}
			return stacked(&m, &o), true
		}},
		{"mid sap", func(b *boardFace) (boardFace, bool) {
			r := sapRows(b)
			if b.share < .05 || b.share > .4 || r[0] > .3 == (r[b.h-1] > .3) {
				return boardFace{}, false
			}
			m := mirrored(b, true, true)
			if r[0] > r[b.h-1] {
				return stacked(&m, b), true
			}
			return stacked(b, &m), true
		}},
		{"shadow across", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) {
			return grey(1 - .5*soft(x+.5*y, .4*float64(b.w), 4) + .5*soft(x+.5*y, .7*float64(b.w), 20))
		})},
		{"shadow along", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) {
			return grey(1 - .45*soft(y+.05*x, .5*float64(b.h), 2))
		})},
		{"light along", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) {
			return grey(.55 + .45*soft(y-.03*x, .75*float64(b.h), 5))
		})},
		{"slope", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) {
			return grey(.5 + .5*y/float64(b.h))
		})},
		{"glare", light(func(b *boardFace, x, y float64) (float64, float64, float64, float64) {
			dx, dy := (x-.6*float64(b.w))/120, (y-.5*float64(b.h))/60
			return .9, .9, .9, .12 * math.Exp(-dx*dx-dy*dy)
		})},
	}
}

// cutTo takes rows off the heart side until the share of sapwood is want.
func cutTo(b *boardFace, want float64) (boardFace, bool) {
	r := sapRows(b)
	if b.share < .05 {
		return boardFace{}, false
	}
	top := r[0] > r[b.h-1]
	for n := b.h; n > 18; n-- {
		var o boardFace
		if top {
			o = copyFace(b, 0, b.w, 0, n)
		} else {
			o = copyFace(b, 0, b.w, b.h-n, b.h)
		}
		if o.share >= want {
			return o, true
		}
	}
	return boardFace{}, false
}
