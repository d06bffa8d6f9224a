package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// boardDrawing is one face of a board on the page.
type boardDrawing struct {
	b      *builder
	k      *ink
	bd     *face.Board
	f      int         // 1 or 2
	m      geom.Affine // the face's own mm to page mm
	frame  geom.Rect
	taken  []geom.Rect  // where numbers stand
	plates []platedText // numbers to be written over the lines
}

// platedText is text that stands on a white ground.
type platedText struct {
	at geom.Point
	s  string
	st render.Style
}

// flush writes the numbers kept back.
func (d *boardDrawing) flush() {
	for _, p := range d.plates {
		d.k.plate(p.at.X, p.at.Y, p.s, p.st)
	}
	d.plates = nil
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
	b.page.ratio = 1 / s
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

// smallestBoard is the part of the page's width below which a board is not drawn
// for the sake of having all on one page.
const smallestBoard = 0.5

// boardHeight is how high both faces are drawn in a part of the page's width.
func (b *builder) boardHeight(bd *face.Board, parts []place, of float64) float64 {
	over := overhang(b.in, bd, parts)
	s := of * math.Min((b.area.W()-nameRoom-lineOver)/over.W(), 1)
	high := 2*(over.H()*s+lineH+underFace) + cutRow
	var under []string
	for _, p := range parts {
		if p.strip.W*s < numberStrip(b.f) {
			under = append(under, p.number)
		}
	}
	if len(under) > 0 {
		high += b.planUnder(under).high
	}
	return high
}

// boardInside is how high both faces are drawn so that all parts hold their
// numbers 8 mm high; +Inf where they do not in the page's width, or not even in
// most of its height.
func (b *builder) boardInside(bd *face.Board, parts []place) float64 {
	over := overhang(b.in, bd, parts)
	s := 0.0
	for _, p := range parts {
		s = math.Max(s, (numberStrip(b.f)+0.2)/p.strip.W)
		if _, w := numberIn(b.f, p.number, boldStyle(bigNumber), 0.55*p.strip.L*s); w > 0.8*p.strip.L*s {
			return math.Inf(1)
		}
	}
	high := 2*(over.H()*s+lineH+underFace) + cutRow
	if s > 1 || s*over.W() > b.area.W()-nameRoom-lineOver || high > 0.6*b.left() {
		return math.Inf(1)
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
	edge := say.T(": marked edge at the foot")
	if f == 2 {
		edge = say.T(", rolled over: marked edge at the top")
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
	end := y + over.H()*s
	if f == 2 {
		d.flush()
	} else {
		d.line(l)
		if len(outside) > 0 && !d.numbersBeside(outside, y, end+underFace) {
			end = d.numbersUnder(outside, end)
		}
		d.flush()
		d.cutNumbers(cuts, l, y)
	}
	b.area.Min.Y = end + underFace
}

func (d *boardDrawing) wood() {
	list := regionsOf(d.bd, d.f, d.m)
	paint(d.k, list, true)
	d.k.stroke(render.Ring(list[0].poly), 0.3, black)
	d.gone()
	end := d.m.Apply(geom.Pt(d.bd.Cut[0], 0)).X
	d.k.endBar(end, d.frame.Min.Y, d.frame.Max.Y, -1)
	st := aligned(style(least), render.Middle)
	st.Turn = 90
	if d.b.f.Width(say.T("marked end"), st) <= d.frame.H() {
		d.k.text(d.frame.Min.X-barWidth-1.2, d.frame.Centre().Y, say.T("marked end"), st)
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
	smallest := least
	if d.f == 1 {
		smallest = st.Size // rather beside the face than smaller
	}
	for ; ok && st.Size >= smallest-1e-9; st.Size *= 0.7 {
		for _, t := range spots {
			c := m.Apply(p.strip.ToBoard().Apply(geom.Pt(p.strip.L*t, p.strip.W/2)))
			y := c.Y + d.b.f.CapHeight(st)/2
			r := textBox(d.b.f, c.X, y, p.number, st).Inset(-0.6)
			if touches(r, d.taken) || !d.rows().Contains(r.Min) || !d.rows().Contains(r.Max) {
				continue
			}
			d.taken = append(d.taken, r)
			d.plates = append(d.plates, platedText{geom.Pt(c.X, y), p.number, st})
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

// numberStrip is how high a part is drawn at least where it holds a number 8 mm
// high.
func numberStrip(f *render.Faces) float64 { return f.CapHeight(boldStyle(bigNumber)) + 1.2 }

// numberStyle is the type a part's number is set in: 8 mm high where the part
// allows, and on face 2, where it is only repeated, smaller.
func (d *boardDrawing) numberStyle(p place) (render.Style, bool) {
	s := math.Abs(d.m.A)
	high, long := p.strip.W*s, p.strip.L*s
	st := aligned(boldStyle(bigNumber), render.Middle)
	st, w := numberIn(d.b.f, p.number, st, 0.55*long)
	if high >= numberStrip(d.b.f) && w <= 0.8*long {
		return st, true
	}
	if d.f == 1 {
		return st, false
	}
	one := aligned(boldStyle(1), render.Middle)
	st = aligned(boldStyle(bigNumber), render.Middle)
	st.Size = math.Min(st.Size, (high-1.2)/d.b.f.CapHeight(one))
	st.Size = math.Min(st.Size, long*0.5/math.Max(d.b.f.Width(p.number, one), 0.1))
	return st, st.Size >= least
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
	from, to := d.bd.Left()
	a, b := d.m.Apply(geom.Pt(from, l.y)), d.m.Apply(geom.Pt(to, l.y))
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
