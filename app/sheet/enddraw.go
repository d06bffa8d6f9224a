package sheet

import (
	"math"
	"strings"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/cup"
	"heartside/model/say"
)

// End is the end of a panel as a season makes it.
type End struct {
	Season string // "driest season"
	View   *session.EndView
}

// The drawing of an end, mm on the page.
const (
	endHighest = 24.0 // the most an end takes, form and all
	endNumbers = 3.9  // the row of numbers under it
	endName    = line * least
)

// endDrawing is one end on the page.
type endDrawing struct {
	End             // no season: as it is glued
	box   geom.Rect // what it covers, in its own mm
	scale float64
	texts []string // of the strips
}

// endsOf are the ends of a panel as they are drawn.
func (b *builder) endsOf(v *view) []endDrawing {
	return b.endDrawings(v, v.Ends)
}

// flatEnd is the end of a panel as it is glued, if it is known.
func (b *builder) flatEnd(v *view) []endDrawing {
	return b.endDrawings(v, []End{{View: v.Flat}})
}

func (b *builder) endDrawings(v *view, ends []End) []endDrawing {
	var out []endDrawing
	for _, e := range ends {
		if e.View == nil || e.View.View == nil || len(e.View.Strips) == 0 {
			continue
		}
		d := endDrawing{End: e, box: e.View.Strips[0].Outline.Bounds()}
		for _, s := range e.View.Strips {
			d.box = d.box.Union(s.Outline.Bounds())
			d.texts = append(d.texts, s.ID+v.sideOf(s.ID))
		}
		d.scale = math.Min(1, math.Min((b.area.W()-2*nameRoom)/math.Max(d.box.W(), 1), endHighest/math.Max(d.box.H(), 1)))
		out = append(out, d)
	}
	return out
}

// sideOf says which side of the strip with that number is up.
func (v *view) sideOf(number string) string {
	for i, n := range v.numbers {
		if s := &v.Panel.Panel.Strips[i]; n == number && s.Board != nil {
			return ", " + sideUp(s)
		}
	}
	return ""
}

func (d *endDrawing) height() float64 { return endName + 1.2 + d.box.H()*d.scale + endNumbers + 2 }

// highOf is how high ends come out.
func highOf(ends []endDrawing) float64 {
	var h float64
	for _, d := range ends {
		h += d.height()
	}
	return h
}

// endsNamed reports whether every strip of the ends can hold its number.
func (b *builder) endsNamed(v *view) bool {
	for _, d := range b.endsOf(v) {
		for i := range d.View.Strips {
			s := &d.View.Strips[i]
			if b.f.Width(s.ID, boldStyle(least))+1.2 > s.Outline.Bounds().W()*d.scale {
				return false
			}
		}
	}
	return true
}

// drawEnds draws ends of a panel, one under the other.
func (b *builder) drawEnds(v *view, ends []endDrawing) {
	for i := range ends {
		b.drawEnd(v, &ends[i])
	}
}

// drawFlat draws the end as it is glued. Where the page has no room for it and
// the pages on glueing up draw the ends too, it is left to those.
func (b *builder) drawFlat(v *view) {
	ends := b.flatEnd(v)
	if highOf(ends) > b.left() && b.in.Pages.Fit && len(b.endsOf(v)) > 0 {
		return
	}
	b.drawEnds(v, ends)
}

// title says from where an end is seen and what is made of it.
func (d *endDrawing) title(b *builder, n names) string {
	if d.Season == "" {
		t := say.F("%s, show face up, with its sapwood halfway along", say.Upper(n.right.Name))
		for i := range d.View.Strips {
			if d.View.Strips[i].Guessed {
				return say.F("%s; dashed rings: no pith measured", t)
			}
		}
		return t
	}
	t := say.F("%s, %s, show face up: ", d.Season, n.right.Name)
	switch bow := d.View.Bow; {
	case !strings.ContainsAny(b.say.fine(math.Abs(bow)), "123456789"):
		t += say.T("hardly bent")
	case bow > 0:
		t += say.F("hollow by %s", b.say.fine(bow))
	default:
		t += say.F("risen by %s", b.say.fine(-bow))
	}
	if d.View.Factor > 1 {
		t += say.F(", drawn %.0f times as great", d.View.Factor)
	}
	return t
}

