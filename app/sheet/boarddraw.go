package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// boardDrawing is one face of a board on the page.
type boardDrawing struct {
	b     *builder
	k     *ink
	bd    *face.Board
	f     int         // 1 or 2
	m     geom.Affine // the face's own mm to page mm
	frame geom.Rect
	taken []geom.Rect // where numbers stand
}

// cutRow is the row above face 1 that holds the numbers of cross-cuts.
const cutRow = 4.4

// lineH is the height of the name of a face.
const lineH = line * body

// underFace is left free under a face, and lineOver beyond the board for the
// snapped line, mm.
const underFace, lineOver = 3.2, 2.0

// drawBoard draws both faces, one under the other, face 2 as seen after
// rolling the board over: marked end still left, marked edge at the top. They
// take at most high mm, but for the numbers of small parts.
func (b *builder) drawBoard(bd *face.Board, parts []place, l snapped, cuts []cut, high float64) {
	over := overhang(b.in, bd, parts)
	w := b.area.W() - nameRoom - lineOver
	each := (high-cutRow)/2 - lineH - underFace
	s := math.Min(math.Min(w/over.W(), each/over.H()), 1)
	for f := 1; f <= 2; f++ {
		b.drawFace(bd, f, s, over, parts, l, cuts)
	}
}

// drawBoardOver draws both faces and leaves rest mm of the page free: where the
// numbers of small parts stand under a face, the faces are drawn smaller.
func (b *builder) drawBoardOver(bd *face.Board, parts []place, l snapped, cuts []cut, rest float64) {
	high := b.left() - rest
	clean, area := b.page.ink, b.area
	b.drawBoard(bd, parts, l, cuts, high)
	if over := rest - b.left(); over > 0.01 {
		b.page.ink, b.area = clean, area
		b.drawBoard(bd, parts, l, cuts, high-over)
	}
}

// boardHeight is how high both faces are drawn in the page's whole width.
func (b *builder) boardHeight(bd *face.Board, parts []place) float64 {
	over := overhang(b.in, bd, parts)
	s := math.Min((b.area.W()-nameRoom-lineOver)/over.W(), 1)
	high := 2*(over.H()*s+lineH+underFace) + cutRow
	for _, p := range parts {
		if p.strip.W*s-1.8 < b.f.CapHeight(boldStyle(least)) {
			return high + 3 + labelH // for numbers under the face
		}
	}
	return high
}

// overhang holds the board and every blank, also one that runs off it.
func overhang(in *Input, bd *face.Board, parts []place) geom.Rect {
	r := geom.R(0, 0, bd.Length, bd.Width)
	for _, p := range parts {
		r = r.Union(blankOf(in.Project.Allowances, p.strip).Bounds())
	}
	return r
}

func (b *builder) drawFace(bd *face.Board, f int, s float64, over geom.Rect, parts []place, l snapped, cuts []cut) {
	if f == 2 {
		over = bd.Other().ApplyTo(over.Polygon()).Bounds()
	}
	st := boldStyle(body)
	edge := ": marked edge at the foot"
	if f == 2 {
		edge = ", rolled over: marked edge at the top"
	}
	y := b.area.Min.Y
	b.k().text(b.area.Min.X, y+b.f.CapHeight(st), faceName(bd, f)+edge, st)
	y += lineH
	if f == 1 {
		y += cutRow
	}
	x := b.area.Min.X + nameRoom
	d := &boardDrawing{b: b, k: b.k(), bd: bd, f: f}
	d.m = geom.Affine{A: s, C: x - over.Min.X*s, E: -s, F: y + over.Max.Y*s}
	d.frame = d.m.ApplyTo(geom.R(0, 0, bd.Length, bd.Width).Polygon()).Bounds()
	d.wood()
	outside := d.parts(parts)
	if f == 1 {
		d.line(l)
		d.cutNumbers(cuts, l, y)
	}
	end := y + over.H()*s
	if len(outside) > 0 && f == 1 {
		end = d.smallNumbers(outside, end)
	}
	b.area.Min.Y = end + underFace
}

func (d *boardDrawing) wood() {
	list := regionsOf(d.bd, d.f, d.m)
	paint(d.k, list, true)
	d.k.stroke(render.Ring(list[0].poly), 0.3, black)
	d.k.endBar(d.frame.Min.X, d.frame.Min.Y, d.frame.Max.Y, -1)
	st := aligned(style(least), render.Middle)
	st.Turn = 90
	if d.b.f.Width("marked end", st) <= d.frame.H() {
		d.k.text(d.frame.Min.X-barWidth-1.2, d.frame.Centre().Y, "marked end", st)
	}
}

// onFace maps face 1 coordinates to the page.
func (d *boardDrawing) onFace() geom.Affine {
	if d.f == 2 {
		return d.bd.Other().Then(d.m)
	}
	return d.m
}

