package light

import (
	"fmt"
	"image"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// Values of a pixel, 0 to 255, beyond which it is taken as burnt out or
// drowned in noise: cameras bend their curve near both ends (engineering
// choice).
const (
	burnt   = 252
	drowned = 3
)

// clipped reports whether a pixel's light is not known.
func clipped(px []uint8) bool {
	return px[3] == 0 || max(px[0], px[1], px[2]) >= burnt || max(px[0], px[1], px[2]) <= drowned
}

// luminance returns the CIE Y of light (IEC 61966-2-1).
func luminance(c colour.Linear) float64 { return c.XYZ().Y }

// check says what is wrong with a squared face, and with a mask of it where
// there is one.
func check(s *photo.Squared, m *photo.Mask) error {
	if s == nil || s.Pix == nil || s.Pix.Rect.Empty() {
		return fmt.Errorf("there is no squared picture: square the photograph first")
	}
	w, h := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	if s.Pix.Rect.Min != (image.Point{}) || s.Pix.Stride < 4*w || len(s.Pix.Pix) < (h-1)*s.Pix.Stride+4*w {
		return fmt.Errorf("the squared picture of %d x %d pixels does not begin at 0, 0 or is cut short", w, h)
	}
	if !(s.Length > 0 && s.Width > 0) || math.IsInf(s.Length+s.Width, 0) {
		return fmt.Errorf("the squared picture covers %g x %g mm: give the face's length and width", s.Length, s.Width)
	}
	if m == nil {
		return nil
	}
	if m.W < 1 || m.H < 1 || len(m.Pix) != m.W*m.H {
		return fmt.Errorf("the mask holds %d cells, want %d x %d", len(m.Pix), m.W, m.H)
	}
	if math.Abs(m.Length-s.Length) > 1 || math.Abs(m.Width-s.Width) > 1 {
		return fmt.Errorf("the mask covers %g x %g mm, the picture %g x %g: use the mask of this face", m.Length, m.Width, s.Length, s.Width)
	}
	return nil
}

// columns returns, for each of n pixels, the one of k cells over the same
// stretch that its middle lies in.
func columns(n, k int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = min(int((float64(i)+0.5)*float64(k)/float64(n)), k-1)
	}
	return out
}

// inner returns, for each cell of a mask, its label where it lies at least
// away mm from every other label and from the edge of the face, else Outside.
func inner(m *photo.Mask, away float64) []photo.Label {
	out := make([]photo.Label, len(m.Pix))
	rx, ry := away*float64(m.W)/m.Length, away*float64(m.H)/m.Width
	// Along rows, then along columns: a square about the cell.
	clear1 := func(get func(i int) photo.Label, n int, r float64, put func(i int, ok bool)) {
		for from := 0; from < n; {
			to := from
			for to < n && get(to) == get(from) {
				to++
			}
			for i := from; i < to; i++ {
				put(i, float64(i-from)+0.5 >= r && float64(to-i)-0.5 >= r)
			}
			from = to
		}
	}
	for j := range m.H {
		row, to := m.Pix[j*m.W:][:m.W], out[j*m.W:][:m.W]
		clear1(func(i int) photo.Label { return row[i] }, m.W, rx, func(i int, ok bool) {
			if ok {
				to[i] = row[i]
			}
		})
	}
	col := make([]photo.Label, m.H)
	for i := range m.W {
		for j := range col {
			col[j] = out[j*m.W+i]
		}
		clear1(func(j int) photo.Label { return col[j] }, m.H, ry, func(j int, ok bool) {
			if !ok {
				out[j*m.W+i] = photo.Outside
			}
		})
	}
	return out
}
