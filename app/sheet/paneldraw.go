package sheet

import (
	"fmt"
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Room round a drawing, mm: for the name of an edge, and for a leader from a
// strip to its number.
const (
	nameRoom   = 5.2
	leaderRoom = 6.0
	labelH     = 3.7 // from one label in a gutter to the next
	tightRow   = 3.3 // a row of widths within a strip
)

// bigNumber is the size of type whose figures are 8 mm high, which is what is
// read from 1.5 m.
const bigNumber = 11.0

// panelDrawing is the drawing of one panel.
type panelDrawing struct {
	b     *builder
	k     *ink
	v     *view
	p     *face.Panel
	m     geom.Affine // panel mm to page mm
	scale float64
	frame geom.Rect // the strips and the finished panel, on the page
	edges bool      // widths stand along the strips' edges
	plan  panelPlan
	back  bool // drawn as seen on the back, after rolling the panel over
}

// drawPanel draws the panel in the page's width and at most high mm, from the
// show side or, rolled over, from the back.
func (b *builder) drawPanel(v *view, high float64, back bool) {
	p := v.Panel.Panel
	ext := extent(p)
	if ext.Empty() {
		return
	}
	var labels []string
	if !back {
		labels = b.jointLabels(v)
	}
	pl := b.planPanel(v, labels, b.area.W(), high)
	s := pl.scale
	x0 := b.area.Min.X + pl.left + (b.area.W()-pl.left-pl.right-ext.W()*s)/2
	y0 := b.area.Min.Y + (pl.high-ext.H()*s)/2
	d := &panelDrawing{b: b, k: b.k(), v: v, p: p, scale: s, plan: pl, back: back}
	d.m = geom.Affine{A: s, C: x0 - ext.Min.X*s, E: -s, F: y0 + ext.Max.Y*s}
	if back {
		d.m.E, d.m.F = s, y0-ext.Min.Y*s
	}
	d.frame = geom.R(x0, y0, x0+ext.W()*s, y0+ext.H()*s)
	d.edges = d.roomForEdges()
	b.page.ratio = 1 / s
	d.draw(pl.labels)
	v.crowded = v.crowded || !d.edges && !back
	b.area.Min.Y += pl.high + 1.5
}

func minStrip(p *face.Panel) float64 {
	m := math.Inf(1)
	for i := range p.Strips {
		m = math.Min(m, p.Strips[i].W)
	}
	return m
}

func widest(f *render.Faces, list []string, st render.Style) float64 {
	var w float64
	for _, s := range list {
		w = math.Max(w, f.Width(s, st))
	}
	return w
}

// jointLabels are the names of the joints in the gutter.
func (b *builder) jointLabels(v *view) []string {
	var out []string
	for _, j := range v.Reading.Joints {
		out = append(out, fmt.Sprintf("%d  %s", j.I+1, jointKind(j.Kind)))
	}
	return out
}

// rect maps a rectangle of the panel to the page.
func (d *panelDrawing) rect(r geom.Rect) geom.Rect {
	return d.m.ApplyTo(r.Polygon()).Bounds()
}

// roomForEdges reports whether every placed strip is high and long enough for
// a row of widths along each edge and its number between them.
func (d *panelDrawing) roomForEdges() bool {
	f := d.b.f
	for i := range d.p.Strips {
		s := &d.p.Strips[i]
		if s.Board == nil {
			continue
		}
		if s.W*d.scale < 2*tightRow+1.2 || d.plan.sides == 0 && s.W*d.scale < d.b.stripFor(d.v.numbers[i]) {
			return false
		}
		long := s.L*d.scale - 0.6
		upper, lower := d.widths(i)
		for _, w := range [...]face.Widths{upper, lower} {
			if !d.edgeFits(long, w) {
				return false
			}
		}
		if _, w := numberIn(f, d.v.numbers[i], boldStyle(bigNumber), d.numberRoom(i, long)); d.plan.sides == 0 && w > d.numberRoom(i, long) {
			return false
		}
	}
	return true
}

// edgeFits reports whether widths and the word for the fence go into a row.
func (d *panelDrawing) edgeFits(long float64, w face.Widths) bool {
	const gap = 1.2
	var wide [3]float64
	for i := range w {
		wide[i] = d.b.f.Width(d.b.say.width(w[i]), style(least))
	}
	word := d.fenceWidth()
	return rowInset+wide[0]+gap <= fenceAt*long-word/2 &&
		fenceAt*long+word/2+gap <= long/2-wide[1]/2 &&
		long/2+wide[1]/2+gap <= long-rowInset-wide[2]
}

func (d *panelDrawing) fenceWidth() float64 { return d.b.f.Width(say.T("out"), boldStyle(least)) }

// numberRoom is how long a number may be on strip i without meeting what
// stands in the rows along its edges.
func (d *panelDrawing) numberRoom(i int, long float64) float64 {
	half := (numberAt-fenceAt)*long - d.fenceWidth()/2
	upper, lower := d.widths(i)
	for _, w := range [...]face.Widths{upper, lower} {
		half = math.Min(half, (0.5-numberAt)*long-d.b.f.Width(d.b.say.width(w[1]), style(least))/2)
	}
	return math.Min(numberMost*long, 2*(half-0.8))
}

func (d *panelDrawing) draw(labels []string) {
	for i := range d.p.Strips {
		d.wood(i)
	}
	if len(d.p.Strips) > 0 && !d.back {
		half := math.Min(d.frame.H()*0.3, d.frame.W()*0.06)
		d.k.triangle(d.frame.Min.X+d.frame.W()*triangleAt, half, d.frame.Min.Y+0.8, d.frame.Max.Y-0.8)
	}
	d.outline()
	for i := range d.p.Strips {
		d.marks(i)
	}
	d.outsideNumbers()
	d.jointGutter(labels)
	d.edgeNames()
}

// side is the side of the panel that is drawn.
func (d *panelDrawing) side() face.Side {
	if d.back {
		return face.Back
	}
	return face.Show
}

// widths are the sap widths of strip i along the edges that lie at the upper
// and the lower side of the drawing, on the face drawn.
func (d *panelDrawing) widths(i int) (upper, lower face.Widths) {
	if r := &d.v.sap[i]; d.back {
		return r.belowFront, r.belowRear
	}
	return d.v.sap[i].rear, d.v.sap[i].front
}

// wood draws the zones of a strip and its border.
func (d *panelDrawing) wood(i int) {
	r := d.rect(gluedRect(d.p, i))
	if d.p.Strips[i].Board == nil {
		d.k.fill(render.Box(r), white)
		d.k.stroke(render.Box(r), 0.2, mid, 1.5, 1)
		return
	}
	d.k.inside(render.Box(r), func() {
		d.k.wood(render.Box(r), face.Flaw, false) // what the wood does not cover is missing
		list := shownRegions(d.v.fin, i, d.side())
		for k := range list {
			list[k].poly = d.m.ApplyTo(list[k].poly)
		}
		paint(d.k, list, false)
	})
	d.k.stroke(render.Box(r), 0.3, black)
	s := &d.p.Strips[i]
	if s.Turned {
		d.k.endBar(r.Max.X, r.Min.Y, r.Max.Y, -1)
	} else {
		d.k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1)
	}
}

