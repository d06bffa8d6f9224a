package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/model/say"
)

// statusLine tells what lies under the pointer and what can be done there.
type statusLine struct {
	box  fyne.CanvasObject
	text *widget.Label
	read *widget.Label // what is being read in the background
	keys *widget.Label
	kept *widget.Label // whether what is on screen would outlast the program
	said int           // how often something was said
	hint string        // what was said of what lies under the pointer, the last time
}

func newStatusLine(*Window) *statusLine {
	s := &statusLine{text: widget.NewLabel(""), read: widget.NewLabel(""), keys: widget.NewLabel(say.T("F1 keys")), kept: widget.NewLabel("")}
	s.text.Truncation = fyne.TextTruncateEllipsis
	s.keys.Importance = widget.LowImportance
	s.kept.Importance = widget.LowImportance
	s.kept.Hide()
	s.box = container.NewBorder(nil, nil, s.read, container.NewHBox(s.kept, s.keys), s.text)
	s.read.TextStyle.Bold = true
	s.read.Hide()
	s.say("")
	return s
}

// say shows one line; "" says what can be done at any time.
func (s *statusLine) say(text string) {
	if text == "" {
		text = say.T("Drag a strip on its board; drag it up or down in the panel to reorder. R rolls it over, T turns it end for end.")
	}
	s.said++
	if s.text.Text != text {
		s.text.SetText(text)
	}
}

// reading shows how far the reading of photographs is, "" for none.
func (s *statusLine) reading(text string) {
	if s.read.Text == text {
		return
	}
	s.read.Hidden = text == ""
	s.read.SetText(text)
	s.box.Refresh()
}

// keeping shows whether what is on screen is kept, "" for nothing to say.
func (s *statusLine) keeping(text string, trouble bool) {
	importance := widget.LowImportance
	if trouble {
		importance = widget.WarningImportance
	}
	if s.kept.Text == text && s.kept.Importance == importance {
		return
	}
	s.kept.Hidden = text == ""
	s.kept.Importance = importance
	s.kept.SetText(text)
	s.box.Refresh()
}

// rehint says anew what lies under the pointer, where that is what the line
// says and something changed meanwhile.
func (s *surface) rehint() {
	line := s.w.status
	if line == nil || line.hint == "" || line.text.Text != line.hint || s.w.page != nil || s.state.Busy() {
		return
	}
	line.hover(s.w, s.scene().Hit(s.pointer.at))
}

// hover says what lies under the pointer.
func (s *statusLine) hover(w *Window, h scene.Hit) {
	if w.page != nil || w.surf.state.Busy() { // a page hides what lies there
		return
	}
	text := hint(w, h)
	if w.surf.show.zoning {
		if text = zoneHint(w, h); text == "" {
			return
		}
	}
	if w.surf.show.grain {
		if text = grainHint(w, h); text == "" {
			return
		}
	}
	s.say(text)
	s.hint = s.text.Text
}

// hint is the line for a place on the surface.
func hint(w *Window, h scene.Hit) string {
	ses := w.ses
	switch h.Part {
	case scene.PanelStrip:
		if w.surf.views.Panel.Zoom > 0 {
			return say.F("Strip %s. Drag: reorder or slide along its board. To move the view, drag with Space or the middle button held, or press Ctrl+Shift+arrows.", ses.Number(h.Panel, h.Strip))
		}
		return say.F("Strip %s. Drag up or down: reorder, with Ctrl: swap. Drag sideways: slide along its board. R roll over, T turn, right click: more.", ses.Number(h.Panel, h.Strip))
	case scene.PanelPlace:
		return say.F("Empty place %s%s. Drop it on a board, or sweep along the board in hand.%s", h.Strip, sizeOf(w, h), layHint(w))
	case scene.MarkWedge:
		return say.F("Marked end and marked edge of strip %s meet at this corner. Filled: the side with the chalk mark is seen here; open: it is underneath.", ses.Number(h.Panel, h.Strip))
	case scene.PlaneArrow:
		return planeHint(w, h)
	case scene.JointMark:
		return jointMarkHint(w, h)
	case scene.Joint:
		return jointHint(w, h)
	case scene.PanelGround:
		return say.T("Wheel: zoom. Drag or Ctrl+Shift+arrows: move the view. 0 fits all, 1 is true size, V shows the other side.")
	case scene.BeforeSide:
		return say.T("The panel before the last change. B closes this view.")
	case scene.BoardFace:
		if b := ses.Project().Board(h.Board); b != nil && b.Spoiled {
			return spoiledWords(h.Board)
		}
		text := say.F("Board %s, %s, %s from the marked end, %s from the marked edge.", h.Board, sideName(w, h.Board, h.Face), ses.Len(h.At1.X), ses.Len(h.At1.Y))
		if id, ok := ses.NextEmpty(ses.Selected().Panel); ok {
			text += say.F(" Sweep along it to lay empty place %s.", id)
		}
		return text
	case scene.BoardEdge:
		return say.F("The marked edge of board %s. The letter is chalked on the marked end, at this edge's corner, on the face-1 side.", h.Board)
	case scene.BoardStrip:
		if h.Solid != "" {
			return say.F("Part %s on board %s: %s Double click: place and size. Right click: more.", h.Solid, h.Board, w.cuttingText(h.Strip))
		}
		return say.F("Strip %s on board %s. Drag to move it, with Shift: along or across only, with Ctrl: without snapping. Arrow keys: 1 mm.", ses.Number(h.Panel, h.Strip), h.Board)
	case scene.RotateHandle:
		return say.T("Drag to turn the strip on its board. With Shift: whole degrees; with Ctrl: not held straight near 0°. Keys: , and . turn by 0.5°.")
	case scene.Lane:
		if b := ses.Project().Board(h.Board); b != nil && b.Spoiled {
			return say.F("Board %s is spoiled: nothing more is cut from it. Click to take it in hand.", h.Board)
		}
		return say.F("Board %s. Click to take it in hand. Strips can be dropped on it.", h.Board)
	}
	return ""
}

