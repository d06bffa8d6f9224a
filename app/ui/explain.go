package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/face"
	"heartside/model/say"
)

// explainShow says how the readings of the panel on screen are meant, what
// they rest on, and gives the finer figures behind them.
func (w *Window) explainShow() {
	if w.explainPage() {
		return
	}
	n, r, p := w.panel(), w.ses.Reading(w.ses.Selected().Panel), w.ses.Panel(w.ses.Selected().Panel)
	tell := func(s string) fyne.CanvasObject { return wrapped(s, widget.MediumImportance) }
	body := container.NewVBox(
		bold(say.T("Shares")),
		tell(say.T("Area of the sapwood, or of the wood not wanted, over the area of the whole face after trimming. Exact for the zones as they are entered. Two figures stand there where part of the face was not seen: at best and at worst.")),
		bold(say.T("Bands")),
		tell(say.T("A band is a piece of unwanted wood that holds together to the eye, over knots and small gaps. Specks are too small to be judged.")),
		bold(say.T("Contrast")),
		tell(say.T("How far apart sapwood and heartwood are in colour on that face: very small, small, large or strong. Large and strong ones are judged as streaks.")),
		tell(say.T("The classes begin at colour differences of 2, 6 and 12. They are published for CIELAB differences on wood; holding CIEDE2000 differences against them is an engineering choice.")),
		bold(say.T("Contrast coverage")),
		tell(say.T("The part of the face whose 10 mm squares differ clearly in colour from the wood that is wanted: by 6, or by twice what that wood itself varies.")),
		bold(say.T("Joints")),
		tell(say.T("What meets along each glue line, and on what part of it sapwood lies against heartwood.")))
	if n != nil && r != nil && r.Placed > 0 {
		body.Add(bold(say.T("The finer figures of this panel")))
		t := newFigures()
		t.set(finerRows(p, r))
		body.Add(container.NewPadded(t.box))
		for _, s := range restsOn(r) {
			body.Add(tell(s))
		}
	}
	w.ask(question{title: say.T("How the readings are meant"), body: body, size: fyne.NewSize(620, 640)})
}

// finerRows are the figures that the column leaves out.
func finerRows(p *face.Panel, r *face.Reading) []figure {
	return []figure{
		{show: say.T("show face"), back: say.T("back"), head: true},
		{name: say.T("Colour difference, ΔE"), show: contrastText(r.Show.Contrast), back: contrastText(r.Back.Contrast)},
		{name: bandName(p.Wanted), show: itoa(len(r.Show.Bands)), back: itoa(len(r.Back.Bands))},
		{name: say.T("Specks"), show: itoa(r.Show.Specks), back: itoa(r.Back.Specks)},
	}
}

// restsOn says what the readings of a panel rest on.
func restsOn(r *face.Reading) []string {
	var out []string
	if r.SawnFaces {
		out = append(out, say.T("Read on the sawn faces: wood is still to come off, and planing will move the sap line."))
	}
	for i := range r.Strips {
		if r.Strips[i].Guessed {
			out = append(out, say.T("A face of some board was not looked at: it is taken straight through from the other one."))
			break
		}
	}
	if assumedColours(r) {
		out = append(out, say.T("The contrast is assumed: it comes from the species' drawing colours, which are an illustration. Photographs make it measured."))
	}
	return out
}

// assumedColours reports whether a contrast comes from drawing colours.
func assumedColours(r *face.Reading) bool {
	for _, c := range []face.Contrast{r.Show.Contrast, r.Back.Contrast} {
		if c.Known && c.Assumed {
			return true
		}
	}
	return false
}

func contrastText(c face.Contrast) string {
	switch {
	case c.Split:
		return say.T("by board")
	case !c.Known:
		return say.T("one kind")
	}
	return say.Print("%.0f", c.DE)
}
