package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
	"heartside/model/unit"
)

// mark is one entry of the legend: a sample and what it means.
type mark struct {
	draw func(k *ink, r geom.Rect)
	text string
	word string // drawn instead of a sample

	wide  float64 // of the sample, mm; 0 the usual
	ratio bool    // room for the scale of the drawing
}

// sample is the size of a legend's sample, mm.
const sampleW, sampleH = 9.0, 4.0

func woodMark(kind face.Kind, text string) mark {
	return mark{draw: func(k *ink, r geom.Rect) {
		k.wood(render.Box(r), kind, false)
		k.stroke(render.Box(r), 0.2, black)
	}, text: text}
}

func lineMark(width float64, text string, dash ...float64) mark {
	return mark{draw: func(k *ink, r geom.Rect) {
		y := r.Centre().Y
		k.line(r.Min.X, y, r.Max.X, y, width, black, dash...)
	}, text: text}
}

func ringMark(text string, dash ...float64) mark {
	return mark{draw: func(k *ink, r geom.Rect) {
		k.line(r.Min.X, r.Centre().Y, r.Max.X, r.Centre().Y, 0.15, mid, dash...)
	}, text: text}
}

func wordMark(word, text string) mark {
	return mark{draw: func(k *ink, r geom.Rect) {
		st := aligned(boldStyle(least), render.Middle)
		k.text(r.Centre().X, r.Centre().Y+k.faces.CapHeight(st)/2, word, st)
	}, text: text, word: word}
}

func woodMarks() []mark {
	return []mark{
		woodMark(face.Heart, say.T("heartwood")),
		woodMark(face.Sap, say.T("sapwood")),
		woodMark(face.Flaw, say.T("knot, split, wane")),
		woodMark(face.Unseen, say.T("not seen yet")),
		{draw: func(k *ink, r geom.Rect) {
			k.stroke(render.Box(r), 0.2, black)
			k.endBar(r.Min.X, r.Min.Y, r.Max.Y, 1)
		}, text: say.T("marked end")},
	}
}

// headMarks explain what stands at the head of every page.
func headMarks() []mark {
	return []mark{
		wordMark(say.T("MC"), say.T("moisture of the wood")),
		wordMark(say.T("Code"), say.T("changes with the layout")),
	}
}

func (b *builder) panelMarks() []mark {
	list := append(woodMarks(),
		mark{draw: func(k *ink, r geom.Rect) { k.arrow(r.Min.X, r.Max.X, r.Centre().Y) }, text: say.T("planes this way")},
		mark{draw: func(k *ink, r geom.Rect) {
			k.triangle(r.Centre().X, sampleH*0.8, r.Min.Y, r.Max.Y)
		}, text: say.T("triangle to chalk")},
		lineMark(0.5, say.T("finished outline"), 2.2, 1),
		wordMark(say.T("in"), say.T("edge run with show face to the fence")),
		wordMark(say.T("out"), say.T("away from it")),
		wordMark("!1", say.T("warning 1")),
		wordMark("22", say.T("sapwood from that edge")),
		wordMark(say.T("RH"), say.T("humidity of the air")),
	)
	return append(append(list, headMarks()...), b.scaleMarks()...)
}

// fitMarks explain the ends.
func fitMarks(v *view) []mark {
	list := []mark{{draw: func(k *ink, r geom.Rect) {
		k.fill(render.Box(r), pale)
		h, _ := hatchOf(face.Sap)
		k.hatch(render.Box(r), h)
		k.stroke(render.Box(r), 0.25, black)
	}, text: say.T("sapwood, in the middle of the length")}}
	rings, guessed, pith := false, false, false
	for _, e := range v.Ends {
		if e.View == nil || e.View.View == nil {
			continue
		}
		for _, s := range e.View.Strips {
			rings, guessed, pith = rings || !s.Guessed, guessed || s.Guessed, pith || s.Inside
		}
	}
	if rings {
		list = append(list, ringMark(say.T("growth rings")))
	}
	if guessed {
		list = append(list, ringMark(say.T("rings about a pith nobody measured"), 1, 0.8))
	}
	if pith {
		list = append(list, mark{draw: func(k *ink, r geom.Rect) {
			c := r.Centre()
			k.fill(render.Box(geom.R(c.X-0.5, c.Y-0.5, c.X+0.5, c.Y+0.5)), black)
		}, text: say.T("pith")})
	}
	list = append(list, wordMark(say.T("RH"), say.T("humidity of the air")))
	return append(list, headMarks()...)
}

