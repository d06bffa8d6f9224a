package model

import (
	"slices"

	"heartside/layout/geom"
)

// Crop returns the piece of a board in a rectangle of face-1 coordinates, as a
// board of its own that lies the same way round: its marked end and marked edge
// are those nearer the board's. What holds of all of the board goes with it;
// photographs and ends do not, nor how far the board is from flat. A price for the
// whole board is shared out by area. Zones that reach beyond the piece stay as
// they are drawn.
func (b *Board) Crop(id string, r geom.Rect) *Board {
	out := NewBoard(id, b.Species, r.W(), r.H(), b.Thickness)
	out.Moisture, out.Bark, out.Heart, out.Planes, out.Wanted = b.Moisture, b.Bark, b.Heart, b.Planes, b.Wanted
	out.Log, out.Price = clonePtr(b.Log), clonePtr(b.Price)
	if out.Price != nil && out.Price.Per == "board" {
		out.Price.Amount *= r.W() * r.H() / (b.Length * b.Width)
	}
	for _, p := range b.Pith {
		p.X -= r.Min.X
		p.Across -= r.Min.Y
		if !p.HasX {
			p.X = 0
		}
		out.Pith = append(out.Pith, p)
	}
	for i := range b.Faces {
		out.Faces[i] = b.Faces[i].crop(b.ofFace(i+1, r))
	}
	return out
}

// ofFace is a rectangle of face-1 coordinates in those of face 1 or 2.
func (b *Board) ofFace(face int, r geom.Rect) geom.Rect {
	if face == 2 {
		return geom.R(r.Min.X, b.Width-r.Max.Y, r.Max.X, b.Width-r.Min.Y)
	}
	return r
}

// crop returns what is told of the wood in a rectangle of the face.
func (f Face) crop(r geom.Rect) Face {
	out := Face{Known: f.Known, Base: f.Base, Tones: slices.Clone(f.Tones)}
	if f.Open() { // nobody knows yet
		return Face{}
	}
	shift := geom.Translate(-r.Min.X, -r.Min.Y)
	for _, z := range f.Zones {
		if z.Polygon.ClipRect(r).InsideArea() >= minArea {
			out.Zones = append(out.Zones, Zone{Kind: z.Kind, Polygon: shift.ApplyTo(z.Polygon)})
		}
	}
	for _, line := range f.Grain {
		for _, run := range runsIn(line, r) {
			out.Grain = append(out.Grain, shift.ApplyTo(run))
		}
	}
	return out
}

// runsIn cuts a line to a rectangle, segment by segment (Liang and Barsky 1984). It
// may enter several times.
func runsIn(line []geom.Point, r geom.Rect) (out []geom.Polygon) {
	var run geom.Polygon
	end := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		from, to, in := 0.0, 1.0, true
		for _, c := range [...]struct{ step, room float64 }{
			{a.X - b.X, a.X - r.Min.X}, {b.X - a.X, r.Max.X - a.X}, {a.Y - b.Y, a.Y - r.Min.Y}, {b.Y - a.Y, r.Max.Y - a.Y},
		} {
			switch {
			case c.step == 0:
				in = in && c.room >= 0
			case c.step < 0:
				from = max(from, c.room/c.step)
			default:
				to = min(to, c.room/c.step)
			}
		}
		if !in || from >= to {
			end()
			continue
		}
		if from > 0 || run == nil {
			end()
			run = geom.Polygon{a.Lerp(b, from)}
		}
		run = append(run, a.Lerp(b, to))
		if to < 1 {
			end()
		}
	}
	end()
	return out
}
