package ui

import (
	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/say"
)

// stretches strokes the lines between marks through to, as the lens bows them,
// in a colour of their own.
func (p *facePicker) stretches(r *render.Raster, to func(geom.Point) geom.Point, width float64) {
	t := p.c.tape
	if !t.on {
		return
	}
	l := photo.LensOf(int(p.view.pic.X), int(p.view.pic.Y), p.c.lie.bow)
	for i := 0; i+1 < len(t.marks); i += 2 {
		line := bowedEdge(l, t.marks[i], t.marks[i+1])
		for k := range line {
			line[k] = to(line[k])
		}
		two(r, render.Polyline(line...), width, hex(0x7FE0FF))
	}
}

// tapeMarks are the marks of the stretches and their distances, over the
// picture.
type tapeMarks struct {
	marks [4]*cornerMark
	told  [2]*cornerMark // only the plate of it
}

func newTapeMarks() *tapeMarks {
	m := &tapeMarks{}
	for i := range m.marks {
		m.marks[i] = newCornerMark()
	}
	for i := range m.told {
		m.told[i] = newCornerMark()
	}
	return m
}

func (m *tapeMarks) list() []*cornerMark { return append(m.marks[:], m.told[:]...) }

// place lays the marks where they are in the view.
func (m *tapeMarks) place(p *facePicker) {
	t, room := p.c.tape, p.view.room
	board := p.view.toRoom(middleOf(p.c.lie.at))
	for i, mark := range m.marks {
		if !t.on || i >= len(t.marks) || p.small == nil {
			mark.show(false)
			continue
		}
		at := p.view.toRoom(t.marks[i])
		mark.place(at, room, itoa(i+1), i == t.hand)
		if mark.text.Visible() { // the figures of the tape stay free
			mark.outside(at, board, room)
		}
	}
	for k, told := range m.told {
		told.show(false)
		if !t.on || len(t.marks) < 2*k+2 || p.small == nil {
			continue
		}
		at := p.view.toRoom(t.marks[2*k].Lerp(t.marks[2*k+1], 0.5))
		text := say.T("distance?")
		if v := t.told[k]; v.known {
			text = p.c.p.w.ses.Len(v.distance)
		}
		told.place(at, room, text, false)
		told.dark.Hide()
		told.light.Hide()
		if told.text.Visible() {
			told.beside(at, p.view.toRoom(t.marks[2*k+1]).Sub(p.view.toRoom(t.marks[2*k])), board, room)
		}
	}
}

// move lays the plate with its text at a place, within the room.
func (m *cornerMark) move(x, y float64, room geom.Point) {
	size := m.text.Size()
	x = max(min(x, room.X-float64(size.Width)-6), 6)
	y = max(min(y, room.Y-float64(size.Height)-4), 4)
	m.text.Move(position(geom.Pt(x, y)))
	m.plate.Move(position(geom.Pt(x-5, y-2)))
}

// beside lays the plate of a distance beside the middle of its stretch, clear
// of the line and on the side away from the board.
func (m *cornerMark) beside(at, along, board, room geom.Point) {
	const away = 12
	w, h := float64(m.text.Size().Width), float64(m.text.Size().Height)
	if max(along.X, -along.X) >= max(along.Y, -along.Y) {
		y := at.Y - away - h
		if at.Y > board.Y {
			y = at.Y + away
		}
		m.move(at.X-w/2, y, room)
		return
	}
	x := at.X - away - w
	if at.X > board.X {
		x = at.X + away
	}
	m.move(x, at.Y-h/2, room)
}
