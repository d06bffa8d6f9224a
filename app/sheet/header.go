package sheet

import (
	"strings"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// header says what a page is about.
type header struct {
	title string   // "Panel top"
	facts []string // one after the other, broken between facts
	boxes []string // names of empty boxes to write in
}

// numberRoom is kept free at the top right for "12 of 12".
const numberRoom = 17

// drawHeader writes the top of a page and returns where the rest may begin.
// Further pages of a subject say so and leave out the facts.
func (b *builder) drawHeader(again bool) float64 {
	k, left, right := b.k(), b.area.Min.X, b.area.Max.X
	st := boldStyle(title)
	y := b.area.Min.Y + b.f.CapHeight(st)

	small := style(least)
	date := b.in.Date
	if date == "" {
		date = say.T("Date ____________")
	}
	stamp := say.F("%s   Code %s", date, b.code)
	x := right - numberRoom
	stampW := b.f.Width(stamp, small)
	k.text(x, b.area.Min.Y+b.f.CapHeight(small), stamp, aligned(small, render.Right))

	name := b.head.title
	if again {
		name += say.T(", continued")
	}
	room := x - stampW - 5 - left
	s, fitted := fit(b.f, name, st, room*0.6)
	k.text(left, y, s, fitted)
	job := style(heading)
	after := left + b.f.Width(s, fitted) + 4
	s, job = fit(b.f, b.job(), job, left+room-after)
	k.text(after, y, s, job)
	y += 2.6
	k.line(left, y, right, y, 0.35, black)
	if again {
		return y + 3
	}
	boxes, room := b.boxRoom()
	foot := b.drawFacts(y+1.2, b.area.W()-room) + 0.8
	return max(foot, b.drawBoxes(y+1.6, boxes)) + 2
}

// drawFacts sets the facts in lines of w mm that break between facts where
// they can.
func (b *builder) drawFacts(y, w float64) float64 {
	st := style(body)
	const sep = "   ·   "
	var lines []string
	cur := ""
	for _, f := range b.head.facts {
		if cur != "" && b.f.Width(cur+sep+f, st) <= w {
			cur += sep + f
			continue
		}
		if cur != "" {
			lines = append(lines, cur)
		}
		cur = f
	}
	if cur != "" {
		lines = append(lines, cur)
	}
	for _, l := range lines {
		for _, part := range b.f.Wrap(l, st, w) {
			y += line * body
			b.k().text(b.area.Min.X, y-0.3*body, fitGaps(b.f, keepGaps(part, sep), st, w), st)
		}
	}
	return y
}

// fitGaps closes wide gaps again where they make a line too long.
func fitGaps(f *render.Faces, s string, st render.Style, w float64) string {
	if f.Width(s, st) <= w {
		return s
	}
	return strings.Join(strings.Fields(s), " ")
}

// keepGaps gives back the wide gaps that wrapping closed.
func keepGaps(s, sep string) string {
	return strings.ReplaceAll(s, " · ", sep)
}

// The boxes to write in, mm.
const boxHigh, boxWide = 5.2, 16.0

// boxRoom returns the widths of the boxes with their names, and the room they
// take at the right of the facts.
func (b *builder) boxRoom() (w []float64, room float64) {
	for _, name := range b.head.boxes {
		w = append(w, b.f.Width(name, style(body))+1.5+boxWide)
		room += w[len(w)-1] + 4
	}
	return w, room
}

// drawBoxes draws the boxes to write in, at the right.
func (b *builder) drawBoxes(y float64, w []float64) float64 {
	st := style(body)
	x := b.area.Max.X
	for i := len(w) - 1; i >= 0; i-- {
		b.k().stroke(render.Box(geom.R(x-boxWide, y, x, y+boxHigh)), 0.25, black)
		x -= w[i]
		b.k().text(x, y+boxHigh/2+b.f.CapHeight(st)/2, b.head.boxes[i], st)
		x -= 4
	}
	if len(w) == 0 {
		return y
	}
	return y + boxHigh
}
