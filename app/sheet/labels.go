package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// label is one label to cut out for an end.
type label struct {
	number string
	lines  []string // what else it says, most needed first
	marked bool     // for a marked end
	w, h   float64  // mm: no larger than the end where that can be read
}

// Sizes of labels, mm.
const (
	labelWide, labelLow = 72.0, 22.0 // at most
	labelNarrow         = 34.0       // at least, or nothing can be read
	labelThin           = 11.0
	labelGap            = 3.0
)

// labels writes the labels for the ends of strips and boards. They are for ends
// since labels print through on the faces of woods that light changes.
func (b *builder) labels() {
	var list []label
	for i := range b.in.Panels {
		list = append(list, b.stripLabels(&b.in.Panels[i])...)
	}
	for _, bd := range b.in.Boards {
		if parts := b.in.placesOn(bd.ID); len(parts) > 0 {
			list = append(list, label{number: bd.ID, marked: true, w: bd.Width, h: bd.Thickness,
				lines: []string{say.T("board, marked end"), say.T("face 1 up"), say.T("letter at the marked edge"), speciesName(bd.Species)}})
		}
	}
	if len(list) == 0 {
		return
	}
	over := false
	for i := range list {
		l := &list[i]
		over = over || l.w < labelNarrow || l.h < labelThin
		l.w, l.h = clampTo(l.w, labelNarrow, labelWide), clampTo(l.h, labelThin, labelLow)
	}
	b.open(false, header{title: say.T("Labels for ends")}, b.labelMarks())
	b.page.ratio = 1
	intro := say.T("Cut out along the lines and stick on the ends, never on faces: labels print through on woods that light changes. The triangle points to the show face, on boards to face 1. Chalk and nicks stay as well: labels go when ends are cut.")
	if over {
		intro += say.T(" A label larger than its end is folded over.")
	}
	b.across(intro)
	b.flowLabels(list)
}

func clampTo(v, lo, hi float64) float64 { return math.Max(lo, math.Min(v, hi)) }

func (b *builder) labelMarks() []mark {
	list := []mark{
		{draw: func(k *ink, r geom.Rect) { k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1) }, text: say.T("marked end")},
		{draw: func(k *ink, r geom.Rect) { k.upwards(r.Centre().X, r.Centre().Y, 1.6) }, text: say.T("this way up")},
	}
	return append(append(list, headMarks()...), b.scaleMarks()...)
}

// upwards is a triangle that points to the top.
func (k *ink) upwards(x, y, r float64) {
	k.fill(render.Ring(geom.Polygon{{X: x, Y: y - r}, {X: x + r, Y: y + r}, {X: x - r, Y: y + r}}), black)
}

// stripLabels are two for each strip that lies on a board.
func (b *builder) stripLabels(p *Panel) []label {
	v := b.viewOf(p, b.in.Project.Panel(p.Panel.ID))
	n := len(p.Panel.Strips)
	var out []label
	for i := range p.Panel.Strips {
		s := &p.Panel.Strips[i]
		if s.Board == nil {
			continue
		}
		for _, marked := range [...]bool{true, false} {
			end, name := v.names.left.Word, say.T("other end")
			if marked == s.Turned {
				end = v.names.right.Word
			}
			if marked {
				name = say.T("marked end")
			}
			out = append(out, label{number: v.numbers[i], marked: marked, w: s.W, h: p.Panel.Thickness, lines: []string{
				name + ", " + end,
				say.F("%s, %d of %d from %s", v.m.ID, i+1, n, v.names.front.The),
				sideUp(s) + nicked(b.nicks[s]),
				b.job() + ", " + b.code,
			}})
		}
	}
	return out
}

func nicked(n int) string {
	if n == 0 {
		return ""
	}
	return say.F(", nicks %s", nickText(n))
}

// flowLabels lays labels in rows, over as many pages as it takes.
func (b *builder) flowLabels(list []label) {
	x, high := b.area.Min.X, 0.0
	for _, l := range list {
		if x+l.w > b.area.Max.X {
			b.area.Min.Y += high + labelGap
			x, high = b.area.Min.X, 0
		}
		if b.area.Min.Y+l.h > b.area.Max.Y {
			b.more()
			b.page.ratio = 1
			x, high = b.area.Min.X, 0
		}
		b.drawLabel(l, geom.R(x, b.area.Min.Y, x+l.w, b.area.Min.Y+l.h))
		x += l.w + labelGap
		high = math.Max(high, l.h)
	}
	b.area.Min.Y += high + labelGap
}

func (b *builder) drawLabel(l label, r geom.Rect) {
	k, st := b.k(), boldStyle(bigNumber)
	k.stroke(render.Box(r), 0.2, black, 1, 1)
	left := r.Min.X + 1.2
	if l.marked {
		k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1)
		left += barWidth
	}
	k.upwards(left+1.6, r.Centre().Y, 1.6)
	left += 4.2
	st.Size = math.Min(st.Size, (r.H()-2)/b.f.CapHeight(boldStyle(1)))
	room := r.Max.X - 1 - left
	s, fitted := fit(b.f, l.number, st, room*0.55)
	k.text(left, r.Centre().Y+b.f.CapHeight(fitted)/2, s, fitted)
	left += b.f.Width(s, fitted) + 2
	small := style(least)
	pitch := line * least
	n := min(len(l.lines), int((r.H()-0.8)/pitch))
	y := r.Centre().Y - float64(n)*pitch/2
	for _, t := range l.lines[:n] {
		t, at := fit(b.f, t, small, r.Max.X-1-left)
		k.text(left, y+(pitch+b.f.CapHeight(at))/2, t, at)
		y += pitch
	}
}