// parts draws the strips and their blanks, numbered, and returns those that
// cannot hold their number.
func (d *boardDrawing) parts(parts []place) (outside []place) {
	m := d.onFace()
	for _, p := range parts {
		d.k.stroke(render.Ring(m.ApplyTo(blankOf(d.b.in.Project.Allowances, p.strip))), 0.25, black, 1.6, 1)
		s := p.strip
		rect := m.ApplyTo(s.ToBoard().ApplyTo(geom.R(0, 0, s.L, s.W).Polygon()))
		d.k.stroke(render.Ring(rect), 0.9, white)
		d.k.stroke(render.Ring(rect), 0.45, black)
	}
	for _, p := range parts {
		if !d.numberInside(p, m) {
			outside = append(outside, p)
		}
	}
	for _, p := range parts {
		d.solidSize(p, m)
	}
	return outside
}

// numberInside writes a part's number on it, clear of other numbers, and
// reports whether that went.
func (d *boardDrawing) numberInside(p place, m geom.Affine) bool {
	st, ok := d.numberStyle(p)
	spots := [...]float64{0.5, 0.35, 0.65, 0.2, 0.8}
	if p.part != nil {
		spots[0], spots[2] = 0.7, 0.5 // its size stands before it
	}
	for ; ok && st.Size >= least; st.Size *= 0.7 {
		for _, t := range spots {
			c := m.Apply(p.strip.ToBoard().Apply(geom.Pt(p.strip.L*t, p.strip.W/2)))
			y := c.Y + d.b.f.CapHeight(st)/2
			r := textBox(d.b.f, c.X, y, p.number, st).Inset(-0.6)
			if touches(r, d.taken) || !d.rows().Contains(r.Min) || !d.rows().Contains(r.Max) {
				continue
			}
			d.taken = append(d.taken, r)
			d.k.plate(c.X, y, p.number, st)
			return true
		}
	}
	return false
}

// rows is the page from the board's marked end to the margin: numbers stay
// there.
func (d *boardDrawing) rows() geom.Rect {
	return geom.R(d.frame.Min.X, 0, d.b.area.Max.X, d.b.page.H)
}

// numberStyle is the type a part's number is set in: 8 mm high where the part
// allows.
func (d *boardDrawing) numberStyle(p place) (render.Style, bool) {
	s := math.Abs(d.m.A)
	high, long := p.strip.W*s, p.strip.L*s
	st := aligned(boldStyle(bigNumber), render.Middle)
	one := aligned(boldStyle(1), render.Middle)
	st.Size = math.Min(st.Size, (high-1.8)/d.b.f.CapHeight(one))
	st.Size = math.Min(st.Size, long*0.5/math.Max(d.b.f.Width(p.number, one), 0.1))
	return st, st.Size >= least
}

// smallNumbers writes the numbers of small parts under the face, each with a
// leader, and returns where they end.
func (d *boardDrawing) smallNumbers(parts []place, foot float64) float64 {
	st := aligned(boldStyle(least), render.Middle)
	m := d.onFace()
	which := append([]place(nil), parts...)
	var from []geom.Point
	for _, p := range which {
		from = append(from, m.Apply(p.strip.ToBoard().Apply(geom.Pt(p.strip.L/2, p.strip.W/2))))
	}
	sortByX(which, from)
	var at []float64
	w := 0.0
	for i := range which {
		at = append(at, from[i].X)
		w = math.Max(w, d.b.f.Width(which[i].number, st)+1.5)
	}
	room := d.b.area.Max.X - d.b.area.Min.X
	rows := max(1, int(math.Ceil(float64(len(which))*w/room)))
	for row := 0; row < rows; row++ {
		var mine []int
		var want []float64
		for i := row; i < len(which); i += rows {
			mine, want = append(mine, i), append(want, at[i])
		}
		spots, ok := spread(want, w, d.b.area.Min.X, d.b.area.Max.X)
		if !ok {
			continue
		}
		y := foot + 3 + float64(row)*labelH
		for k, i := range mine {
			if row == 0 {
				d.k.stroke(render.Polyline(from[i], geom.Pt(spots[k], y-0.4)), 0.2, black)
			}
			d.k.text(spots[k], y+d.b.f.CapHeight(st), which[i].number, st)
		}
	}
	return foot + 3 + float64(rows)*labelH
}

func sortByX(list []place, at []geom.Point) {
	for i := 1; i < len(list); i++ {
		for k := i; k > 0 && at[k].X < at[k-1].X; k-- {
			list[k], list[k-1] = list[k-1], list[k]
			at[k], at[k-1] = at[k-1], at[k]
		}
	}
}

// line draws the snapped line from end to end.
func (d *boardDrawing) line(l snapped) {
	a, b := d.m.Apply(geom.Pt(0, l.y)), d.m.Apply(geom.Pt(d.bd.Length, l.y))
	d.k.line(a.X, a.Y, b.X+lineOver, b.Y, 0.9, white)
	d.k.line(a.X, a.Y, b.X+lineOver, b.Y, 0.35, black, 4, 1, 0.8, 1)
}

func touches(r geom.Rect, list []geom.Rect) bool {
	for _, q := range list {
		if !r.Intersect(q).Empty() {
			return true
		}
	}
	return false
}
