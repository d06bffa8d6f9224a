package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"math/rand/v2"

	"heartside/layout/geom"
	"heartside/layout/grain"
	"heartside/model"
)

// A photograph shows pixels a mm of the board and weighs at most mostBytes.
const (
	pixels    = 0.95
	mostBytes = 120 << 10
)

// shot is one photograph.
type shot struct {
	name    string // as the project names it
	jpeg    []byte
	corners [4]geom.Point
}

// take photographs every face that names a photograph.
func take(p *model.Project) ([]shot, error) {
	var out []shot
	for i, b := range p.Boards {
		for f := 1; f <= 2; f++ {
			name := b.Faces[f-1].Photo
			if name == "" {
				continue
			}
			ph := grain.Photo(specOf(b, f, i), cameraOf(b, f, i))
			data, err := compress(ph.Img)
			if err != nil {
				return nil, fmt.Errorf("board %s, face %d: %w", b.ID, f, err)
			}
			out = append(out, shot{name: name, jpeg: data, corners: ph.Corners})
		}
	}
	if len(out) == 0 {
		return nil, errors.New("no face of the project names a photograph")
	}
	return out, nil
}

// specOf says what face f of board number i looks like.
func specOf(b *model.Board, f, i int) grain.Spec {
	seed := uint64(1000 + 37*i)
	r := rand.New(rand.NewPCG(seed, 7))
	vary := func(v float64, by float64) uint8 { return uint8(v + by) }
	h, s := 5*(r.Float64()-0.5), 6*(r.Float64()-0.5)
	out := grain.Spec{
		Seed: seed, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Face: f,
		Heart: color.RGBA{R: vary(101, h), G: vary(70, h), B: vary(51, h), A: 255},
		Sap:   color.RGBA{R: vary(206, s), G: vary(181, s), B: vary(144, s), A: 255},
		Wood:  grain.WoodOf(b.Species),
		Base:  labelOf(b.Faces[f-1].Base),
	}
	bark := 0
	switch b.Bark {
	case model.BarkFace1:
		bark = 1
	case model.BarkFace2:
		bark = 2
	}
	out.Pith = grain.PithOf(seed, b.Width, b.Thickness, bark)
	if len(b.Pith) > 0 {
		out.Pith.Across, out.Pith.Depth = b.Pith[0].Across, b.Pith[0].Depth
	}
	if o := b.Faces[f-1].Outline; len(o) > 0 {
		out.Outline = o
	}
	for _, z := range b.Faces[f-1].Zones {
		out.Zones = append(out.Zones, geom.Layer{Label: labelOf(z.Kind), Polygon: z.Polygon})
	}
	return out
}

func labelOf(k model.ZoneKind) int {
	switch k {
	case model.Sap:
		return grain.Sap
	case model.Flaw:
		return grain.Flaw
	case model.Unseen:
		return grain.Unseen
	}
	return grain.Heart
}

// cameraOf holds the camera a little differently for every face. The picture
// is just high enough for the board and the grey card in front of it.
func cameraOf(b *model.Board, f, i int) grain.Camera {
	r := rand.New(rand.NewPCG(uint64(2000+10*i+f), 11))
	const fills = 0.88 // of the picture's width, by the board
	return grain.Camera{
		Width:  int(math.Round(b.Length * pixels / fills)),
		Height: int(math.Round((b.Width + 2*112) * pixels)),
		Tilt:   4 + 4*r.Float64(),
		Turn:   0.8 * (r.Float64() - 0.5),
		Light:  0.06 + 0.06*r.Float64(),
		Warmth: 0.02 * (r.Float64() - 0.3),
	}
}

// compress writes a picture as finely as its most bytes allow.
func compress(img image.Image) ([]byte, error) {
	for q := 90; q >= 40; q -= 5 {
		var b bytes.Buffer
		if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: q}); err != nil {
			return nil, err
		}
		if b.Len() <= mostBytes {
			return b.Bytes(), nil
		}
	}
	return nil, fmt.Errorf("the photograph does not go into %d kB", mostBytes>>10)
}
