package arrange

import (
	"heartside/layout/colour"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

var (
	allowances = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	machines   = cutting.Machines{Flatten: 300, Thickness: 2000, Shortest: 300, Narrowest: 50}
)

// walnut is a board all of heartwood, coloured so that sap stands out: dark
// heart L 35, light sap L 70.
func walnut(id string, length, width float64) *face.Board {
	return &face.Board{
		ID: id, Length: length, Width: width, Thickness: 26,
		AssumedHeart: colour.Lab{L: 35, A: 8, B: 14}, AssumedSap: colour.Lab{L: 70, A: 4, B: 20},
	}
}

// sap lays a zone on face 1 or 2 of a board.
func sap(b *face.Board, f int, x0, y0, x1, y1 float64) {
	b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: face.Sap, Polygon: geom.R(x0, y0, x1, y1).Polygon()})
}
