package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/photo"
	"heartside/model/say"
)

// faceBar is the tools of the page, over the picture, and the figures of the
// corners under it.
type faceBar struct {
	p       *facePage
	box     *fyne.Container
	foot    *fyne.Container
	steps   [2]*pageButton
	faces   [2]*pageButton
	right   *pageButton
	corners *fyne.Container
	zones   *fyne.Container
	acts    *fyne.Container // what is done at once, where the bar has no room for it
	kinds   map[photo.Label]*pageButton
	modes   map[faceMode]*pageButton
	snap    *tick
	waney   *tick // the long edges are not sawn
	snapAll *pageButton
	tape    *pageButton // measures by a tape in the picture
	traces  *pageButton // waney edges on the squared face
	width   *widget.Label
}

// short is a name without what the room of large text has not: keys stand in
// the list of keys.
func (b *faceBar) short(text, short string) string {
	if b.p.w.large() {
		return short
	}
	return text
}

func newFaceBar(p *facePage) *faceBar {
	b := &faceBar{p: p, kinds: map[photo.Label]*pageButton{}, modes: map[faceMode]*pageButton{}}
	b.steps[stepCorners] = p.button(b.short(say.T("Corners (C)"), say.T("Corners")), func() { p.turn(stepCorners) })
	b.steps[stepZones] = p.button(b.short(say.T("Zones (Z)"), say.T("Zones")), func() { p.turn(stepZones) })
	for i := range b.faces {
		b.faces[i] = p.button(say.F("Face %s", itoa(i+1)), func() { p.faceOf(i + 1) })
	}
	b.right = p.button(say.T("Looks right (Enter)"), p.enterButton)
	leave := p.button(b.short(say.T("Back (Esc)"), say.T("Back")), p.w.leavePage)
	leave.Importance = widget.LowImportance
	room := widget.NewLabel("")
	head := flow([]fyne.CanvasObject{b.steps[0], b.steps[1], gap(), b.faces[0], b.faces[1], room, b.right, leave}, room)
	b.corners, b.zones = b.cornerTools(), b.zoneTools()
	b.box = container.New(stackLayout{}, head, b.corners, b.zones)
	b.foot = container.NewBorder(nil, nil, named(b.short(say.T("Corners, pixels"), say.T("Pixels"))), nil, p.corners.figures)
	return b
}

// enterButton is what the main button does in each step.
func (p *facePage) enterButton() {
	if p.step == stepCorners && p.corners.tape.on {
		p.corners.tape.enter()
		return
	}
	if p.step == stepCorners {
		p.corners.use(nil)
		return
	}
	p.looksRight()
}

func (b *faceBar) cornerTools() *fyne.Container {
	c, p := b.p.corners, b.p
	b.snap = newTick(p.w, b.short(say.T("Snap (not with Ctrl)"), say.T("Snap")), c.snap, nil)
	b.snap.OnChanged = func(on bool) {
		c.snap = on
		p.w.takeKeys()
	}
	b.waney = newTick(p.w, b.short(say.T("Waney (W)"), say.T("Waney")), c.lie.waney, nil)
	b.waney.OnChanged = func(on bool) {
		c.setWaney(on)
		p.w.takeKeys()
	}
	b.tape = p.button(b.short(say.T("By tape (M)"), say.T("By tape")), c.tape.turn)
	b.snapAll = p.button(b.short(say.T("Snap edges (E)"), say.T("Snap edges")), c.snapEdges)
	return flow([]fyne.CanvasObject{
		p.button(b.short(say.T("Find again (F)"), say.T("Find again")), c.find), b.snapAll, p.button(b.short(say.T("Turn end for end (T)"), say.T("Turn")), c.turn),
		p.button(b.short(say.T("By paper (P)"), say.T("By paper")), c.paperAsk), b.tape, b.waney, b.snap})
}

