package together

import (
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Of panels end to end the face is halved by two lines: the one along the grain,
// which the reading of a face minds, and the one across it, over which the left
// half of a row answers the right. Engineering choices with no published source;
// those of face for the line along the grain, turned by a quarter.
const (
	rowOff    = 0.05 // of the length or width, how far a mirrored pair may be off
	rowLeast  = 15.0 // mm, the same at least
	rowMeet   = 0.60 // of the shorter band, how far the two lie over each other
	rowArea   = 2.5  // times, the greater area over the smaller
	rowShare  = 0.80 // of a streak, in bands that have an excuse in their own panel
	rowRunsOn = 10.0 // mm of other wood at a gap over which a streak runs on
)

// piece is a band of one panel, on the face of all.
type piece struct {
	panel  int
	place  geom.Rect
	y      float64 // area-weighted mean
	area   float64
	strips []int // of the panel
	excuse face.Excuse
}

// row is the bands of panels end to end, each panel read by itself.
type row struct {
	f      *Face
	pieces []piece
}

func (r *Reader) rows(f *Face) *row {
	out := &row{f: f}
	for len(r.each) < len(f.panels) {
		one := face.NewReader()
		one.SkipCoverage(true)
		r.each = append(r.each, one)
	}
	for k, p := range f.panels {
		off := f.Places[k].Min
		for _, b := range r.each[k].Read(p).Show.Bands {
			if b.Sliver {
				continue
			}
			at := geom.Rect{Min: b.Place.Min.Add(off), Max: b.Place.Max.Add(off)}
			out.pieces = append(out.pieces, piece{k, at, b.CentreY + off.Y, b.Area, slices.Clone(b.Strips), b.Excuse})
		}
	}
	return out
}

// excuse says why a lone streak of the row is none.
func (o *row) excuse(b *face.Band) face.Excuse {
	var own []int
	for i := range o.pieces {
		if o.holds(b, &o.pieces[i]) {
			own = append(own, i)
		}
	}
	if len(own) == 0 {
		return face.NoExcuse
	}
	// What two strips make at a joint, or two bands about one, they make in
	// each panel: cut apart by the gaps it is the same still.
	made := 0.0
	for _, i := range own {
		if e := o.pieces[i].excuse; e == face.ExcuseJoint || e == face.ExcusePair {
			made += o.pieces[i].area
		}
	}
	if made >= rowShare*b.Area {
		return face.ExcuseJoint
	}
	if o.runsOn(own) {
		return face.NoExcuse // one streak over the whole row
	}
	for _, i := range own {
		if !o.mirrored(i) {
			return face.NoExcuse
		}
	}
	return face.ExcuseMirror
}

// holds reports whether a band of the whole face is made of p among others.
func (o *row) holds(b *face.Band, p *piece) bool {
	at := b.Place.Inset(-1e-3)
	if !at.Contains(p.place.Min) || !at.Contains(p.place.Max) {
		return false
	}
	for _, i := range b.Strips {
		if i < len(o.f.Of) && o.f.Of[i] == p.panel && slices.Contains(p.strips, o.f.At[i]) {
			return true
		}
	}
	return false
}

// runsOn reports whether a streak goes on from one panel to the next.
func (o *row) runsOn(own []int) bool {
	for _, i := range own {
		for _, k := range own {
			p, q := &o.pieces[i], &o.pieces[k]
			if q.panel == p.panel+1 && q.place.Min.X-p.place.Max.X <= o.f.layout.Gap+rowRunsOn {
				return true
			}
		}
	}
	return false
}

// mirrored reports whether a band of another panel is the mirror image of piece
// i about the middle of the row.
func (o *row) mirrored(i int) bool {
	all, p := o.f.Panel, &o.pieces[i]
	for k := range o.pieces {
		q := &o.pieces[k]
		if q.panel == p.panel {
			continue
		}
		from, to := all.Length-q.place.Max.X, all.Length-q.place.Min.X // q seen in the mirror
		meet := math.Min(to, p.place.Max.X) - math.Max(from, p.place.Min.X)
		off := math.Abs((from + to - p.place.Min.X - p.place.Max.X) / 2)
		if off <= math.Max(rowLeast, rowOff*all.Length) && meet >= rowMeet*math.Min(p.place.W(), q.place.W()) &&
			math.Abs(p.y-q.y) <= math.Max(rowLeast, rowOff*all.Width) &&
			math.Max(p.area, q.area) <= rowArea*math.Min(p.area, q.area) {
			return true
		}
	}
	return false
}
