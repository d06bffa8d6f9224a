package ui

import (
	"slices"
	"unicode"

	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/app/tool"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

func (w *Window) hasPanel() bool  { return w.panel() != nil }
func (w *Window) hasBoard() bool  { return w.board() != nil }
func (w *Window) hasStrip() bool  { _, _, ok := w.strip(); return ok }
func (w *Window) hasPlaced() bool { _, s, ok := w.strip(); return ok && !s.Empty() }
func (w *Window) isPinned() bool  { _, s, ok := w.strip(); return ok && s.Pinned }

func (w *Window) hasNext() bool {
	_, s, ok := w.strip()
	n := w.panel()
	return ok && n.StripIndex(s.ID) < len(n.Strips)-1
}

func (w *Window) hasEmpty() bool {
	_, ok := w.ses.NextEmpty(w.ses.Selected().Panel)
	return ok && len(w.ses.Project().Boards) > 0
}

// canPlace reports whether an empty place can go on the board in hand.
func (w *Window) canPlace() bool {
	if w.board() == nil {
		return false
	}
	if _, s, ok := w.strip(); ok {
		return s.Empty()
	}
	_, ok := w.ses.NextEmpty(w.ses.Selected().Panel)
	return ok
}

// rollOver shows the strip's other face, and is seen to.
func (w *Window) rollOver() {
	panel, s, _ := w.strip()
	w.flip(panel, s.ID, model.FlipStrip{Panel: panel, Strip: s.ID}, false)
}

func (w *Window) turnEnd() {
	panel, s, _ := w.strip()
	w.flip(panel, s.ID, model.TurnStrip{Panel: panel, Strip: s.ID}, true)
}

func (w *Window) flip(panel, strip string, e model.Edit, end bool) {
	w.nudge.settle()
	was, ok := lastStrip(w.ses.Panel(panel), strip)
	if w.commit(e) && ok && was.Board != nil {
		w.surf.startRoll(was, end)
	}
}

func (w *Window) swapNext() {
	panel, s, _ := w.strip()
	n := w.panel()
	w.commit(model.SwapStrips{Panel: panel, A: s.ID, B: n.Strips[n.StripIndex(s.ID)+1].ID})
}

// reorder moves the strip in hand by places in the panel.
func (w *Window) reorder(by int) {
	panel, s, _ := w.strip()
	n := w.panel()
	if to := n.StripIndex(s.ID) + by; to >= 0 && to < len(n.Strips) {
		w.commit(model.MoveStrip{Panel: panel, Strip: s.ID, To: to})
	}
}

func (w *Window) lift() {
	panel, s, _ := w.strip()
	w.commit(model.LiftStrip{Panel: panel, Strip: s.ID})
}

func (w *Window) pin() {
	panel, s, _ := w.strip()
	w.commit(model.PinStrip{Panel: panel, Strip: s.ID, Pinned: !s.Pinned})
}

func (w *Window) removeStrip() {
	panel, s, _ := w.strip()
	w.commit(model.RemoveStrip{Panel: panel, Strip: s.ID})
}

func (w *Window) shift(by float64) {
	panel, s, _ := w.strip()
	w.commit(model.ShiftStrip{Panel: panel, Strip: s.ID, Shift: s.Shift + by})
}

// angle turns the strip in hand on its board about its middle.
func (w *Window) angle(by float64) {
	panel, s, _ := w.strip()
	t := tool.Turned(s, s.Angle+by)
	w.commit(model.PlaceStrip{Panel: panel, Strip: s.ID, Board: s.Board, X: t.X, Y: t.Y, Angle: t.Angle})
	if line, _ := w.lie(panel, s.ID); line != "" {
		w.say(line)
	}
}

// seenUp turns a move as seen on the face that shows into face-1 coordinates.
func (w *Window) seenUp(by geom.Point) geom.Point {
	if _, s, ok := w.strip(); ok && s.Up == 2 {
		by.Y = -by.Y
	}
	return by
}

func (w *Window) cycleStrip(by int) {
	n := w.panel()
	if n == nil || len(n.Strips) == 0 {
		return
	}
	i := n.StripIndex(w.ses.Selected().Strip)
	switch {
	case i < 0 && by > 0:
		i = 0
	case i < 0:
		i = len(n.Strips) - 1
	default:
		i = (i + by + len(n.Strips)) % len(n.Strips)
	}
	w.nudge.settle()
	w.ses.Select(session.Selection{Panel: n.ID, Strip: n.Strips[i].ID, Zone: -1})
}

func (w *Window) cyclePanel(by int) {
	list := w.ses.Project().Panels
	for i, n := range list {
		if n.ID == w.ses.Selected().Panel {
			w.showPanel(list[(i+by+len(list))%len(list)].ID)
			return
		}
	}
}

// showPanel puts a panel on screen.
func (w *Window) showPanel(id string) {
	w.nudge.settle()
	w.surf.pointed = -1
	w.ses.Select(session.Selection{Panel: id, Board: w.ses.Selected().Board, Zone: -1})
}

func (w *Window) cycleBoard(by int) {
	list := w.ses.Project().Boards
	for i, b := range list {
		if b.ID == w.ses.Selected().Board {
			w.holdBoard(list[(i+by+len(list))%len(list)].ID)
			return
		}
	}
}

// holdBoard takes a board in hand; a strip in hand that lies elsewhere is let
// go.
func (w *Window) holdBoard(id string) {
	w.nudge.settle()
	sel := w.ses.Selected()
	sel.Board, sel.Zone = id, -1
	if _, s, ok := w.strip(); ok && !s.Empty() && s.Board != id {
		sel.Strip = ""
	}
	w.ses.Select(sel)
}

// letGo drops the zone tool, then the zone, then the strip in hand.
func (w *Window) letGo() {
	sel := w.ses.Selected()
	switch {
	case w.ses.Previewing():
		w.nudge.drop()
		w.ses.Cancel()
	case w.surf.show.zoning:
		w.zoneMode(false)
	case w.surf.show.grain:
		w.grainMode(false)
	case sel.Strip != "" || sel.Zone >= 0:
		sel.Strip, sel.Zone = "", -1
		w.ses.Select(sel)
	case w.surf.pointed >= 0:
		w.column.point(-1)
	}
}

// layOnBoard lays the empty place in hand, or the next one, on the board in
// hand.
func (w *Window) layOnBoard() {
	sel := w.ses.Selected()
	id := sel.Strip
	if _, s, ok := w.strip(); !ok || !s.Empty() {
		id, _ = w.ses.NextEmpty(sel.Panel)
	}
	fp, b := w.ses.Panel(sel.Panel), w.ses.Board(sel.Board)
	if fp == nil || b == nil {
		return
	}
	if w.handSpoiled() {
		w.say(spoiledWords(b.ID))
		return
	}
	st, ok := lastStrip(fp, id)
	if !ok {
		return
	}
	one := *fp
	one.Strips = []face.Strip{st}
	used := w.used("", st.ID, fp.ID)
	a := w.ses.Allowances()
	w.background(say.F("Looking for room on board %s…", b.ID), func() func() {
		out := cutting.PlaceAll(&one, []*face.Board{b}, used, a)
		return func() {
			if len(out) != 1 || out[0].Board == nil {
				w.say(say.F("Board %s has no room for strip %s of %s × %s with its allowances. Take another board in hand, or drop the place where you want it.", b.ID, id, w.ses.Len(st.L), w.ses.Len(st.W)))
				return
			}
			o := out[0]
			if w.commit(model.PlaceStrip{Panel: fp.ID, Strip: id, Board: b.ID, X: o.X, Y: o.Y, Angle: o.Angle}) {
				w.ses.Select(session.Selection{Panel: fp.ID, Strip: id, Board: b.ID, Zone: -1})
			}
		}
	})
}

// fillPanel lays every empty place of the panel on the boards there are.
func (w *Window) fillPanel() {
	n := w.panel()
	fp := w.ses.Panel(n.ID)
	boards := w.ses.Sound()
	used := w.used(n.ID, "", "")
	a := w.ses.Allowances()
	w.background(say.T("Laying the empty places…"), func() func() {
		out := cutting.PlaceAll(fp, boards, used, a)
		return func() { w.keepPlaces(n, out) }
	})
}

// keepPlaces commits where PlaceAll laid the empty places of a panel.
func (w *Window) keepPlaces(n *model.Panel, out []face.Strip) {
	strips := append([]model.Strip(nil), n.Strips...)
	laid, left := 0, 0
	for i := range strips {
		if !strips[i].Empty() || i >= len(out) {
			continue
		}
		if out[i].Board == nil {
			left++
			continue
		}
		laid++
		strips[i].Board, strips[i].X, strips[i].Y, strips[i].Angle = out[i].Board.ID, out[i].X, out[i].Y, out[i].Angle
	}
	if laid == 0 {
		w.say(say.T("No board has room for the empty places. Add a board, or make the strips smaller."))
		return
	}
	if w.commit(model.SetStrips{Panel: n.ID, Strips: strips, Verb: say.F("Lay all empty places of panel %s", n.ID)}) && left > 0 {
		w.say(say.F("%s found no room on the boards.", say.Count(left, say.T("place"), say.T("places"))))
	}
}

// used lists what lies on boards, also of solid parts, but for the strips of one
// panel and one strip of another.
func (w *Window) used(butPanel, butStrip, of string) []face.Strip {
	var out []face.Strip
	for _, n := range w.ses.Project().Panels {
		fp := w.ses.Panel(n.ID)
		if fp == nil || n.ID == butPanel {
			continue
		}
		for i := range fp.Strips {
			if fp.Strips[i].Board != nil && (n.ID != of || fp.Strips[i].ID != butStrip) {
				out = append(out, fp.Strips[i])
			}
		}
	}
	for _, s := range append(slices.Clone(w.ses.Spares()), w.ses.Cuttings()...) {
		if s.Board != nil {
			out = append(out, s)
		}
	}
	return out
}

// background runs work beside the window; what it returns is done on the
// toolkit's goroutine, unless the project has changed meanwhile.
func (w *Window) background(what string, work func() func()) {
	w.nudge.settle()
	w.say(what)
	from := w.ses.Committed()
	go func() {
		then := work()
		w.post(func() {
			if w.work.Err() != nil || w.ses.Committed() != from {
				return
			}
			w.say("")
			then()
		})
	}()
}

// menuInHand opens the menu that a secondary click would.
func (w *Window) menuInHand() {
	sc := w.surf.scene()
	t := tool.Hit{Part: tool.PanelGround, Panel: w.ses.Selected().Panel, Zone: -1}
	at := sc.AreaRect(1).Centre()
	if panel, s, ok := w.strip(); ok {
		t.Part, t.Strip, t.Board = tool.PanelStrip, s.ID, s.Board
		if s.Empty() {
			t.Part = tool.PanelPlace
		}
		if p, ok := w.surf.stripPlace(panel, s.ID); ok {
			at = p
		}
	}
	host{w.surf}.Menu(t, at)
}

// typed does what a named key or a key with Ctrl asks for. What prints a sign
// comes through typedSign, so that the sign does not end up in a dialog that
// the key opens.
func (w *Window) typed(c Chord) {
	if len(c.Key) == 1 && c.byItself() {
		return
	}
	if a := w.acts.find(c); a != nil {
		w.do(a)
	}
}

// typedSign does what a letter or sign asks for. shift tells capitals meant
// from those of a locked Shift.
func (w *Window) typedSign(r rune, shift bool) {
	switch r {
	case '=':
		r = '+'
	case '?':
		w.act("keys")
		return
	}
	c := Chord{Key: fyne.KeyName(string(unicode.ToUpper(r)))}
	if shift && unicode.IsLetter(r) {
		c.Mod = fyne.KeyModifierShift
	}
	if a := w.acts.find(c); a != nil {
		w.do(a)
	}
}

// typedUnfocused takes keys while nothing has the focus.
func (w *Window) typedUnfocused(ev *fyne.KeyEvent) {
	if w.asks != nil {
		w.dialogKey(ev)
		return
	}
	if w.page != nil {
		w.pageTyped(ev)
		return
	}
	w.surf.TypedKey(ev)
}

func (w *Window) typedRuneUnfocused(r rune) {
	switch {
	case w.asks != nil:
	case w.page != nil:
		w.page.sign(r)
	default:
		w.surf.TypedRune(r)
	}
}

func swapEdit(panel, a, b string) model.Edit { return model.SwapStrips{Panel: panel, A: a, B: b} }
