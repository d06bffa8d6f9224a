package intake

import (
	"context"
	"errors"
	"fmt"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/split"
	"heartside/layout/photo/trace"
)

// Editor corrects the split of one face. Strokes teach: the whole face follows
// them. What is painted, filled or drawn straight is absolute: no later stroke
// moves it. Every act is a state that can be taken back. It belongs to one
// goroutine; Squared and the masks it gives out are not to be changed.
type Editor struct {
	Squared *photo.Squared
	face    *split.Face
	states  []editState
	at      int
}

// editState is the face after an act.
type editState struct {
	act     string
	strokes []split.Stroke
	result  *split.Result
	by      *photo.Mask // what was set by hand, Outside where nothing was; nil nothing
	mask    *photo.Mask
	changed Change
}

// Change says how far an act reached.
type Change struct {
	Share float64 // of the face that is other than before
	Far   float64 // the part of it that hangs together with no mark of the act
}

// NewEditor opens a squared face. mask is how it was split before, cell for
// cell of what split gives; nil to split it now.
func NewEditor(ctx context.Context, s *photo.Squared, mask *photo.Mask) (*Editor, error) {
	f, err := split.New(ctx, s)
	if err != nil {
		return nil, err
	}
	r, err := f.Auto(ctx)
	if err != nil {
		return nil, err
	}
	e := &Editor{Squared: s, face: f}
	st := editState{result: r, mask: r.Mask}
	if mask != nil {
		if mask.W != r.Mask.W || mask.H != r.Mask.H {
			return nil, fmt.Errorf("opening a face: a mask of %d x %d cells for one of %d x %d", mask.W, mask.H, r.Mask.W, r.Mask.H)
		}
		st.by, st.mask = opened(differing(nil, r.Mask, mask)), mask
	}
	e.states = []editState{st}
	return e, nil
}

// Mask returns the face as it is now.
func (e *Editor) Mask() *photo.Mask { return e.now().mask }

// Result returns what was last found by the program, without what was set by
// hand.
func (e *Editor) Result() *split.Result { return e.now().result }

// Changed says how far the last act reached.
func (e *Editor) Changed() Change { return e.now().changed }

// Touched reports whether there is an act to take back.
func (e *Editor) Touched() bool { return e.at > 0 }

// CanRedo reports whether an act taken back can be done again.
func (e *Editor) CanRedo() bool { return e.at+1 < len(e.states) }

// UndoLabel names the last act, "" for none.
func (e *Editor) UndoLabel() string { return e.now().act }

// Undo takes the last act back; false where there is none.
func (e *Editor) Undo() bool {
	if e.at == 0 {
		return false
	}
	e.at--
	return true
}

// Redo does again what was taken back; false where there is nothing.
func (e *Editor) Redo() bool {
	if !e.CanRedo() {
		return false
	}
	e.at++
	return true
}

func (e *Editor) now() *editState { return &e.states[e.at] }

func (e *Editor) push(s editState) {
	e.states = append(e.states[:e.at+1], s)
	e.at++
}

// Stroke says of a line on the face what kind of wood lies under it; the rest
// of the face follows where the evidence is clear.
func (e *Editor) Stroke(ctx context.Context, kind photo.Label, points []geom.Point, width float64) error {
	if len(points) == 0 {
		return errors.New("the stroke has no points")
	}
	was := e.now()
	st := editState{act: "Stroke of " + word(kind), by: was.by}
	st.strokes = append(append(st.strokes, was.strokes...), split.Stroke{Kind: kind, Points: points, Width: width})
	r, err := e.face.With(ctx, was.result, st.strokes)
	if err != nil {
		return err
	}
	st.result = r
	// What was set by hand stays, but not against the stroke itself.
	if st.by != nil {
		if st.by, err = trace.Brush(st.by, points, width, photo.Outside); err != nil {
			return err
		}
	}
	st.mask = laid(r.Mask, st.by)
	st.changed = changeOf(was.mask, st.mask, points)
	e.push(st)
	return nil
}

// NearOnly takes back what the last stroke changed away from itself.
func (e *Editor) NearOnly() bool {
	st := e.now()
	if e.at == 0 || st.changed.Far == 0 || len(st.strokes) == len(e.states[e.at-1].strokes) {
		return false
	}
	was := e.states[e.at-1].mask
	near := reached(was, st.mask, st.strokes[len(st.strokes)-1].Points)
	mask := *was
	mask.Pix = append([]photo.Label(nil), was.Pix...)
	for k, ok := range near {
		if ok {
			mask.Pix[k] = st.mask.Pix[k]
		}
	}
	next := *st
	next.act, next.mask = "Only near the stroke", &mask
	next.by = differing(st.by, st.result.Mask, &mask)
	next.changed = changeOf(st.mask, &mask, nil)
	e.push(next)
	return true
}

// Brush paints a kind along a line.
func (e *Editor) Brush(kind photo.Label, points []geom.Point, width float64) error {
	return e.hand("Paint "+word(kind), func(m *photo.Mask) (*photo.Mask, error) { return trace.Brush(m, points, width, kind) })
}

// Fill sets what lies in a polygon.
func (e *Editor) Fill(kind photo.Label, ring geom.Polygon) error {
	return e.hand("Fill with "+word(kind), func(m *photo.Mask) (*photo.Mask, error) { return trace.Fill(m, ring, kind) })
}

// Straight makes the border between heart and sap straight from a to b.
func (e *Editor) Straight(a, b geom.Point, reach float64) error {
	return e.hand("Straight line", func(m *photo.Mask) (*photo.Mask, error) { return trace.StraightLine(m, a, b, reach) })
}

// Smooth evens the border between heart and sap of what is finer than mm.
func (e *Editor) Smooth(mm float64) error {
	return e.hand("Smooth the borders", func(m *photo.Mask) (*photo.Mask, error) { return trace.Smooth(m, mm) })
}

// All makes the whole face one kind; flaws and what is not on the board stay.
func (e *Editor) All(kind photo.Label) error {
	return e.hand("All "+word(kind), func(m *photo.Mask) (*photo.Mask, error) {
		out := *m
		out.Pix = append([]photo.Label(nil), m.Pix...)
		for k, l := range out.Pix {
			if l == photo.Heart || l == photo.Sap || l == photo.Unseen {
				out.Pix[k] = kind
			}
		}
		return &out, nil
	})
}

// Afresh drops every mark and shows what the program finds by itself.
func (e *Editor) Afresh(ctx context.Context) error {
	r, err := e.face.Auto(ctx)
	if err != nil {
		return err
	}
	e.push(editState{act: "Split afresh", result: r, mask: r.Mask, changed: changeOf(e.now().mask, r.Mask, nil)})
	return nil
}

// hand does an absolute act; one that changes nothing leaves no state.
func (e *Editor) hand(act string, do func(*photo.Mask) (*photo.Mask, error)) error {
	was := e.now()
	mask, err := do(was.mask)
	if err != nil {
		return err
	}
	c := changeOf(was.mask, mask, nil)
	if c.Share == 0 {
		return nil
	}
	e.push(editState{act: act, strokes: was.strokes, result: was.result, mask: mask, by: differing(was.by, was.mask, mask), changed: c})
	return nil
}

// word names a kind in the middle of a sentence.
func word(kind photo.Label) string {
	return [...]string{"nothing", "heart", "sap", "flaw", "not seen"}[min(kind, photo.Unseen)]
}
