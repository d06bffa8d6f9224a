package sheet

import (
	"fmt"
	"math"
	"strings"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Where things stand along a strip, as shares of its length. The middle width
// stands at a half and the triangle at triangleAt; a number up to numberMost
// long meets neither.
const (
	arrowAt    = 0.12
	fenceAt    = 0.21
	numberAt   = 0.355
	numberMost = 0.20
	captionTo  = 0.72
	triangleAt = 0.80
	warnedAt   = 0.91
)

// rowInset is how far from an end its width stands, clear of the marked end's
// bar, mm.
const rowInset = barWidth + 1.2

// marks writes what stands on a strip: its number, which side is up, the
// planing arrow and the widths along its edges.
func (d *panelDrawing) marks(i int) {
	r := d.rect(gluedRect(d.p, i)).Inset(0.3)
	s := &d.p.Strips[i]
	mid := r
	if d.edges && s.Board != nil {
		upper, lower := d.widths(i)
		d.edgeRow(r, r.Min.Y+tightRow, upper, say.T("in"))
		d.edgeRow(r, r.Max.Y-0.9, lower, say.T("out"))
		mid.Min.Y, mid.Max.Y = r.Min.Y+tightRow+0.4, r.Max.Y-tightRow-0.4
	}
	end := d.number(i, r)
	if s.Board == nil {
		d.emptyCaption(s, mid, end)
		return
	}
	if d.back {
		d.backCaption(s, mid, end)
		return
	}
	d.warned(i, mid)
	if dir := s.Planing(); dir != 0 && mid.H() >= 2.4 {
		d.planes(mid, dir)
	}
	d.caption(i, mid, end)
}

// edgeRow writes the widths along one edge with the way its edge is run.
func (d *panelDrawing) edgeRow(r geom.Rect, base float64, w face.Widths, fence string) {
	st := style(least)
	in := float64(rowInset)
	d.k.plate(r.Min.X+in, base, d.b.say.width(w[0]), st)
	d.k.plate(r.Centre().X, base, d.b.say.width(w[1]), aligned(st, render.Middle))
	d.k.plate(r.Max.X-in, base, d.b.say.width(w[2]), aligned(st, render.Right))
	if d.back {
		return
	}
	d.k.plate(r.Min.X+r.W()*fenceAt, base, fence, aligned(boldStyle(least), render.Middle))
}

// number writes the strip's number, 8 mm high, and returns where it ends.
func (d *panelDrawing) number(i int, room geom.Rect) float64 {
	f := d.b.f
	cx := room.Min.X + room.W()*numberAt
	if d.plan.sides > 0 {
		return room.Min.X + room.W()*fenceAt + d.fenceWidth()/2
	}
	most := room.W() * numberMost
	if d.edges {
		most = d.numberRoom(i, room.W())
	}
	st, _ := numberIn(f, d.v.numbers[i], boldStyle(bigNumber), most)
	st.Align = render.Middle
	box := textBox(f, 0, 0, d.v.numbers[i], st)
	d.k.plate(cx, room.Centre().Y-box.Centre().Y, d.v.numbers[i], st)
	return cx + f.Width(d.v.numbers[i], st)/2
}

// planes draws the planing arrow at the left of the number.
func (d *panelDrawing) planes(room geom.Rect, dir int) {
	x, l := room.Min.X+room.W()*arrowAt, math.Min(14, room.W()*0.1)
	y := room.Centre().Y
	d.k.fill(render.Box(geom.R(x-l/2-0.6, y-1.4, x+l/2+0.6, y+1.4)), white)
	if dir > 0 {
		d.k.arrow(x-l/2, x+l/2, y)
	} else {
		d.k.arrow(x+l/2, x-l/2, y)
	}
}

// caption writes side and widths between the number and the triangle, in two
// lines, in one, or not at all where there is no room: the table has them.
func (d *panelDrawing) caption(i int, room geom.Rect, after float64) {
	s := &d.p.Strips[i]
	f, st := d.b.f, style(least)
	_, blank := blankSize(d.b.in.Project.Allowances, s)
	fin := d.v.finished[i]
	lines := []string{sideUp(s), say.F("finished %s, sawn %s", d.b.say.bare(fin), d.b.say.bare(blank))}
	x := after + 3
	most := room.Min.X + room.W()*captionTo - x
	h := line * least
	switch {
	case room.H() >= h+f.CapHeight(st)+0.8 && f.Width(lines[0], st) <= most && f.Width(lines[1], st) <= most:
		y := room.Centre().Y + f.CapHeight(st)/2
		d.k.plate(x, y-h/2, lines[0], st)
		d.k.plate(x, y+h/2, lines[1], st)
	case room.H() < f.CapHeight(st)+0.8:
	default:
		both := lines[0] + ", " + lines[1]
		if f.Width(both, st) > most {
			both = lines[0]
		}
		if f.Width(both, st) <= most {
			d.k.plate(x, room.Centre().Y+f.CapHeight(st)/2, both, st)
		}
	}
}

// backCaption names the face of the board that lies on the panel's back.
func (d *panelDrawing) backCaption(s *face.Strip, room geom.Rect, after float64) {
	st := style(least)
	t := say.Of(s.Board.SideName(3 - s.UpFace()))
	if room.H() >= d.b.f.CapHeight(st)+0.8 && d.b.f.Width(t, st) <= room.Min.X+room.W()*captionTo-after-3 {
		d.k.plate(after+3, room.Centre().Y+d.b.f.CapHeight(st)/2, t, st)
	}
}

// emptyCaption says that nothing is placed there yet.
func (d *panelDrawing) emptyCaption(s *face.Strip, room geom.Rect, after float64) {
	st := style(least)
	t := say.F("empty place, %s wide", d.b.say.bare(s.W))
	if room.H() >= d.b.f.CapHeight(st)+0.8 && d.b.f.Width(t, st) <= room.Min.X+room.W()*captionTo-after-3 {
		d.k.plate(after+3, room.Centre().Y+d.b.f.CapHeight(st)/2, t, st)
	}
}

// warned writes the numbers of the warnings whose fault is strip i, beyond the
// triangle; many are cut short, the text has them all.
func (d *panelDrawing) warned(i int, room geom.Rect) {
	st := aligned(boldStyle(least), render.Middle)
	t := ""
	for n, x := range d.v.Notes {
		if len(x.Strips) > 0 && x.Strips[0] == d.p.Strips[i].ID {
			t += fmt.Sprintf("!%d ", n+1)
		}
	}
	t = d.b.f.Fit(strings.TrimSpace(t), st, room.W()*0.08)
	if t != "" && room.H() >= d.b.f.CapHeight(st)+0.8 {
		d.k.plate(room.Min.X+room.W()*warnedAt, room.Centre().Y+d.b.f.CapHeight(st)/2, t, st)
	}
}
