package sheet

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/layout/geom"
)

// written is one line of text on a page with the ground it covers.
type written struct {
	s    string
	st   render.Style
	at   geom.Point
	rect geom.Rect
}

// probe is a canvas that keeps what a test looks at.
type probe struct {
	t      testing.TB
	faces  *render.Faces
	page   geom.Rect
	texts  []written
	filled []geom.Rect // black grounds
	depth  int
	tinted bool // colours may stand on it
}

var _ render.Canvas = (*probe)(nil)

// look draws a page on a probe.
func look(t testing.TB, d *Document, page int, f *render.Faces) *probe {
	t.Helper()
	p := d.Pages[page]
	v := &probe{t: t, faces: f, page: geom.R(0, 0, p.W, p.H), tinted: p.Kind == KindClient}
	p.Draw(v)
	if v.depth != 0 {
		t.Errorf("page %d leaves %d clips open", page+1, v.depth)
	}
	return v
}

func (v *probe) grey(c color.NRGBA) {
	if !v.tinted && (c.R != c.G || c.G != c.B) {
		v.t.Errorf("colour %v on a sheet for grey printers", c)
	}
}

func (v *probe) finite(p render.Path) {
	for _, l := range p {
		for _, q := range l.Points {
			if math.IsNaN(q.X+q.Y) || math.IsInf(q.X+q.Y, 0) {
				v.t.Errorf("a path goes through %v", q)
			}
		}
	}
}

func (v *probe) Fill(p render.Path, c color.NRGBA) {
	v.grey(c)
	v.finite(p)
	if c == black {
		v.filled = append(v.filled, p.Bounds())
	}
}
func (v *probe) Hatch(p render.Path, h render.Hatch)         { v.grey(h.Pen.Color); v.finite(p) }
func (v *probe) Stroke(p render.Path, pen render.Pen)        { v.grey(pen.Color); v.finite(p) }
func (v *probe) Image(*image.RGBA, geom.Affine, render.Path) {}
func (v *probe) Push(render.Path)                            { v.depth++ }
func (v *probe) Pop()                                        { v.depth-- }

func (v *probe) Text(at geom.Point, s string, st render.Style) {
	v.grey(st.Color)
	r := textBox(v.faces, 0, 0, s, st)
	if st.Turn == 90 { // reads upwards
		r = geom.R(r.Min.Y, -r.Max.X, r.Max.Y, -r.Min.X)
	} else if st.Turn != 0 {
		v.t.Errorf("text %q is turned by %g", s, st.Turn)
	}
	r = geom.R(at.X+r.Min.X, at.Y+r.Min.Y, at.X+r.Max.X, at.Y+r.Max.Y)
	v.texts = append(v.texts, written{s, st, at, r})
}

// judge reports text that is too small, leaves the page or meets other text.
func (v *probe) judge(what string) {
	inside := v.page.Inset(margin - 1)
	for i, a := range v.texts {
		if a.st.Size < 8*25.4/72 { // 8 points of 1/72 inch
			v.t.Errorf("%s: %q is set in %.2f points", what, a.s, a.st.Size*72/25.4)
		}
		if !inside.Contains(a.rect.Min) || !inside.Contains(a.rect.Max) {
			v.t.Errorf("%s: %q reaches out of the page: %.1f", what, a.s, a.rect)
		}
		for _, b := range v.texts[:i] {
			if x := a.rect.Intersect(b.rect); x.W() > 0.05 && x.H() > 0.05 {
				v.t.Errorf("%s: %q and %q lie over each other at %.1f", what, b.s, a.s, x)
			}
		}
	}
}

// all returns the text of the page, a line for each run.
func (v *probe) all() string {
	var b strings.Builder
	for _, w := range v.texts {
		fmt.Fprintln(&b, w.s)
	}
	return b.String()
}

// one returns the only run of that text in the size, 0 for any.
func (v *probe) one(s string, size float64) written {
	v.t.Helper()
	var found []written
	for _, w := range v.texts {
		if w.s == s && (size == 0 || math.Abs(w.st.Size-size) < 1e-9) {
			found = append(found, w)
		}
	}
	if len(found) != 1 {
		v.t.Fatalf("%q stands %d times on the page, want once", s, len(found))
	}
	return found[0]
}
