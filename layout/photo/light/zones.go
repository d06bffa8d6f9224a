package light

import (
	"context"
	"fmt"
	"math"

	"heartside/layout/colour"
	"heartside/layout/photo"
)

// borderAway is how many mm about a border are of neither zone: the band in
// which sapwood turns to heartwood and the width of the squaring's own error
// (engineering choice).
const borderAway = 2

// ZoneColour is what the pixels of one kind of wood look like.
type ZoneColour struct {
	Known   bool       // there were pixels
	Mean    colour.Lab // of the pixels' CIELAB
	Spread  colour.Lab // standard deviation of L, a and b
	FromDE  float64    // mean CIEDE2000 of the pixels from Mean
	Area    float64    // mm2 of the whole zone, borders included
	Pixels  int        // that were read
	Clipped float64    // share of the zone's inner pixels left out as burnt or drowned
}

// mostPixels bounds how many pixels of a face are read: more tell no more.
const mostPixels = 400_000

// ZoneColours reads the colours of each kind of wood, by label. Pixels within
// 2 mm of a border, of the face's edge or of a flaw are left out, and burnt
// and drowned ones. Large pictures are read at every second, third and so on
// pixel.
func ZoneColours(ctx context.Context, s *photo.Squared, m *photo.Mask) (out [photo.Unseen + 1]ZoneColour, err error) {
	if m == nil {
		return out, fmt.Errorf("colours of zones: there is no mask: split the face first")
	}
	if err := check(s, m); err != nil {
		return out, fmt.Errorf("colours of zones: %w", err)
	}
	for i, share := range m.Shares() {
		on := 0.0
		for _, l := range m.Pix {
			if l != photo.Outside && l <= photo.Unseen {
				on++
			}
		}
		out[i].Area = share * on / float64(len(m.Pix)) * m.Length * m.Width
	}
	nx, ny := s.Pix.Rect.Dx(), s.Pix.Rect.Dy()
	every := int(math.Max(1, math.Ceil(math.Sqrt(float64(nx)*float64(ny)/mostPixels))))
	in := inner(m, borderAway)
	cols, rows := columns(nx, m.W), columns(ny, m.H)
	each := func(f func(l photo.Label, px []uint8)) error {
		for j := every / 2; j < ny; j += every {
			if err := ctx.Err(); err != nil {
				return err
			}
			row := in[rows[j]*m.W:][:m.W]
			pix := s.Pix.Pix[j*s.Pix.Stride:]
			for i := every / 2; i < nx; i += every {
				if l := row[cols[i]]; l != photo.Outside && l <= photo.Unseen {
					f(l, pix[4*i:4*i+4])
				}
			}
		}
		return nil
	}
	var sum, square [photo.Unseen + 1]colour.Lab
	var lost [photo.Unseen + 1]int
	lab := func(px []uint8) colour.Lab { return colour.FromSRGB(px[0], px[1], px[2]).Lab() }
	if err := each(func(l photo.Label, px []uint8) {
		if clipped(px) {
			lost[l]++
			return
		}
		c := lab(px)
		out[l].Pixels++
		sum[l] = colour.Lab{L: sum[l].L + c.L, A: sum[l].A + c.A, B: sum[l].B + c.B}
		square[l] = colour.Lab{L: square[l].L + c.L*c.L, A: square[l].A + c.A*c.A, B: square[l].B + c.B*c.B}
	}); err != nil {
		return out, err
	}
	for l := range out {
		z, n := &out[l], float64(out[l].Pixels)
		if lost[l] > 0 {
			z.Clipped = float64(lost[l]) / (float64(lost[l]) + n)
		}
		if n == 0 {
			continue
		}
		z.Known = true
		z.Mean = colour.Lab{L: sum[l].L / n, A: sum[l].A / n, B: sum[l].B / n}
		sd := func(square, mean float64) float64 { return math.Sqrt(math.Max(square/n-mean*mean, 0)) }
		z.Spread = colour.Lab{L: sd(square[l].L, z.Mean.L), A: sd(square[l].A, z.Mean.A), B: sd(square[l].B, z.Mean.B)}
	}
	err = each(func(l photo.Label, px []uint8) {
		if !clipped(px) {
			out[l].FromDE += colour.DeltaE(lab(px), out[l].Mean) / float64(out[l].Pixels)
		}
	})
	return out, err
}
