package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
)

// panelPlan is how a panel is drawn in some room: how large, and where the
// numbers of its strips stand.
type panelPlan struct {
	scale       float64 // mm on the page for a mm of the panel
	left, right float64 // room beside the frame, mm
	high        float64 // of the drawing with all that stands about it
	sides       int     // 0: numbers stand in the strips; 1: at the left; 2: at both sides by turns
	small       bool    // there is no room for numbers 8 mm high
	st          render.Style
	labels      []string // of the joints, at the right
}

// numberGap is from one number in the gutter to the next, mm.
const numberGap = 1.3

// tallest is how high the highest of some words is, tails and all.
func tallest(f *render.Faces, list []string, st render.Style) float64 {
	high := f.CapHeight(st)
	for _, s := range list {
		high = math.Max(high, textBox(f, 0, 0, s, st).H())
	}
	return high
}

// planPanel lays the drawing of a panel into w x high mm: numbers 8 mm high in
// the strips where all hold them, else at the left, else at both sides.
func (b *builder) planPanel(v *view, labels []string, w, high float64) panelPlan {
	p := v.Panel.Panel
	ext, n := extent(p), len(p.Strips)
	joints := 0.0
	if l := widest(b.f, labels, style(least)); l > 0 {
		joints = leaderRoom + l + 1.5
	}
	sized := func(pl panelPlan) panelPlan {
		pl.scale = math.Min(math.Min((w-pl.left-pl.right)/ext.W(), (high-2*nameRoom)/ext.H()), 1)
		pl.scale = math.Max(pl.scale, 1e-6)
		pl.high = ext.H()*pl.scale + 2*nameRoom
		return pl
	}
	pl := sized(panelPlan{left: nameRoom, right: nameRoom + joints, labels: labels})
	if n == 0 || b.numbersInside(v, pl.scale) {
		return pl
	}
	st, col := b.gutterStyle(v.numbers, math.Min(84, 0.3*w))
	gutter := nameRoom + leaderRoom + col
	for sides := 1; sides <= 2; sides++ {
		q := panelPlan{left: gutter, right: nameRoom + joints, labels: labels, sides: sides, st: st}
		if sides == 2 {
			q.right, q.labels = gutter, nil
		}
		q = sized(q)
		for side := range sides {
			_, total := gutterHeights(b.f, v.numbers, gutterOf(n, side, sides, 1, false), st)
			q.high = math.Max(q.high, total+2)
		}
		if q.high <= high+1e-6 {
			return q
		}
	}
	small := panelPlan{left: nameRoom + leaderRoom + widest(b.f, v.numbers, boldStyle(least)), right: nameRoom + joints, labels: labels, sides: 1, small: true, st: boldStyle(least)}
	return sized(small)
}

// numbersInside reports whether every strip holds its number 8 mm high.
func (b *builder) numbersInside(v *view, s float64) bool {
	p := v.Panel.Panel
	for i := range p.Strips {
		most := numberMost * (p.Strips[i].L*s - 0.6)
		if _, w := numberIn(b.f, v.numbers[i], boldStyle(bigNumber), most); w > most || p.Strips[i].W*s < b.stripFor(v.numbers[i]) {
			return false
		}
	}
	return true
}

// stripFor is how high a strip has to be drawn for its number 8 mm high and a
// row of widths along each edge, mm.
func (b *builder) stripFor(number string) float64 {
	return math.Max(strip8, textBox(b.f, 0, 0, number, boldStyle(bigNumber)).H()+1.5)
}

// gutterOf are the strips whose numbers stand at one of the sides, from the top
// of the page, of each so many the first.
func gutterOf(n, side, sides, step int, back bool) []int {
	var out []int
	for k := side * step; k < n; k += sides * step {
		i := n - 1 - k
		if back {
			i = k
		}
		out = append(out, i)
	}
	return out
}

// gutterHeights are how high the numbers of some strips are with what is free
// between, and all of them together.
func gutterHeights(f *render.Faces, numbers []string, which []int, st render.Style) (high []float64, total float64) {
	for _, i := range which {
		h := math.Max(textBox(f, 0, 0, numbers[i], st).H()+numberGap, labelH)
		high, total = append(high, h), total+h
	}
	return high, total
}

