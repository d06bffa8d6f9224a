package picture

import (
	"math"
	"strings"

	"heartside/layout/colour"
)

// conversion takes coded values to sRGB: each channel to light by a table, the
// lights together to those of sRGB, those to values.
type conversion struct {
	light [3][256]float32
	mix   [3][3]float32
	coded []uint8 // sRGB of light, by steps of 1/fineness
}

// fineness is into how many steps light is cut before it becomes a value. The
// darkest two sRGB values lie 1/(255*12.92) apart, 20 of these steps.
const fineness = 1 << 16

func encodings() []uint8 {
	t := make([]uint8, fineness+1)
	for i := range t {
		v, _, _ := colour.Linear{R: float64(i) / fineness}.SRGB()
		t[i] = v
	}
	return t
}

// plainSRGB returns the conversion that keeps colours as they are.
func plainSRGB() *conversion {
	c := &conversion{coded: encodings()}
	for v := range 256 {
		l := float32(colour.Light(uint8(v)))
		c.light[0][v], c.light[1][v], c.light[2][v] = l, l, l
	}
	c.mix = [3][3]float32{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	return c
}

// srgbD50 takes XYZ under D50 to the light of sRGB: the inverse of the
// colorants in the sRGB profile of the ICC (sRGB2014), which are those of IEC
// 61966-2-1 brought to D50: (0.43607 0.22249 0.01392), (0.38515 0.71687
// 0.09708), (0.14307 0.06061 0.71410).
var srgbD50 = [3][3]float64{
	{3.13409566, -1.61740041, -0.49063776},
	{-0.97879269, 1.91629490, 0.03345363},
	{0.07197113, -0.22898711, 1.40538020},
}

// displayP3 takes the light of Display P3 to XYZ under D50: the colorants that
// its published profile holds. Its curve is that of sRGB.
var displayP3 = [3][3]float64{
	{0.51512, 0.29198, 0.15710},
	{0.24120, 0.69225, 0.06657},
	{-0.00105, 0.04189, 0.78407},
}

// encode returns the sRGB value of a light of the picture's own space.
func (c *conversion) encode(r, g, b float32) (uint8, uint8, uint8) {
	m := &c.mix
	return c.code(m[0][0]*r + m[0][1]*g + m[0][2]*b), c.code(m[1][0]*r + m[1][1]*g + m[1][2]*b), c.code(m[2][0]*r + m[2][1]*g + m[2][2]*b)
}

func (c *conversion) code(light float32) uint8 {
	return c.coded[int(min(max(light, 0), 1)*fineness+0.5)]
}

// row converts pixels in place.
func (c *conversion) row(p []uint8) {
	for i := 0; i+2 < len(p); i += 3 {
		p[i], p[i+1], p[i+2] = c.encode(c.light[0][p[i]], c.light[1][p[i+1]], c.light[2][p[i+2]])
	}
}

// conversionOf returns how a picture with a profile, or in a named colour
// space, becomes sRGB: nil where nothing is to be done. approximate says that
// its colours stay as they are though they should not.
func conversionOf(icc []byte, space string) (c *conversion, name string, approximate bool) {
	if icc == nil {
		switch space {
		case "Display P3":
			var p profile
			p.toXYZ = displayP3
			for v := range 256 {
				l := colour.Light(uint8(v))
				p.light[0][v], p.light[1][v], p.light[2][v] = l, l, l
			}
			return conversionFrom(&p), space, false
		case "", "sRGB":
			return nil, space, false
		}
		return nil, space, true
	}
	p, err := parseProfile(icc)
	if err != nil {
		if p.name == "" {
			p.name = "unreadable"
		}
		return nil, p.name, !strings.HasPrefix(p.name, "sRGB")
	}
	c = conversionFrom(&p)
	if c.keeps() {
		return nil, p.name, false
	}
	return c, p.name, false
}

func conversionFrom(p *profile) *conversion {
	c := &conversion{coded: encodings()}
	for k := range 3 {
		for v, l := range p.light[k] {
			c.light[k][v] = float32(l)
		}
	}
	if p.space == "GRAY" {
		c.mix = [3][3]float32{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
		return c
	}
	for i := range 3 {
		for j := range 3 {
			var s float64
			for k := range 3 {
				s += srgbD50[i][k] * p.toXYZ[k][j]
			}
			c.mix[i][j] = float32(s)
		}
	}
	return c
}

// keeps reports whether a conversion changes no value by more than 1: that of
// an sRGB profile, whose numbers are rounded.
func (c *conversion) keeps() bool {
	for r := 0; r < 256; r += 51 {
		for g := 0; g < 256; g += 51 {
			for b := 0; b < 256; b += 51 {
				p := []uint8{uint8(r), uint8(g), uint8(b)}
				c.row(p)
				for k, v := range [3]int{r, g, b} {
					if math.Abs(float64(int(p[k])-v)) > 1 {
						return false
					}
				}
			}
		}
	}
	return true
}
