package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/model/say"
)

// addPlaningActions lists what shows planing and decides on it.
func (w *Window) addPlaningActions() {
	w.acts.add(
		&Action{ID: "depth", Label: say.T("Show the wood while it is planed"), Short: say.T("Planing"), Icon: icon("planing"), Group: groupView, Keys: []Chord{plain(fyne.KeyD)},
			Hint: say.T("A slider from sawn to finished: where the sap lines lie in panel and board with a part of the stock off."), Can: w.hasPanel, On: func() bool { return w.surf.show.depth }, Do: w.toggleDepth},
		&Action{ID: "plane", Label: say.T("Which face the stock comes off…"), Group: groupPanel, Keys: []Chord{shifted(fyne.KeyD)},
			Hint: say.T("None, a quarter, half, three quarters or all off the show face, by strip or for all, and what each then shows."), Can: w.hasPanel, Do: w.planeAsk},
	)
}

// depthBar is the slider from sawn to finished over panel and boards. It is a
// view and changes nothing of the project.
type depthBar struct {
	w        *Window
	box      *fyne.Container
	toggle   *hintButton // brings it up and takes it away
	slider   *depthSlider
	says     *widget.Label
	body     *fyne.Container
	lay      *depthLayout
	sawn     *barButton
	finished *barButton
	choose   *barButton
}

func newDepthBar(w *Window) *depthBar {
	b := &depthBar{w: w, box: container.New(stackLayout{}), toggle: newHintButton(w, w.acts.byID["depth"])}
	toggle := b.toggle.OnTapped
	b.toggle.OnTapped = func() {
		toggle()
		if w.surfDepth() {
			b.focus()
		}
	}
	b.rebuild()
	return b
}

// rebuild makes the bar anew for another size of text.
func (b *depthBar) rebuild() {
	w := b.w
	b.slider = newDepthSlider(b)
	b.says = widget.NewLabel("")
	b.says.Truncation = fyne.TextTruncateEllipsis
	plane := w.acts.byID["plane"]
	b.sawn = newBarButton(say.T("Sawn"), say.T("The faces as sawn. (Home)"), w, func() { b.move(0); b.focus() })
	b.finished = newBarButton(say.T("Finished"), say.T("The finished faces again. (End; or press the slider twice)"), w, func() { b.move(1); b.focus() })
	b.choose = newBarButton(say.T("Which face…"), plane.Label+"  ("+plane.keyNames()+").  "+plane.Hint, w, func() { w.act("plane") })
	track := container.NewBorder(nil, nil, b.sawn, b.finished, b.slider)
	b.lay = &depthLayout{}
	b.body = container.New(b.lay, track, b.says, b.choose)
	b.box.Objects = []fyne.CanvasObject{b.body, widget.NewSeparator()}
	b.box.Hidden = !w.surfDepth()
	if !b.box.Hidden {
		b.show()
	}
	b.box.Refresh()
}

// depthLayout sets the slider, what it says and a button in one line, or the
// last two beneath where there is no room.
type depthLayout struct {
	most  float32 // the widest that was said, so that the slider keeps its place
	width float32
}

// leastTrack is the least room of the slider with its ends, in letters.
const leastTrack = 24

// grow makes room for a text and reports whether there was none.
func (l *depthLayout) grow(text string) bool {
	w := fyne.MeasureText(text, theme.TextSize(), fyne.TextStyle{}).Width + 2*theme.InnerPadding() + 2
	if w <= l.most {
		return false
	}
	l.most = w
	return true
}

func (l *depthLayout) one(o []fyne.CanvasObject, width float32) bool {
	return leastTrack*theme.TextSize()+l.most+o[2].MinSize().Width <= width
}

// MinSize implements fyne.Layout.
func (l *depthLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := fyne.Max(o[0].MinSize().Height, fyne.Max(o[1].MinSize().Height, o[2].MinSize().Height))
	if l.width > 0 && !l.one(o, l.width) {
		h = o[0].MinSize().Height + fyne.Max(o[1].MinSize().Height, o[2].MinSize().Height)
	}
	return fyne.NewSize(o[0].MinSize().Width, h)
}