// numberIn sets a number in the narrow cut where it is wider than most.
func numberIn(f *render.Faces, s string, st render.Style, most float64) (render.Style, float64) {
	if w := f.Width(s, st); w <= most {
		return st, w
	}
	st.Narrow = true
	return st, f.Width(s, st)
}

// gutterStyle is the type numbers beside a drawing are set in: 8 mm high, less
// only where a number would be wider than most mm; and how wide they are.
func (b *builder) gutterStyle(numbers []string, most float64) (render.Style, float64) {
	st := boldStyle(bigNumber)
	if widest(b.f, numbers, st) > most {
		st.Narrow = true
	}
	if w := widest(b.f, numbers, st); w > most {
		st.Size = math.Max(least, st.Size*most/w)
	}
	return st, math.Min(widest(b.f, numbers, st), most) + 0.5
}

// panelHeight is how high a panel is drawn in the page's whole width.
func (b *builder) panelHeight(v *view) float64 {
	if extent(v.Panel.Panel).Empty() {
		return 0
	}
	return b.planPanel(v, b.jointLabels(v), b.area.W(), math.Inf(1)).high + 1.5
}

// panelScale is page mm for a mm of the panel in the page's whole width.
func (b *builder) panelScale(v *view) float64 {
	if extent(v.Panel.Panel).Empty() {
		return 1
	}
	return b.planPanel(v, b.jointLabels(v), b.area.W(), math.Inf(1)).scale
}

// strip8 is how high a strip has to be drawn for a number 8 mm high and a row
// of widths along each edge, mm.
const strip8 = 10.2

// floor is the least height that lets a panel's strips hold their numbers, or
// the gutters at both sides where that is less; the former at most half of the
// page.
func (b *builder) floor(v *view) float64 {
	p := v.Panel.Panel
	n, low := len(p.Strips), 0.28*b.left()
	if n == 0 {
		return low
	}
	inside := strip8/minStrip(p)*extent(p).H() + 2*nameRoom
	outside := float64((n+1)/2)*(tallest(b.f, v.numbers, boldStyle(bigNumber))+numberGap) + 2
	if inside > 0.5*b.left() {
		inside = math.Max(outside, 0.5*b.left())
	}
	return math.Min(math.Max(low, inside), b.left()-2)
}

// outsideNumbers writes the numbers of strips too narrow to hold them beside
// the drawing, each with a leader. Where not even small ones have room only
// some are written; the table has them all.
func (d *panelDrawing) outsideNumbers() {
	sides := d.plan.sides
	if sides == 0 {
		return
	}
	n := len(d.p.Strips)
	top := d.frame.Centre().Y - d.plan.high/2
	for side := range sides {
		for step := 1; step <= n; step++ {
			which := gutterOf(n, side, sides, step, d.back)
			high, _ := gutterHeights(d.b.f, d.v.numbers, which, d.plan.st)
			var at []float64
			for _, i := range which {
				at = append(at, d.rect(gluedRect(d.p, i)).Centre().Y)
			}
			if spots, ok := stack(at, high, top, top+d.plan.high); ok {
				d.gutterSide(side, which, at, spots)
				break
			}
		}
	}
}

// gutterSide writes numbers at the left, 0, or the right of the drawing.
func (d *panelDrawing) gutterSide(side int, which []int, at, spots []float64) {
	out, from, align := -1.0, d.frame.Min.X, render.Right
	if side == 1 {
		out, from, align = 1, d.frame.Max.X, render.Left
	}
	st := aligned(d.plan.st, align)
	room := d.plan.left - nameRoom - leaderRoom
	for k, i := range which {
		x := from + out*leaderRoom
		d.k.stroke(render.Polyline(geom.Pt(from+out*0.3, at[k]), geom.Pt(x-out*3, spots[k]), geom.Pt(x-out*0.6, spots[k])), 0.2, black)
		number := d.b.f.Fit(d.v.numbers[i], st, room)
		box := textBox(d.b.f, 0, 0, number, st)
		d.k.text(x, spots[k]-box.Centre().Y, number, st)
	}
}
