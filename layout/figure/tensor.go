package figure

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"slices"

	"heartside/layout/colour"
)

// fineness is the standard deviation of the Gaussian that the picture is
// differentiated with, mm: finer than the rings, coarser than a pixel's noise.
const fineness = 1.2

// outliers is the share of a cell's pixels, those that change most, that are
// taken down to the next: a scratch or a chalk line should not speak for all.
const outliers = 0.2

// Grid is a picture of a face in plain numbers, such as the logarithm of its
// light: row 0 at y = width, as in photo.Squared. NaN is not known.
type Grid struct {
	W, H int
	Pix  []float32 // row by row
}

// FromImage returns how the grain runs on a squared picture of a face: row 0 at
// y = width, the whole face from edge to edge. About 1 pixel a mm is right.
// What is transparent is left out. cell is the size of the map's cells, mm, 20
// to 40; 0 is DefaultCell. It stops early when ctx ends.
func FromImage(ctx context.Context, img *image.RGBA, length, width, cell float64) (*Map, error) {
	if img == nil || img.Rect.Empty() {
		return nil, errors.New("the picture of the face is empty")
	}
	g := Grid{W: img.Rect.Dx(), H: img.Rect.Dy()}
	g.Pix = make([]float32, g.W*g.H)
	for y := range g.H {
		row := img.Pix[img.PixOffset(img.Rect.Min.X, img.Rect.Min.Y+y):]
		for x := range g.W {
			p := row[4*x : 4*x+4]
			g.Pix[y*g.W+x] = float32(math.NaN())
			if p[3] == 255 {
				// A shadow takes away a share of the light, not an amount; the
				// logarithm makes it the same everywhere but at its edge.
				light := 0.2126*colour.Light(p[0]) + 0.7152*colour.Light(p[1]) + 0.0722*colour.Light(p[2])
				g.Pix[y*g.W+x] = float32(math.Log(light + 0.004))
			}
		}
	}
	return FromGrid(ctx, g, length, width, cell)
}

// FromGrid is FromImage for a picture in plain numbers.
func FromGrid(ctx context.Context, g Grid, length, width, cell float64) (*Map, error) {
	if g.W <= 0 || g.H <= 0 || len(g.Pix) < g.W*g.H {
		return nil, fmt.Errorf("a picture of %d by %d pixels needs as many numbers; it has %d", g.W, g.H, len(g.Pix))
	}
	m, err := newMap(length, width, cell)
	if err != nil {
		return nil, err
	}
	t := &tensor{g: g, sx: float64(g.W) / length, sy: float64(g.H) / width}
	t.kernels()
	for j := range m.NY {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		t.row(m, j)
	}
	return m, nil
}

// tensor differentiates a picture, a band of rows at a time.
type tensor struct {
	g              Grid
	sx, sy         float64 // pixels a mm
	smoothX, diffX []float32
	smoothY, diffY []float32
	gx, gy         []float32 // of the band
	known          []bool
	left, right    []float32
	seen           []bool
	energy         []float64
}

func (t *tensor) kernels() {
	t.smoothX, t.diffX = gaussian(max(0.7, fineness*t.sx))
	t.smoothY, t.diffY = gaussian(max(0.7, fineness*t.sy))
}

// gaussian returns a Gaussian and its derivative, both sampled at whole pixels.
func gaussian(sigma float64) (smooth, diff []float32) {
	r := int(math.Ceil(3.5 * sigma))
	sum, slope := 0.0, 0.0
	for i := -r; i <= r; i++ {
		v := math.Exp(-float64(i*i) / (2 * sigma * sigma))
		sum += v
		slope += v * float64(i*i)
	}
	for i := -r; i <= r; i++ {
		v := math.Exp(-float64(i*i) / (2 * sigma * sigma))
		smooth = append(smooth, float32(v/sum))
		diff = append(diff, float32(v*float64(i)/slope)) // 1 on a slope of 1
	}
	return smooth, diff
}

// row finds the cells of row j of the map.
func (t *tensor) row(m *Map, j int) {
	// Row 0 of the picture is at y = width.
	top := int(math.Round(float64(t.g.H) * float64(m.NY-1-j) / float64(m.NY)))
	bottom := int(math.Round(float64(t.g.H) * float64(m.NY-j) / float64(m.NY)))
	t.differentiate(top, bottom)
	w := t.g.W
	for i := range m.NX {
		from, to := i*w/m.NX, (i+1)*w/m.NX
		m.Cells[j*m.NX+i] = t.cell(from, to, bottom-top)
	}
}

// differentiate fills gx and gy, change a mm along x and upwards along y, of
// the rows from top to bottom.
func (t *tensor) differentiate(top, bottom int) {
	w, n := t.g.W, bottom-top
	t.gx, t.gy = grown(t.gx, n*w), grown(t.gy, n*w)
	t.left, t.right = grown(t.left, w), grown(t.right, w)
	t.known, t.seen = grown(t.known, n*w), grown(t.seen, w)
	ry, rx := len(t.smoothY)/2, len(t.smoothX)/2
	for k := range n {
		y := top + k
		for x := range w {
			t.left[x], t.right[x], t.seen[x] = 0, 0, y >= ry && y < t.g.H-ry || t.g.H <= 4*ry
		}
		for d, s := range t.smoothY {
			row := t.g.Pix[min(max(y+d-ry, 0), t.g.H-1)*w:][:w]
			e := t.diffY[d]
			for x, v := range row {
				t.left[x] += s * v
				t.right[x] += e * v
			}
		}
		for x := range w {
			t.seen[x] = t.seen[x] && t.left[x] == t.left[x] // NaN spreads
		}
		for x := range w {
			var a, b float32
			for d := range t.smoothX {
				i := min(max(x+d-rx, 0), w-1)
				a += t.diffX[d] * t.left[i]
				b += t.smoothX[d] * t.right[i]
			}
			o := k*w + x
			t.gx[o], t.gy[o] = a*float32(t.sx), -b*float32(t.sy) // y runs up
			inside := x >= rx && x < w-rx || w <= 4*rx
			t.known[o] = inside && t.seen[x] && a == a && b == b
		}
	}
}

func grown[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// cell returns the direction in the columns from to to of n rows.
func (t *tensor) cell(from, to, n int) Cell {
	t.energy = t.energy[:0]
	for k := range n {
		for x := from; x < to; x++ {
			if o := k*t.g.W + x; t.known[o] {
				a, b := float64(t.gx[o]), float64(t.gy[o])
				t.energy = append(t.energy, a*a+b*b)
			}
		}
	}
	// A quarter of it has to be seen.
	if len(t.energy) == 0 || 4*len(t.energy) < n*(to-from) {
		return Cell{}
	}
	slices.Sort(t.energy)
	limit := t.energy[int(float64(len(t.energy)-1)*(1-outliers))]
	var xx, xy, yy float64
	for k := range n {
		for x := from; x < to; x++ {
			o := k*t.g.W + x
			if !t.known[o] {
				continue
			}
			a, b := float64(t.gx[o]), float64(t.gy[o])
			w := 1.0
			if e := a*a + b*b; e > limit {
				w = limit / e
			}
			xx += w * a * a
			xy += w * a * b
			yy += w * b * b
		}
	}
	if !(xx+yy > 1e-12*float64(len(t.energy))) {
		return Cell{} // an even surface
	}
	// Of the two axes of the tensor the grain is the one of least change.
	return Cell{
		Angle:     within(math.Atan2(2*xy, xx-yy)*90/math.Pi + 90),
		Coherence: math.Hypot(xx-yy, 2*xy) / (xx + yy),
	}
}
