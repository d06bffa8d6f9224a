package tool

import (
	"heartside/layout/geom"

	"heartside/model/say"
)

// typed answers a key while no line is being drawn.
func (g Grain) typed(h Host, e Event) State {
	switch e.Key {
	case Delete, Backspace:
		return g.remove(h)
	case Enter:
		return g.next(h)
	case Space:
		if g.cursor != nil { // else it is held to drag the view
			g.Line = -1
			return g.begin(h, *g.cursor)
		}
		return g
	}
	b := h.Project().Board(g.Board)
	if b == nil {
		return g
	}
	if w, ok := g.walk(h, e, true, geom.Pt(b.Length/2, b.Width/2)); ok {
		h.Show(w.sketch(say.T("Space begins a line at the cursor. Arrows move it, with Shift farther, also to the other face; Enter takes the next line in hand, Esc ends.")))
		return w
	}
	return g
}

// next takes the next line of the board in hand.
func (g Grain) next(h Host) State {
	type at struct{ face, line int }
	var all []at
	now := -1
	for f := 1; f <= 2; f++ {
		for i := range grainLines(h.Project(), g.Board, f) {
			if f == g.Face && i == g.Line {
				now = len(all)
			}
			all = append(all, at{f, i})
		}
	}
	if len(all) == 0 {
		h.Show(g.sketch(say.T("No grain line is drawn on this board yet. Click along the grain, or move the cursor with the arrows and press Space.")))
		return g
	}
	to := all[(now+1)%len(all)]
	g.cursor = nil
	return g.hold(h, g.Board, to.face, to.line)
}

// walk moves the cursor of the keys, from a place where it was not used yet;
// false where the key is none of its own. Where it may, it goes over the marked
// edge to the other face.
func (g Grain) walk(h Host, e Event, over bool, from geom.Point) (Grain, bool) {
	b := h.Project().Board(g.Board)
	if b == nil {
		return g, false
	}
	step := g.Steps[0]
	if e.Mods.Shift {
		step = g.Steps[1]
	}
	var by geom.Point
	switch e.Key {
	case Left:
		by.X = -step
	case Right:
		by.X = step
	case Up:
		by.Y = step
	case Down:
		by.Y = -step
	case Home:
		by.X = -b.Length
	case End:
		by.X = b.Length
	default:
		return g, false
	}
	q := from
	if g.cursor != nil {
		q = *g.cursor
	} else if over {
		by = geom.Point{} // the first key shows where it is
	}
	// Unwrapped, face 2 lies below the marked edge of face 1.
	switch q = q.Add(by); {
	case over && g.Face == 1 && q.Y < 0 && by.Y < 0:
		g.Face, g.Line, g.Point, q.Y = 2, -1, -1, b.Width
	case over && g.Face == 2 && q.Y > b.Width && by.Y > 0:
		g.Face, g.Line, g.Point, q.Y = 1, -1, -1, 0
	}
	q = geom.Pt(hold(q.X, 0, b.Length), hold(q.Y, 0, b.Width))
	g.cursor = &q
	return g, true
}
