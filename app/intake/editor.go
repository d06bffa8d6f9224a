package intake

import (
	"context"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/split"
	"heartside/layout/photo/trace"
	"heartside/model/say"
)

// Editor corrects the split of one face. Strokes teach: the whole face follows
// them. What is painted, filled or drawn straight is absolute: no later stroke
// moves it. What is outside the outline of the board is not looked at. Every act
// is a state that can be taken back. It belongs to one goroutine; Squared and
// the masks it gives out are not to be changed.
type Editor struct {
	Squared *photo.Squared
	states  []editState
	at      int
}

// editState is the face after an act.
type editState struct {
	act     string
	face    *split.Face  // within the outline
	ring    geom.Polygon // of the outline, nil where it was not traced
	strokes []split.Stroke
	result  *split.Result
	by      *photo.Mask // what was set by hand, Outside where nothing was; nil nothing
	gone    []bool      // cells that were said to be no wood; nil none
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
	return OpenEditor(ctx, s, mask, nil)
}

// OpenEditor is NewEditor for a face with an outline, mm, nil for the
// rectangle; a mask has its own.
func OpenEditor(ctx context.Context, s *photo.Squared, mask *photo.Mask, ring geom.Polygon) (*Editor, error) {
	wood := s
	if mask == nil && ring != nil {
		wood = within(s, ringMask(ring, photo.NewMask(s.Length, s.Width, pxPerMM)))
	}
	if mask != nil {
		if m := photo.NewMask(s.Length, s.Width, pxPerMM); mask.W != m.W || mask.H != m.H {
			return nil, say.Errorf("opening a face: a mask of %d x %d cells for one of %d x %d", mask.W, mask.H, m.W, m.H)
		}
		wood = within(s, mask)
	}
	st, err := splitNow(ctx, wood)
	if err != nil {
		return nil, err
	}
	e := &Editor{Squared: s}
	st.ring = ring
	if mask != nil {
		st.by, st.mask = opened(differing(nil, st.result.Mask, mask)), mask
		st.gone = cutFrom(nil, st.result.Mask, mask)
	}
	e.states = []editState{*st}
	return e, nil
}

// splitNow is a face as the program splits it by itself.
func splitNow(ctx context.Context, s *photo.Squared) (*editState, error) {
	f, err := split.New(ctx, s)
	if err != nil {
		return nil, err
	}
	r, err := f.Auto(ctx)
	if err != nil {
		return nil, err
	}
	return &editState{face: f, result: r, mask: r.Mask}, nil
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
		return say.Error("the stroke has no points")
	}
	was := e.now()
	if kind == photo.Outside { // teaches nothing
		return e.Brush(kind, points, width)
	}
	st := editState{act: say.F("Stroke of %s", word(kind)), face: was.face, ring: was.ring, by: was.by, gone: was.gone}
	st.strokes = append(append(st.strokes, was.strokes...), split.Stroke{Kind: kind, Points: points, Width: width})
	r, err := was.face.With(ctx, was.result, st.strokes)
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
	st.mask = asBefore(laid(r.Mask, st.by), was.mask) // a stroke over the edge makes no wood
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
	next.act, next.mask = say.T("Only near the stroke"), &mask
	next.by = differing(st.by, st.result.Mask, &mask)
	next.changed = changeOf(st.mask, &mask, nil)
	e.push(next)
	return true
}

// Brush paints a kind along a line.
func (e *Editor) Brush(kind photo.Label, points []geom.Point, width float64) error {
	return e.hand(say.F("Paint %s", word(kind)), func(m *photo.Mask) (*photo.Mask, error) { return trace.Brush(m, points, width, kind) })
}

// Fill sets what lies in a polygon.
func (e *Editor) Fill(kind photo.Label, ring geom.Polygon) error {
	return e.hand(say.F("Fill with %s", word(kind)), func(m *photo.Mask) (*photo.Mask, error) { return trace.Fill(m, ring, kind) })
}

