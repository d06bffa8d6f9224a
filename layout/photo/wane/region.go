package wane

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math"

	"heartside/layout/geom"
)

// Sizes of the picture a board is looked for in, pixels of its longer side,
// and of cells of that. Engineering choices.
const (
	lookLong = 1200
	lookCell = 4
	rimShare = 0.03 // of the picture's sides: taken for ground
	rimDoubt = 1.0  // what a cell must lean more to count at the rim
	midShare = 0.05 // of the shorter side, about its middle: taken for wood
)

// Region finds the patch about the middle of a picture that is not like its
// rim, and returns the points round it, pixels: the rough outline of a board
// that lies alone in the middle of its photograph.
func Region(ctx context.Context, img image.Image) ([]geom.Point, error) {
	if img == nil || min(img.Bounds().Dx(), img.Bounds().Dy()) < 64 {
		return nil, errors.New("finding a waney board: the picture is smaller than 64 x 64 pixels")
	}
	small, k := smaller(img, lookLong)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	c := cellsOf(small, max(small.Rect.Dx()/lookCell, 8), max(small.Rect.Dy()/lookCell, 8))
	f := make([]feature, len(c.f))
	for i := range f {
		f[i] = *c.at(i%c.nx, i/c.nx)
	}
	rim := max(int(rimShare*float64(min(c.nx, c.ny))), 1)
	var ground []feature
	for i := range f {
		if x, y := i%c.nx, i/c.nx; x < rim || y < rim || x >= c.nx-rim || y >= c.ny-rim {
			ground = append(ground, f[i])
		}
	}
	// What lies in the middle of the picture is the board.
	var wood []feature
	short := float64(min(c.nx, c.ny))
	for i := range f {
		if math.Hypot(float64(i%c.nx-c.nx/2), float64(i/c.nx-c.ny/2)) <= midShare*short {
			wood = append(wood, f[i])
		}
	}
	lean := make([]float64, len(f))
	var in []bool
	const rounds = 4
	for r := range rounds {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		l, ok := likenessOf(wood, ground)
		if !ok {
			return nil, errors.New("finding a waney board: nothing stands out from the ground; give the four corners of a rectangle about it by hand")
		}
		if r == 0 {
			l.strange = 0
		}
		for i := range f {
			lean[i] = l.lean(&f[i])
		}
		in = patch(lean, c.nx, c.ny)
		wood = wood[:0]
		for i := range f {
			if in[i] {
				wood = append(wood, f[i])
			}
		}
	}
	var out []geom.Point
	kx, ky := k*float64(small.Rect.Dx())/float64(c.nx), k*float64(small.Rect.Dy())/float64(c.ny)
	for i, on := range in {
		if !on {
			continue
		}
		x, y := i%c.nx, i/c.nx
		if x == 0 || y == 0 || x == c.nx-1 || y == c.ny-1 || !in[i-1] || !in[i+1] || !in[i-c.nx] || !in[i+c.nx] {
			out = append(out, geom.Pt((float64(x)+0.5)*kx, (float64(y)+0.5)*ky))
		}
	}
	if len(out) < 12 {
		return nil, errors.New("finding a waney board: nothing of its size stands out from the ground; give the four corners of a rectangle about it by hand")
	}
	return out, nil
}

// patch is the connected part about the middle that leans to wood, each cell
// weighed with those about it, and less the nearer it is to the rim.
func patch(lean []float64, nx, ny int) []bool {
	sum, n := box(lean, nx, ny, 1, 1), make([]float64, len(lean))
	for i := range n {
		n[i] = 1
	}
	n = box(n, nx, ny, 1, 1)
	on := make([]bool, len(lean))
	for i := range on {
		x, y := 2*float64(i%nx)/float64(nx)-1, 2*float64(i/nx)/float64(ny)-1
		on[i] = sum[i]/n[i] > rimDoubt*math.Max(math.Pow(x, 4), math.Pow(y, 4))
	}
	best, most := -1, 0
	of := make([]int, len(on))
	var list []int
	for start := range on {
		if !on[start] || of[start] != 0 {
			continue
		}
		list = append(list[:0], start)
		of[start] = start + 1
		for k := 0; k < len(list); k++ {
			i := list[k]
			x, y := i%nx, i/nx
			for _, d := range [...][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
				u, v := x+d[0], y+d[1]
				if u < 0 || v < 0 || u >= nx || v >= ny {
					continue
				}
				if at := v*nx + u; on[at] && of[at] == 0 {
					of[at] = start + 1
					list = append(list, at)
				}
			}
		}
		mid := 0
		for _, i := range list {
			if math.Hypot(float64(i%nx-nx/2), float64(i/nx-ny/2)) <= midShare*float64(min(nx, ny)) {
				mid++
			}
		}
		if mid > most {
			best, most = start+1, mid
		}
	}
	for i := range on {
		on[i] = of[i] == best
	}
	return on
}

// smaller averages a picture to at most long pixels along its longer side, and
// tells how many of its pixels one of those is.
func smaller(img image.Image, long int) (*image.RGBA, float64) {
	b := img.Bounds()
	k := max((max(b.Dx(), b.Dy())+long-1)/long, 1)
	out := image.NewRGBA(image.Rect(0, 0, max(b.Dx()/k, 1), max(b.Dy()/k, 1)))
	read := func(x, y int) (r, g, b uint8) {
		v := color.RGBAModel.Convert(img.At(x, y)).(color.RGBA)
		return v.R, v.G, v.B
	}
	switch m := img.(type) {
	case *image.YCbCr:
		read = func(x, y int) (r, g, b uint8) {
			c := m.COffset(x, y)
			return color.YCbCrToRGB(m.Y[m.YOffset(x, y)], m.Cb[c], m.Cr[c])
		}
	case *image.RGBA:
		read = func(x, y int) (r, g, b uint8) {
			p := m.Pix[m.PixOffset(x, y):]
			return p[0], p[1], p[2]
		}
	}
	n := min(k, 2) // of a large cell a few pixels will do
	for j := range out.Rect.Dy() {
		for i := range out.Rect.Dx() {
			var sum [3]int
			for a := range n * n {
				r, g, bl := read(b.Min.X+i*k+a%n*k/n, b.Min.Y+j*k+a/n*k/n)
				sum[0] += int(r)
				sum[1] += int(g)
				sum[2] += int(bl)
			}
			px := out.Pix[out.PixOffset(i, j):]
			for c := range sum {
				px[c] = uint8(sum[c] / (n * n))
			}
			px[3] = 255
		}
	}
	return out, float64(k)
}
