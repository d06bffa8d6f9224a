package scene

import (
	"hash/fnv"
	"image"
	"image/color"
	"math"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/grain"
)

// Wood makes the picture of a face, its row 0 at y = width: the photograph at
// the scale asked, or else the wood drawn from its zones.
func Wood(t Texture) *image.RGBA {
	if t.Face < 1 || t.Face > 2 || t.Board == nil {
		return nil
	}
	if t.Picture != nil {
		return t.Picture.Level(t.PxPerMM)
	}
	b := t.Board
	f := &b.Faces[t.Face-1]
	seed := seedOf(b.ID)
	s := grain.Spec{
		Seed: seed, Length: b.Length, Width: b.Width, Thickness: b.Thickness,
		PxPerMM: t.PxPerMM, Face: t.Face, Base: label(f.Base), Outline: f.Outline,
		Heart: woodColour(b, f, face.Heart), Sap: woodColour(b, f, face.Sap),
		Wood: grain.WoodOf(b.Species), Pith: grain.PithOf(seed, b.Width, b.Thickness, b.BarkFace),
	}
	for _, z := range f.Zones {
		s.Zones = append(s.Zones, geom.Layer{Label: label(z.Kind), Polygon: z.Polygon})
	}
	return grain.Draw(s)
}

// seedOf gives each board letter its own figure, the same every time.
func seedOf(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id))
	return h.Sum64()
}

func label(k face.Kind) int {
	switch k {
	case face.Sap:
		return grain.Sap
	case face.Flaw:
		return grain.Flaw
	case face.Unseen:
		return grain.Unseen
	}
	return grain.Heart
}

// woodColour returns the colour of heartwood or sapwood on a face: measured,
// else assumed of the species, else a plain brown.
func woodColour(b *face.Board, f *face.BoardFace, k face.Kind) color.RGBA {
	measured, assumed := f.Heart, b.AssumedHeart
	plain := color.RGBA{126, 92, 66, 255}
	if k == face.Sap {
		measured, assumed = f.Sap, b.AssumedSap
		plain = color.RGBA{214, 192, 158, 255}
	}
	switch {
	case measured != nil && measured.L > 0:
		return onScreen(*measured)
	case assumed.L > 0:
		return onScreen(assumed)
	}
	return plain
}

// flatColour is that of a kind where no texture is at hand.
func flatColour(b *face.Board, f *face.BoardFace, k face.Kind) color.NRGBA {
	switch k {
	case face.Flaw:
		return rgb(0x4A3828)
	case face.Unseen:
		return rgb(0x968B7C)
	}
	c := woodColour(b, f, k)
	return color.NRGBA(c)
}

// onScreen returns the sRGB colour nearest to a CIELAB one (D65; IEC
// 61966-2-1, CIE 15).
func onScreen(l colour.Lab) color.RGBA {
	fy := (l.L + 16) / 116
	inv := func(f float64) float64 {
		if f > 6.0/29 {
			return f * f * f
		}
		return (116*f - 16) * 27 / 24389
	}
	x, y, z := 0.9505*inv(fy+l.A/500), inv(fy), 1.0890*inv(fy-l.B/200)
	out := func(v float64) uint8 {
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		return uint8(math.Min(math.Max(255*v+0.5, 0), 255))
	}
	return color.RGBA{
		R: out(3.2406*x - 1.5372*y - 0.4986*z),
		G: out(-0.9689*x + 1.8758*y + 0.0415*z),
		B: out(0.0557*x - 0.2040*y + 1.0570*z),
		A: 255,
	}
}