// Layout implements fyne.Layout.
func (l *depthLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	button := o[2].MinSize()
	put := func(i int, x, y, w, h float32) {
		high := fyne.Min(o[i].MinSize().Height, h)
		o[i].Move(fyne.NewPos(x, y+(h-high)/2))
		o[i].Resize(fyne.NewSize(w, high))
	}
	if l.one(o, size.Width) {
		put(0, 0, 0, size.Width-l.most-button.Width, size.Height)
		put(1, size.Width-l.most-button.Width, 0, l.most, size.Height)
		put(2, size.Width-button.Width, 0, button.Width, size.Height)
	} else {
		top := o[0].MinSize().Height
		put(0, 0, 0, size.Width, top)
		put(1, 0, top, size.Width-button.Width, size.Height-top)
		put(2, size.Width-button.Width, top, button.Width, size.Height-top)
	}
}

// surfDepth reports whether the slider is up.
func (w *Window) surfDepth() bool { return w.surf != nil && w.surf.show.depth }

// toggleDepth brings the slider up at the finished faces, or takes it away.
func (w *Window) toggleDepth() {
	w.surf.show.depth = !w.surf.show.depth
	w.surf.show.done = 1
	w.say("")
	w.changed()
	if w.surf.show.depth {
		w.depth.focus()
		if v := w.depthView(); v.Why == "" {
			w.say(say.T("← and → take wood off and give it back, Home is sawn, End is finished. Readings and warnings stay those of the finished faces."))
		}
	}
}

// focus gives the keys to the slider, where it does something.
func (b *depthBar) focus() {
	if b.slider.Disabled() || b.w.page != nil {
		b.w.takeKeys()
		return
	}
	b.w.win.Canvas().Focus(b.slider)
}

// depthView is panel and board in hand as the slider stands.
func (w *Window) depthView() session.DepthView {
	sel := w.ses.Selected()
	return w.ses.DepthView(sel.Panel, sel.Board, sel.Strip, w.surf.show.done)
}

// show brings the bar up to date.
func (b *depthBar) show() {
	on := b.w.surfDepth()
	want := widget.LowImportance
	if on {
		want = widget.HighImportance
	}
	if b.toggle.Importance != want {
		b.toggle.Importance = want
		b.toggle.Refresh()
	}
	able(b.toggle, b.w.hasPanel())
	if b.box.Hidden == on {
		b.box.Hidden = !on
		b.w.middle.Refresh()
	}
	if !on {
		return
	}
	b.tell(b.w.depthView())
}

// tell writes the words of a view.
func (b *depthBar) tell(v session.DepthView) {
	done := b.w.surf.show.done
	says := v.Says
	if v.Why != "" {
		says = v.Why
	} else if b.w.surf.boardAsSawn() {
		says += say.T(" (zones and grain are drawn on the sawn board)")
	}
	if b.says.Text != says {
		b.says.SetText(says)
	}
	if b.lay.grow(b.says.Text) {
		b.body.Refresh()
	}
	b.slider.divide(v.Steps)
	b.slider.put(done)
	able(b.slider, v.Why == "")
	able(b.sawn, v.Why == "" && done > 0)
	able(b.finished, v.Why == "" && done < 1)
	able(b.choose, b.w.hasPanel())
}

// able enables or disables a part where that changes it.
func able(d fyne.Disableable, can bool) {
	switch {
	case can && d.Disabled():
		d.Enable()
	case !can && !d.Disabled():
		d.Disable()
	}
}

// move puts the slider to a part of the stock, 0 to 1.
func (b *depthBar) move(done float64) {
	done = math.Min(math.Max(done, 0), 1)
	if b.w.surf.show.done == done {
		return
	}
	b.w.surf.show.done = done
	b.tell(b.w.depthView())
	b.w.surf.stale()
}

// boardAsSawn reports whether the board in hand is drawn on: on its sawn faces.
func (s *surface) boardAsSawn() bool { return s.show.zoning || s.show.grain }

