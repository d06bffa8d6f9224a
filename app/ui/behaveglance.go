package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model/say"
)

// cardOf is the section that a warning about behaviour belongs to, "" for other
// warnings.
func cardOf(k face.WarningKind) string {
	switch k {
	case session.MovesApart:
		return "joined"
	case session.WillCup:
		return "cup"
	case session.MoistureOfRoom:
		return "stack"
	case session.GrooveTooFlat:
		return "fit"
	case session.StreakMayAppear:
		return "ageing"
	}
	return ""
}

// glance is what matters most, to be seen at once: the width through the year,
// the worst warning, the cup.
func (p *behavePage) glance(b *session.Behaviour) *fyne.Container {
	out := container.New(&glanceLayout{least: p.least})
	id := b.Panel.ID
	if y, ok := p.w.ses.YearWidth(id); ok {
		out.Add(tile(say.T("Width"), bigFigures(
			[2]string{p.w.ses.Len(y.Now), say.T("today")},
			[2]string{p.w.ses.Len(y.Dry), say.T("driest")},
			[2]string{p.w.ses.Len(y.Wet), say.T("dampest")})))
	}
	out.Add(p.watch(b))
	if dry, wet, ok := p.w.ses.YearCup(id); ok {
		out.Add(tile(say.T("Cup, where nothing holds it"), bigFigures(
			[2]string{p.w.ses.Fine(math.Abs(dry)), cupWord(p.w, dry) + say.T("driest")},
			[2]string{p.w.ses.Fine(math.Abs(wet)), cupWord(p.w, wet) + say.T("dampest")})))
	}
	return out
}

func cupWord(w *Window, mm float64) string {
	switch {
	case math.Abs(mm) < 0.05:
		return ""
	case mm > 0:
		return say.T("hollow, ")
	}
	return say.T("risen, ")
}

// watch names the worst that is to be expected and leads to its card.
func (p *behavePage) watch(b *session.Behaviour) fyne.CanvasObject {
	type thing struct{ text, card string }
	var list []thing
	has := map[string]bool{}
	for _, n := range p.w.ses.Notes(b.Panel.ID) {
		if c := cardOf(n.Kind); c != "" && !has[c] {
			list, has[c] = append(list, thing{n.Title, c}), true
		}
	}
	for _, s := range append([]session.Section{b.Air}, b.Sections...) {
		if s.Strong && !has[s.ID] {
			text := s.Lead
			if text == "" {
				text = s.Title
			}
			list, has[s.ID] = append(list, thing{text, s.ID}), true
		}
	}
	if len(list) == 0 {
		return tile(say.T("To watch"), wrapped(say.T("Nothing stands out."), widget.MediumImportance))
	}
	l := wrapped("⚠ "+list[0].text, widget.DangerImportance)
	l.TextStyle.Bold = true
	text := say.T("Show it")
	if n := len(list) - 1; n > 0 {
		text = say.F("Show it; %s marked ⚠", say.Count(n, say.T("more is"), say.T("more are")))
	}
	show := newBehaveButton(p, text, func() { p.showCard(list[0].card) })
	show.Importance, show.Alignment = widget.LowImportance, widget.ButtonAlignLeading
	return tile(say.T("To watch"), container.New(stackLayout{}, snug(l), container.NewHBox(show)))
}

// tile is a part of the glance.
func tile(title string, body fyne.CanvasObject) fyne.CanvasObject {
	head := wrapped(title, widget.LowImportance)
	head.SizeName = theme.SizeNameCaptionText
	if l, ok := body.(*widget.Label); ok {
		body = snug(l)
	}
	return onGround(container.New(stackLayout{}, snug(head), body))
}

// onGround lays a card's content on its ground.
func onGround(o fyne.CanvasObject) *fyne.Container {
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))
	ground.CornerRadius = theme.InputRadiusSize()
	return container.NewStack(ground, container.New(columnLayout{}, o))
}

// bigFigures sets figures side by side, each with what it is beneath.
func bigFigures(list ...[2]string) *fyne.Container {
	out := container.New(evenLayout{})
	for _, f := range list {
		big := widget.NewLabel(f[0])
		big.SizeName, big.TextStyle.Bold = theme.SizeNameHeadingText, true
		small := widget.NewLabel(f[1])
		small.SizeName = theme.SizeNameCaptionText
		out.Add(container.New(stackLayout{}, snug(big), snug(small)))
	}
	return out
}

// evenLayout sets objects side by side, each as wide as it must be and the rest
// shared, or under one another where there is no room.
type evenLayout struct{}

func (evenLayout) need(objs []fyne.CanvasObject) (w, most, sum float32) {
	for _, o := range objs {
		m := o.MinSize()
		w += m.Width
		most = fyne.Max(most, m.Height)
		sum += m.Height
	}
	return w, most, sum
}

// MinSize implements fyne.Layout.
func (l evenLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	w, most, _ := l.need(objs)
	return fyne.NewSize(w+tableGap*float32(len(objs)-1), most)
}

// Layout implements fyne.Layout.
func (l evenLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	w, _, _ := l.need(objs)
	spare := fyne.Max(0, size.Width-w) / float32(max(len(objs), 1))
	spare = fyne.Min(spare, 4*tableGap)
	var x float32
	for _, o := range objs {
		m := o.MinSize()
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(m.Width, size.Height))
		x += m.Width + spare
	}
}

// glanceLayout sets tiles side by side and equally high, or under one another
// where a card would be too narrow.
type glanceLayout struct {
	least func() float32
	width float32
}

func (l *glanceLayout) place(objs []fyne.CanvasObject, width float32, move bool) float32 {
	const air = cardAir
	cols := max(1, min(len(objs), int((width+air)/(l.least()+air))))
	var y float32
	for i := 0; i < len(objs); i += cols {
		row := objs[i:min(i+cols, len(objs))]
		wide := (width - air*float32(len(row)-1)) / float32(len(row))
		var high float32
		for _, o := range row {
			o.Resize(fyne.NewSize(wide, o.MinSize().Height))
			high = fyne.Max(high, o.MinSize().Height)
		}
		for k, o := range row {
			if move {
				o.Move(fyne.NewPos(float32(k)*(wide+air), y))
			}
			o.Resize(fyne.NewSize(wide, high))
		}
		y += high + air
	}
	return y - air
}

// MinSize implements fyne.Layout.
func (l *glanceLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	w := l.width
	if w == 0 {
		w = l.least()
	}
	return fyne.NewSize(200, l.place(objs, w, false))
}

// Layout implements fyne.Layout.
func (l *glanceLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.place(objs, size.Width, true)
}
