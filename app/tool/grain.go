package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// Grain is the tool that draws lines along the grain of a board's faces, at
// rest. It is a value.
type Grain struct {
	Steps [2]float64 // how far the keys move the cursor, mm: a step, and with Shift

	// What is in hand: a line of a face, and maybe a point of it.
	Board string
	Face  int
	Line  int // -1 none
	Point int // -1 none

	cursor *geom.Point // of the keys, on Face; nil: not used
}

// NewGrain returns the tool with nothing in hand, for a board.
func NewGrain(board string, steps [2]float64) Grain {
	return Grain{Steps: steps, Board: board, Face: 1, Line: -1, Point: -1}
}

// grainReach is how near a line the pointer takes hold of it, surface units.
const grainReach = 7.0

// Busy implements State.
func (Grain) Busy() bool { return false }

// Held returns the line in hand, -1 none.
func (g Grain) Held() (board string, face, line int) { return g.Board, g.Face, g.Line }

// Handle implements State.
func (g Grain) Handle(h Host, e Event) State {
	switch e.Kind {
	case Hover:
		h.Hovering(h.Hit(e.At))
	case Typed:
		return g.typed(h, e)
	case Press, Double:
		hit := h.Hit(e.At)
		g.cursor = nil
		switch {
		case e.Button == Middle:
			return panning{g, e.At, e.At}
		case e.Button == Secondary:
			return grainPressed{g, hit, e.At}
		case !hit.Part.onFace():
			h.Select(hit)
			return panning{g, e.At, e.At}
		}
		if line, point := g.near(h, hit, e.At); point >= 0 && !e.Mods.Control && hit.Board == g.Board && hit.Face == g.Face && line == g.Line {
			g.Point = point
			return grainBending{grain: g, at: e.At}
		}
		return grainPressed{g, hit, e.At}
	}
	return g
}

// lines returns those of a face, nil where there is none.
func grainLines(p *model.Project, board string, face int) [][]geom.Point {
	if b := p.Board(board); b != nil && face >= 1 && face <= 2 {
		return b.Faces[face-1].Grain
	}
	return nil
}

// near returns the line that the pointer takes hold of, the one in hand before
// others, and its point there; -1 none.
func (g Grain) near(h Host, hit Hit, at geom.Point) (line, point int) {
	q := h.FaceAt(hit.Board, hit.Face, at)
	reach := grainReach * h.FaceAt(hit.Board, hit.Face, at.Add(geom.Pt(1, 0))).Dist(q)
	line, point = -1, -1
	best := reach
	for i, l := range grainLines(h.Project(), hit.Board, hit.Face) {
		d := fromLine(q, l)
		if i == g.Line && hit.Board == g.Board && hit.Face == g.Face && d <= reach {
			d = 0
		}
		if d < best {
			line, best = i, d
			point = -1
			for k, v := range l {
				if v.Dist(q) <= reach && (point < 0 || v.Dist(q) < l[point].Dist(q)) {
					point = k
				}
			}
		}
	}
	return line, point
}

// fromLine returns the distance of a point from a polyline.
func fromLine(q geom.Point, l []geom.Point) float64 {
	d := 1e9
	for i := 1; i < len(l); i++ {
		d = min(d, fromSegment(q, l[i-1], l[i]))
	}
	return d
}

// hold takes a line in hand.
func (g Grain) hold(h Host, board string, face, line int) Grain {
	g.Board, g.Face, g.Line, g.Point = board, face, line, -1
	h.Select(Hit{Part: BoardGround, Board: board, Face: face, Zone: -1})
	if line >= 0 {
		h.Show(Sketch{Say: say.T("The line is in hand: drag its points, Delete takes it away. Click bare wood to begin another.")})
	}
	return g
}

// remove deletes the point in hand, or the line where no point is held or none
// can be spared.
func (g Grain) remove(h Host) State {
	lines := grainLines(h.Project(), g.Board, g.Face)
	if g.Line < 0 || g.Line >= len(lines) {
		g.Line, g.Point = -1, -1
		h.Show(g.sketch(say.T("Take a line in hand first: click it, or press Enter.")))
		return g
	}
	out, verb := slices.Clone(lines), say.T("Delete a grain line")
	was := g
	if l := lines[g.Line]; g.Point >= 0 && g.Point < len(l) && len(l) > 2 {
		out[g.Line] = slices.Delete(slices.Clone(l), g.Point, g.Point+1)
		verb = say.T("Delete a point of a grain line")
	} else {
		out = slices.Delete(out, g.Line, g.Line+1)
		g.Line = -1
	}
	g.Point = -1
	if !commit(h, model.SetGrain{Board: g.Board, Face: g.Face, Grain: out, Verb: verb}) {
		return was
	}
	h.Show(g.sketch(""))
	return g
}

// sketch shows the cursor of the keys.
func (g Grain) sketch(say string) Sketch {
	if g.cursor == nil {
		return Sketch{Say: say}
	}
	return Sketch{Board: g.Board, Face: g.Face, Cursor: g.cursor, Say: say}
}

// grainPressed waits to see whether a press on a face takes a line in hand,
// begins one or drags the view.
type grainPressed struct {
	grain Grain
	hit   Hit
	at    geom.Point
}

func (grainPressed) Busy() bool { return true }

// Held returns the line in hand.
func (p grainPressed) Held() (string, int, int) { return p.grain.Held() }

func (p grainPressed) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return p.grain
		}
	case Drag:
		if e.At.Dist(p.at) >= slack {
			return panning{p.grain, p.at, p.at}
		}
	case Release:
		if e.Button == Secondary {
			h.Select(p.hit)
			h.Menu(p.hit, e.At)
			return p.grain
		}
		if line, _ := p.grain.near(h, p.hit, p.at); line >= 0 && !e.Mods.Control {
			return p.grain.hold(h, p.hit.Board, p.hit.Face, line)
		}
		g := p.grain.hold(h, p.hit.Board, p.hit.Face, -1)
		return g.begin(h, h.FaceAt(p.hit.Board, p.hit.Face, p.at))
	}
	return p
}