// outline draws the finished shape and what nobody sees of it.
func (d *panelDrawing) outline() {
	out := render.Ring(d.m.ApplyTo(d.p.Outline()))
	d.k.stroke(out, 1.1, white)
	d.k.stroke(out, 0.5, black, 2.2, 1)
	if d.back {
		return
	}
	for _, h := range d.p.Hidden {
		d.k.stroke(render.Ring(d.m.ApplyTo(h)), 0.25, mid, 0.6, 0.8)
	}
}

// edgeNames writes the names of the finished piece's edges and ends.
func (d *panelDrawing) edgeNames() {
	st := aligned(boldStyle(body), render.Middle)
	n, f := d.v.names, d.frame
	cx, cy := f.Centre().X, f.Centre().Y
	upper, lower := n.back.Word, n.front.Word
	if d.back {
		upper, lower = lower, upper
	}
	d.k.text(cx, f.Min.Y-1.6, upper, st)
	d.k.text(cx, f.Max.Y+1.4+d.b.f.CapHeight(st), lower, st)
	st.Turn = 90
	d.k.text(f.Min.X-d.plan.left+d.b.f.CapHeight(st)+0.3, cy, n.left.Word, st)
	d.k.text(f.Max.X+d.plan.right-1.2, cy, n.right.Word, st)
}

// jointGutter names the joints at the right, as far as there is room; the
// table names them all.
func (d *panelDrawing) jointGutter(labels []string) {
	n := len(labels)
	if n == 0 {
		return
	}
	at := make([]float64, n)
	for i := range at { // joints run from the front, which is at the foot
		at[n-1-i] = d.m.Apply(geom.Pt(0, d.p.StripY(d.v.Reading.Joints[i].I+1))).Y
	}
	spots, ok := spread(at, labelH, d.frame.Min.Y-2, d.frame.Max.Y+2)
	if !ok {
		return
	}
	st := style(least)
	x := d.frame.Max.X + leaderRoom
	for i, s := range labels {
		y, to := at[n-1-i], spots[n-1-i]
		d.k.stroke(render.Polyline(geom.Pt(d.frame.Max.X+0.6, y), geom.Pt(d.frame.Max.X+leaderRoom-3, to), geom.Pt(x-0.8, to)), 0.2, black)
		d.k.text(x, to+d.b.f.CapHeight(st)/2, s, st)
	}
}
