package sheet

import (
	"fmt"
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Sizes of the strips of paper for joints, mm.
const (
	jointBand = 18.0 // of each strip's face beside the joint, at most
	jointRow  = 2*jointBand + 17.5
	jointEnd  = 6.0 // free at each end for the match marks
)

// joints writes the joints of a panel in full size: both edges with what is
// heartwood and sapwood, to lay along the wood. Long ones go over several
// strips of paper with match marks.
func (b *builder) joints(p *Panel) {
	v := b.viewOf(p, b.in.Project.Panel(p.Panel.ID))
	opened := false
	for i := range v.Reading.Joints {
		j := &v.Reading.Joints[i]
		if p.Panel.Strips[j.I].Board == nil || p.Panel.Strips[j.I+1].Board == nil {
			continue
		}
		if !opened {
			b.open(true, header{title: say.F("Joints of %s", p.Panel.ID), facts: []string{say.F("full size, show face, %s towards you", v.names.front.The), say.T("cut out, join at the match marks, lay along the joint")}}, b.jointMarks())
			opened = true
		}
		b.joint(v, j)
	}
}

func (b *builder) jointMarks() []mark {
	list := append(woodMarks(),
		lineMark(0.5, say.T("the joint")),
		wordMark("1a", say.T("match marks of joint 1")),
		wordMark("100", say.T("from the left end as glued")))
	return append(append(list, headMarks()...), b.scaleMarks()...)
}

// joint draws one joint in pieces as long as the page is wide.
func (b *builder) joint(v *view, j *face.Joint) {
	p := v.Panel.Panel
	front, rear := gluedRect(p, j.I), gluedRect(p, j.I+1)
	span := geom.R(math.Min(front.Min.X, rear.Min.X), front.Max.Y-math.Min(jointBand, front.H()), math.Max(front.Max.X, rear.Max.X), front.Max.Y+math.Min(jointBand, rear.H()))
	long := math.Floor((b.area.W()-2*jointEnd)/10) * 10
	n := int(math.Ceil(span.W()/long - 1e-9))
	for k := range n {
		if b.left() < jointRow {
			b.more()
		}
		b.page.ratio = 1
		piece := span
		piece.Min.X = span.Min.X + float64(k)*long
		piece.Max.X = math.Min(span.Max.X, piece.Min.X+long)
		d := &jointPiece{b: b, v: v, j: j, span: span, piece: piece, k: k, n: n}
		d.draw()
		b.area.Min.Y += jointRow
	}
}

// jointPiece is one piece of a joint on the page.
type jointPiece struct {
	b           *builder
	v           *view
	j           *face.Joint
	span, piece geom.Rect // of the panel
	k, n        int
	m           geom.Affine
}

func (d *jointPiece) draw() {
	b, k := d.b, d.b.k()
	st := boldStyle(least)
	x, y := b.area.Min.X+jointEnd, b.area.Min.Y
	s, fitted := fit(b.f, d.title(), st, b.area.W())
	k.text(b.area.Min.X, y+b.f.CapHeight(st), s, fitted)
	y += 4.2
	joint := y + jointBand
	at := d.span.Max.Y - math.Min(jointBand, gluedRect(d.v.Panel.Panel, d.j.I+1).H()) // the joint's Y
	d.m = geom.Affine{A: 1, C: x - d.piece.Min.X, E: -1, F: joint + at}
	for _, i := range [...]int{d.j.I + 1, d.j.I} {
		d.band(i)
	}
	end := x + d.piece.W()
	k.line(x, joint, end, joint, 1.1, white)
	k.line(x, joint, end, joint, 0.5, black)
	d.ticks(d.m.ApplyTo(d.piece.Polygon()).Bounds().Max.Y)
	d.matches(joint)
}

func (d *jointPiece) title() string {
	r, w := d.j, d.b.say
	t := say.F("Joint %d, %s: sapwood left, middle, right %s on %s, %s on %s", r.I+1, jointKind(r.Kind), w.three(r.RearW), d.v.numbers[r.I+1], w.three(r.FrontW), d.v.numbers[r.I])
	if d.n > 1 {
		t = say.F("%s; piece %d of %d", t, d.k+1, d.n)
	}
	return t
}

// band draws the part of strip i beside the joint, with its number.
func (d *jointPiece) band(i int) {
	b, k := d.b, d.b.k()
	own := gluedRect(d.v.Panel.Panel, i).Intersect(d.piece)
	if own.Empty() {
		return
	}
	r := d.m.ApplyTo(own.Polygon()).Bounds()
	k.inside(render.Box(r), func() {
		k.wood(render.Box(r), face.Flaw, false)
		list := shownRegions(d.v.fin, i, face.Show)
		for n := range list {
			list[n].poly = d.m.ApplyTo(list[n].poly)
		}
		paint(k, list, true)
	})
	k.stroke(render.Box(r), 0.25, black)
	if s := &d.v.Panel.Panel.Strips[i]; own.Min.X < gluedRect(d.v.Panel.Panel, i).Min.X+0.01 && !s.Turned {
		k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1)
	} else if own.Max.X > gluedRect(d.v.Panel.Panel, i).Max.X-0.01 && s.Turned {
		k.endBar(r.Max.X, r.Min.Y, r.Max.Y, -1)
	}
	st := aligned(boldStyle(bigNumber), render.Middle)
	st.Size = math.Min(st.Size, (r.H()-1.5)/textBox(b.f, 0, 0, d.v.numbers[i], boldStyle(1)).H())
	if st.Size < least {
		return
	}
	if s, fitted := fit(b.f, d.v.numbers[i], st, r.W()-6); s != "" {
		k.plate(r.Centre().X, r.Centre().Y-textBox(b.f, 0, 0, s, fitted).Centre().Y, s, fitted)
	}
}

