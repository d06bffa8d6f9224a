package seen

import (
	"image"
	"image/color"
	"math"

	"heartside/layout/colour"
)

// Grey returns the picture in greys of the same luminance, and so of the same
// CIELAB lightness.
func Grey(src *image.RGBA) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, src.Rect.Dx(), src.Rect.Dy()))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			c := src.RGBAAt(src.Rect.Min.X+x, src.Rect.Min.Y+y)
			n := colour.Grey(toNRGBA(c))
			o := out.PixOffset(x, y)
			a := uint32(c.A)
			for k, v := range [3]uint8{n.R, n.G, n.B} {
				out.Pix[o+k] = uint8((uint32(v)*a + 127) / 255)
			}
			out.Pix[o+3] = c.A
		}
	}
	return out
}

// Mirrored returns the picture with left and right exchanged.
func Mirrored(src *image.RGBA) *image.RGBA {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			i := src.PixOffset(src.Rect.Min.X+w-1-x, src.Rect.Min.Y+y)
			copy(out.Pix[out.PixOffset(x, y):][:4], src.Pix[i:i+4])
		}
	}
	return out
}

// Blurred returns the picture out of focus: a Gaussian of standard deviation
// sigma pixels over the light, not over the sRGB numbers. What is beyond the
// edge counts as nothing.
func Blurred(src *image.RGBA, sigma float64) *image.RGBA {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if w == 0 || h == 0 {
		return out
	}
	light := make([][4]float32, w*h)
	for y := range h {
		for x := range w {
			c := toNRGBA(src.RGBAAt(src.Rect.Min.X+x, src.Rect.Min.Y+y))
			a := float32(c.A) / 255
			light[y*w+x] = [4]float32{a * float32(colour.Light(c.R)), a * float32(colour.Light(c.G)), a * float32(colour.Light(c.B)), a}
		}
	}
	if sigma > 0 {
		k := bell(sigma)
		light = across(across(light, w, h, k), h, w, k) // each pass turns rows to columns
	}
	for i, v := range light {
		o := 4 * i
		if v[3] <= 0 {
			continue
		}
		for c := range 3 {
			out.Pix[o+c] = uint8(math.Round(math.Min(colour.Encode(float64(v[c]/v[3])), 1) * 255 * float64(v[3])))
		}
		out.Pix[o+3] = uint8(math.Round(float64(v[3]) * 255))
	}
	return out
}

// bell is half a Gaussian kernel from its middle out, summing to 1 when
// mirrored.
func bell(sigma float64) []float32 {
	n := int(math.Ceil(3 * sigma))
	k := make([]float64, n+1)
	sum := 0.0
	for i := range k {
		k[i] = math.Exp(-float64(i*i) / (2 * sigma * sigma))
		sum += k[i]
		if i > 0 {
			sum += k[i]
		}
	}
	out := make([]float32, n+1)
	for i := range k {
		out[i] = float32(k[i] / sum)
	}
	return out
}

// across blurs along the rows of a w by h picture, and returns it with rows
// and columns exchanged. Past the edge the kernel is cut and the rest of it
// counts for all, so that edges do not darken.
func across(src [][4]float32, w, h int, k []float32) [][4]float32 {
	out := make([][4]float32, len(src))
	for y := range h {
		row := src[y*w : (y+1)*w]
		for x := range row {
			var sum [4]float32
			weight := float32(0)
			for i := max(0, x-len(k)+1); i < min(w, x+len(k)); i++ {
				d := i - x
				if d < 0 {
					d = -d
				}
				g := k[d]
				weight += g
				for c := range sum {
					sum[c] += g * row[i][c]
				}
			}
			for c := range sum {
				sum[c] /= weight
			}
			out[x*h+y] = sum
		}
	}
	return out
}

// toNRGBA undoes the weighing by opacity.
func toNRGBA(c color.RGBA) color.NRGBA {
	if c.A == 255 || c.A == 0 {
		return color.NRGBA(c)
	}
	a := uint32(c.A)
	un := func(v uint8) uint8 { return uint8(min((uint32(v)*255+a/2)/a, 255)) }
	return color.NRGBA{un(c.R), un(c.G), un(c.B), c.A}
}
