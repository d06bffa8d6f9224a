package match

import (
	"errors"
	"fmt"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Front is one drawer front of a row, finished.
type Front struct {
	ID            string
	Length, Width float64 // along and across the grain, mm
}

// RowOptions say how fronts are cut from one board.
type RowOptions struct {
	// Across: the fronts hang one above another and are cut from the board's
	// width, the first the lowest as seen; else they stand in a row and are cut
	// from its length, the first at the left as seen.
	Across bool
	Gap    float64   // between neighbours as they hang, mm
	Gaps   []float64 // where they differ: one for each two neighbours
	Kerf   float64   // of the cut between two fronts
	Trim   float64   // taken off each cut side afterwards to square or joint it
	Ends   float64   // left at each end of the board
	Edges  float64   // left at each edge
	Clear  float64   // distance wanted from a flaw
	Up     int       // the board face that shows, 1 or 2
	Turned bool      // the marked end at the right
}

// Parting is what happens between two fronts.
type Parting struct {
	Gap   float64 // as they hang
	Skip  float64 // wood between them on the board
	Lost  float64 // of it to the kerf and to trimming
	Waste float64 // of it cut away, so that the grain runs on over the gap
	Jump  float64 // by how much the picture jumps, as more is lost than the gap is wide
}

// RowFlaw is a flaw in a front.
type RowFlaw struct {
	Front int
	Side  face.Side // Show or Back
	Area  float64   // mm2; of the margin too where distance is wanted
}

// Run is a row of fronts laid on a board.
type Run struct {
	Strips   []face.Strip // the places, in order; nil where the board is too small
	Partings []Parting
	Jump     float64 // sum of the jumps: how far the last front's picture is from where it should be
	// Need and Have are along the row, NeedAcross and HaveAcross the other way:
	// what is taken with what stays at ends and edges, and what the board has.
	Need, Have             float64
	NeedAcross, HaveAcross float64
	Flaws                  []RowFlaw
}

// Enough reports whether the board is large enough.
func (r *Run) Enough() bool { return len(r.Strips) > 0 }

// Row lays fronts on one board in their order so that the grain runs through
// them as they hang. Between two of them as much wood is skipped as the gap is
// wide. Where kerf and trimming take less, the rest is cut away as waste; where
// they take more, the picture jumps. The row lies where no front has a flaw on
// either face, or else on the show face, or else where there is least, as near
// the marked end and edge as that allows; flaws count by their upright boxes
// there and exactly in what is told. Fronts of different widths (or, across,
// lengths) stand on one line: the lower edge, or the left end, as seen.
func Row(b *face.Board, fronts []Front, o RowOptions) (Run, error) {
	if err := o.check(b, fronts); err != nil {
		return Run{}, err
	}
	w := &row{b: b, o: o, whole: face.Strip{Board: b, L: b.Length, W: b.Width, Up: o.Up, Turned: o.Turned}}
	r := w.add(fronts)
	if r.Need > r.Have+1e-6 || r.NeedAcross > r.HaveAcross+1e-6 {
		return r, nil
	}
	at := w.place()
	for i, f := range fronts {
		box := w.boxes[i]
		box = geom.Rect{Min: box.Min.Add(at), Max: box.Max.Add(at)}
		box = w.whole.FromPlace().ApplyTo(box.Polygon()).Bounds()
		r.Strips = append(r.Strips, face.Strip{ID: f.ID, Board: b, X: box.Min.X, Y: box.Min.Y, L: f.Length, W: f.Width, Up: o.Up, Turned: o.Turned})
	}
	for i := range r.Strips {
		for _, side := range [2]face.Side{face.Show, face.Back} {
			if a := flawedArea(&r.Strips[i], side, o.Clear); a >= 1 {
				r.Flaws = append(r.Flaws, RowFlaw{i, side, a})
			}
		}
	}
	return r, nil
}

func (o *RowOptions) check(b *face.Board, fronts []Front) error {
	if b == nil || !(b.Length > 0) || !(b.Width > 0) || b.Length > most || b.Width > most {
		return errors.New("a row needs a board with a length and a width: enter its size")
	}
	if len(fronts) == 0 {
		return errors.New("a row needs a front: add one")
	}
	for i, f := range fronts {
		if !(f.Length > 0) || !(f.Width > 0) || f.Length > most || f.Width > most {
			return fmt.Errorf("front %d (%s) is %g by %g mm: both have to be over 0", i+1, f.ID, f.Length, f.Width)
		}
	}
	if !faceNumber(o.Up) {
		return fmt.Errorf("board %s: say which face of it shows, 1 or 2; now %d", b.ID, o.Up)
	}
	if o.Gaps != nil && len(o.Gaps) != len(fronts)-1 {
		return fmt.Errorf("%d fronts have %d gaps between them, not %d", len(fronts), len(fronts)-1, len(o.Gaps))
	}
	for _, v := range append([]float64{o.Gap, o.Kerf, o.Trim, o.Ends, o.Edges, o.Clear}, o.Gaps...) {
		if !(v >= 0) || v > most {
			return fmt.Errorf("gaps, kerf and allowances of a row have to be 0 or more, not %g mm", v)
		}
	}
	return nil
}

// row lays a run; boxes are the fronts as seen, measured from the first one's
// lower left corner.
type row struct {
	b           *face.Board
	o           RowOptions
	whole       face.Strip // the board as it lies
	boxes       []geom.Rect
	size        geom.Point // of the run, as seen
	left, below float64    // kept free at ends and edges
}

// add puts one front after another.
func (w *row) add(fronts []Front) Run {
	var r Run
	at := 0.0
	for i, f := range fronts {
		box := geom.R(at, 0, at+f.Length, f.Width)
		if w.o.Across {
			box = geom.R(0, at, f.Length, at+f.Width)
		}
		w.boxes = append(w.boxes, box)
		w.size.X, w.size.Y = max(w.size.X, box.Max.X), max(w.size.Y, box.Max.Y)
		if i+1 == len(fronts) {
			break
		}
		p := Parting{Gap: w.o.Gap, Lost: w.o.Kerf + 2*w.o.Trim}
		if w.o.Gaps != nil {
			p.Gap = w.o.Gaps[i]
		}
		p.Skip = max(p.Gap, p.Lost)
		p.Waste, p.Jump = p.Skip-p.Lost, p.Skip-p.Gap
		r.Partings = append(r.Partings, p)
		r.Jump += p.Jump
		at += p.Skip
		if w.o.Across {
			at += f.Width
		} else {
			at += f.Length
		}
	}
	w.left, w.below = w.o.Ends+w.o.Trim, w.o.Edges+w.o.Trim
	along, across := w.size.X+2*w.left, w.size.Y+2*w.below
	from, to := w.b.Left()
	r.Need, r.Have, r.NeedAcross, r.HaveAcross = along, to-from, across, w.b.Width
	if w.o.Across {
		r.Need, r.Have, r.NeedAcross, r.HaveAcross = across, w.b.Width, along, to-from
	}
	return r
}

// flawedArea returns how much of a strip, and of a margin about it, is flawed
// or no wood on a side, mm2.
func flawedArea(s *face.Strip, side face.Side, margin float64) float64 {
	f := s.UpFace()
	if side == face.Back {
		f = 3 - f
	}
	if s.Board.Faces[f-1].Guessed && side == face.Back {
		return 0 // seen once already
	}
	own := geom.R(0, 0, s.L, s.W)
	region := own.Inset(-margin)
	sum := 0.0
	for _, t := range geom.Decompose(nil, region.Polygon(), int(face.Blank), layersOf(s, f, region)) {
		switch face.Kind(t.Label) {
		case face.Flaw:
			sum += t.Area()
		case face.Blank: // beyond the board the margin is nobody's
			if c := t.Bounds().Intersect(own); !c.Empty() {
				sum += min(t.Area(), c.W()*c.H())
			}
		}
	}
	return sum
}
