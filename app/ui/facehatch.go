package ui

import (
	"image"
	"math"

	"heartside/layout/photo"
	"heartside/layout/photo/split"
)

// faceOverlay is what lies on a photographed face: zones as hatching with an
// outline, never as colour alone, and where the program is not sure as dots.
type faceOverlay struct {
	mask  *photo.Mask
	sure  split.Sureness
	doubt bool    // show where it is not sure
	shown float64 // 0 nothing to 1
	px    float64 // device pixels a unit
	small bool    // on the small board: outline and thin hatching
}

// hatchStep is between the lines of the hatching, units. An engineering
// choice: wide enough that the wood is seen between them.
const hatchStep = 9

// labelRow is one row of the mask as it lies on pixels.
type labelRow []photo.Label

// draw lays the overlay on a picture. A row of pixels is one row of the mask;
// the row before tells where outlines run.
func (o *faceOverlay) draw(dst *image.RGBA, clip image.Rectangle, at facePlace) {
	m := o.mask
	if m == nil || o.shown <= 0 && !o.doubt {
		return
	}
	cols := o.columns(clip, at, m.W, m.Length)
	above, row := make(labelRow, clip.Dx()+1), make(labelRow, clip.Dx()+1)
	for y := clip.Min.Y - 1; y < clip.Max.Y; y++ {
		above, row = row, above
		j := o.cell(y, at.at.Y, at.k, m.H, m.Width)
		for i, col := range cols {
			row[i] = beside
			if j >= 0 && col >= 0 {
				row[i] = m.Pix[j*m.W+col]
			}
		}
		if y >= clip.Min.Y && j >= 0 {
			o.line(dst, clip, y, at, row, above)
		}
	}
}

// columns returns the mask's column under each pixel, from one left of the
// clip; -1 beside the face.
func (o *faceOverlay) columns(clip image.Rectangle, at facePlace, n int, length float64) []int {
	out := make([]int, clip.Dx()+1)
	for i := range out {
		out[i] = o.cell(clip.Min.X+i-1, at.at.X, at.k, n, length)
	}
	return out
}

// cell is the cell of n under a pixel, -1 for none.
func (o *faceOverlay) cell(pixel int, from, k float64, n int, size float64) int {
	i := int(math.Floor((float64(pixel) + 0.5 - from) / k / size * float64(n)))
	if i < 0 || i >= n {
		return -1
	}
	return i
}

func (o *faceOverlay) line(dst *image.RGBA, clip image.Rectangle, y int, at facePlace, row, above labelRow) {
	step := max(int(hatchStep*o.px), 4)
	thick := max(int(math.Round(o.px)), 1)
	if o.small {
		step = max(step*2/3, 4)
	}
	ox, oy := int(math.Round(at.at.X)), int(math.Round(at.at.Y))
	pix := dst.Pix[dst.PixOffset(clip.Min.X, y):]
	j := -1
	if o.doubt && o.sure.NY > 0 && o.mask.Width > 0 {
		j = o.cell(y, at.at.Y, at.k, o.sure.NY, o.mask.Width)
	}
	for i := 1; i < len(row); i++ {
		l, p := row[i], pix[4*(i-1):4*i]
		x := clip.Min.X + i - 1
		switch {
		case l == beside || l == photo.Outside && o.shown <= 0:
			continue
		case l == photo.Outside && !edge(l, row[i-1]) && !edge(l, above[i]):
			veil(p, x-ox, y-oy, step, thick, o.shown)
			continue
		}
		if o.shown > 0 {
			u, v := x-ox, y-oy
			switch {
			case edge(l, row[i-1]) || edge(l, above[i]):
				blend(p, 255, o.shown)
			case hatched(l, u, v, step, thick):
				blend(p, 255, 0.8*o.shown)
			case hatched(l, u-thick, v, step, thick) || edgeNear(row, above, i):
				blend(p, 0, 0.6*o.shown)
			}
		}
		if j >= 0 && !o.small && l != photo.Outside {
			if c := o.cell(x, at.at.X, at.k, o.sure.NX, o.mask.Length); c >= 0 && o.sure.P[j*o.sure.NX+c] < unsure {
				dot(p, x-ox, y-oy, thick)
			}
		}
	}
}

// beside is what lies under a pixel that shows none of the face.
const beside photo.Label = 255

// edge reports whether an outline runs between two cells.
func edge(a, b photo.Label) bool { return a != b && a != beside && b != beside }

// edgeNear reports the dark side of an outline.
func edgeNear(row, above labelRow, i int) bool {
	return i+1 < len(row) && edge(row[i], row[i+1]) || i >= 2 && edge(row[i-1], row[i-2]) || i+1 < len(row) && edge(above[i], above[i+1])
}

// hatched is the pattern of a kind of wood: lines one way over sapwood, both
// ways over flaws, level ones over what is not sure, none over heartwood.
func hatched(l photo.Label, x, y, step, thick int) bool {
	up, down := mod(x+y, step) < thick, mod(x-y, step) < thick
	switch l {
	case photo.Sap:
		return up
	case photo.Flaw:
		return up || down
	case photo.Unseen:
		return mod(y, step) < thick
	}
	return false
}

// dot draws the pattern of what the program is not sure of: light dots with a
// dark side.
func dot(p []uint8, x, y, thick int) {
	step := 6 * thick
	switch u, v := mod(x+step/2*(y/step&1), step), mod(y, step); {
	case u < 2*thick && v < 2*thick:
		blend(p, 255, 1)
	case u < 3*thick && v < 3*thick:
		blend(p, 0, 0.8)
	}
}

func mod(a, n int) int { return ((a % n) + n) % n }

// blend brings a pixel to a grey by a share.
func blend(p []uint8, grey uint8, share float64) {
	for k := range 3 {
		p[k] = uint8(float64(p[k]) + share*(float64(grey)-float64(p[k])))
	}
}
