package light

import (
	"fmt"
	"image"
	"math"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// BackgroundSample is what lies about a board in one photograph.
type BackgroundSample struct {
	RG, BG float64 // medians of the logarithms of red over green and blue over green light
	Rough  float64 // median deviation of the logarithm of luminance: how patterned it is
	Pixels int
}

// Background samples the ground about a board: what lies within a fifth of its
// width beyond its corners (pixels, see package photo). It fails where the
// picture shows too little of it.
func Background(img image.Image, corners [4]geom.Point) (BackgroundSample, error) {
	if img == nil || img.Bounds().Empty() {
		return BackgroundSample{}, fmt.Errorf("background: there is no picture")
	}
	var middle geom.Point
	for i, c := range corners {
		if !(math.Abs(c.X) < 1e6 && math.Abs(c.Y) < 1e6) {
			return BackgroundSample{}, fmt.Errorf("background: corner %d (%g, %g) is no place of a picture", i+1, c.X, c.Y)
		}
		middle = middle.Add(c.Mul(0.25))
	}
	board := geom.Polygon(corners[:])
	across := math.Min(corners[0].Dist(corners[3]), corners[1].Dist(corners[2]))
	out := make(geom.Polygon, 4)
	for i, c := range corners {
		a, b := corners[(i+3)%4], corners[(i+1)%4]
		u, v := c.Sub(a), c.Sub(b)
		if u.Len() == 0 || v.Len() == 0 {
			return BackgroundSample{}, fmt.Errorf("background: two corners lie at %g, %g", c.X, c.Y)
		}
		out[i] = c.Add(u.Mul(0.2 * across / u.Len())).Add(v.Mul(0.2 * across / v.Len()))
	}
	// A thin rim about the board is shadow and blur.
	near := make(geom.Polygon, 4)
	for i := range near {
		near[i] = board[i].Lerp(out[i], 0.15)
	}
	var rg, bg, y []float64
	ring := append(append(geom.Polygon{}, out...), out[0], near[0], near[3], near[2], near[1], near[0])
	pixelsIn(img, ring, 60_000, func(r, g, b uint8) {
		if clipped([]uint8{r, g, b, 255}) || min(r, g, b) <= drowned {
			return
		}
		c := colour.FromSRGB(r, g, b)
		rg, bg, y = append(rg, math.Log(c.R/c.G)), append(bg, math.Log(c.B/c.G)), append(y, math.Log(luminance(c)))
	})
	if len(y) < 20*fewest {
		return BackgroundSample{}, fmt.Errorf("background: the picture shows %d pixels of it beside the board: leave a hand's breadth free", len(y))
	}
	s := BackgroundSample{RG: median(rg), BG: median(bg), Pixels: len(y)}
	m := median(y)
	for i, v := range y {
		y[i] = math.Abs(v - m)
	}
	s.Rough = median(y)
	return s, nil
}

// Lamps differ along one line: from CIE illuminant A over D50 to D65 the
// logarithms of red and blue over green go by 0.80 and -1.26, of which D50 has
// 0.19 and -0.30 (computed from their white points, CIE 15, in the primaries
// of sRGB). alongRG and alongBG are its direction.
const (
	alongRG = 0.54
	alongBG = -0.84
)

// Limits of what one ground can look like under different lamps (engineering
// choices).
const (
	mostAlong  = 1.6  // of the logarithm: illuminant A is 1.5 off D65
	mostAcross = 0.2  // off that line: no lamp for photographs is that green
	mostRough  = 0.25 // by which the patterning may differ
)

// Shared returns, for each photograph of a set taken on one ground, the
// balance that makes its ground the same colour as the set's, that of the
// photograph most like all others, at the luminance it has. It fails where the grounds are clearly not
// one: too far off in colour for a change of lamp, or patterned otherwise.
func Shared(refs []BackgroundSample) ([]Balance, error) {
	if len(refs) == 0 {
		return nil, nil
	}
	var rough []float64
	for i, r := range refs {
		if !(math.Abs(r.RG) < 10 && math.Abs(r.BG) < 10 && r.Rough >= 0 && r.Pixels > 0) {
			return nil, fmt.Errorf("shared background: photograph %d has none: sample it first", i+1)
		}
		rough = append(rough, r.Rough)
	}
	// The ground that is least far from all others, together.
	var u, v float64
	least := math.Inf(1)
	for _, r := range refs {
		sum := 0.0
		for _, o := range refs {
			sum += math.Hypot(r.RG-o.RG, r.BG-o.BG)
		}
		if sum < least {
			least, u, v = sum, r.RG, r.BG
		}
	}
	w := median(rough)
	out := make([]Balance, len(refs))
	for i, r := range refs {
		du, dv := r.RG-u, r.BG-v
		if math.Abs(alongRG*du+alongBG*dv) > mostAlong || math.Abs(alongRG*dv-alongBG*du) > mostAcross || math.Abs(r.Rough-w) > mostRough {
			return nil, fmt.Errorf("shared background: that of photograph %d is another than the others': photograph all boards on one ground, or use a grey card", i+1)
		}
		// The ground's own light before, made of the set's colour, keeps its
		// luminance.
		is := colour.Linear{R: math.Exp(r.RG), G: 1, B: math.Exp(r.BG)}
		want := colour.Linear{R: math.Exp(u), G: 1, B: math.Exp(v)}
		k := luminance(is) / luminance(want)
		out[i] = Balance{k * want.R / is.R, k, k * want.B / is.B}
	}
	return out, nil
}