func (b *builder) boardMarks(parts []place) []mark {
	what := say.T("strip as jointed")
	if len(stripsOf(parts)) < len(parts) {
		what = say.T("strip or part as jointed")
	}
	list := append(woodMarks(),
		lineMark(0.45, what),
		lineMark(0.25, say.T("blank to saw"), 1.6, 1),
		lineMark(0.35, say.T("snapped line"), 4, 1, 0.8, 1),
		wordMark("2", say.T("cut, in order, with its place")),
	)
	return append(append(list, headMarks()...), b.scaleMarks()...)
}

// scaleMarks are a bar to hold a rule against, and the scale of the drawing.
func (b *builder) scaleMarks() []mark {
	long, name := b.barLength()
	return []mark{{wide: long, draw: func(k *ink, r geom.Rect) { k.scaleBar(r) }, text: say.F("%s if printed at 100 %%", name)}, {ratio: true}}
}

// barLength is how long the bar is that shows whether a printer is true, in mm
// and in words.
func (b *builder) barLength() (mm float64, name string) {
	if b.say.sys == unit.Inch {
		return 2 * unit.InchMM, `2"`
	}
	return 50, say.T("50 mm")
}

// scaleBar is a bar with both ends and the middle marked.
func (k *ink) scaleBar(r geom.Rect) {
	y := r.Centre().Y
	k.line(r.Min.X, y, r.Max.X, y, 0.3, black)
	for i, x := range [...]float64{r.Min.X, r.Centre().X, r.Max.X} {
		high := 1.5
		if i == 1 {
			high = 0.8
		}
		k.line(x, y-high, x, y+high, 0.2, black)
	}
}

// ratioText says how many mm of wood a mm on paper is.
func ratioText(v float64) string {
	switch {
	case v < 1.0005 && v > 0.9995:
		return say.T("drawn full size")
	case v < 100:
		return say.F("drawn 1 : %.1f", v)
	}
	return say.F("drawn 1 : %.0f", v)
}

// drawLegend writes the legend at the foot of the page and returns where the
// rest must end.
func (b *builder) drawLegend() float64 {
	st := style(least)
	const gap, row = 3.0, sampleH + 0.9
	marks := b.marks
	if b.lacks {
		marks = append(marks[:len(marks):len(marks)], wordMark("‹6728›", say.T("a letter there is no type for, by its Unicode number")))
	}
	wide := func(m mark) float64 {
		switch {
		case m.wide > 0:
			return m.wide
		case m.ratio:
			return b.f.Width(ratioText(8888.8), st)
		case m.word == "":
			return sampleW
		}
		return b.f.Width(m.word, boldStyle(least))
	}
	type spot struct{ x, y float64 }
	spots := make([]spot, len(marks))
	x, rows := 0.0, 0.0
	for i, m := range marks {
		w := wide(m) + 1.2 + b.f.Width(m.text, st)
		if x > 0 && x+w > b.area.W() {
			x, rows = 0, rows+1
		}
		spots[i] = spot{x, rows}
		x += w + gap
	}
	top := b.area.Max.Y - (rows+1)*row
	k := b.k()
	k.line(b.area.Min.X, top-0.8, b.area.Max.X, top-0.8, 0.2, mid)
	for i, m := range marks {
		x, y := b.area.Min.X+spots[i].x, top+spots[i].y*row+row-sampleH
		w := wide(m)
		if m.ratio {
			b.page.ratioAt = geom.Pt(x, y+sampleH/2+b.f.CapHeight(st)/2)
			continue
		}
		m.draw(k, geom.R(x, y, x+w, y+sampleH))
		s, fitted := fit(b.f, m.text, st, math.Max(b.area.Max.X-x-w-1.2, 1))
		k.text(x+w+1.2, y+sampleH/2+b.f.CapHeight(st)/2, s, fitted)
	}
	return top - 2.5
}
