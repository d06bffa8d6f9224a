package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model/say"
)

// ageNames are the ages that colours are shown at.
func ageNames() [3]string { return [3]string{say.T("now"), say.T("1 year"), say.T("10 years")} }

// toneRows are the colours of a section: a line of words and three swatches
// each. beside, where not nil, is the wood each is seen beside, in the upper
// half of its swatch.
func toneRows(w *Window, tones []session.Tones, beside *session.Tones) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for i, t := range tones {
		text := t.Name
		if t.Basis != "" && beside == nil {
			text += ": " + t.Basis
		}
		l := wrapped(text, widget.MediumImportance)
		l.SizeName = theme.SizeNameCaptionText
		out = append(out, snug(l), swatches(w, t, beside, i == 0))
	}
	return out
}

// swatches draws the three colours of a wood, sapwood hatched; the first of
// several says which age is which.
func swatches(w *Window, tone session.Tones, beside *session.Tones, headed bool) *behaveDrawing {
	text := w.behaveText()
	head := 0.0
	if headed {
		head = 1.5 * text
	}
	high := 1.9 * text
	if beside != nil {
		high = 2.6 * text
	}
	d := newBehaveDrawing(w, func(float64) float64 { return head + high }, func(c render.Canvas, room geom.Rect) {
		gap := 4.0
		wide := (room.W() - 2*gap) / 3
		for k, name := range ageNames() {
			x := float64(k) * (wide + gap)
			if headed {
				st := w.behaveStyle(true)
				c.Text(geom.Pt(x+1, 1.05*text), name, st)
			}
			box := geom.R(x, head, x+wide, head+high-1)
			low := box
			if beside != nil {
				up := box
				up.Max.Y = box.Centre().Y
				low.Min.Y = up.Max.Y
				c.Fill(render.Box(up), beside.At[k].ToNRGBA())
			}
			swatch(c, low, tone.At[k], tone.Sap, text)
			c.Stroke(render.Box(box.Inset(0.5)), render.Pen{Width: 1, Color: nrgba(theme.Color(theme.ColorNameInputBorder))})
		}
	})
	d.says = tone.Name
	return d
}

func swatch(c render.Canvas, box geom.Rect, lab colour.Lab, sap bool, text float64) {
	c.Fill(render.Box(box), lab.ToNRGBA())
	if sap {
		h := sapHatch(text)
		if lab.L < 45 {
			h.Pen.Color = hexA(0xFFF6E8, 0x70)
		}
		c.Hatch(render.Box(box), h)
	}
}

// heartTones are the colours of the heartwood where the panel is of one wood.
func heartTones(b *session.Behaviour) *session.Tones {
	var out *session.Tones
	for i := range b.Sections {
		if b.Sections[i].ID != "ageing" {
			continue
		}
		for k := range b.Sections[i].Tones {
			if t := &b.Sections[i].Tones[k]; !t.Sap {
				if out != nil {
					return nil
				}
				out = t
			}
		}
	}
	return out
}
