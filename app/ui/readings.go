package ui

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// readings is the head of the column: the panel, its light share large, and
// the figures of show face and back.
type readings struct {
	w     *Window
	box   *fyne.Container
	name  *canvas.Text
	size  *canvas.Text
	laid  *canvas.Text
	big   *canvas.Text
	what  [2]*canvas.Text // what the big figure is, and of which face
	head  *fyne.Container
	gauge *gauge
	rows  *figures
}

func newReadings(w *Window) *readings {
	r := &readings{w: w, name: text(theme.SizeNameSubHeadingText, true), size: text(theme.SizeNameCaptionText, false), laid: text(theme.SizeNameCaptionText, false),
		big: text(theme.SizeNameHeadingText, true), what: [2]*canvas.Text{text(theme.SizeNameCaptionText, false), text(theme.SizeNameCaptionText, false)}}
	r.gauge = newGauge()
	r.rows = newFigures()
	r.head = container.New(&besideLayout{}, r.big, container.New(stackLayout{}, r.what[0], r.what[1]))
	r.box = container.NewVBox(r.name, r.size, r.laid, r.head, r.gauge)
	return r
}

// text is one line of the column.
func text(size fyne.ThemeSizeName, strong bool) *canvas.Text {
	t := canvas.NewText("", color.Black)
	t.TextSize = theme.Size(size)
	t.TextStyle.Bold = strong
	return t
}

// write sets a line where it differs; every new string costs the toolkit a
// picture of it.
func write(t *canvas.Text, s string, hue fyne.ThemeColorName) {
	c := theme.Color(hue)
	if t.Text == s && t.Color == c {
		return
	}
	t.Text, t.Color = s, c
	t.Refresh()
}

func (r *readings) show() {
	ses := r.w.ses
	sel := ses.Selected()
	n := ses.Project().Panel(sel.Panel)
	read := ses.Reading(sel.Panel)
	if n == nil || read == nil {
		write(r.name, say.T("No panel"), theme.ColorNameForeground)
		for _, t := range []*canvas.Text{r.size, r.laid, r.big, r.what[0], r.what[1]} {
			write(t, "", theme.ColorNameForeground)
		}
		r.gauge.none()
		r.rows.set(nil)
		return
	}
	fp := ses.Panel(n.ID)
	write(r.name, headline(n), theme.ColorNameForeground)
	write(r.size, ses.Len(n.Length)+" × "+ses.Len(n.Width)+" × "+ses.Len(n.Thickness), theme.ColorNamePlaceHolder)
	write(r.laid, say.F("%d of %s placed on boards", read.Placed, say.Count(len(n.Strips), say.T("strip"), say.T("strips"))), theme.ColorNamePlaceHolder)
	if read.Placed == 0 {
		for _, t := range []*canvas.Text{r.big, r.what[0], r.what[1]} {
			write(t, "", theme.ColorNameForeground)
		}
		r.gauge.none()
		r.rows.set(nil)
		return
	}
	share, what, limit := headShare(fp.Wanted, read), say.T("light wood (sapwood)"), limitOf(n.UnwantedLimit[0])
	switch fp.Wanted {
	case face.WantSap:
		what = say.T("dark wood (heartwood)")
	case face.WantBoth:
		limit = -1
	}
	over := limit >= 0 && share.Value > limit
	hue := theme.ColorNameForeground
	if over {
		hue = theme.ColorNameError
	}
	wide := len(r.big.Text)
	write(r.big, session.Percent(share.Value), hue)
	write(r.what[0], what, theme.ColorNamePlaceHolder)
	write(r.what[1], say.T("on the show face"), theme.ColorNamePlaceHolder)
	if len(r.big.Text) != wide {
		r.head.Refresh()
	}
	r.gauge.set(share, limit, over)
	r.rows.set(faceRows(n, fp, read))
}

