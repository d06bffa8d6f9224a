package ui

import (
	"context"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// faceMode is what a stroke on the face does.
type faceMode int

const (
	modeNone    faceMode = iota // a drag moves the view
	modeTeach                   // a stroke says what lies under it, the whole face follows
	modePaint                   // only what lies under the stroke
	modePolygon                 // only what lies inside
	modeLine                    // the border between two clicks is straight
)

// faceMark is a line on the face, under way or waiting for its turn.
type faceMark struct {
	mode   faceMode
	kind   photo.Label
	points []geom.Point // mm
	width  float64      // mm
}

// faceHand is the tool in hand.
type faceHand struct {
	faceMark
	drawing bool // a stroke is under way
	byKey   bool // it follows the cursor of the keys
}

// strokeWidths are the widths of strokes, mm.
func strokeWidths() []float64 { return []float64{1, 2, 4, 6, 10, 16, 25, 40} }

const (
	firstWidth = 6.0 // mm; an engineering choice
	smoothFine = 5.0 // what the act "smooth" evens out, mm; an engineering choice
	lineReach  = 24  // how near a border a click takes hold of it, units
)

// wider takes the next width of stroke.
func (z *faceZones) wider(by int) {
	list := strokeWidths()
	i := 0
	for k, v := range list {
		if v <= z.hand.width {
			i = k
		}
	}
	z.hand.width = list[min(max(i+by, 0), len(list)-1)]
	z.tooled()
}

// take takes a tool in hand; what was under way is dropped.
func (z *faceZones) take(m faceMode) {
	z.drop()
	z.hand.mode = m
	z.tooled()
}

// kind chooses what wood strokes are; without a tool it takes the one that
// teaches.
func (z *faceZones) kind(l photo.Label) {
	z.hand.kind = l
	if l == photo.Outside && z.hand.mode != modePolygon { // nothing is learned from it
		z.take(modePaint)
		return
	}
	if z.hand.mode == modeNone || z.hand.mode == modeLine {
		z.take(modeTeach)
		return
	}
	z.tooled()
}

// drop drops a stroke that is under way and reports whether there was one.
func (z *faceZones) drop() bool {
	was := z.hand.drawing || len(z.hand.points) > 0
	z.hand.points, z.hand.drawing, z.hand.byKey = nil, false, false
	z.canvas.stir()
	return was
}

// begin, draw and end are a stroke, or a click of the polygon and the line.
func (z *faceZones) begin(at geom.Point, byKey bool) {
	if z.work == nil || z.hand.mode == modeNone {
		return
	}
	at = z.canvas.view.inside(at)
	switch z.hand.mode {
	case modeTeach, modePaint:
		z.hand.drawing, z.hand.byKey, z.hand.points = true, byKey, []geom.Point{at}
	case modePolygon:
		if n := len(z.hand.points); n >= 3 && z.near(at, z.hand.points[0]) {
			z.closeRing()
			return
		}
		z.hand.points = append(z.hand.points, at)
	case modeLine:
		z.hand.points = append(z.hand.points, at)
		if len(z.hand.points) == 2 {
			z.straight()
		}
	}
	z.canvas.stir()
	z.p.w.say("")
}

// near reports whether two places are one to the hand.
func (z *faceZones) near(a, b geom.Point) bool {
	return a.Dist(b)*z.canvas.view.scale < cornerReach
}

func (z *faceZones) draw(at geom.Point) {
	if !z.hand.drawing {
		return
	}
	at = z.canvas.view.inside(at)
	if last := z.hand.points[len(z.hand.points)-1]; last.Dist(at)*z.canvas.view.scale < 1 {
		return
	}
	z.hand.points = append(z.hand.points, at)
	z.canvas.stir()
}

func (z *faceZones) end() {
	if !z.hand.drawing {
		return
	}
	m := z.hand.faceMark
	z.hand.points, z.hand.drawing, z.hand.byKey = nil, false, false
	z.mark(m, m.mode == modeTeach, func(ctx context.Context, ed faceEditor) error {
		if m.mode == modeTeach {
			return ed.Stroke(ctx, m.kind, m.points, m.width)
		}
		return ed.Brush(m.kind, m.points, m.width)
	})
}

func (z *faceZones) closeRing() {
	m := z.hand.faceMark
	z.hand.points = nil
	if len(m.points) < 3 {
		z.canvas.stir()
		return
	}
	z.mark(m, false, func(_ context.Context, ed faceEditor) error { return ed.Fill(m.kind, m.points) })
}

func (z *faceZones) straight() {
	m := z.hand.faceMark
	z.hand.points = nil
	reach := max(lineReach/z.canvas.view.scale, 10)
	z.mark(m, false, func(_ context.Context, ed faceEditor) error { return ed.Straight(m.points[0], m.points[1], reach) })
}

// mark has an act done in its turn and shows its line until it is.
func (z *faceZones) mark(m faceMark, teaches bool, act func(context.Context, faceEditor) error) {
	z.waits = append(z.waits, m)
	z.work.do(faceJob{teaches: teaches, act: act})
	z.canvas.stir()
	z.p.show()
}

// act has an act without a line done in its turn.
func (z *faceZones) act(act func(context.Context, faceEditor) error) {
	if z.work == nil {
		return
	}
	z.drop()
	z.mark(faceMark{}, false, act)
}

func (z *faceZones) smooth() {
	z.act(func(_ context.Context, ed faceEditor) error { return ed.Smooth(smoothFine) })
}

func (z *faceZones) all(l photo.Label) {
	z.act(func(_ context.Context, ed faceEditor) error { return ed.All(l) })
}

// unsure calls what the program had better not have guessed "not sure".
func (z *faceZones) unsure() {
	if z.doubted() {
		z.act(func(_ context.Context, ed faceEditor) error { return ed.TakeSuggested() })
	}
}

// doubted reports whether the program suggests calling something not sure.
func (z *faceZones) doubted() bool { return z.work != nil && z.work.now.doubted > 0 }

func (z *faceZones) afresh() {
	z.act(func(ctx context.Context, ed faceEditor) error { return ed.Afresh(ctx) })
}

func (z *faceZones) nearOnly() {
	if z.reachedFar() {
		z.act(func(_ context.Context, ed faceEditor) error { ed.NearOnly(); return nil })
	}
}

func (z *faceZones) undo() {
	if !z.drop() { // what was under way is the last thing done
		z.act(func(_ context.Context, ed faceEditor) error { ed.Undo(); return nil })
	}
}

func (z *faceZones) redo() {
	z.act(func(_ context.Context, ed faceEditor) error { ed.Redo(); return nil })
}
