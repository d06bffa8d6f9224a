package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// card is one warning: a headline, and opened the reasons and the fixes.
type card struct {
	widget.BaseWidget
	c       *column
	i       int
	note    session.Note
	opened  bool
	pointed bool
	more    *signButton
	detail  *fyne.Container
	fixes   []*fixButton
}

var _ desktop.Hoverable = (*card)(nil)

func newCard(c *column, i int, n session.Note, opened bool) *card {
	k := &card{c: c, i: i, note: n, opened: opened}
	k.detail = container.New(stackLayout{}, line(n.Text, widget.MediumImportance))
	if n.Text == "" {
		k.detail.RemoveAll()
	}
	if len(n.Under) > 0 {
		k.detail.Add(line(say.F("Also: %s", strings.Join(n.Under, " ")), widget.LowImportance))
	}
	if n.Assumed {
		k.detail.Add(line(say.T("Rests on assumed colours."), widget.LowImportance))
	}
	for _, f := range n.Fixes {
		b := newFixButton(f, func() { c.apply(f) })
		k.fixes = append(k.fixes, b)
		k.detail.Add(b)
	}
	switch {
	case n.Kind == session.BoardSpoiled && len(n.Fixes) == 0: // its text says what to do
	case !n.FixesKnown:
		k.detail.Add(line(say.T("Looking for a fix…"), widget.LowImportance))
	case len(n.Fixes) == 0:
		k.detail.Add(line(say.T("No small change mends this without making another warning."), widget.LowImportance))
	}
	k.more = newSignButton(c.w, theme.MenuDropDownIcon(), k.moreWords, k.toggle)
	k.ExtendBaseWidget(k)
	k.arrange()
	return k
}

// wrapped is a label that breaks its lines.
func wrapped(s string, importance widget.Importance) *widget.Label {
	l := widget.NewLabel(s)
	l.Wrapping = fyne.TextWrapWord
	l.Importance = importance
	return l
}

// line is wrapped with less air round it.
func line(s string, importance widget.Importance) fyne.CanvasObject {
	return snug(wrapped(s, importance))
}

// moreWords says what the arrow of the card does.
func (k *card) moreWords() string {
	if k.opened {
		return say.F("Fold away: %s", k.note.Title)
	}
	return say.F("Reasons and fixes: %s", k.note.Title)
}

func (k *card) toggle() {
	k.opened = !k.opened
	k.c.open[noteID(k.note)] = k.opened
	k.arrange()
	k.c.body.Refresh()
}

func (k *card) arrange() {
	if k.opened {
		k.more.Icon = theme.MenuDropUpIcon()
		k.detail.Show()
	} else {
		k.more.Icon = theme.MenuDropDownIcon()
		k.detail.Hide()
	}
	k.more.Refresh()
	k.Refresh()
}

func (k *card) setPointed(on bool) {
	if k.pointed != on {
		k.pointed = on
		k.Refresh()
	}
}

// MouseIn implements desktop.Hoverable: the place lights up.
func (k *card) MouseIn(*desktop.MouseEvent) { k.c.point(k.i) }

// MouseMoved implements desktop.Hoverable.
func (k *card) MouseMoved(*desktop.MouseEvent) { k.c.point(k.i) }

// MouseOut implements desktop.Hoverable.
func (k *card) MouseOut() { k.c.point(-1) }

// Tapped opens or closes the card.
func (k *card) Tapped(*fyne.PointEvent) { k.toggle() }

// CreateRenderer implements fyne.Widget.
func (k *card) CreateRenderer() fyne.WidgetRenderer {
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
	ground.CornerRadius = 4
	bar := canvas.NewRectangle(theme.Color(theme.ColorNameWarning))
	bar.SetMinSize(fyne.NewSize(4, 4))
	head := wrapped(k.note.Title, widget.MediumImportance)
	head.TextStyle.Bold = true
	top := container.NewBorder(nil, nil, nil, container.NewVBox(snug(k.more)), snug(head))
	body := container.NewBorder(nil, nil, bar, nil, container.NewPadded(container.New(stackLayout{}, top, k.detail)))
	return &cardRenderer{k: k, ground: ground, bar: bar, all: container.NewStack(ground, body)}
}

type cardRenderer struct {
	k           *card
	ground, bar *canvas.Rectangle
	all         *fyne.Container
}

func (r *cardRenderer) Layout(size fyne.Size) { r.all.Resize(size) }
func (r *cardRenderer) MinSize() fyne.Size    { return r.all.MinSize() }

func (r *cardRenderer) Refresh() {
	hue := theme.ColorNameWarning
	if r.k.note.Severe {
		hue = theme.ColorNameError
	}
	r.bar.FillColor = theme.Color(hue)
	r.ground.FillColor = theme.Color(theme.ColorNameOverlayBackground)
	r.ground.StrokeWidth = 0
	if r.k.pointed {
		r.ground.StrokeColor, r.ground.StrokeWidth = theme.Color(theme.ColorNamePrimary), 2
	}
	r.ground.Refresh()
	r.bar.Refresh()
	r.all.Refresh()
}

func (r *cardRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.all} }
func (r *cardRenderer) Destroy()                     {}
