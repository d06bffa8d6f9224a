package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/scene"
	"heartside/app/tool"
	"heartside/layout/geom"
)

// doubleClick is the most time between two presses of a double click.
const doubleClick = 400 * time.Millisecond

// handle gives an event to the tool in hand.
func (s *surface) handle(e tool.Event) {
	e.Mods = s.mods()
	busy, said := s.state.Busy(), s.w.status.said
	s.state = s.state.Handle(host{s}, e)
	if busy && !s.state.Busy() && s.w.status.said == said {
		s.w.say("") // what a gesture said goes with it
		s.w.status.hover(s.w, s.scene().Hit(s.pointer.at))
	}
	s.w.row.show()
}

func (s *surface) place(p fyne.Position) geom.Point { return geom.Pt(float64(p.X), float64(p.Y)) }

// mods returns what is held down. Drags carry no modifiers, so the driver is
// asked where it can tell.
func (s *surface) mods() tool.Mods {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return modsOf(d.CurrentKeyModifiers())
	}
	return s.pointer.mods
}

func modsOf(m fyne.KeyModifier) tool.Mods {
	return tool.Mods{Shift: m&fyne.KeyModifierShift != 0, Control: m&fyne.KeyModifierShortcutDefault != 0}
}

// MouseDown implements desktop.Mouseable.
func (s *surface) MouseDown(ev *desktop.MouseEvent) {
	s.w.win.Canvas().Focus(s)
	s.w.nudge.settle()
	at := s.place(ev.Position)
	b := buttonOf(ev.Button)
	if s.pointer.button != tool.NoButton {
		return // a second button during a gesture is not a gesture of its own
	}
	if s.pointer.space && b == tool.Primary {
		b = tool.Middle
	}
	twice := b == tool.Primary && time.Since(s.pointer.last) < doubleClick && at.Dist(s.pointer.down) < 4
	s.pointer.mods, s.pointer.button, s.pointer.at, s.pointer.down = modsOf(ev.Modifier), b, at, at
	s.pointer.last = time.Now()
	kind := tool.Press
	if twice && !s.gripped(at) {
		kind, s.pointer.last = tool.Double, time.Time{}
	}
	s.handle(tool.Event{Kind: kind, At: at, Button: b})
}

// MouseUp implements desktop.Mouseable.
func (s *surface) MouseUp(ev *desktop.MouseEvent) {
	if s.pointer.button == tool.NoButton {
		return
	}
	b := s.pointer.button
	s.pointer.button, s.pointer.at = tool.NoButton, s.place(ev.Position)
	s.pointer.mods = modsOf(ev.Modifier)
	s.handle(tool.Event{Kind: tool.Release, At: s.pointer.at, Button: b})
}

// gripped reports whether the tool at rest would take hold of a strip there: a
// second press then begins a second drag and opens nothing.
func (s *surface) gripped(at geom.Point) bool {
	if _, arranging := s.state.(tool.Arrange); !arranging {
		return false
	}
	switch s.scene().Hit(at).Part {
	case scene.PanelStrip, scene.BoardStrip, scene.RotateHandle, scene.MarkWedge, scene.PlaneArrow:
		return true
	}
	return false
}

func buttonOf(b desktop.MouseButton) tool.Button {
	switch b {
	case desktop.MouseButtonSecondary:
		return tool.Secondary
	case desktop.MouseButtonTertiary:
		return tool.Middle
	}
	return tool.Primary
}

// MouseIn implements desktop.Hoverable.
func (s *surface) MouseIn(ev *desktop.MouseEvent) { s.MouseMoved(ev) }

// MouseMoved implements desktop.Hoverable. It also comes during a drag with
// the secondary button, which the toolkit does not call one.
func (s *surface) MouseMoved(ev *desktop.MouseEvent) {
	s.pointer.at = s.place(ev.Position)
	kind := tool.Hover
	if s.pointer.button != tool.NoButton {
		kind = tool.Drag
	}
	s.handle(tool.Event{Kind: kind, At: s.pointer.at, Button: s.pointer.button})
}

// MouseOut implements desktop.Hoverable.
func (s *surface) MouseOut() {
	if s.pointer.button == tool.NoButton {
		s.handle(tool.Event{Kind: tool.Leave})
	}
}

