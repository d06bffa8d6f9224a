package terms

import (
	"fmt"
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Piece is a board or a strip as terms see it.
type Piece struct {
	ID, Board     string
	Length, Width float64
	Face          [2]Wood // of face 1 and 2
}

// Wood is what a face holds, mm2.
type Wood struct{ Heart, Sap, Unseen float64 }

// share returns the share of a wood, at least and at most. On a face of which
// nothing is wood it is not known at all.
func (w Wood) share(k face.Kind) (lo, hi float64) {
	all, have := w.Heart+w.Sap+w.Unseen, w.Heart
	if k == face.Sap {
		have = w.Sap
	}
	if !(all > 0) {
		return 0, 1
	}
	return have / all, (have + w.Unseen) / all
}

// Whole returns a board as it is bought.
func Whole(b *face.Board) (Piece, error) {
	if b == nil || !(b.Length > 0) || !(b.Width > 0) || math.IsInf(b.Length, 0) || math.IsInf(b.Width, 0) {
		return Piece{}, fmt.Errorf("no board to hold against terms; give one with length and width over 0")
	}
	return Piece{ID: b.ID, Board: b.ID, Length: b.Length, Width: b.Width,
		Face: woodOf(b, geom.R(0, 0, b.Length, b.Width).Polygon())}, nil
}

// Ripped returns the strips that are cut from a board, each as glued. Strips of
// other boards are passed over.
func Ripped(b *face.Board, strips []face.Strip) ([]Piece, error) {
	if _, err := Whole(b); err != nil {
		return nil, err
	}
	var out []Piece
	for i := range strips {
		s := &strips[i]
		if s.Board == nil || s.Board != b && s.Board.ID != b.ID {
			continue
		}
		for _, v := range [...]float64{s.X, s.Y, s.L, s.W, s.Angle} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil, fmt.Errorf("strip %s of board %s: its place is none; lay it on the board again", s.ID, b.ID)
			}
		}
		if !(s.L > 0) || !(s.W > 0) {
			return nil, fmt.Errorf("strip %s of board %s: %g x %g mm is no size; give length and width over 0", s.ID, b.ID, s.L, s.W)
		}
		ring := s.ToBoard().ApplyTo(geom.R(0, 0, s.L, s.W).Polygon())
		out = append(out, Piece{ID: s.ID, Board: b.ID, Length: s.L, Width: s.W, Face: woodOf(b, ring)})
	}
	return out, nil
}

// woodOf returns what a ring in face-1 coordinates holds on both faces. A face
// that was guessed from the other was not seen.
func woodOf(b *face.Board, ring geom.Polygon) (out [2]Wood) {
	board := geom.R(0, 0, b.Length, b.Width)
	for f := range b.Faces {
		own := ring
		if f == 1 {
			own = b.Other().ApplyTo(ring)
		}
		g := &b.Faces[f]
		var layers []geom.Layer
		for _, z := range g.Zones {
			layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: z.Polygon})
		}
		if len(g.Outline) >= 3 { // all round it is no wood
			out := board.Union(g.Outline.Bounds()).Inset(-1).Polygon()
			out = append(append(append(out, out[0]), g.Outline...), g.Outline[0])
			layers = append(layers, geom.Layer{Label: int(face.Blank), Polygon: out})
		}
		for _, t := range geom.Decompose(nil, own.ClipRect(board), int(g.Base), layers) {
			switch k := face.Kind(t.Label); {
			case k == face.Flaw || k == face.Blank:
			case k == face.Unseen || g.Guessed:
				out[f].Unseen += t.Area()
			case k == face.Sap:
				out[f].Sap += t.Area()
			default:
				out[f].Heart += t.Area()
			}
		}
	}
	return out
}