// Straight makes the border between heart and sap straight from a to b.
func (e *Editor) Straight(a, b geom.Point, reach float64) error {
	return e.hand(say.T("Straight line"), func(m *photo.Mask) (*photo.Mask, error) { return trace.StraightLine(m, a, b, reach) })
}

// Smooth evens the border between heart and sap of what is finer than mm.
func (e *Editor) Smooth(mm float64) error {
	return e.hand(say.T("Smooth the borders"), func(m *photo.Mask) (*photo.Mask, error) { return trace.Smooth(m, mm) })
}

// All says that the whole face is heartwood or sapwood, which ends every doubt
// about it; flaws and what is not on the board stay. Strokes from before no
// longer count.
func (e *Editor) All(kind photo.Label) error {
	was := e.now()
	st := editState{act: say.F("All %s", word(kind)), face: was.face, ring: was.ring, gone: was.gone, mask: recalled(was.mask, kind, func(int) bool { return true })}
	switch kind {
	case photo.Heart:
		st.result = was.face.AllHeart()
	case photo.Sap:
		st.result = was.face.AllSap()
	default:
		return say.Errorf("a whole face cannot be called %s", word(kind))
	}
	st.changed = changeOf(was.mask, st.mask, nil)
	if st.changed.Share == 0 && was.result.Confidence == st.result.Confidence && len(was.result.Doubts) == 0 {
		return nil
	}
	st.by = differing(was.by, was.mask, st.mask)
	e.push(st)
	return nil
}

// Suggested is how much of the face lies in stretches that had better be called
// not sure, and is still called heart or sap.
func (e *Editor) Suggested() float64 {
	st := e.now()
	if len(st.result.Suggest) == 0 {
		return 0
	}
	return changeOf(st.mask, doubted(st), nil).Share
}

// TakeSuggested calls those stretches not sure.
func (e *Editor) TakeSuggested() error {
	return e.hand(say.T("Mark as not sure"), func(*photo.Mask) (*photo.Mask, error) { return doubted(e.now()), nil })
}

// doubted is the mask with the stretches that the result suggests not sure.
func doubted(st *editState) *photo.Mask {
	m := st.mask
	return recalled(m, photo.Unseen, func(k int) bool {
		p := geom.Pt((float64(k%m.W)+0.5)*m.Length/float64(m.W), m.Width-(float64(k/m.W)+0.5)*m.Width/float64(m.H))
		for _, r := range st.result.Suggest {
			if r.Contains(p) {
				return true
			}
		}
		return false
	})
}

// recalled calls the wood in some cells another kind; flaws stay.
func recalled(m *photo.Mask, kind photo.Label, in func(k int) bool) *photo.Mask {
	out := *m
	out.Pix = append([]photo.Label(nil), m.Pix...)
	for k, l := range out.Pix {
		if (l == photo.Heart || l == photo.Sap || l == photo.Unseen) && in(k) {
			out.Pix[k] = kind
		}
	}
	return &out
}

// Afresh drops every mark and shows what the program finds by itself.
func (e *Editor) Afresh(ctx context.Context) error {
	was := e.now()
	r, err := was.face.Auto(ctx)
	if err != nil {
		return err
	}
	st := editState{act: say.T("Split afresh"), face: was.face, ring: was.ring, gone: was.gone, result: r, mask: without(r.Mask, was.gone)}
	st.changed = changeOf(was.mask, st.mask, nil)
	e.push(st)
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
	e.push(editState{
		act: act, face: was.face, ring: was.ring, strokes: was.strokes, result: was.result, mask: mask,
		by: differing(was.by, was.mask, mask), gone: cutFrom(was.gone, was.mask, mask), changed: c,
	})
	return nil
}

// word names a kind in the middle of a sentence.
func word(kind photo.Label) string {
	return [...]string{say.T("no wood"), say.T("heart"), say.T("sap"), say.T("flaw"), say.T("not seen")}[min(kind, photo.Unseen)]
}
