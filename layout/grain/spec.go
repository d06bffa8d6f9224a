package grain

import (
	"image/color"

	"heartside/layout/geom"
)

// Labels of zones.
const (
	Heart = iota
	Sap
	Flaw
	Unseen
)

// Spec says what to draw.
type Spec struct {
	Seed                     uint64
	Length, Width, Thickness float64 // mm
	PxPerMM                  float64
	Face                     int          // 1 or 2; zones are in that face's own coordinates
	Base                     int          // label of what no zone covers
	Zones                    []geom.Layer // later ones on top
	Outline                  geom.Polygon // nil: the whole rectangle; outside it the picture is clear
	Heart, Sap               color.RGBA
	Wood                     Wood
	Pith                     Pith
}

// Pith is where the rings have their centre.
type Pith struct {
	Across float64 // from the marked edge, mm
	Depth  float64 // below face 1; negative beyond face 1
	Taper  float64 // how much rings draw in, mm a metre of length
}

// PithOf returns a likely pith for a board nobody described: chosen by the
// seed, on the heart side where the bark face is known (1 or 2).
func PithOf(seed uint64, width, thickness float64, barkFace int) Pith {
	n := noise{mixBits(seed + 77)}
	p := Pith{Across: width * (0.5 + 0.22*n.cell(1, 1)), Depth: -52 - 22*n.cell(2, 2), Taper: 11 + 4*n.cell(3, 3)}
	heartSide := barkFace == 2 // the pith lies beyond face 1
	if barkFace != 1 && barkFace != 2 {
		heartSide = n.cell(4, 4) > 0
	}
	if !heartSide {
		p.Depth = thickness - p.Depth
	}
	if n.cell(5, 5) > 0 {
		p.Taper = -p.Taper
	}
	return p
}

// mostLength is the longest board drawn, mm.
const mostLength = 1e5

// mostPixels bounds one picture.
const mostPixels = 64 << 20

// size returns the pixels of the picture, at least one each way; a picture
// beyond measure is made coarser.
func (s *Spec) size() (nx, ny int) {
	px := s.PxPerMM
	if !(s.Length > 0) || !(s.Width > 0) || !(px > 0) || s.Length > mostLength || s.Width > mostLength {
		return 1, 1
	}
	for s.Length*px*s.Width*px > mostPixels {
		px /= 2
	}
	return max(1, int(s.Length*px+0.5)), max(1, int(s.Width*px+0.5))
}
