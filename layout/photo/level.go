package photo

import (
	"image"
	"math"
)

// Level returns the picture at the least scale that is still as fine as asked
// (pixels a mm): the picture itself, or it halved once or more. The levels are
// made when first asked for and kept; they may be asked for by several
// goroutines. They are not to be changed.
func (s *Squared) Level(pxPerMM float64) *image.RGBA {
	img := s.Pix
	s.mu.Lock()
	defer s.mu.Unlock()
	for k := 0; ; k++ {
		half := s.PxPerMM / math.Exp2(float64(k+1))
		if !(half >= pxPerMM) || img.Rect.Dx() < 8 || img.Rect.Dy() < 4 {
			return img
		}
		if k == len(s.levels) {
			s.levels = append(s.levels, shrink(img, (img.Rect.Dx()+1)/2, (img.Rect.Dy()+1)/2))
		}
		img = s.levels[k]
	}
}

// share is one pixel's part in the mean of a longer one.
type share struct {
	i int
	w float64
}

// shares returns, for each of n pixels over the same stretch as from pixels,
// which of those lie under it and how far.
func shares(from, n int) [][]share {
	out := make([][]share, n)
	k := float64(from) / float64(n)
	for i := range out {
		a, b := float64(i)*k, float64(i+1)*k
		for p := int(a); p < from && float64(p) < b-1e-9; p++ {
			w := math.Min(b, float64(p+1)) - math.Max(a, float64(p))
			out[i] = append(out[i], share{p, w / k})
		}
	}
	return out
}

// shrink averages img down to nx x ny pixels over the same ground.
func shrink(img *image.RGBA, nx, ny int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	across, down := shares(w, nx), shares(h, ny)
	out := image.NewRGBA(image.Rect(0, 0, nx, ny))
	line := make([]float64, 4*w)
	for j, rows := range down {
		clear(line)
		for _, r := range rows {
			for i, v := range img.Pix[r.i*img.Stride : r.i*img.Stride+4*w] {
				line[i] += r.w * float64(v)
			}
		}
		for i, cols := range across {
			var sum [4]float64
			for _, c := range cols {
				for k := range sum {
					sum[k] += c.w * line[4*c.i+k]
				}
			}
			o := j*out.Stride + 4*i
			for k, v := range sum {
				out.Pix[o+k] = uint8(v + 0.5)
			}
		}
	}
	return out
}
