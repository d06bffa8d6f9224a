package sheet

import (
	"image/color"
	"math"
	"strings"

	"heartside/app/render"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// client writes the page a client sees and signs: the arrangement, how it will
// age, what is natural. It shows the woods in their colours and no joints.
func (b *builder) client(p *Panel) {
	v := b.viewOf(p, b.in.Project.Panel(p.Panel.ID))
	out := p.Panel.Outline().Bounds()
	if len(p.Panel.Strips) == 0 || out.Empty() {
		return
	}
	text := b.clientText(v)
	h := header{title: say.F("For the client: %s", p.Panel.ID), facts: []string{say.F("finished %s", b.say.size(p.Panel.Length, p.Panel.Width, p.Panel.Thickness))}}
	_, species := sources(p.Panel)
	h.facts = append(h.facts, speciesNames(species)...)
	if n := emptyPlaces(p.Panel); n > 0 {
		h.facts = append(h.facts, say.F("%s not chosen yet", say.Count(n, say.T("place"), say.T("places"))))
	}
	b.open(false, h, []mark{wordMark(say.T("Code"), say.T("changes with the layout"))})
	pictures := b.clientPictures(v)
	need := func() float64 { return b.textHeight(text) + signHigh + 2 }
	b.largest(need, b.left()*0.55)
	b.drawPictures(v, pictures, math.Min(b.left()-need(), b.left()*0.62))
	b.paragraphs(text)
	if b.left() < signHigh {
		b.more()
	}
	b.sign()
}

// picture is the panel at one age.
type picture struct {
	name  string
	shift func(*face.Board, int, face.Kind) colour.Lab // nil: as it is now
}

// clientPictures are the ages that something is known of.
func (b *builder) clientPictures(v *view) []picture {
	out := []picture{{name: say.T("Now")}}
	for i, name := range [...]string{say.T("In one year"), say.T("In ten years")} {
		if f := v.Shift[i]; f != nil && changes(v, f) {
			out = append(out, picture{name, f})
		}
	}
	return out
}

// changes reports whether some wood of a panel changes colour.
func changes(v *view, f func(*face.Board, int, face.Kind) colour.Lab) bool {
	for i := range v.Panel.Panel.Strips {
		if s := &v.Panel.Panel.Strips[i]; s.Board != nil {
			if f(s.Board, s.UpFace(), face.Heart) != (colour.Lab{}) || f(s.Board, s.UpFace(), face.Sap) != (colour.Lab{}) {
				return true
			}
		}
	}
	return false
}

// drawPictures draws the first picture over the page's width and the others
// beside each other under it, in at most high mm.
func (b *builder) drawPictures(v *view, list []picture, high float64) {
	if n := len(list) - 1; n > 0 {
		first := high * 0.58
		b.drawPicture(v, list[0], geom.R(b.area.Min.X, b.area.Min.Y, b.area.Max.X, b.area.Min.Y+first))
		w := (b.area.W() - 6*float64(n-1)) / float64(n)
		end := b.area.Min.Y
		top := b.area.Min.Y + pictureHigh(v, b.area.W(), first)
		for i, p := range list[1:] {
			x := b.area.Min.X + float64(i)*(w+6)
			b.drawPicture(v, p, geom.R(x, top, x+w, top+high-first))
			end = top + pictureHigh(v, w, high-first)
		}
		b.area.Min.Y = end
		return
	}
	b.drawPicture(v, list[0], geom.R(b.area.Min.X, b.area.Min.Y, b.area.Max.X, b.area.Min.Y+high))
	b.area.Min.Y += pictureHigh(v, b.area.W(), high)
}

// pictureName is the row over a picture, mm, and pictureGap what is free under.
const pictureName, pictureGap = 5.0, 4.0

// pictureScale is mm on the page for a mm of the panel.
func pictureScale(v *view, w, high float64) float64 {
	o := v.Panel.Panel.Outline().Bounds()
	return math.Min(math.Min(w/o.W(), math.Max(high-pictureName-pictureGap, 5)/o.H()), 1)
}

func pictureHigh(v *view, w, high float64) float64 {
	return v.Panel.Panel.Outline().Bounds().H()*pictureScale(v, w, high) + pictureName + pictureGap
}

func (b *builder) drawPicture(v *view, p picture, r geom.Rect) {
	k, st := b.k(), boldStyle(body)
	outline := v.Panel.Panel.Outline()
	o := outline.Bounds()
	s := pictureScale(v, r.W(), r.H())
	k.text(r.Min.X, r.Min.Y+b.f.CapHeight(st), p.name, st)
	m := geom.Affine{A: s, C: r.Min.X - o.Min.X*s, E: -s, F: r.Min.Y + pictureName + o.Max.Y*s}
	shape := render.Ring(m.ApplyTo(outline))
	k.inside(shape, func() {
		for i := range v.fin.Strips {
			b.picturedStrip(v, i, p, m)
		}
	})
	k.stroke(shape, 0.3, black)
}

// picturedStrip fills the zones of a strip with their colours. Each zone is
// drawn a hair larger, so that no seam is seen at a joint.
func (b *builder) picturedStrip(v *view, i int, p picture, m geom.Affine) {
	k, s := b.k(), &v.fin.Strips[i]
	box := gluedRect(v.fin, i)
	grown := render.Box(m.ApplyTo(geom.R(box.Min.X, box.Min.Y-0.2, box.Max.X, box.Max.Y+0.2).Polygon()).Bounds())
	if s.Board == nil {
		k.fill(grown, white)
		return
	}
	k.inside(grown, func() {
		for n, z := range shownRegions(v.fin, i, face.Show) {
			c := toneOf(s, z.kind, p)
			if n == 0 {
				k.fill(grown, c)
				continue
			}
			k.fill(render.Ring(m.ApplyTo(z.poly)), c)
			if z.kind == face.Unseen {
				h, _ := hatchOf(face.Unseen)
				k.hatch(render.Ring(m.ApplyTo(z.poly)), h)
			}
		}
	})
}

// toneOf is the colour a kind of wood is drawn in: that of its photograph, else
// the species' drawing colour, moved by the years.
func toneOf(s *face.Strip, kind face.Kind, p picture) color.NRGBA {
	f, drawn := &s.Board.Faces[s.UpFace()-1], s.Board.AssumedHeart
	seen, wood := f.Heart, face.Heart
	if kind == face.Sap {
		seen, drawn, wood = f.Sap, s.Board.AssumedSap, face.Sap
	}
	c := drawn
	if seen != nil {
		c = *seen
	}
	if c == (colour.Lab{}) { // nothing is known: two greys
		c.L = 50
		if wood == face.Sap {
			c.L = 78
		}
	}
	if p.shift != nil {
		d := p.shift(s.Board, s.UpFace(), wood)
		c.L, c.A, c.B = c.L+d.L, c.A+d.A, c.B+d.B
	}
	if kind == face.Flaw {
		c.L *= 0.55
	}
	return c.ToNRGBA()
}

// clientText is what a client is told.
func (b *builder) clientText(v *view) []paragraph {
	n := v.names
	seen := say.F("Seen on the show side, %s at the foot. Sapwood, the outer wood of the tree, covers %s of this face.", n.front.The, b.shareText(v.Reading.Show.Light))
	if len(b.clientPictures(v)) == 1 {
		seen += say.T(" How these woods change with the years is not known well enough to be drawn.")
	}
	out := []paragraph{{text: say.T("The arrangement"), bold: true}, {text: seen}}
	for _, s := range v.sections() {
		if s.ID == "ageing" {
			out = append(out, paragraph{text: say.T("How it will age"), bold: true, before: 1.6})
			out = append(out, paragraph{text: strings.TrimSpace(s.Lead)})
			for _, note := range s.Notes {
				out = append(out, paragraph{text: note, bullet: "–"})
			}
		}
	}
	out = append(out, paragraph{text: say.T("What is natural"), bold: true, before: 1.6})
	for _, t := range []string{
		say.T("Heartwood and sapwood of one tree differ in colour, and so do boards of one kind. Sapwood is sound wood indoors; outdoors and in damp it does not last."),
		say.T("Figure, small knots and changes of colour belong to wood. Pieces turned end for end or over catch the light differently."),
		say.T("Wood is wider in the damp season and narrower in the dry one: gaps are made for that. Keep it from heaters, sun and wet."),
		say.T("Colours on paper are illustrations: what counts is a sample of the same board, heartwood and sapwood, with the whole finish on."),
	} {
		out = append(out, paragraph{text: t, bullet: "–"})
	}
	return out
}

// signHigh is the height of the place to sign, mm.
const signHigh = 24

func (b *builder) sign() {
	k, st := b.k(), style(body)
	y := b.area.Max.Y - signHigh
	k.text(b.area.Min.X, y+6, say.F("I have seen this arrangement and agree to it as drawn, Code %s.", b.code), boldStyle(body))
	names := [...]string{say.T("Client"), say.T("Signature"), say.T("Date")}
	if b.in.Author != "" {
		names[0] = say.F("Client of %s", b.in.Author)
	}
	w := (b.area.W() - 2*8) / 3
	for i, s := range names {
		x := b.area.Min.X + float64(i)*(w+8)
		k.line(x, y+18, x+w, y+18, 0.3, black)
		s, at := fit(b.f, s, st, w)
		k.text(x, y+18+1.2+b.f.CapHeight(at), s, at)
	}
	b.area.Min.Y = b.area.Max.Y
}
