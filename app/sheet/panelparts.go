package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Parts of a panel that is too long or has too many strips for one page.
const (
	longPanel = 2600.0 // mm: parts are printed of any panel longer than that; an engineering choice
	partEdge  = 8.5    // free round a part, for names and match marks, mm
	mostParts = 6      // more paper than that helps nobody: the table has all widths
)

// long reports whether a panel is drawn in parts for its length.
func (b *builder) long(v *view) bool {
	return len(v.Panel.Panel.Strips) > 0 && v.Panel.Panel.Length > longPanel
}

// panelPart is one part of a panel's drawing.
type panelPart struct {
	b           *builder
	k           *ink
	v           *view
	win         geom.Rect // of the panel
	first, last int       // strips
	col, cols   int
	row, rows   int
	m           geom.Affine
	frame       geom.Rect
}

// panelParts draws a panel over several pages, so large that every strip holds
// its number 8 mm high and the widths along its edges, with match marks.
func (b *builder) panelParts(v *view) {
	p := v.Panel.Panel
	ext := extent(p)
	b.open(true, header{title: say.F("Panel %s, parts", p.ID)}, b.partMarks())
	w, high := b.area.W()-2*partEdge, b.left()-2*partEdge
	b.drop()
	s := 0.0
	for i := range p.Strips {
		s = math.Max(s, math.Min((b.stripFor(v.numbers[i])+0.4)/p.Strips[i].W, 1))
	}
	rows := partRows(p, s, high)
	cols := max(1, int(math.Ceil(ext.W()*s/w-1e-9)))
	most := mostParts
	if b.long(v) {
		most = 2 * mostParts
	}
	if n := cols * len(rows); n < 2 || n > most {
		return
	}
	s = math.Min(s*1.6, math.Min(float64(cols)*w/ext.W(), rowScale(p, rows, high)))
	n := 0
	for r, row := range rows {
		for c := range cols {
			n++
			win := geom.R(ext.Min.X+ext.W()*float64(c)/float64(cols), p.StripY(row[0]), ext.Min.X+ext.W()*float64(c+1)/float64(cols), p.StripY(row[1])+p.Strips[row[1]].W)
			b.open(true, header{title: say.F("Panel %s, part %d of %d", p.ID, n, cols*len(rows))}, b.partMarks())
			d := &panelPart{b: b, k: b.k(), v: v, win: win, first: row[0], last: row[1], col: c, cols: cols, row: r, rows: len(rows)}
			x, y := b.area.Min.X+partEdge+(w-win.W()*s)/2, b.area.Min.Y+partEdge
			d.m = geom.Affine{A: s, C: x - win.Min.X*s, E: -s, F: y + win.Max.Y*s}
			d.frame = geom.R(x, y, x+win.W()*s, y+win.H()*s)
			b.page.ratio = 1 / s
			d.draw()
		}
	}
}

func (b *builder) partMarks() []mark {
	list := append(woodMarks(), lineMark(0.5, say.T("finished outline"), 2.2, 1), wordMark("a", say.T("match mark: lay a on a")),
		wordMark(say.T("in"), say.T("show face to the fence")), wordMark("22", say.T("sapwood from that edge")))
	return append(append(list, headMarks()...), b.scaleMarks()...)
}

// partRows parts the strips, front to back, so that those of each row go into
// high mm.
func partRows(p *face.Panel, s, high float64) [][2]int {
	n := len(p.Strips)
	count := max(1, int(math.Ceil(p.StripsWidth()*s/high-1e-9)))
	for ; count <= n; count++ {
		var out [][2]int
		ok := true
		for r := range count {
			from, to := r*n/count, (r+1)*n/count-1
			var w float64
			for i := from; i <= to; i++ {
				w += p.Strips[i].W
			}
			ok = ok && w*s <= high
			out = append(out, [2]int{from, to})
		}
		if ok {
			return out
		}
	}
	return nil
}

// rowScale is the largest scale at which each row goes into high mm.
func rowScale(p *face.Panel, rows [][2]int, high float64) float64 {
	s := math.Inf(1)
	for _, r := range rows {
		s = math.Min(s, high/(p.StripY(r[1])+p.Strips[r[1]].W-p.StripY(r[0])))
	}
	return s
}

func (d *panelPart) draw() {
	for i := d.first; i <= d.last; i++ {
		d.strip(i)
	}
	d.k.inside(render.Box(d.frame), func() {
		out := render.Ring(d.m.ApplyTo(d.v.Panel.Panel.Outline()))
		d.k.stroke(out, 1.1, white)
		d.k.stroke(out, 0.5, black, 2.2, 1)
	})
	for i := d.first; i <= d.last; i++ {
		d.marks(i)
	}
	d.names()
	d.matches()
}

// shown is where strip i lies on the page, and whether its ends are there.
func (d *panelPart) shown(i int) (r geom.Rect, left, right bool) {
	own := gluedRect(d.v.Panel.Panel, i)
	in := own.Intersect(d.win)
	if in.Empty() {
		return geom.Rect{}, false, false
	}
	return d.m.ApplyTo(in.Polygon()).Bounds(), own.Min.X >= d.win.Min.X-0.01, own.Max.X <= d.win.Max.X+0.01
}