func (b *builder) drawEnd(v *view, d *endDrawing) {
	if b.left() < d.height() {
		b.more()
	}
	k, y := b.k(), b.area.Min.Y
	st := boldStyle(least)
	s, fitted := fit(b.f, d.title(b, v.names), st, b.area.W())
	k.text(b.area.Min.X, y+b.f.CapHeight(st), s, fitted)
	y += endName + 1.2
	w, high := d.box.W()*d.scale, d.box.H()*d.scale
	x := b.area.Min.X + (b.area.W()-w)/2
	m := geom.Affine{A: d.scale, C: x - d.box.Min.X*d.scale, E: -d.scale, F: y + d.box.Max.Y*d.scale}
	for i := range d.View.Strips {
		var sap []geom.Polygon
		if i < len(d.View.Woods) {
			sap = d.View.Woods[i].Sapwood
		}
		b.drawEndStrip(&d.View.Strips[i], sap, m)
	}
	b.endRow(d, m, y+high)
	turned := aligned(boldStyle(least), render.Middle)
	turned.Turn = 90
	for _, side := range [...]struct {
		x    float64
		name string
	}{{x - 1.6, v.names.front.Word}, {x + w + 1.6 + b.f.CapHeight(turned), v.names.back.Word}} {
		if b.f.Width(side.name, turned) <= high {
			k.text(side.x, y+high/2, side.name, turned)
		}
	}
	b.area.Min.Y += d.height()
}

// drawEndStrip draws the section of a strip: sapwood, rings, outline.
func (b *builder) drawEndStrip(s *cup.StripView, sap []geom.Polygon, m geom.Affine) {
	k := b.k()
	out := render.Ring(m.ApplyTo(s.Outline))
	k.fill(out, white)
	k.inside(out, func() {
		h, _ := hatchOf(face.Sap)
		for _, g := range sap {
			p := render.Ring(m.ApplyTo(g))
			k.fill(p, pale)
			k.hatch(p, h)
			k.stroke(p, 0.25, black)
		}
		var dash []float64
		if s.Guessed {
			dash = []float64{1, 0.8}
		}
		for _, ring := range s.Rings {
			arc := make([]geom.Point, len(ring))
			for i, q := range ring {
				arc[i] = m.Apply(q)
			}
			k.stroke(render.Polyline(arc...), 0.15, mid, dash...)
		}
	})
	k.stroke(out, 0.35, black)
	if s.Inside {
		q := m.Apply(s.Pith)
		k.fill(render.Box(geom.R(q.X-0.6, q.Y-0.6, q.X+0.6, q.Y+0.6)), black)
	}
}

// endRow writes the number of every strip under it, with the side that is up
// where all have room for it; of too many numbers only some.
func (b *builder) endRow(d *endDrawing, m geom.Affine, foot float64) {
	st := aligned(boldStyle(least), render.Middle)
	y, end := foot+1+b.f.CapHeight(st), b.area.Min.X
	sides := true
	for i := range d.View.Strips {
		sides = sides && b.f.Width(d.texts[i], st)+1.5 <= m.ApplyTo(d.View.Strips[i].Outline).Bounds().W()
	}
	texts, at, most := make([]string, len(d.texts)), make([]float64, len(d.texts)), 0.0
	for i := range d.View.Strips {
		at[i] = m.ApplyTo(d.View.Strips[i].Outline).Bounds().Centre().X
		texts[i] = d.View.Strips[i].ID
		if sides {
			texts[i] = d.texts[i]
		}
		most = max(most, b.f.Width(texts[i], st)+1.2)
	}
	if !sides {
		if spots, ok := spread(at, most, b.area.Min.X, b.area.Max.X); ok {
			at = spots
		}
	}
	for i, s := range texts {
		w := b.f.Width(s, st)
		if at[i]-w/2 < end || at[i]+w/2 > b.area.Max.X {
			continue
		}
		b.k().text(at[i], y, s, st)
		end = at[i] + w/2 + 0.6
	}
}
