package render

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strconv"
	"strings"

	"heartside/layout/geom"
)

// Recorder is a Canvas that keeps the calls: to be read as text in tests, or
// drawn again on another canvas. The zero value is ready.
type Recorder struct {
	calls []call
	depth int
}

type call struct {
	line string
	draw func(Canvas)
}

var _ Canvas = (*Recorder)(nil)

// String returns the calls, one a line, numbers rounded to hundredths, those
// inside a clip indented.
func (r *Recorder) String() string {
	var b strings.Builder
	for _, c := range r.calls {
		b.WriteString(c.line)
		b.WriteByte('\n')
	}
	return b.String()
}

// Len returns the number of calls.
func (r *Recorder) Len() int { return len(r.calls) }

// Replay makes the calls again on c.
func (r *Recorder) Replay(c Canvas) {
	for _, k := range r.calls {
		k.draw(c)
	}
}

func (r *Recorder) add(draw func(Canvas), format string, args ...any) {
	line := strings.Repeat("  ", r.depth) + fmt.Sprintf(format, args...)
	r.calls = append(r.calls, call{line, draw})
}

// Fill implements Canvas.
func (r *Recorder) Fill(p Path, c color.NRGBA) {
	r.add(func(k Canvas) { k.Fill(p, c) }, "fill %s %s", hue(c), pathText(p))
}

// Hatch implements Canvas.
func (r *Recorder) Hatch(p Path, h Hatch) {
	kind := "lines"
	switch {
	case h.Dots:
		kind = "dots"
	case h.Cross:
		kind = "crossed"
	}
	r.add(func(k Canvas) { k.Hatch(p, h) }, "hatch %s %s at %s from %s every %s %s",
		kind, penText(h.Pen), number(h.Angle), pointText(h.Origin), number(h.Spacing), pathText(p))
}

// Stroke implements Canvas.
func (r *Recorder) Stroke(p Path, pen Pen) {
	r.add(func(k Canvas) { k.Stroke(p, pen) }, "stroke %s %s", penText(pen), pathText(p))
}

// Text implements Canvas.
func (r *Recorder) Text(at geom.Point, s string, st Style) {
	var b strings.Builder
	fmt.Fprintf(&b, "text %s %q size %s %s", pointText(at), s, number(st.Size), hue(st.Color))
	if st.Bold {
		b.WriteString(" bold")
	}
	if st.Narrow {
		b.WriteString(" narrow")
	}
	switch st.Align {
	case Middle:
		b.WriteString(" middle")
	case Right:
		b.WriteString(" right")
	}
	if st.Turn != 0 {
		b.WriteString(" turn " + number(st.Turn))
	}
	r.add(func(k Canvas) { k.Text(at, s, st) }, "%s", b.String())
}

// Image implements Canvas.
func (r *Recorder) Image(img *image.RGBA, m geom.Affine, clip Path) {
	where := "everywhere"
	if clip != nil {
		where = pathText(clip)
	}
	r.add(func(k Canvas) { k.Image(img, m, clip) }, "image %dx%d [%s %s %s %s %s %s] %s",
		img.Rect.Dx(), img.Rect.Dy(), fine(m.A), fine(m.B), number(m.C), fine(m.D), fine(m.E), number(m.F), where)
}

// Push implements Canvas.
func (r *Recorder) Push(p Path) {
	r.add(func(k Canvas) { k.Push(p) }, "clip %s", pathText(p))
	r.depth++
}

// Pop implements Canvas.
func (r *Recorder) Pop() {
	r.depth = max(r.depth-1, 0)
	r.add(func(k Canvas) { k.Pop() }, "end")
}

func hue(c color.NRGBA) string {
	if c.A == 255 {
		return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	}
	return fmt.Sprintf("#%02x%02x%02x/%02x", c.R, c.G, c.B, c.A)
}

func penText(p Pen) string {
	s := "pen " + number(p.Width) + " " + hue(p.Color)
	if p.Round {
		s += " round"
	}
	for i, d := range p.Dash {
		if i == 0 {
			s += " dash"
		}
		s += " " + number(d)
	}
	return s
}

// mostPoints is how many points of a line are written out; longer ones are
// told by their count and extent.
const mostPoints = 12

func pathText(p Path) string {
	if q, ok := p.asRect(); ok {
		return fmt.Sprintf("box %s %s", pointText(q.Min), pointText(q.Max))
	}
	if len(p) > 8 {
		b := p.Bounds()
		return fmt.Sprintf("%d lines within %s %s", len(p), pointText(b.Min), pointText(b.Max))
	}
	parts := make([]string, 0, len(p))
	for _, l := range p {
		kind := "line"
		if l.Closed {
			kind = "ring"
		}
		if len(l.Points) > mostPoints {
			b := geom.Polygon(l.Points).Bounds()
			parts = append(parts, fmt.Sprintf("%s of %d within %s %s", kind, len(l.Points), pointText(b.Min), pointText(b.Max)))
			continue
		}
		for _, q := range l.Points {
			kind += " " + pointText(q)
		}
		parts = append(parts, kind)
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, "; ")
}

func pointText(p geom.Point) string { return number(p.X) + "," + number(p.Y) }

// number writes v rounded to hundredths.
func number(v float64) string { return rounded(v, 100) }

// fine writes v rounded to ten thousandths, for the factors of a map.
func fine(v float64) string { return rounded(v, 10000) }

func rounded(v, per float64) string {
	v = math.Round(v*per) / per
	if v == 0 {
		v = 0 // no minus sign
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
