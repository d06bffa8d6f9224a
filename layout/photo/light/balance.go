package light

import (
	"context"
	"fmt"
	"image"
	"math"
	"slices"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Balance is one factor for the light of each channel. The zero value is no
// balance; One changes nothing.
type Balance struct{ R, G, B float64 }

// One returns the balance that changes nothing.
func One() Balance { return Balance{1, 1, 1} }

// Lightnesses of things to balance by.
const (
	// GreyCard is CIELAB L of a grey card that reflects 18 %: 116 cbrt(0.18) - 16
	// (CIE 15) is 49.5.
	GreyCard = 49.5
	// WhitePaper is that of office paper: common practice, no source.
	WhitePaper = 95
)

// Tint returns b with its factors scaled so that grey keeps its luminance: the
// colour of the light is mended, not how bright the picture is.
func (b Balance) Tint() Balance {
	// The light the factors make grey keeps its luminance.
	y := luminance(colour.Linear{R: 1 / b.R, G: 1 / b.G, B: 1 / b.B})
	return Balance{b.R * y, b.G * y, b.B * y}
}

// Light returns balanced light.
func (b Balance) Light(c colour.Linear) colour.Linear {
	return colour.Linear{R: b.R * c.R, G: b.G * c.G, B: b.B * c.B}
}

// Lab returns a balanced colour.
func (b Balance) Lab(c colour.Lab) colour.Lab { return b.Light(c.Linear()).Lab() }

// sound reports whether all factors are over 0 and finite.
func (b Balance) sound() bool {
	return b.R > 0 && b.G > 0 && b.B > 0 && !math.IsInf(b.R+b.G+b.B, 0)
}

// Apply returns a balanced copy of a squared face. Light that would burn out
// is held just under white with its hue.
func (b Balance) Apply(ctx context.Context, s *photo.Squared) (*photo.Squared, error) {
	if err := check(s, nil); err != nil {
		return nil, fmt.Errorf("white balance: %w", err)
	}
	if !b.sound() {
		return nil, fmt.Errorf("white balance: factors %g, %g, %g cannot be: measure a grey card or a white sheet", b.R, b.G, b.B)
	}
	out, _, err := relight(ctx, s, func(_ int, row []colour.Linear) {
		for i := range row {
			row[i] = colour.Linear(b)
		}
	})
	return out, err
}

const (
	mostBurnt  = 0.2  // share of a card's pixels that may be burnt; more and the rest cannot be trusted
	leastLight = 0.01 // of white: less is noise, as large as the tint (both engineering choices)
	fewest     = 25   // pixels of a card
)

// Card returns the balance that makes a patch of a photograph, the ring in its
// pixels (see package photo), grey of a CIELAB lightness: GreyCard, WhitePaper.
// It takes the median of each channel's light. It fails where the patch lies
// off the picture, is burnt out, or too dark to tell.
func Card(img image.Image, ring geom.Polygon, lightness float64) (Balance, error) {
	if img == nil || img.Bounds().Empty() {
		return Balance{}, fmt.Errorf("white balance: there is no picture")
	}
	if !(lightness > 0 && lightness <= 100) {
		return Balance{}, fmt.Errorf("white balance: a lightness of %g cannot be: give 50 for a grey card, 95 for white paper", lightness)
	}
	var v [3][]float64
	burntOut, all := 0, 0
	pixelsIn(img, ring, 20_000, func(r, g, b uint8) {
		all++
		if max(r, g, b) >= burnt {
			burntOut++
			return
		}
		c := colour.FromSRGB(r, g, b)
		v[0], v[1], v[2] = append(v[0], c.R), append(v[1], c.G), append(v[2], c.B)
	})
	switch {
	case all < fewest:
		return Balance{}, fmt.Errorf("white balance: the card covers %d pixels of the picture: mark at least %d", all, fewest)
	case float64(burntOut) > mostBurnt*float64(all):
		return Balance{}, fmt.Errorf("white balance: %.0f %% of the card is burnt out: expose less, or use a grey card", 100*float64(burntOut)/float64(all))
	}
	m := colour.Linear{R: median(v[0]), G: median(v[1]), B: median(v[2])}
	if !(min(m.R, m.G, m.B) >= leastLight) {
		return Balance{}, fmt.Errorf("white balance: the card is too dark (%.1f %% of white): give it more light", 100*luminance(m))
	}
	y := colour.Lab{L: lightness}.XYZ().Y
	return Balance{y / m.R, y / m.G, y / m.B}, nil
}

// median returns the middle value, 0 of none.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Clone(v)
	k := (len(v) - 1) / 2
	low := photo.Nth(v, k)
	if len(v)%2 == 1 {
		return low
	}
	return (low + slices.Min(v[k+1:])) / 2 // Nth leaves what is greater behind k
}

// pixelsIn calls f for up to about most pixels whose middles lie inside a
// ring, evenly spread.
func pixelsIn(img image.Image, ring geom.Polygon, most int, f func(r, g, b uint8)) {
	b := img.Bounds()
	box := ring.Bounds().Intersect(geom.R(0, 0, float64(b.Dx()), float64(b.Dy())))
	if len(ring) < 3 || !(box.W() > 0 && box.H() > 0) {
		return
	}
	every := int(math.Max(1, math.Sqrt(box.W()*box.H()/float64(most))))
	for y := int(box.Min.Y); y < min(int(math.Ceil(box.Max.Y)), b.Dy()); y += every {
		for x := int(box.Min.X); x < min(int(math.Ceil(box.Max.X)), b.Dx()); x += every {
			if ring.Contains(geom.Pt(float64(x)+0.5, float64(y)+0.5)) {
				r, g, bl, _ := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
				f(uint8(r>>8), uint8(g>>8), uint8(bl>>8))
			}
		}
	}
}