// Dragged implements fyne.Draggable.
func (s *surface) Dragged(ev *fyne.DragEvent) {
	s.pointer.at = s.place(ev.Position)
	if s.pointer.at.Dist(s.pointer.down) > 4 {
		s.pointer.last = time.Time{} // a drag is not the first half of a double click
	}
	if s.pointer.button != tool.NoButton {
		s.handle(tool.Event{Kind: tool.Drag, At: s.pointer.at, Button: s.pointer.button})
	}
}

// DragEnd implements fyne.Draggable; the release came before it.
func (s *surface) DragEnd() {}

// Scrolled implements fyne.Scrollable: the wheel zooms at the pointer, over
// the lanes it scrolls them; with Shift, and from side to side, it pans.
func (s *surface) Scrolled(ev *fyne.ScrollEvent) {
	at := s.place(ev.Position)
	sc := s.scene()
	dx, dy := float64(ev.Scrolled.DX), float64(ev.Scrolled.DY)
	switch {
	case sc.AreaAt(at) == scene.LaneArea:
		s.views = sc.Panned(at, geom.Pt(0, dy))
	case math.Abs(dx) > math.Abs(dy):
		s.views = sc.Panned(at, geom.Pt(dx, 0))
	default:
		s.views = sc.Zoomed(at, math.Pow(1.15, dy/25))
	}
	s.stale()
}

// FocusGained implements fyne.Focusable.
func (s *surface) FocusGained() { s.focused = true; s.stale() }

// FocusLost implements fyne.Focusable.
func (s *surface) FocusLost() {
	s.focused, s.pointer.space = false, false
	s.w.nudge.settle()
	s.stale()
}

// KeyDown implements desktop.Keyable.
func (s *surface) KeyDown(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		s.pointer.mods.Shift = true
	case desktop.KeyControlLeft, desktop.KeyControlRight:
		s.pointer.mods.Control = true
	case fyne.KeySpace:
		s.pointer.space = true
	}
}

// KeyUp implements desktop.Keyable.
func (s *surface) KeyUp(ev *fyne.KeyEvent) {
	switch ev.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight:
		s.pointer.mods.Shift = false
	case desktop.KeyControlLeft, desktop.KeyControlRight:
		s.pointer.mods.Control = false
	case fyne.KeySpace:
		s.pointer.space = false
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		s.w.nudge.settle()
	}
}

// TypedKey implements fyne.Focusable.
func (s *surface) TypedKey(ev *fyne.KeyEvent) {
	if s.show.grain && s.grainTyped(ev.Name) {
		return
	}
	if k := toolKey(ev.Name); k != tool.NoKey && (s.state.Busy() || s.show.zoning && k != tool.Escape && k != tool.Enter) {
		s.handle(tool.Event{Kind: tool.Typed, Key: k, At: s.pointer.at})
		return
	}
	if s.state.Busy() {
		return // other keys wait until the gesture is over
	}
	c := Chord{Key: ev.Name}
	if s.mods().Shift {
		c.Mod = fyne.KeyModifierShift
	}
	s.w.typed(c)
}

func toolKey(k fyne.KeyName) tool.Key {
	switch k {
	case fyne.KeyEscape:
		return tool.Escape
	case fyne.KeyReturn, fyne.KeyEnter:
		return tool.Enter
	case fyne.KeyDelete:
		return tool.Delete
	case fyne.KeyBackspace:
		return tool.Backspace
	}
	return tool.NoKey
}

// TypedRune implements fyne.Focusable: signs whose key depends on the layout
// of the keyboard.
func (s *surface) TypedRune(r rune) {
	if !s.state.Busy() {
		s.w.typedSign(r, s.mods().Shift)
	}
}

// TypedShortcut implements fyne.Shortcutable. Chords that no menu item carries
// come here.
func (s *surface) TypedShortcut(sc fyne.Shortcut) {
	if s.state.Busy() {
		return
	}
	switch c := sc.(type) {
	case *desktop.CustomShortcut:
		s.w.typed(Chord{c.KeyName, c.Modifier})
	case *fyne.ShortcutCut: // how the toolkit calls Shift+Delete
		if c.Secondary {
			s.w.typed(shifted(fyne.KeyDelete))
		}
	}
}
