package wane

import (
	"context"
	"fmt"
	"image"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Engineering choices: how much of what lies about the rectangle is looked at,
// as shares of its width and its length, and at least, mm.
const (
	beyondSides, beyondEnds = 0.2, 0.02
	beyondLeast             = 30.0
)

// Surround squares a rectangle of a photograph, length x width mm at a view,
// with what lies about it, and returns where in that the rectangle is. What
// the photograph does not show is transparent.
func Surround(ctx context.Context, img image.Image, view photo.View, length, width, pxPerMM float64) (*photo.Squared, geom.Rect, error) {
	if img == nil || img.Bounds().Empty() || !(length > 0) || !(width > 0) || math.IsInf(length+width, 0) {
		return nil, geom.Rect{}, fmt.Errorf("squaring what lies about a board: a picture and a length and width over 0 are needed, not %g x %g mm", length, width)
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	m, lens, err := view.FromFace(w, h, length, width)
	if err != nil {
		return nil, geom.Rect{}, fmt.Errorf("squaring what lies about a board: %w", err)
	}
	side, end := math.Max(beyondSides*width, beyondLeast), math.Max(beyondEnds*length, beyondLeast)
	at := func(p geom.Point) (geom.Point, bool) {
		w := m[6]*p.X + m[7]*p.Y + m[8]
		return m.Apply(p), w*m[8] > 0.2*m[8]*m[8] // well on this side of the horizon
	}
	// Less is taken where the ground would run to the horizon.
	for range 8 {
		ok := true
		for _, c := range geom.R(-end, -side, length+end, width+side).Polygon() {
			if _, on := at(c); !on {
				ok = false
			}
		}
		if ok {
			break
		}
		side, end = side/2, end/2
	}
	about := photo.View{Bow: view.Bow}
	for i, c := range [...]geom.Point{{X: -end, Y: -side}, {X: length + end, Y: -side}, {X: length + end, Y: width + side}, {X: -end, Y: width + side}} {
		p, _ := at(c)
		about.Corners[i] = lens.Bowed(p)
	}
	s, err := photo.Square(ctx, img, about, length+2*end, width+2*side, pxPerMM)
	if err != nil {
		return nil, geom.Rect{}, err
	}
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	for j := range ny {
		row := s.Pix.Pix[j*s.Pix.Stride:]
		for i := range nx {
			p := m.Apply(geom.Pt((float64(i)+0.5)*s.Length/float64(nx)-end, s.Width-(float64(j)+0.5)*s.Width/float64(ny)-side))
			if p = lens.Bowed(p); p.X < 0 || p.Y < 0 || p.X > float64(w) || p.Y > float64(h) {
				row[4*i+3] = 0
			}
		}
	}
	return s, geom.R(end, side, end+length, side+width), nil
}
