package intake

import (
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
)

// Reading is what a photograph of a face gave.
type Reading struct {
	Pixels     [2]int     // size of the picture, upright
	View       photo.View // corners and lens
	Confidence [4]float64 // of each corner, 0 to 1; 1 where the maker gave it
	Residual   float64    // rms distance of the edges from straight lines, mm; 0 not known
	Zones      []model.Zone
	Base       model.ZoneKind
	Outline    geom.Polygon // of a waney face, face mm; nil: the edges are sawn
	Width      float64      // of the board by a waney face, mm; 0 where its edges are sawn
	Split      model.Split
	Tones      []model.Tone
	Doubts     []string // what the maker should look at, in words
	SapShare   float64  // of the face
}

// Face returns the face with what the reading gave put in, under the
// picture's name in the project.
func (r *Reading) Face(f model.Face, name string) model.Face {
	corners := r.View.Corners
	f.Photo, f.Corners, f.Bow = name, &corners, r.View.Bow
	f.Base, f.Zones = r.Base, r.Zones
	if r.Outline != nil {
		f.Outline = r.Outline
	}
	split := r.Split
	f.Split, f.Tones, f.Known = &split, r.Tones, true
	return f
}
