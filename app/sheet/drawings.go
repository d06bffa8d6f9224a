package sheet

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Drawing is one panel or board by itself in true size.
type Drawing struct {
	Kind  Kind   // KindPanel or KindBoards
	ID    string // of the panel or board
	W, H  float64
	title string
	page  *Page
	faces *render.Faces
}

// Draw draws it on a canvas that counts in mm.
func (g *Drawing) Draw(c render.Canvas) { g.page.Draw(c) }

// SVG returns it as a scalable drawing, a unit a millimetre.
func (g *Drawing) SVG() ([]byte, error) {
	out := render.NewSVG(g.W, g.H, g.title, g.faces)
	g.Draw(out)
	return out.Bytes()
}

// fileName is a name for its file.
func (g *Drawing) fileName() string {
	kind := say.T("panel")
	if g.Kind == KindBoards {
		kind = say.T("board")
	}
	id := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, g.ID)
	return kind + "-" + id
}

// Drawings are the panels with strips and the boards something is cut from,
// each in true size, drawn as on the pages.
func (d *Document) Drawings() []*Drawing {
	var out []*Drawing
	names := map[string]int{}
	add := func(g *Drawing) {
		name := g.fileName()
		if names[name]++; names[name] > 1 { // two ids alike but for signs
			g.ID += fmt.Sprintf("-%d", names[name])
		}
		out = append(out, g)
	}
	for i := range d.in.Panels {
		if p := &d.in.Panels[i]; len(p.Panel.Strips) > 0 {
			b := d.alone(KindPanel, p.Panel.ID)
			add(b.panelAlone(p))
		}
	}
	for _, bd := range d.in.Boards {
		if parts := d.in.placesOn(bd.ID); len(parts) > 0 {
			b := d.alone(KindBoards, bd.ID)
			add(b.boardAlone(bd, parts))
		}
	}
	return out
}

// aloneMargin is free round a drawing by itself, and aloneHead the row over it.
const aloneMargin, aloneHead = 5.0, 9.0

// aloneCoarse is how many times wider hatching stands in true size.
const aloneCoarse = 4

// alone is a builder of one drawing without header and legend.
func (d *Document) alone(k Kind, id string) *builder {
	b := newBuilder(&d.in)
	b.findNicks()
	b.kind = k
	b.page = &Page{Kind: k, Title: id}
	b.page.ink.faces, b.page.ink.coarse = d.faces, aloneCoarse
	return b
}

// lay makes the page so large that an area of w x h mm is free on it.
func (b *builder) lay(w, h float64) {
	b.page.W, b.page.H = w+2*aloneMargin, h+2*aloneMargin+aloneHead
	b.area = geom.R(aloneMargin, aloneMargin+aloneHead, aloneMargin+w, aloneMargin+aloneHead+h)
}

// finishAlone writes what it is over the drawing, with a bar to measure.
func (b *builder) finishAlone(title string) *Drawing {
	k, st := b.k(), boldStyle(body)
	long, name := b.barLength()
	y := aloneMargin + 3.0
	k.scaleBar(geom.R(aloneMargin, y-2, aloneMargin+long, y+2))
	x := aloneMargin + long + 2
	k.text(x, y+b.f.CapHeight(style(least))/2, name, style(least))
	x += b.f.Width(name, style(least)) + 4
	text, fitted := fit(b.f, say.F("%s, %s, Code %s", title, b.job(), b.code), st, b.page.W-aloneMargin-x)
	k.text(x, y+b.f.CapHeight(fitted)/2, text, fitted)
	return &Drawing{Kind: b.kind, ID: b.page.Title, W: b.page.W, H: b.page.H, title: title + ", " + b.job(), page: b.page, faces: b.f}
}

func (b *builder) panelAlone(p *Panel) *Drawing {
	v := b.viewOf(p, b.in.Project.Panel(p.Panel.ID))
	ext := extent(p.Panel)
	b.lay(ext.W(), ext.H())
	pl := b.planPanel(v, b.jointLabels(v), math.Inf(1), math.Inf(1))
	b.lay(ext.W()+pl.left+pl.right, pl.high)
	b.drawPanel(v, pl.high+1, false)
	return b.finishAlone(say.F("Panel %s", p.Panel.ID))
}

func (b *builder) boardAlone(bd *face.Board, parts []place) *Drawing {
	over := overhang(b.in, bd, parts)
	l := snapLine(bd)
	cuts := cutList(b.in.Project.Allowances, bd, parts)
	l.zero = cuts[0].p.X
	w, high := over.W()+nameRoom+lineOver+1e-6, 2*(over.H()+lineH+underFace)+cutRow+1e-6
	b.lay(w, high)
	top := b.area.Min.Y
	b.drawBoard(bd, parts, l, cuts, high)
	if used := b.area.Min.Y - top; used > high { // numbers under the face
		b.page.H += used - high
	}
	return b.finishAlone(say.F("Board %s", bd.ID))
}