// planedSoFar puts panel and board in hand into a scene with the stock off
// that the slider says.
func (s *surface) planedSoFar(in *scene.Input) {
	if !s.show.depth {
		return
	}
	v := s.w.depthView()
	if v.Why != "" {
		return
	}
	in.Depth.On = true
	if v.Panel != nil {
		in.Panel.Panel, in.Depth.Panel = v.Panel, v.PanelBadge
		if in.Before != nil {
			in.Before = s.w.ses.BeforeDepth(v.Panel.ID, s.show.done)
		}
	}
	if !s.boardAsSawn() {
		in.Depth.Hand, in.Depth.Board = v.Hand, v.HandBadge
	}
}

// depthSlider goes from sawn to finished. Home and End go to its ends, Escape
// takes it away; pressed twice it goes back to finished.
type depthSlider struct {
	widget.Slider
	b     *depthBar
	last  time.Time // of the last press
	quiet bool      // it is put, not moved
	steps int
}

func newDepthSlider(b *depthBar) *depthSlider {
	s := &depthSlider{b: b}
	s.Max, s.Step, s.Value, s.steps = 1, 1.0/40, 1, 40
	s.OnChanged = func(v float64) {
		if !s.quiet {
			b.move(s.stepped(v))
		}
	}
	s.ExtendBaseWidget(s)
	return s
}

// stepped is the step nearest to a value.
func (s *depthSlider) stepped(v float64) float64 {
	return math.Round(v*float64(s.steps)) / float64(s.steps)
}

// divide gives the slider a number of steps.
func (s *depthSlider) divide(steps int) {
	if steps > 0 && steps != s.steps {
		s.steps, s.Step = steps, 1/float64(steps)
	}
}

// put shows a value without telling of it.
func (s *depthSlider) put(v float64) {
	if math.Abs(s.Value-v) < 1e-9 {
		return
	}
	s.quiet = true
	s.SetValue(v)
	s.quiet = false
}

// Tapped implements fyne.Tappable.
func (s *depthSlider) Tapped(ev *fyne.PointEvent) {
	twice := time.Since(s.last) < doubleClick
	s.last = time.Now()
	if s.Disabled() {
		return
	}
	s.Slider.Tapped(ev)
	if twice {
		s.b.move(1)
	}
}

// TypedKey implements fyne.Focusable.
func (s *depthSlider) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyHome:
		s.b.move(0)
	case fyne.KeyEnd:
		s.b.move(1)
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		by := 1 / float64(s.steps)
		if ev.Name == fyne.KeyLeft || ev.Name == fyne.KeyDown {
			by = -by
		}
		s.b.move(s.stepped(s.b.w.surf.show.done + by))
	case fyne.KeyPageDown:
		s.b.move(s.stepped(s.Value - 0.25))
	case fyne.KeyPageUp:
		s.b.move(s.stepped(s.Value + 0.25))
	case fyne.KeyEscape:
		s.b.w.act("depth")
		s.b.w.takeKeys()
	default: // other keys do what they do over panel and boards
		s.b.w.surf.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (s *depthSlider) TypedRune(r rune) { s.b.w.surf.TypedRune(r) }

// barButton is a small button of the bar that says in the status line what
// it does.
type barButton struct {
	ringButton
	w    *Window
	hint string
}

func newBarButton(text, hint string, w *Window, do func()) *barButton {
	b := &barButton{w: w, hint: hint}
	b.Text, b.OnTapped, b.Importance = text, do, widget.LowImportance
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn implements desktop.Hoverable.
func (b *barButton) MouseIn(ev *desktop.MouseEvent) {
	b.Button.MouseIn(ev)
	b.w.say(b.hint)
}

// MouseOut implements desktop.Hoverable.
func (b *barButton) MouseOut() {
	b.Button.MouseOut()
	b.w.say("")
}

// FocusGained implements fyne.Focusable.
func (b *barButton) FocusGained() {
	b.ringButton.FocusGained()
	b.w.say(b.hint)
}