func jointHint(w *Window, h scene.Hit) string {
	r := w.ses.Reading(h.Panel)
	if r == nil || h.Index < 0 || h.Index >= len(r.Joints) {
		return ""
	}
	j := r.Joints[h.Index]
	p := w.ses.Panel(h.Panel)
	if p == nil || j.I+1 >= len(p.Strips) {
		return ""
	}
	between := say.F("%s to %s", w.ses.Number(h.Panel, p.Strips[j.I].ID), w.ses.Number(h.Panel, p.Strips[j.I+1].ID))
	text := say.F("Joint %s: %s", between, jointWords(j.Kind))
	if w.surf.backSeen() {
		text = say.F("On the show face, joint %s: %s", between, jointWords(j.Kind))
	}
	if j.Mismatch > 0 {
		text += say.F(", sapwood meets heartwood on %s of it", session.Percent(j.Mismatch))
	}
	return text + "."
}

// layHint says what Enter does with an empty place.
func layHint(w *Window) string {
	b := w.board()
	if b == nil || b.Spoiled {
		return ""
	}
	return say.F(" Enter lays it on board %s.", b.ID)
}

// sizeOf is the size of an empty place in brackets.
func sizeOf(w *Window, h scene.Hit) string {
	if n := w.ses.Project().Panel(h.Panel); n != nil {
		if s, ok := n.Strip(h.Strip); ok {
			return " (" + w.ses.Len(s.L) + " × " + w.ses.Len(s.W) + ")"
		}
	}
	return ""
}

// jointMarkHint explains the two squares beside a joint.
func jointMarkHint(w *Window, h scene.Hit) string {
	p := w.ses.Panel(h.Panel)
	if p == nil || h.Index < 0 || h.Index+1 >= len(p.Strips) {
		return ""
	}
	front, rear := w.ses.Number(h.Panel, p.Strips[h.Index].ID), w.ses.Number(h.Panel, p.Strips[h.Index+1].ID)
	return say.F("What meets at the joint, %s above and %s below: filled is heartwood, hatched is sapwood; a ring round both means that they differ. %s", rear, front, jointHint(w, h))
}

// planeHint explains the planing arrow of a strip.
func planeHint(w *Window, h scene.Hit) string {
	p := w.ses.Panel(h.Panel)
	if p == nil || h.Index < 0 || h.Index >= len(p.Strips) {
		return ""
	}
	st := &p.Strips[h.Index]
	way := say.T("left to right")
	if (st.Planing() < 0) != w.surf.backSeen() {
		way = say.T("right to left")
	}
	return say.F("Strip %s planes cleanly from %s as it lies here, by what was entered for board %s.", w.ses.Number(h.Panel, st.ID), way, h.Board)
}

func zoneHint(w *Window, h scene.Hit) string {
	switch h.Part {
	case scene.ZoneVertex:
		return say.T("Drag the corner to move it. Delete takes it away.")
	case scene.ZoneEdge:
		return say.T("Drag the edge here to add a corner.")
	case scene.BoardFace, scene.BoardStrip:
		if w.surf.show.brush > 0 {
			return say.F("Paint %s with the brush. X takes the next size, C draws corner by corner, Shift+S, H, F or U choose the kind. Esc ends.", kindWords(w.surf.show.kind))
		}
		if h.Zone >= 0 {
			return say.F("Click to take this zone in hand. Ctrl+click begins a new zone of %s on top. Delete removes the zone in hand.", kindWords(w.surf.show.kind))
		}
		return say.F("Click to begin a zone of %s. X takes the brush, Shift+S, H, F or U choose the kind. Esc ends.", kindWords(w.surf.show.kind))
	}
	return ""
}

// sideName calls a face heart side or bark side once that is known.
func sideName(w *Window, board string, f int) string {
	if b := w.ses.Board(board); b != nil {
		return say.Of(b.SideName(f))
	}
	return say.F("face %s", itoa(f))
}

func itoa(n int) string { return strconv.Itoa(n) }
