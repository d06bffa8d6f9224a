package ui

import (
	"math"

	"heartside/app/tool"
	"heartside/layout/geom"
	"heartside/model/say"
)

// lie tells how a strip lies on its board, as a line of the status line and
// short, to stand beside it; "" where it lies on none. Distances are those of
// its nearest corner, as glued.
func (w *Window) lie(panel, strip string) (line, short string) {
	n := w.ses.Project().Panel(panel)
	if n == nil {
		return "", ""
	}
	s, ok := n.Strip(strip)
	if !ok || s.Empty() {
		return "", ""
	}
	ring := geom.Rotate(s.Angle).Then(geom.Translate(s.X, s.Y)).ApplyTo(geom.R(0, 0, s.L, s.W).Polygon())
	at := geom.Polygon(ring).Bounds().Min
	x, y, angle := w.ses.Len(at.X), w.ses.Len(at.Y), degreesOf(s.Angle)
	short = say.F("%s from marked end  ·  %s from marked edge  ·  %s", x, y, angle)
	line = say.F("Strip %s on board %s: %s from the marked end, %s from the marked edge, at %s.", w.ses.Number(panel, strip), s.Board, x, y, angle)
	return line, short
}

// degreesOf prints an angle to a tenth of a degree.
func degreesOf(a float64) string {
	a = math.Round(10*a) / 10
	if a == 0 {
		a = 0 // no minus before nothing
	}
	return say.Print("%.1f°", a)
}

// join puts two sentences together.
func join(a, b string) string {
	if a != "" && b != "" {
		return a + " " + b
	}
	return a + b
}

// tell shows how a strip moved by key lies, on its board and in the status
// line.
func (s *surface) tell(panel, strip string) {
	n := s.w.ses.Project().Panel(panel)
	if n == nil {
		return
	}
	m, _ := n.Strip(strip)
	line, short := s.w.lie(panel, strip)
	s.show.sketch, s.show.told = tool.Sketch{Board: m.Board, Carried: strip}, short
	if line != "" {
		s.w.say(line)
	}
	s.stale()
}

// untell ends what tell began.
func (s *surface) untell() {
	s.show.sketch, s.show.told = tool.Sketch{}, ""
	s.stale()
}
