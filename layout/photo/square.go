package photo

import (
	"context"
	"fmt"
	"image"
	"math"
	"sync"

	"heartside/layout/geom"
)

// Squared is the picture of a board's face, true to scale. It is not changed
// once made.
type Squared struct {
	// Pix holds the pixels, rows tight from the origin: pixel (i, j) of a
	// picture of nx x ny covers x from i*Length/nx and, downwards, y from
	// Width - j*Width/ny.
	Pix           *image.RGBA
	PxPerMM       float64 // as asked; whole pixels may make it slightly other along x and y
	Length, Width float64 // mm

	mu     sync.Mutex
	levels []*image.RGBA // halved once, twice and so on, made when asked for
}

// mostPixels bounds a squared picture.
const mostPixels = 64 << 20

// mostSamples bounds the samples averaged along one direction of a pixel.
const mostSamples = 64

// stretchEvery is how many pixels share one look at how far the photograph is
// shrunk; that changes slowly.
const stretchEvery = 8

// Square takes the face of a board out of a photograph: corners are those of
// the package comment, length and width in mm, and pxPerMM the scale wanted.
// Where that shrinks the photograph, everything under a pixel is averaged. It
// stops early when ctx ends.
func Square(ctx context.Context, src image.Image, corners [4]geom.Point, length, width, pxPerMM float64) (*Squared, error) {
	for _, v := range []struct {
		name string
		v    float64
	}{{"length", length}, {"width", width}, {"scale", pxPerMM}} {
		if !(v.v > 0) || math.IsInf(v.v, 0) {
			return nil, fmt.Errorf("squaring a photograph: %s is %g, want more than 0", v.name, v.v)
		}
	}
	if src == nil || src.Bounds().Empty() {
		return nil, fmt.Errorf("squaring a photograph: the picture is empty")
	}
	if err := checkCorners(corners); err != nil {
		return nil, fmt.Errorf("squaring a photograph: %w", err)
	}
	nx, ny := math.Max(1, math.Round(length*pxPerMM)), math.Max(1, math.Round(width*pxPerMM))
	if nx*ny > mostPixels {
		return nil, fmt.Errorf("squaring a photograph: %.0f x %.0f pixels are too many; ask for fewer than %g a mm", nx, ny, pxPerMM)
	}
	s := &Squared{
		Pix:     image.NewRGBA(image.Rect(0, 0, int(nx), int(ny))),
		PxPerMM: pxPerMM, Length: length, Width: width,
	}
	// Corners count from the picture's own top left.
	o := src.Bounds().Min
	for i := range corners {
		corners[i] = corners[i].Add(geom.Pt(float64(o.X), float64(o.Y)))
	}
	m, err := boardToPicture(corners, length, width)
	if err != nil {
		return nil, fmt.Errorf("squaring a photograph: %w", err)
	}
	if err := s.warp(ctx, sourceOf(src, corners), m); err != nil {
		return nil, err
	}
	return s, nil
}

// warp fills the pixels row by row.
func (s *Squared) warp(ctx context.Context, from source, m geom.Homography) error {
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	dx, dy := s.Length/float64(nx), s.Width/float64(ny)
	for j := 0; j < ny; j++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		row := s.Pix.Pix[j*s.Pix.Stride : j*s.Pix.Stride+4*nx]
		y1 := s.Width - float64(j)*dy
		kx, ky := 1, 1
		for i := 0; i < nx; i++ {
			x0 := float64(i) * dx
			if i%stretchEvery == 0 {
				ax, ay := stretch(&m, geom.Pt(x0+dx/2, y1-dy/2))
				kx, ky = samples(ax*dx), samples(ay*dy)
			}
			var sum [3]float64
			for b := 0; b < ky; b++ {
				y := y1 - dy*(float64(b)+0.5)/float64(ky)
				for a := 0; a < kx; a++ {
					p := m.Apply(geom.Pt(x0+dx*(float64(a)+0.5)/float64(kx), y))
					v := from.at(p.X-0.5, p.Y-0.5)
					sum[0] += v[0]
					sum[1] += v[1]
					sum[2] += v[2]
				}
			}
			n := float64(kx * ky)
			from.colour(row[4*i:4*i+4], sum[0]/n, sum[1]/n, sum[2]/n)
		}
	}
	return nil
}

// samples returns how many samples cover a stretch of pixels.
func samples(px float64) int {
	return int(math.Min(math.Max(math.Ceil(px-0.05), 1), mostSamples))
}
