package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// grainDrawing sets a line along the grain point by point. Enter or a double
// click ends it, Backspace takes the last point back.
type grainDrawing struct {
	grain Grain
	line  []geom.Point
}

func (grainDrawing) Busy() bool { return true }

// begin starts a line on the face in hand.
func (g Grain) begin(h Host, at geom.Point) State {
	g.Line, g.Point = -1, -1
	first := inBoard(h.Project(), g.Board, at)
	d := grainDrawing{g, []geom.Point{first}}
	d.show(h, first)
	return d
}

func (d grainDrawing) Handle(h Host, e Event) State {
	switch e.Kind {
	case Hover, Drag:
		d.grain.cursor = nil
		d.show(h, d.at(h, e))
	case Press:
		if e.Button != Primary {
			return d
		}
		d.grain.cursor = nil
		return d.add(h, d.at(h, e))
	case Double:
		return d.end(h)
	case Typed:
		switch e.Key {
		case Enter:
			return d.end(h)
		case Escape, Delete:
			h.Show(d.grain.sketch(""))
			return d.grain
		case Backspace:
			d.line = slices.Clone(d.line[:len(d.line)-1])
			if len(d.line) == 0 {
				h.Show(d.grain.sketch(""))
				return d.grain
			}
			d.show(h, d.next())
		case Space:
			if d.grain.cursor != nil {
				return d.add(h, *d.grain.cursor)
			}
		default:
			if g, ok := d.grain.walk(h, e, false, d.line[len(d.line)-1]); ok {
				d.grain = g
				d.show(h, *g.cursor)
			}
		}
	}
	return d
}

func (d grainDrawing) at(h Host, e Event) geom.Point {
	return inBoard(h.Project(), d.grain.Board, h.FaceAt(d.grain.Board, d.grain.Face, e.At))
}

// next is where the line would go on.
func (d grainDrawing) next() geom.Point {
	if d.grain.cursor != nil {
		return *d.grain.cursor
	}
	return d.line[len(d.line)-1]
}

// add sets a point.
func (d grainDrawing) add(h Host, q geom.Point) State {
	if q != d.line[len(d.line)-1] {
		d.line = append(slices.Clone(d.line), q)
	}
	d.show(h, q)
	return d
}

func (d grainDrawing) show(h Host, next geom.Point) {
	words := say.T("Click along the grain; Enter or a double click ends the line, Backspace takes the last point back, Delete drops it.")
	if d.grain.cursor != nil {
		words = say.T("Space sets a point, Enter ends the line, Backspace takes the last point back, Delete drops it. Arrows walk, with Shift farther.")
	}
	h.Show(Sketch{Board: d.grain.Board, Face: d.grain.Face, Line: append(slices.Clone(d.line), next), Cursor: d.grain.cursor, Say: words})
}

// end makes the line one of the face, or says what speaks against it.
func (d grainDrawing) end(h Host) State {
	g := d.grain
	stay := func(say string) State {
		h.Show(Sketch{Board: g.Board, Face: g.Face, Line: d.line, Cursor: g.cursor, Say: say})
		return d
	}
	if len(d.line) < 2 {
		return stay(say.T("A line needs two points: set another farther along the grain, or press Esc to drop it."))
	}
	lines := append(slices.Clone(grainLines(h.Project(), g.Board, g.Face)), d.line)
	e := model.SetGrain{Board: g.Board, Face: g.Face, Grain: lines, Verb: say.T("Draw a grain line")}
	if h.Project().Board(g.Board) == nil {
		h.Show(Sketch{})
		return g
	}
	if _, err := model.Apply(h.Project(), e); err != nil {
		return stay(say.F("%s Backspace takes the last point back, Esc drops the line.", err.Error()))
	}
	if !commit(h, e) {
		return g
	}
	cursor := g.cursor
	g = g.hold(h, g.Board, g.Face, len(lines)-1)
	if g.cursor = cursor; cursor != nil {
		h.Show(g.sketch(say.T("The line is in hand: Delete takes it away. Space begins another at the cursor.")))
	}
	return g
}

// grainBending drags a point of the line in hand.
type grainBending struct {
	grain Grain
	at    geom.Point
	edit  model.Edit
}

func (grainBending) Busy() bool { return true }

// Held returns the line in hand.
func (b grainBending) Held() (string, int, int) { return b.grain.Held() }

func (b grainBending) Handle(h Host, e Event) State {
	g := b.grain
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			h.Show(Sketch{})
			h.Cancel()
			return g
		}
	case Release:
		if b.edit != nil {
			commit(h, b.edit)
		}
		return g
	case Drag:
		if b.edit == nil && e.At.Dist(b.at) < slack {
			return b
		}
		lines := slices.Clone(grainLines(h.Project(), g.Board, g.Face))
		if g.Line >= len(lines) || g.Point >= len(lines[g.Line]) { // the line is gone
			h.Cancel()
			h.Show(Sketch{})
			g.Line, g.Point = -1, -1
			return g
		}
		line := slices.Clone(lines[g.Line])
		line[g.Point] = inBoard(h.Project(), g.Board, h.FaceAt(g.Board, g.Face, e.At))
		lines[g.Line] = line
		b.edit = model.SetGrain{Board: g.Board, Face: g.Face, Grain: lines, Verb: say.T("Move a point of a grain line")}
		try(h, b.edit, Sketch{Board: g.Board, Face: g.Face})
	}
	return b
}
