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

// View is where a face lies in a photograph.
type View struct {
	Corners [4]geom.Point // of the package comment, pixels, as the picture shows them
	Bow     float64       // of the lens, see Lens
}

// Square takes the face of a board out of a photograph: length and width in
// mm, and pxPerMM the scale wanted. Where that shrinks the photograph,
// everything under a pixel is averaged. It stops early when ctx ends.
func Square(ctx context.Context, src image.Image, view View, length, width, pxPerMM float64) (*Squared, error) {
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
	m, lens, err := view.FromFace(src.Bounds().Dx(), src.Bounds().Dy(), length, width)
	if err != nil {
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
	// View counts from the picture's own top left.
	o := geom.Pt(float64(src.Bounds().Min.X), float64(src.Bounds().Min.Y))
	corners := view.Corners
	for i := range corners {
		corners[i] = corners[i].Add(o)
	}
	if err := s.warp(ctx, sourceOf(src, corners), warp{m, lens, o}); err != nil {
		return nil, err
	}
	return s, nil
}

// warp takes a point of a face to a place of a photograph.
type warp struct {
	straight geom.Homography
	lens     Lens
	origin   geom.Point // of the picture's pixels
}

func (w *warp) at(p geom.Point) geom.Point {
	return w.lens.Bowed(w.straight.Apply(p)).Add(w.origin)
}

// FromFace returns the perspective that takes a point of the face, mm, to a
// picture of wide x high pixels taken without the lens's bow, and the lens
// that bows it.
func (v View) FromFace(wide, high int, length, width float64) (geom.Homography, Lens, error) {
	lens := LensOf(wide, high, v.Bow)
	if err := checkCorners(v.Corners); err != nil {
		return geom.Homography{}, lens, err
	}
	straight := v.Corners
	for i := range straight {
		straight[i] = lens.Straight(straight[i])
	}
	m, err := boardToPicture(straight, length, width)
	return m, lens, err
}

// warp fills the pixels, some rows at a time; no row rests on another.
func (s *Squared) warp(ctx context.Context, from source, m warp) error {
	return Each(ctx, s.Pix.Rect.Dy(), func(j int) { s.warpRow(from, &m, j) })
}

// warpRow fills the pixels of a row.
func (s *Squared) warpRow(from source, m *warp, j int) {
	nx := s.Pix.Rect.Dx()
	dx, dy := s.Length/float64(nx), s.Width/float64(s.Pix.Rect.Dy())
	row := s.Pix.Pix[j*s.Pix.Stride : j*s.Pix.Stride+4*nx]
	y1 := s.Width - float64(j)*dy
	kx, ky := 1, 1
	for i := 0; i < nx; i++ {
		x0 := float64(i) * dx
		if i%stretchEvery == 0 {
			ax, ay := stretch(&m.straight, geom.Pt(x0+dx/2, y1-dy/2))
			kx, ky = samples(ax*dx), samples(ay*dy)
		}
		var sa, sb, sc float64
		for b := 0; b < ky; b++ {
			y := y1 - dy*(float64(b)+0.5)/float64(ky)
			for a := 0; a < kx; a++ {
				p := m.at(geom.Pt(x0+dx*(float64(a)+0.5)/float64(kx), y))
				u, v, w := from.at(p.X-0.5, p.Y-0.5)
				sa, sb, sc = sa+u, sb+v, sc+w
			}
		}
		n := float64(kx * ky)
		from.colour(row[4*i:4*i+4], sa/n, sb/n, sc/n)
	}
}

// samples returns how many samples cover a stretch of pixels.
func samples(px float64) int {
	return int(math.Min(math.Max(math.Ceil(px-0.05), 1), mostSamples))
}