// ticks count from the left end as glued, a mark every 10 mm and a number every
// 100.
func (d *jointPiece) ticks(foot float64) {
	k := d.b.k()
	st := aligned(style(least), render.Middle)
	step, many := 10.0, 10
	if d.b.say.sys != "mm" {
		step, many = 25.4/2, 8
	}
	for n := int(math.Ceil((d.piece.Min.X-d.span.Min.X)/step - 1e-9)); ; n++ {
		along := float64(n) * step
		x := d.m.Apply(geom.Pt(d.span.Min.X+along, 0)).X
		if d.span.Min.X+along > d.piece.Max.X+1e-6 {
			return
		}
		if n%many != 0 {
			k.line(x, foot, x, foot+1, 0.15, black)
			continue
		}
		k.line(x, foot, x, foot+2, 0.25, black)
		k.text(x, foot+2.6+d.b.f.CapHeight(st), d.b.say.bare(along), st)
	}
}

// matches marks the ends where pieces are joined: halves of a square on both
// sides of the cut, with its letter.
func (d *jointPiece) matches(y float64) {
	k, f := d.b.k(), d.b.f
	st := boldStyle(least)
	r := d.m.ApplyTo(d.piece.Polygon()).Bounds()
	name := func(n int) string { return fmt.Sprintf("%d%c", d.j.I+1, 'a'+rune(n%26)) }
	half := func(x, to float64) {
		k.fill(render.Ring(geom.Polygon{{X: x, Y: y - 3}, {X: x + to, Y: y}, {X: x, Y: y + 3}}), black)
	}
	if d.k > 0 {
		half(r.Min.X, 3)
		k.text(r.Min.X-1, y+f.CapHeight(st)/2, name(d.k-1), aligned(st, render.Right))
	}
	if d.k+1 < d.n {
		half(r.Max.X, -3)
		k.text(r.Max.X+1, y+f.CapHeight(st)/2, name(d.k), st)
	}
}
