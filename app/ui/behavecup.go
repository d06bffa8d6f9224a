package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/wood/cup"
	"heartside/model/say"
)

// bowDrawing is the end of the panel with its cup, and the choice of season,
// of laying up and of how the strips are put together.
type bowDrawing struct {
	p       *behavePage
	look    session.EndLook
	ways    []cup.LayupName
	view    *session.EndView
	drawing *behaveDrawing
	says    *widget.Label
}

func newBowDrawing(p *behavePage) *bowDrawing {
	d := &bowDrawing{p: p, look: p.end}
	d.drawing = newBehaveDrawing(p.w, d.high, d.draw)
	d.says = wrapped("", widget.LowImportance)
	d.says.SizeName = theme.SizeNameCaptionText
	d.read()
	return d
}

// objects are the parts of the card, none where there is nothing to draw.
func (d *bowDrawing) objects() []fyne.CanvasObject {
	if d.view == nil {
		return nil
	}
	var names []string
	d.ways, names = d.p.w.ses.EndLayups(d.panel())
	way := 0
	for i, n := range d.ways {
		if n == d.look.Layup {
			way = i
		}
	}
	season := 0
	if d.look.Wet {
		season = 1
	}
	pickSeason := newBehavePick(d.p, []string{say.T("Driest season"), say.T("Dampest season")}, season, func(i int) { d.look.Wet = i == 1; d.changed() })
	pickWay := newBehavePick(d.p, names, way, func(i int) { d.look.Layup = d.ways[max(i, 0)]; d.changed() })
	pickForm := newBehavePick(d.p, []string{say.T("Slope carried on"), say.T("Glue lines stay planes")}, int(d.look.Form), func(i int) { d.look.Form = session.EndForm(max(i, 0)); d.changed() })
	return []fyne.CanvasObject{flow([]fyne.CanvasObject{pickSeason, pickWay, pickForm}), d.drawing, snug(d.says)}
}

func (d *bowDrawing) panel() string { return d.p.w.ses.Selected().Panel }

// changed draws what was chosen.
func (d *bowDrawing) changed() {
	d.p.end = d.look
	d.read()
	d.drawing.raster.Refresh()
	d.p.refolded()
}

func (d *bowDrawing) read() {
	d.view = d.p.w.ses.EndView(d.panel(), d.look)
	if d.view == nil {
		return
	}
	how := say.T("the slope is carried on across every joint, which mostly bows more")
	if d.look.Form == session.FormGlued {
		how = say.T("every glue line stays a plane, as in elastic wood")
	}
	drawn := say.T("drawn as it is")
	if d.view.Factor > 1 {
		drawn = say.F("drawn %g times as high as it is", d.view.Factor)
	}
	text := say.F("The show face %s; %s. Here %s.", d.p.w.ses.BowWords(d.view.Bow), drawn, how)
	if n := d.p.w.ses.Project().Panel(d.panel()); n != nil && n.Width-d.view.Width > 1 {
		text = say.F("The strips placed so far. %s", text)
	}
	if d.view.Guessed {
		text += say.T(" Broken rings: the pith is not known.")
	}
	d.drawing.says = text
	d.says.SetText(text)
}

// box is what the view takes, mm, with what is drawn about it.
func (d *bowDrawing) box() geom.Rect {
	out := geom.R(0, 0, d.view.Width, d.view.Thickness)
	for i := range d.view.Strips {
		out = out.Union(d.view.Strips[i].Outline.Bounds())
	}
	return out
}

func (d *bowDrawing) high(width float64) float64 {
	if d.view == nil {
		return 0
	}
	b := d.box()
	return math.Min(b.H()*(width-4)/b.W(), 0.6*width) + 3.4*d.p.w.behaveText()
}

func (d *bowDrawing) draw(c render.Canvas, room geom.Rect) {
	if d.view == nil {
		return
	}
	t := d.p.w.behaveText()
	b := d.box()
	scale := math.Min((room.W()-4)/b.W(), (room.H()-3.4*t)/b.H())
	mid := geom.Pt(room.Centre().X, room.Min.Y+1.7*t+b.H()*scale/2)
	m := geom.Translate(-b.Centre().X, -b.Centre().Y).Then(geom.Scale(scale, -scale)).Then(geom.Translate(mid.X, mid.Y))
	ink := nrgba(theme.Color(theme.ColorNameForeground))
	for i := range d.view.Strips {
		d.strip(c, m, i, t)
	}
	quiet := d.p.w.behaveStyle(true)
	// The flat, from edge to edge of the show face.
	last := len(d.view.Strips) - 1
	first := d.view.Strips[0].Outline
	rear := d.view.Strips[last].Outline
	a, z := m.Apply(first[len(first)-1]), m.Apply(rear[len(rear)/2])
	c.Stroke(render.Segment(a, z), render.Pen{Width: 1.2, Color: ink, Dash: []float64{5, 4}})
	for i := range d.view.Strips {
		box := geom.Polygon(m.ApplyTo(d.view.Strips[i].Outline)).Bounds()
		st := quiet
		st.Align, st.Size = render.Middle, 0.92*t
		if name := d.view.Strips[i].ID; d.p.w.faces.Width(name, st) < box.W()-4 {
			c.Text(geom.Pt(box.Centre().X, room.Min.Y+0.9*t), name, st)
		}
	}
	y := room.Max.Y - 0.4*t
	c.Text(geom.Pt(room.Min.X+2, y), d.view.Front, quiet)
	quiet.Align = render.Right
	c.Text(geom.Pt(room.Max.X-2, y), d.view.Back, quiet)
	quiet.Align = render.Middle
	c.Text(geom.Pt(room.Centre().X, y), say.T("show face up"), quiet)
}

// strip draws one strip's section: its wood, its rings, its outline.
func (d *bowDrawing) strip(c render.Canvas, m geom.Affine, i int, t float64) {
	v := &d.view.Strips[i]
	ring := render.Ring(m.ApplyTo(v.Outline))
	c.Push(ring)
	if i < len(d.view.Woods) {
		w := &d.view.Woods[i]
		c.Fill(ring, w.Heart.ToNRGBA())
		for _, s := range w.Sapwood {
			sap := render.Ring(m.ApplyTo(s))
			c.Fill(sap, w.Sap.ToNRGBA())
			c.Hatch(sap, sapHatch(t))
		}
	}
	pen := render.Pen{Width: 0.8, Color: hexA(0x1A1510, 0xA0)}
	if v.Guessed {
		pen.Dash = []float64{4, 3}
	}
	// Rings that would run into one another are left out.
	every := 1
	if gap := d.view.Thickness * math.Abs(m.A) / 4; gap < 4 {
		every = int(math.Ceil(4 / gap))
	}
	for k := 0; k < len(v.Rings); k += every {
		c.Stroke(render.Path{{Points: m.ApplyTo(v.Rings[k])}}, pen)
	}
	c.Pop()
	c.Stroke(ring, render.Pen{Width: 1.3, Color: nrgba(theme.Color(theme.ColorNameForeground))})
	if v.Inside {
		q := m.Apply(v.Pith)
		for _, o := range []geom.Point{{X: 4}, {Y: 4}} {
			c.Stroke(render.Segment(q.Sub(o), q.Add(o)), render.Pen{Width: 1.8, Color: hex(0x1A1510)})
		}
	}
}
