package wane

import (
	"image"
	"math"

	"heartside/layout/colour"
)

// dims counts what is known of a cell: the logarithm of its light as
// lightness and two of hue, and how much lightness changes from pixel to pixel
// along and across the board, as logarithms too.
const dims = 5

type feature [dims]float64

// cells are averages over small rectangles of a picture, row 0 at the top.
type cells struct {
	nx, ny int
	f      []feature // the changes as they are: see at
	seen   []bool    // the picture shows something there
	whole  []bool    // the texture has been looked at
	known  []feature
}

// Engineering choices: what is added to light and to its change before the
// logarithm, so that noise in the dark counts for little; and how many cells
// to either side the texture is looked at.
const (
	blackLevel    = 0.006
	flatLevel     = 0.012
	textureAcross = 1
	textureDown   = 2
)

// cellsOf averages a picture in nx x ny cells; transparent pixels are not
// part of it.
func cellsOf(img *image.RGBA, nx, ny int) *cells {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	c := &cells{nx: nx, ny: ny, f: make([]feature, nx*ny), seen: make([]bool, nx*ny), whole: make([]bool, nx*ny), known: make([]feature, nx*ny)}
	var light [256]float64
	for i := range light {
		light[i] = colour.Light(uint8(i))
	}
	// Logarithms of a row's lightness, and of the row above, NaN for none.
	row, above := make([]float64, w), make([]float64, w)
	for i := range above {
		above[i] = math.NaN()
	}
	type sum struct{ r, g, b, n, dx, nx, dy, ny float64 }
	line := make([]sum, nx)
	col := make([]int, w)
	for i := range col {
		col[i] = i * nx / w
	}
	for j := range ny {
		clear(line)
		for y := j * h / ny; y < max((j+1)*h/ny, j*h/ny+1) && y < h; y++ {
			pix := img.Pix[y*img.Stride:]
			left := math.NaN()
			for x := range w {
				px := pix[4*x : 4*x+4 : 4*x+4]
				if px[3] == 0 {
					left, row[x] = math.NaN(), math.NaN()
					continue
				}
				s := &line[col[x]]
				r, g, b := light[px[0]], light[px[1]], light[px[2]]
				s.r += r
				s.g += g
				s.b += b
				s.n++
				v := r + g + b // its logarithm is taken of differences only
				if d := math.Abs(v-left) / (v + left + 6*blackLevel); d == d {
					s.dx += d
					s.nx++
				}
				if d := math.Abs(v-above[x]) / (v + above[x] + 6*blackLevel); d == d {
					s.dy += d
					s.ny++
				}
				left, row[x] = v, v
			}
			row, above = above, row
		}
		for i, s := range line {
			if s.n == 0 {
				continue
			}
			k := j*nx + i
			c.seen[k] = true
			f := &c.f[k]
			a, b, d := math.Log(s.r/s.n+blackLevel), math.Log(s.g/s.n+blackLevel), math.Log(s.b/s.n+blackLevel)
			f[0] = (a + b + d) / math.Sqrt(3)
			f[1] = (b + d - 2*a) / math.Sqrt(6)
			f[2] = (d - b) / math.Sqrt2
			f[3], f[4] = s.dx/math.Max(s.nx, 1), s.dy/math.Max(s.ny, 1)
		}
	}
	return c
}

// at is what is known of a cell. Its texture is the middle one of those about
// it, which an edge that crosses a few of them does not change.
func (c *cells) at(i, j int) *feature {
	at := j*c.nx + i
	f := &c.known[at]
	if c.whole[at] {
		return f
	}
	c.whole[at] = true
	*f = c.f[at]
	var near [(2*textureAcross + 1) * (2*textureDown + 1)]float64
	for k := 3; k < dims; k++ {
		n := 0
		for b := max(j-textureDown, 0); b <= min(j+textureDown, c.ny-1); b++ {
			for a := max(i-textureAcross, 0); a <= min(i+textureAcross, c.nx-1); a++ {
				if at := b*c.nx + a; c.seen[at] {
					v := c.f[at][k]
					m := n
					for ; m > 0 && near[m-1] > v; m-- {
						near[m] = near[m-1]
					}
					near[m] = v
					n++
				}
			}
		}
		if n > 0 {
			f[k] = math.Log(flatLevel + near[n/2])
		}
	}
	return f
}

// box sums values over a rectangle about each cell.
func box(v []float64, nx, ny, rx, ry int) []float64 {
	out, tmp := make([]float64, len(v)), make([]float64, len(v))
	run := func(dst, src []float64, n, step, r int) {
		sum := 0.0
		for i := 0; i < min(r, n); i++ {
			sum += src[i*step]
		}
		for i := range n {
			if i+r < n {
				sum += src[(i+r)*step]
			}
			if i > r {
				sum -= src[(i-r-1)*step]
			}
			dst[i*step] = sum
		}
	}
	for j := range ny {
		run(tmp[j*nx:], v[j*nx:], nx, 1, rx)
	}
	for i := range nx {
		run(out[i:], tmp[i:], ny, nx, ry)
	}
	return out
}