// headShare is the share that stands large and on the gauge: of the wood that
// is not wanted, which the limit speaks of; of the light wood where both are.
func headShare(w face.Wanted, r *face.Reading) face.Share {
	if w == face.WantBoth {
		return r.Show.Light
	}
	return r.Show.Unwanted
}

// headline names a panel, and its role where the name does not say it.
func headline(n *model.Panel) string {
	s := title(n.ID)
	if role := roleWords(n.Role); n.Role != model.RoleOther && !strings.Contains(strings.ToLower(s), strings.ToLower(role)) {
		s += "  ·  " + role
	}
	return s
}

// limitOf is where a limit stands on the gauge, -1 for none.
func limitOf(v float64) float64 {
	if v >= 1 {
		return -1
	}
	return v
}

// faceRows are the figures of show face and back.
func faceRows(n *model.Panel, p *face.Panel, r *face.Reading) []figure {
	rows := []figure{{name: "", show: say.T("show face"), back: say.T("back"), head: true}}
	if p.Wanted == face.WantHeart {
		rows = append(rows, figure{name: say.T("Sapwood, unwanted"), show: shareText(r.Show.Unwanted), back: shareText(r.Back.Unwanted)})
	} else {
		rows = append(rows, figure{name: say.T("Sapwood"), show: shareText(r.Show.Light), back: shareText(r.Back.Light)})
		if p.Wanted == face.WantSap {
			rows = append(rows, figure{name: say.T("Heartwood, unwanted"), show: shareText(r.Show.Unwanted), back: shareText(r.Back.Unwanted)})
		}
	}
	if p.Wanted != face.WantBoth {
		rows = append(rows, figure{name: say.T("limit"), show: limitText(n.UnwantedLimit[0]), back: limitText(n.UnwantedLimit[1]), quiet: true})
	}
	if r.Show.UnseenPart > 0 || r.Back.UnseenPart > 0 {
		rows = append(rows, figure{name: say.T("Not seen yet"), show: session.Percent(r.Show.UnseenPart), back: session.Percent(r.Back.UnseenPart)})
	}
	contrast := say.T("Contrast")
	if assumedColours(r) {
		contrast = say.T("Contrast, assumed")
	}
	rows = append(rows,
		figure{name: contrast, show: contrastClass(r.Show.Contrast), back: contrastClass(r.Back.Contrast)},
		figure{name: say.T("Contrast coverage"), show: session.Percent(r.Show.Coverage), back: session.Percent(r.Back.Coverage)},
		figure{name: bandName(p.Wanted), show: itoa(len(r.Show.Bands)), back: itoa(len(r.Back.Bands))},
	)
	if len(r.Show.Flaws) > 0 || len(r.Back.Flaws) > 0 {
		rows = append(rows, figure{name: say.T("Flaws"), show: itoa(len(r.Show.Flaws)), back: itoa(len(r.Back.Flaws))})
	}
	if r.SawnFaces {
		rows = append(rows, figure{name: say.T("Read as sawn: planing will move the sap line"), quiet: true})
	}
	return rows
}

// shareText prints a share, with its range where something is unseen.
func shareText(s face.Share) string {
	if s.Hi-s.Lo < 0.0005 {
		return session.Percent(s.Value)
	}
	return say.F("%s to %s", strings.TrimSuffix(session.Percent(s.Lo), " %"), session.Percent(s.Hi))
}

func limitText(v float64) string {
	if v >= 1 {
		return say.T("any")
	}
	return session.Percent(v)
}

// contrastClass says how strong a contrast is.
func contrastClass(c face.Contrast) string {
	switch {
	case c.Split:
		return say.T("by board")
	case !c.Known:
		return say.T("one kind")
	}
	return say.Print("%s, %.0f", classWords(c.DE), c.DE)
}

func bandName(w face.Wanted) string {
	if w == face.WantSap {
		return say.T("Dark bands")
	}
	return say.T("Light bands")
}