func (b *faceBar) zoneTools() *fyne.Container {
	z, p := b.p.zones, b.p
	var kinds, modes []fyne.CanvasObject
	for _, k := range []struct {
		l    photo.Label
		text string
	}{{photo.Sap, b.short(say.T("This is sapwood (S)"), say.T("Sapwood"))}, {photo.Heart, b.short(say.T("This is heartwood (H)"), say.T("Heartwood"))},
		{photo.Flaw, b.short(say.T("This is a flaw (F)"), say.T("Flaw"))}, {photo.Unseen, b.short(say.T("Not sure (U)"), say.T("Not sure"))}, {photo.Outside, b.short(say.T("No wood (X)"), say.T("No wood"))}} {
		b.kinds[k.l] = p.button(k.text, func() { z.kind(k.l) })
		kinds = append(kinds, b.kinds[k.l])
	}
	b.width = widget.NewLabel("")
	kinds = append(kinds, gap(), container.NewHBox(p.button("[", func() { z.wider(-1) }), b.width, p.button("]", func() { z.wider(1) })))
	for _, m := range []struct {
		mode faceMode
		text string
	}{{modeTeach, b.short(say.T("Teach (T)"), say.T("Teach"))}, {modePaint, b.short(say.T("Paint (B)"), say.T("Paint"))}, {modePolygon, b.short(say.T("Polygon (P)"), say.T("Polygon"))}, {modeLine, b.short(say.T("Straight line (L)"), say.T("Line"))}} {
		b.modes[m.mode] = p.button(m.text, func() { z.take(m.mode) })
		modes = append(modes, b.modes[m.mode])
	}
	b.traces = p.button(b.short(say.T("Waney (W)"), say.T("Waney")), z.waney)
	acts := []fyne.CanvasObject{b.traces, p.button(say.T("Smooth (M)"), z.smooth), p.button(say.T("All heart"), func() { z.all(photo.Heart) }), p.button(say.T("All sap"), func() { z.all(photo.Sap) }), p.button(say.T("Split afresh (R)"), z.afresh)}
	if p.w.large() { // beside the picture, which needs the height
		b.acts = flow(acts)
	} else {
		modes = append(append(modes, gap()), acts...)
		b.acts = flow(nil)
	}
	return container.New(stackLayout{}, flow(kinds), flow(modes))
}

// lit shows whether a button is the one that is on.
func lit(b *pageButton, on bool) {
	want := widget.LowImportance
	if on {
		want = widget.HighImportance
	}
	if b.Importance != want {
		b.Importance = want
		b.Refresh()
	}
}

// pressed shows whether what a button among others that act at once does is on.
func pressed(b *pageButton, on bool) {
	want := widget.MediumImportance
	if on {
		want = widget.HighImportance
	}
	if b.Importance != want {
		b.Importance = want
		b.Refresh()
	}
}

// show brings the tools up to date.
func (b *faceBar) show() {
	p, z := b.p, b.p.zones
	lit(b.steps[stepCorners], p.step == stepCorners)
	lit(b.steps[stepZones], p.step == stepZones)
	for i, f := range b.faces {
		lit(f, p.face == i+1)
		f.greyed(p.face != i+1 && !p.hasOther())
	}
	text := b.short(say.T("Looks right (Enter)"), say.T("Looks right"))
	if p.step == stepCorners {
		text = b.short(say.T("Use these corners (Enter)"), say.T("Use them"))
		if p.corners.tape.on {
			text = b.short(say.T("Distance (Enter)"), say.T("Distance"))
		}
	}
	pressed(b.tape, p.corners.tape.on)
	if b.right.Text != text {
		b.right.SetText(text)
	}
	b.snapAll.greyed(p.corners.lie.waney)
	pressed(b.traces, z.work != nil && z.work.now.waney)
	if b.waney.Checked != p.corners.lie.waney {
		b.waney.Checked = p.corners.lie.waney
		b.waney.Refresh()
	}
	b.right.Importance = widget.SuccessImportance
	b.right.greyed(p.making != "" || p.step == stepZones && z.work == nil || p.corners.tape.half())
	changed := b.corners.Visible() != (p.step == stepCorners) || b.zones.Visible() != (p.step == stepZones)
	setShown(b.corners, p.step == stepCorners)
	setShown(b.foot, p.step == stepCorners)
	setShown(b.zones, p.step == stepZones)
	teaching := z.hand.mode == modeTeach || z.hand.mode == modePaint || z.hand.mode == modePolygon
	for l, k := range b.kinds {
		lit(k, teaching && z.hand.kind == l)
	}
	for m, k := range b.modes {
		lit(k, z.hand.mode == m)
	}
	if t := b.short(say.F("Stroke %s wide", p.w.ses.Len(z.hand.width)), p.w.ses.Len(z.hand.width)); b.width.Text != t {
		b.width.SetText(t)
	}
	if changed && p.all != nil {
		p.all.Refresh()
	}
}
