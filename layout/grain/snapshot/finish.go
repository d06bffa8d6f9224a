package snapshot

import (
	"context"
	"image"
	"math"
	"math/rand/v2"

	"heartside/layout/colour"
)

// Finish is what the camera does with the light. The zero Finish writes it
// down as it is.
type Finish struct {
	Gain     rgb     // exposure and white balance; zero is 1
	Vignette float64 // light lost in the corners, 0 to 1
	Blur     float64 // sigma, pixels
	Smear    float64 // of a moved camera, pixels across
	Noise    float64 // 0 to 1
	Sharpen  float64 // 0 to 1
	Contrast float64 // an S-shaped curve, 0 to 1
	Seed     uint64
}

func (s *Scene) finish(r dice, level int) {
	hard := float64(level-1) / 4
	e := math.Exp2(r.in(-0.45-0.3*hard, 0.3))
	k, m := r.in(-1, 1)*(0.06+0.14*hard), r.in(-1, 1)*(0.02+0.03*hard)
	s.Finish = Finish{
		Gain:     rgb{e * (1 + k), e * (1 + m), e * (1 - k)},
		Vignette: r.in(0, 0.15+0.3*hard), Blur: r.in(0.45, 0.7+0.7*hard), Noise: r.in(0.1, 0.3+0.7*hard),
		Sharpen: r.in(0, 0.9), Contrast: r.in(0, 0.5), Seed: r.Uint64(),
	}
	if level == 5 && r.yes(0.4) {
		s.Finish.Smear = r.in(2, 6)
	}
	s.Quality = 95 - int(r.in(0, 8+29*hard))
	s.Quality = max(min(s.Quality, 95), 58)
}

// codes is how finely light is turned into bytes.
const codes = 4096

// develop turns light into a picture.
func (f *Finish) develop(ctx context.Context, film [][3]float32, w, h int) (*image.RGBA, error) {
	gain := f.Gain
	if gain == (rgb{}) {
		gain = rgb{1, 1, 1}
	}
	var curve [codes + 1]float32
	for i := range curve {
		v := float64(i) / codes * 1.25
		if v > 0.75 { // highlights roll off
			v = 0.75 + 0.25*(1-math.Exp(-(v-0.75)/0.25))
		}
		e := colour.Encode(v)
		e += f.Contrast * 0.35 * (e*e*(3-2*e) - e)
		curve[i] = float32(255 * e)
	}
	if f.Noise == 0 && f.Contrast == 0 { // as it is
		for i := range curve {
			curve[i] = float32(255 * colour.Encode(math.Min(float64(i)/codes*1.25, 1)))
		}
	}
	r := rand.New(rand.NewPCG(f.Seed, 77))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	plane := make([]float32, w*h)
	for c := range 3 {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for j := range h {
			for i := range w {
				k := j*w + i
				v := float64(film[k][c]) * gain[c]
				if f.Vignette > 0 {
					x, y := float64(2*i-w)/float64(w), float64(2*j-h)/float64(w)
					q := (x*x + y*y) / 1.5
					v *= 1 - f.Vignette*q*q*0.9 - 0.1*f.Vignette*q
				}
				plane[k] = float32(v)
			}
		}
		plane = smear(plane, w, h, f.Smear)
		plane = blur(plane, w, h, f.Blur)
		for k := range plane {
			v := float64(plane[k])
			if f.Noise > 0 {
				u := r.Uint64()
				g := float64(u&0xffff+u>>16&0xffff+u>>32&0xffff+u>>48) / 65536 // about 2, sd 0.577
				v += f.Noise * 0.016 * math.Sqrt(math.Max(v, 0)+0.004) * (g - 2) / 0.577
			}
			plane[k] = curve[min(max(int(v*codes/1.25+0.5), 0), codes)]
		}
		if f.Noise > 0.3 { // cameras smooth noise away, and grain with it
			plane = blur(plane, w, h, 0.25+0.4*f.Noise)
		}
		if f.Sharpen > 0 {
			wide := blur(append([]float32(nil), plane...), w, h, 1.3)
			for k := range plane {
				plane[k] += float32(f.Sharpen) * (plane[k] - wide[k])
			}
		}
		for k, v := range plane {
			img.Pix[4*k+c] = uint8(min(max(v+0.5, 0), 255))
		}
	}
	for k := range w * h {
		img.Pix[4*k+3] = 255
	}
	return img, nil
}

// blur spreads a plane by a bell of a sigma, up to 2 pixels.
func blur(p []float32, w, h int, sigma float64) []float32 {
	if sigma < 0.2 {
		return p
	}
	var k [4]float32
	sum := float32(0)
	for i := range k {
		k[i] = float32(math.Exp(-float64(i*i) / (2 * sigma * sigma)))
		sum += k[i]
		if i > 0 {
			sum += k[i]
		}
	}
	for i := range k {
		k[i] /= sum
	}
	out := make([]float32, len(p))
	for j := range h {
		row := p[j*w : j*w+w]
		for i := range w {
			v := k[0] * row[i]
			for d := 1; d < 4; d++ {
				v += k[d] * (row[max(i-d, 0)] + row[min(i+d, w-1)])
			}
			out[j*w+i] = v
		}
	}
	for j := range h {
		for i := range w {
			v := k[0] * out[j*w+i]
			for d := 1; d < 4; d++ {
				v += k[d] * (out[max(j-d, 0)*w+i] + out[min(j+d, h-1)*w+i])
			}
			p[j*w+i] = v
		}
	}
	return p
}

// smear moves a plane sidelong over some pixels.
func smear(p []float32, w, h int, by float64) []float32 {
	n := int(by + 0.5)
	if n < 2 {
		return p
	}
	out := make([]float32, len(p))
	for j := range h {
		for i := range w {
			v := float32(0)
			for d := range n {
				v += p[min(max(j+d/2-n/4, 0), h-1)*w+min(max(i+d-n/2, 0), w-1)]
			}
			out[j*w+i] = v / float32(n)
		}
	}
	return out
}
