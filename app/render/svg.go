package render

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"strings"
	"unicode"

	"heartside/layout/geom"
)

// SVG is a Canvas that writes a scalable drawing of true size: one unit is a
// millimetre. Text stays text, in the typefaces by name, held to the width it
// has here where a viewer lacks them.
type SVG struct {
	w, h  float64
	title string
	faces *Faces
	body  strings.Builder
	clips int
	depth int
	err   error
}

var _ Canvas = (*SVG)(nil)

// NewSVG returns an empty drawing of w x h mm.
func NewSVG(w, h float64, title string, f *Faces) *SVG {
	return &SVG{w: w, h: h, title: title, faces: f}
}

// Measure returns the typefaces text is set in.
func (s *SVG) Measure() *Faces { return s.faces }

// Bytes finishes the drawing and returns it.
func (s *SVG) Bytes() ([]byte, error) {
	for s.depth > 0 {
		s.Pop()
	}
	if s.err != nil {
		return nil, fmt.Errorf("SVG: %w", s.err)
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n",
		number(s.w), number(s.h), number(s.w), number(s.h))
	fmt.Fprintf(&b, "<title>%s</title>\n", escaped(s.title))
	b.WriteString(s.body.String())
	b.WriteString("</svg>\n")
	return b.Bytes(), nil
}

func (s *SVG) add(format string, args ...any) {
	fmt.Fprintf(&s.body, format+"\n", args...)
}

// escaped is text as it may stand in the file.
func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder takes everything
	return b.String()
}

// hex writes a colour with its opacity as the attribute of that name.
func hex(name string, c color.NRGBA) string {
	s := fmt.Sprintf(`%s="#%02x%02x%02x"`, name, c.R, c.G, c.B)
	if c.A < 255 {
		s += fmt.Sprintf(` %s-opacity="%.3f"`, name, float64(c.A)/255)
	}
	return s
}

func (s *SVG) path(p Path) string {
	var b strings.Builder
	for _, l := range p {
		for i, q := range l.Points {
			op := "L"
			if i == 0 {
				op = "M"
			}
			b.WriteString(op + number(q.X) + " " + number(q.Y))
		}
		if l.Closed && len(l.Points) > 0 {
			b.WriteString("Z")
		}
	}
	return b.String()
}

// Fill implements Canvas.
func (s *SVG) Fill(p Path, c color.NRGBA) {
	if d := s.path(p); d != "" && c.A > 0 {
		s.add(`<path d="%s" %s fill-rule="evenodd"/>`, d, hex("fill", c))
	}
}

// Stroke implements Canvas.
func (s *SVG) Stroke(p Path, pen Pen) {
	d := s.path(p)
	if d == "" || pen.Color.A == 0 || !(pen.Width > 0) {
		return
	}
	more := ""
	if pen.Round {
		more = ` stroke-linecap="round" stroke-linejoin="round"`
	}
	for i, v := range pen.Dash {
		if i == 0 {
			more += ` stroke-dasharray="`
		} else {
			more += " "
		}
		more += number(v)
		if i == len(pen.Dash)-1 {
			more += `"`
		}
	}
	s.add(`<path d="%s" fill="none" %s stroke-width="%s"%s/>`, d, hex("stroke", pen.Color), number(pen.Width), more)
}

// Hatch implements Canvas: the lines themselves, as on paper.
func (s *SVG) Hatch(p Path, h Hatch) { hatchAsLines(s, p, h) }

// Text implements Canvas. Viewers put scripts that run to the left in order and
// have typefaces of their own, so letters are written as they are.
func (s *SVG) Text(at geom.Point, text string, st Style) {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r):
			return -1
		}
		return r
	}, text)
	if strings.TrimSpace(text) == "" || st.Color.A == 0 || !(st.Size > 0) {
		return
	}
	more := ""
	if st.Bold {
		more += ` font-weight="bold"`
	}
	family := "'DejaVu Sans', sans-serif"
	if st.Narrow {
		more += ` font-stretch="condensed"`
		family = "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"
	}
	switch st.Align {
	case Middle:
		more += ` text-anchor="middle"`
	case Right:
		more += ` text-anchor="end"`
	}
	if st.Turn != 0 {
		more += fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(-st.Turn), number(at.X), number(at.Y))
	}
	if !s.faces.Lacks(text) {
		more += fmt.Sprintf(` textLength="%s" lengthAdjust="spacingAndGlyphs"`, number(s.faces.Width(text, st)))
	}
	s.add(`<text x="%s" y="%s" font-family="%s" font-size="%s" %s xml:space="preserve"%s>%s</text>`,
		number(at.X), number(at.Y), family, number(st.Size), hex("fill", st.Color), more, escaped(text))
}

// Image implements Canvas.
func (s *SVG) Image(img *image.RGBA, m geom.Affine, clip Path) {
	if img.Rect.Empty() {
		return
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		s.err = err
		return
	}
	if clip != nil {
		s.Push(clip)
	}
	s.add(`<image width="%d" height="%d" preserveAspectRatio="none" transform="matrix(%s %s %s %s %s %s)" href="data:image/png;base64,%s"/>`,
		img.Rect.Dx(), img.Rect.Dy(), fine(m.A), fine(m.D), fine(m.B), fine(m.E), number(m.C), number(m.F),
		base64.StdEncoding.EncodeToString(b.Bytes()))
	if clip != nil {
		s.Pop()
	}
}

// Push implements Canvas.
func (s *SVG) Push(p Path) {
	s.clips++
	s.add(`<clipPath id="c%d"><path d="%s" clip-rule="evenodd"/></clipPath><g clip-path="url(#c%d)">`, s.clips, s.path(p), s.clips)
	s.depth++
}

// Pop implements Canvas. A Pop too many does nothing.
func (s *SVG) Pop() {
	if s.depth > 0 {
		s.depth--
		s.add("</g>")
	}
}