func (d *panelPart) strip(i int) {
	r, left, right := d.shown(i)
	s := &d.v.Panel.Panel.Strips[i]
	if r.Empty() {
		return
	}
	if s.Board == nil {
		d.k.stroke(render.Box(r), 0.2, mid, 1.5, 1)
		return
	}
	d.k.inside(render.Box(r), func() {
		d.k.wood(render.Box(r), face.Flaw, false)
		list := shownRegions(d.v.fin, i, face.Show)
		for n := range list {
			list[n].poly = d.m.ApplyTo(list[n].poly)
		}
		paint(d.k, list, false)
	})
	d.k.stroke(render.Box(r), 0.3, black)
	switch {
	case left && !s.Turned:
		d.k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1)
	case right && s.Turned:
		d.k.endBar(r.Max.X, r.Min.Y, r.Max.Y, -1)
	}
}

// marks writes the number, the widths that are measured here, which edge is run
// with the face in, and which side is up.
func (d *panelPart) marks(i int) {
	r, left, right := d.shown(i)
	r = r.Inset(0.3)
	f, s := d.b.f, &d.v.Panel.Panel.Strips[i]
	if r.Empty() || r.W() < 12 {
		return
	}
	var taken []geom.Rect
	put := func(x, y float64, t string, st render.Style) {
		box := textBox(f, x, y, t, st).Inset(-0.5)
		if box.Min.X < r.Min.X || box.Max.X > r.Max.X || box.Min.Y < r.Min.Y-0.8 || box.Max.Y > r.Max.Y+0.8 || touches(box, taken) {
			return
		}
		taken = append(taken, box)
		d.k.plate(x, y, t, st)
	}
	st, _ := numberIn(f, d.v.numbers[i], boldStyle(bigNumber), 0.5*r.W())
	st.Align = render.Middle
	put(r.Min.X+r.W()*numberAt, r.Centre().Y-textBox(f, 0, 0, d.v.numbers[i], st).Centre().Y, d.v.numbers[i], st)
	if s.Board == nil {
		put(r.Min.X+r.W()*0.7, r.Centre().Y+1, say.T("empty place"), aligned(style(least), render.Middle))
		return
	}
	own := d.m.ApplyTo(gluedRect(d.v.Panel.Panel, i).Polygon()).Bounds()
	sap := &d.v.sap[i]
	for _, e := range [...]struct {
		base  float64
		w     face.Widths
		fence string
	}{{r.Min.Y + tightRow, sap.rear, say.T("in")}, {r.Max.Y - 0.9, sap.front, say.T("out")}} {
		if left {
			put(r.Min.X+rowInset, e.base, d.b.say.width(e.w[0]), style(least))
		}
		if right {
			put(r.Max.X-rowInset, e.base, d.b.say.width(e.w[2]), aligned(style(least), render.Right))
		}
		if x := own.Centre().X; x > r.Min.X-0.5 && x < r.Max.X+0.5 {
			x = clampTo(x, r.Min.X+5, r.Max.X-5)
			put(x, e.base, d.b.say.width(e.w[1]), aligned(style(least), render.Middle))
		}
		put(r.Min.X+r.W()*0.6, e.base, e.fence, aligned(boldStyle(least), render.Middle))
	}
	put(r.Min.X+r.W()*0.75, r.Centre().Y+f.CapHeight(style(least))/2, sideUp(s), aligned(style(least), render.Middle))
}

// names are those of the edges and ends of the panel that lie on this part.
func (d *panelPart) names() {
	st := aligned(boldStyle(body), render.Middle)
	n, f, c := d.v.names, d.frame, d.b.f.CapHeight(boldStyle(body))
	if d.row == d.rows-1 {
		d.k.text(f.Centre().X, f.Min.Y-4.6, n.back.Word, st)
	}
	if d.row == 0 {
		d.k.text(f.Centre().X, f.Max.Y+4.6+c, n.front.Word, st)
	}
	st.Turn = 90
	if d.col == 0 {
		d.k.text(f.Min.X-3, f.Centre().Y, n.left.Word, st)
	}
	if d.col == d.cols-1 {
		d.k.text(f.Max.X+3+c, f.Centre().Y, n.right.Word, st)
	}
}

// matches marks the sides where parts are joined: small letters along the
// panel, capitals across it.
func (d *panelPart) matches() {
	f, c := d.frame, d.b.f.CapHeight(boldStyle(body))
	half := func(x, y, dx, dy float64) {
		d.k.fill(render.Ring(geom.Polygon{{X: x + 2.5*dy, Y: y + 2.5*dx}, {X: x + 2.5*dx, Y: y + 2.5*dy}, {X: x - 2.5*dy, Y: y - 2.5*dx}}), black)
	}
	letter := func(x, y float64, t string) {
		d.k.text(x, y+c/2, t, aligned(boldStyle(body), render.Middle))
	}
	for _, y := range [...]float64{f.Min.Y + f.H()*0.25, f.Min.Y + f.H()*0.75} {
		if d.col > 0 {
			half(f.Min.X, y, -1, 0)
			letter(f.Min.X-5.2, y, string(rune('a'+d.col-1)))
		}
		if d.col+1 < d.cols {
			half(f.Max.X, y, 1, 0)
			letter(f.Max.X+5.2, y, string(rune('a'+d.col)))
		}
	}
	for _, x := range [...]float64{f.Min.X + f.W()*0.25, f.Min.X + f.W()*0.75} {
		if d.row > 0 { // the part before lies in front
			half(x, f.Max.Y, 0, 1)
			letter(x, f.Max.Y+5.2, string(rune('A'+d.row-1)))
		}
		if d.row+1 < d.rows {
			half(x, f.Min.Y, 0, -1)
			letter(x, f.Min.Y-5.2, string(rune('A'+d.row)))
		}
	}
}
