package sheet

import (
	"image/color"
	"strings"
	"unicode"

	"heartside/app/render"
	"heartside/layout/geom"
)

// mmPerPoint is the printer's point of 1/72 inch.
const mmPerPoint = 25.4 / 72

// Sizes of type, mm of the em. The least is 8 points and a little, so that no
// rounding makes it less.
const (
	least   = 8.05 * mmPerPoint
	body    = 8.5 * mmPerPoint
	heading = 10 * mmPerPoint
	title   = 15 * mmPerPoint
	line    = 1.32 // from one line to the next, ems
)

// Greys of the sheet.
var (
	black = color.NRGBA{A: 255}
	dark  = color.NRGBA{R: 70, G: 70, B: 70, A: 255}
	mid   = color.NRGBA{R: 130, G: 130, B: 130, A: 255}
	pale  = color.NRGBA{R: 226, G: 226, B: 226, A: 255}
	white = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
)

// ink takes the drawing calls of one page.
type ink struct {
	faces  *render.Faces
	calls  render.Recorder
	coarse float64 // hatching stands so many times wider, 0 as usual
}

func (k *ink) fill(p render.Path, c color.NRGBA) { k.calls.Fill(p, c) }

func (k *ink) hatch(p render.Path, h render.Hatch) {
	if k.coarse > 0 {
		h.Spacing *= k.coarse
		h.Pen.Width *= k.coarse / 2
	}
	k.calls.Hatch(p, h)
}

func (k *ink) stroke(p render.Path, width float64, c color.NRGBA, dash ...float64) {
	k.calls.Stroke(p, render.Pen{Width: width, Color: c, Dash: dash})
}

func (k *ink) line(x0, y0, x1, y1, width float64, c color.NRGBA, dash ...float64) {
	k.stroke(render.Segment(geom.Pt(x0, y0), geom.Pt(x1, y1)), width, c, dash...)
}

// text writes s with its baseline at (x, y).
func (k *ink) text(x, y float64, s string, st render.Style) {
	if s == "" {
		return
	}
	k.calls.Text(geom.Pt(x, y), s, st)
}

// inside draws with everything clipped to p.
func (k *ink) inside(p render.Path, f func()) {
	k.calls.Push(p)
	f()
	k.calls.Pop()
}

// plate writes s like text on a white ground, so that hatching cannot make it
// hard to read, and returns the ground.
func (k *ink) plate(x, y float64, s string, st render.Style) geom.Rect {
	r := textBox(k.faces, x, y, s, st)
	if s == "" {
		return r
	}
	k.fill(render.Box(geom.R(r.Min.X-0.4, r.Min.Y-0.3, r.Max.X+0.4, r.Max.Y+0.3)), white)
	k.text(x, y, s, st)
	return r
}

// textBox is the ground a level line of text covers: from the top of its
// capitals to the foot of what it holds.
func textBox(f *render.Faces, x, y float64, s string, st render.Style) geom.Rect {
	w := f.Width(s, st)
	switch st.Align {
	case render.Middle:
		x -= w / 2
	case render.Right:
		x -= w
	}
	// How far letters of the typeface reach below the line, as it draws them.
	s = f.Printable(s, st)
	below := 0.02 * st.Size
	switch {
	case strings.ContainsAny(s, "gjpqyJ|_"):
		below = f.Descent(st)
	case strings.ContainsAny(s, "Q,;()[]{}/@$ß"):
		below = 0.175 * st.Size
	case strings.ContainsFunc(s, func(r rune) bool { return r > 0x24F && unicode.IsLetter(r) }):
		below = f.Descent(st) // other scripts
	}
	return geom.R(x, y-f.CapHeight(st), x+w, y+below)
}

// style is plain type of a size.
func style(size float64) render.Style { return render.Style{Size: size, Color: black} }

func boldStyle(size float64) render.Style {
	return render.Style{Size: size, Bold: true, Color: black}
}

func aligned(st render.Style, a render.Align) render.Style {
	st.Align = a
	return st
}
