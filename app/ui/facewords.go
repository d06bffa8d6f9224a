package ui

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
	"heartside/model/unit"
)

// labelWords names a kind of wood in a mask.
func labelWords(l photo.Label) string {
	switch l {
	case photo.Sap:
		return say.T("sapwood")
	case photo.Heart:
		return say.T("heartwood")
	case photo.Flaw:
		return say.T("flaw")
	case photo.Outside:
		return say.T("no wood")
	}
	return say.T("not sure")
}

// cornerTrust is how sure a corner is.
type cornerTrust struct {
	known bool
	mine  bool // the maker set it
	sure  float64
}

// words are the sign and the word for a corner.
func (t cornerTrust) words() string {
	switch {
	case t.mine:
		return say.T("✓ set by you")
	case !t.known:
		return say.T("○ not judged")
	case t.sure < unsure:
		return say.T("⚠ look")
	}
	return say.T("✓ sure")
}

func (t cornerTrust) doubtful() bool { return t.known && !t.mine && t.sure < unsure }

// sideWords says on which side of a picture a point lies from another, y down.
func sideWords(from, to geom.Point) string {
	d := to.Sub(from)
	if math.Abs(d.X) >= math.Abs(d.Y) {
		if d.X < 0 {
			return say.T("left")
		}
		return say.T("right")
	}
	if d.Y < 0 {
		return say.T("at the top")
	}
	return say.T("at the bottom")
}

// lieWords says which end and edge of the board lie where in the picture.
func lieWords(face int, c []geom.Point) string {
	if len(c) != 4 {
		return say.F("One picture cannot tell which end is the marked one: set corner 1 at %s, then go round anticlockwise.", cornerNames(face)[0])
	}
	mid := func(i, j int) geom.Point { return c[i].Lerp(c[j], 0.5) }
	markedEnd, otherEnd := mid(0, 3), mid(1, 2)
	low, high := mid(0, 1), mid(2, 3)
	edge := sideWords(high, low)
	if face == 2 {
		edge = sideWords(low, high)
	}
	return say.F("In this picture the marked end is %s and the marked edge %s. One picture cannot tell: if the chalk mark is at the other end, turn it. If only the edge is wrong, the picture shows face %s.", sideWords(otherEnd, markedEnd), edge, itoa(3-face))
}

// bend is how far the bow of the lens takes an edge from straight, pixels.
func bend(l photo.Lens, a, b geom.Point) float64 {
	sa, sb := l.Straight(a), l.Straight(b)
	most := 0.0
	for i := 1; i < 8; i++ {
		p := l.Bowed(sa.Lerp(sb, float64(i)/8))
		at, _ := geom.NearestOnSegment(p, a, b)
		most = max(most, p.Dist(at))
	}
	return most
}

// bowedEdge is an edge of the board as the lens shows it.
func bowedEdge(l photo.Lens, a, b geom.Point) []geom.Point {
	if l.Bow == 0 {
		return []geom.Point{a, b}
	}
	const parts = 24
	sa, sb := l.Straight(a), l.Straight(b)
	out := make([]geom.Point, parts+1)
	for i := range out {
		out[i] = l.Bowed(sa.Lerp(sb, float64(i)/parts))
	}
	out[0], out[parts] = a, b
	return out
}

// edgeWords tell how well the edges lie, and what the lens does to them.
func (w *Window) edgeWords(lie *faceLie, wide, high int, length, width float64) string {
	if lie.waney {
		return ""
	}
	text := say.T("How well the edges lie is not measured here; Snap edges measures it.")
	if lie.measured {
		text = say.F("Edges within %s of straight.", fineLen(w, math.Ceil(10*lie.residual)/10))
	}
	if len(lie.at) != 4 {
		return text
	}
	l := photo.LensOf(wide, high, lie.bow)
	most := 0.0
	for i := range 4 {
		j := (i + 1) % 4
		mm := []float64{length, width}[i%2] / max(lie.at[i].Dist(lie.at[j]), 1)
		most = max(most, bend(l, lie.at[i], lie.at[j])*mm)
	}
	if most < 0.05 {
		return say.F("%s The lens bends them by nothing that counts.", text)
	}
	return say.F("%s The lens bends them by up to %s: taken out.", text, fineLen(w, most))
}

// fineLen is a small length: tenths of a mm, or the project's units.
func fineLen(w *Window, mm float64) string {
	if w.ses.Units() == unit.Inch {
		return say.F("%.3f in", mm/unit.InchMM)
	}
	return say.F("%.1f mm", mm)
}

// shareLine is a share with one decimal.
func shareLine(v float64) string { return say.Print("%.1f %%", 100*v) }
