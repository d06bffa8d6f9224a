package scene

import (
	"hash/fnv"
	"image"
	"image/color"

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
		return color.RGBA(measured.ToNRGBA())
	case assumed.L > 0:
		return color.RGBA(assumed.ToNRGBA())
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
