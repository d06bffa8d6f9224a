package ui

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
	"heartside/model/unit"
)

// planTile is a plan of the gallery: what it is best at, its boards with the
// cuts or its panels, and what it comes to.
type planTile struct {
	widget.BaseWidget
	g     *planGallery
	i     int
	e     *session.Planned
	ring  *canvas.Rectangle
	name  *widget.Label
	text  *widget.Label
	strip *planStrip // the pictures
	box   *fyne.Container
	hover bool
	last  time.Time // of the last tap
}

var (
	_ desktop.Hoverable = (*planTile)(nil)
	_ fyne.Tappable     = (*planTile)(nil)
)

func newPlanTile(g *planGallery, i int) *planTile {
	t := &planTile{g: g, i: i, strip: newPlanStrip()}
	t.ring = canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	t.ring.CornerRadius = 4
	t.name, t.text = wrapped("", widget.MediumImportance), wrapped("", widget.MediumImportance)
	t.name.TextStyle.Bold = true
	t.box = container.New(planTileLayout{t}, t.ring, t.strip.box, t.name, t.text)
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer implements fyne.Widget.
func (t *planTile) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(t.box) }

// planText is what a plan comes to, in two lines.
func planText(w *Window, e *session.Planned) string {
	text := say.F("%s used up", unit.FormatArea(e.Used, w.ses.Units()))
	if e.Cost > 0 {
		text += say.F(" · cost %.2f", e.Cost)
	}
	if len(e.Panels) > 0 {
		text += say.F(" · %s · %s points against", say.Count(e.Joints, say.T("joint"), say.T("joints")), pointWords(e.Points))
	}
	switch n := len(e.Whole); {
	case n == 0:
		text += say.T("\nNo board left whole.")
	case n == 1:
		text += say.F("\nBoard %s left whole.", e.Whole[0])
	case n <= 4:
		text += say.F("\nBoards %s left whole.", say.List(e.Whole))
	default:
		text += say.F("\n%s boards left whole.", itoa(n))
	}
	if e.Missing > 0 {
		text += say.F(" ⚠ %s not whole.", say.Count(e.Missing, say.T("panel or part is"), say.T("panels or parts are")))
	}
	return text
}

// show brings the words up to date.
func (t *planTile) show(e *session.Planned) {
	t.e = e
	name := itoa(t.i+1) + ". " + e.Title
	if t.g.p.nowUsed() == e.ID {
		name = say.F("✓ %s (lies so now)", name)
	}
	put(t.name, name)
	put(t.text, planText(t.g.p.w, e))
}

// texts is all that the height of the tile depends on.
func (t *planTile) texts() string {
	e := t.e
	key := []string{t.name.Text, t.text.Text, e.ID, fmt.Sprint(t.g.p.panels, t.g.longest())}
	return strings.Join(key, "\x01")
}

// picture shows the pictures as far as they are made.
func (t *planTile) picture() {
	if wide := t.box.Size().Width; t.e != nil && wide > 40 {
		t.strip.picture(t, t.strip.lay(t.g, t.e, wide-4*pad()))
	}
}

// above is the height of what stands over the pictures.
func (t *planTile) above() float32 {
	return t.name.MinSize().Height - 2*snugLayout{}.air() + 2*pad()
}

// fit returns the height of the tile in a width.
func (t *planTile) fit(width float32) float32 {
	if t.e == nil {
		return 0
	}
	over := snugLayout{}.air()
	for _, l := range [2]*widget.Label{t.name, t.text} {
		if wide := width - 4*pad() + 2*over; l.Size().Width != wide {
			l.Resize(fyne.NewSize(wide, l.MinSize().Height))
		}
	}
	return t.above() + t.strip.lay(t.g, t.e, width-4*pad()).high + t.text.MinSize().Height - 2*over + 3*pad()
}

// planTileLayout sets the name over the pictures and the words under them.
type planTileLayout struct{ t *planTile }

// MinSize implements fyne.Layout.
func (l planTileLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, l.t.fit(l.t.box.Size().Width))
}

// Layout implements fyne.Layout.
func (l planTileLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	t := l.t
	t.ring.Resize(size)
	if t.e == nil {
		return
	}
	over := snugLayout{}.air()
	t.fit(size.Width)
	wide := size.Width - 4*pad() + 2*over
	t.name.Move(fyne.NewPos(2*pad()-over, pad()-over))
	t.name.Resize(fyne.NewSize(wide, t.name.MinSize().Height))
	laid := t.strip.lay(t.g, t.e, size.Width-4*pad())
	t.strip.box.Move(fyne.NewPos(2*pad(), t.above()))
	t.strip.box.Resize(fyne.NewSize(size.Width-4*pad(), laid.high))
	t.text.Move(fyne.NewPos(2*pad()-over, size.Height-pad()-t.text.MinSize().Height+over))
	t.text.Resize(fyne.NewSize(wide, t.text.MinSize().Height))
	t.picture()
}

// mark shows whether the tile is in hand, and whether the keys are there.
func (t *planTile) mark(on, keys bool) {
	stroke, width, fill := theme.Color(theme.ColorNameSeparator), float32(1), theme.Color(theme.ColorNameInputBackground)
	switch {
	case on && keys:
		stroke, width, fill = theme.Color(theme.ColorNamePrimary), 3, theme.Color(theme.ColorNameOverlayBackground)
	case on:
		stroke, width = theme.Color(theme.ColorNameInputBorder), 3
	case t.hover:
		stroke = theme.Color(theme.ColorNameInputBorder)
	}
	if t.ring.StrokeColor == stroke && t.ring.StrokeWidth == width && t.ring.FillColor == fill {
		return
	}
	t.ring.StrokeColor, t.ring.StrokeWidth, t.ring.FillColor = stroke, width, fill
	t.ring.Refresh()
}

// Tapped takes the plan in hand; a second tap soon after lays everything so.
func (t *planTile) Tapped(*fyne.PointEvent) {
	twice := time.Since(t.last) < doubleClick
	t.last = time.Now()
	t.g.p.w.takeKeys()
	t.g.take(t.i)
	if twice {
		t.last = time.Time{}
		t.g.p.use()
	}
}

// MouseIn implements desktop.Hoverable.
func (t *planTile) MouseIn(*desktop.MouseEvent) {
	t.hover = true
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say(say.T("Click takes the plan in hand, a double click lays everything so."))
}

// MouseMoved implements desktop.Hoverable.
func (t *planTile) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (t *planTile) MouseOut() {
	t.hover = false
	t.mark(t.i == t.g.at, t.g.has)
	t.g.p.w.say("")
}
