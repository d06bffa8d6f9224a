package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
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
	s := &statusLine{text: widget.NewLabel(""), read: widget.NewLabel(""), keys: widget.NewLabel("F1 keys"), kept: widget.NewLabel("")}
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
		text = "Drag a strip on its board; drag it up or down in the panel to reorder. R rolls it over, T turns it end for end."
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
			return "Strip " + ses.Number(h.Panel, h.Strip) + ". Drag: reorder or slide along its board. To move the view, drag with Space or the middle button held, or press Ctrl+Shift+arrows."
		}
		return "Strip " + ses.Number(h.Panel, h.Strip) + ". Drag up or down: reorder, with Ctrl: swap. Drag sideways: slide along its board. R roll over, T turn, right click: more."
	case scene.PanelPlace:
		return "Empty place " + h.Strip + sizeOf(w, h) + ". Drop it on a board, or sweep along the board in hand." + layHint(w)
	case scene.MarkWedge:
		return "Marked end and marked edge of strip " + ses.Number(h.Panel, h.Strip) + " meet at this corner. Filled: the side with the chalk mark is seen here; open: it is underneath."
	case scene.PlaneArrow:
		return planeHint(w, h)
	case scene.JointMark:
		return jointMarkHint(w, h)
	case scene.Joint:
		return jointHint(w, h)
	case scene.PanelGround:
		return "Wheel: zoom. Drag or Ctrl+Shift+arrows: move the view. 0 fits all, 1 is true size, V shows the other side."
	case scene.BeforeSide:
		return "The panel before the last change. B closes this view."
	case scene.BoardFace:
		if b := ses.Project().Board(h.Board); b != nil && b.Spoiled {
			return spoiledWords(h.Board)
		}
		text := "Board " + h.Board + ", " + sideName(w, h.Board, h.Face) + ", " + ses.Len(h.At1.X) + " from the marked end, " + ses.Len(h.At1.Y) + " from the marked edge."
		if id, ok := ses.NextEmpty(ses.Selected().Panel); ok {
			text += " Sweep along it to lay empty place " + id + "."
		}
		return text
	case scene.BoardEdge:
		return "The marked edge of board " + h.Board + ". The letter is chalked on the marked end, at this edge's corner, on the face-1 side."
	case scene.BoardStrip:
		if h.Solid != "" {
			return "Part " + h.Solid + " on board " + h.Board + ": " + w.cuttingText(h.Strip) + " Double click: place and size. Right click: more."
		}
		return "Strip " + ses.Number(h.Panel, h.Strip) + " on board " + h.Board + ". Drag to move it, with Shift: along or across only, with Ctrl: without snapping. Arrow keys: 1 mm."
	case scene.RotateHandle:
		return "Drag to turn the strip on its board. With Shift: whole degrees; with Ctrl: not held straight near 0°. Keys: , and . turn by 0.5°."
	case scene.Lane:
		if b := ses.Project().Board(h.Board); b != nil && b.Spoiled {
			return "Board " + h.Board + " is spoiled: nothing more is cut from it. Click to take it in hand."
		}
		return "Board " + h.Board + ". Click to take it in hand. Strips can be dropped on it."
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
	where := "Joint "
	if w.surf.backSeen() {
		where = "On the show face, joint "
	}
	text := where + w.ses.Number(h.Panel, p.Strips[j.I].ID) + " to " + w.ses.Number(h.Panel, p.Strips[j.I+1].ID) + ": " + jointWords(j.Kind)
	if j.Mismatch > 0 {
		text += ", sapwood meets heartwood on " + session.Percent(j.Mismatch) + " of it"
	}
	return text + "."
}

// layHint says what Enter does with an empty place.
func layHint(w *Window) string {
	b := w.board()
	if b == nil || b.Spoiled {
		return ""
	}
	return " Enter lays it on board " + b.ID + "."
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
	return "What meets at the joint, " + rear + " above and " + front + " below: filled is heartwood, hatched is sapwood; a ring round both means that they differ. " + jointHint(w, h)
}

// planeHint explains the planing arrow of a strip.
func planeHint(w *Window, h scene.Hit) string {
	p := w.ses.Panel(h.Panel)
	if p == nil || h.Index < 0 || h.Index >= len(p.Strips) {
		return ""
	}
	st := &p.Strips[h.Index]
	way := "left to right"
	if (st.Planing() < 0) != w.surf.backSeen() {
		way = "right to left"
	}
	return "Strip " + w.ses.Number(h.Panel, st.ID) + " planes cleanly from " + way + " as it lies here, by what was entered for board " + h.Board + "."
}

func zoneHint(w *Window, h scene.Hit) string {
	switch h.Part {
	case scene.ZoneVertex:
		return "Drag the corner to move it. Delete takes it away."
	case scene.ZoneEdge:
		return "Drag the edge here to add a corner."
	case scene.BoardFace, scene.BoardStrip:
		if w.surf.show.brush > 0 {
			return "Paint " + kindWords(w.surf.show.kind) + " with the brush. X takes the next size, C draws corner by corner, Shift+S, H, F or U choose the kind. Esc ends."
		}
		if h.Zone >= 0 {
			return "Click to take this zone in hand. Ctrl+click begins a new zone of " + kindWords(w.surf.show.kind) + " on top. Delete removes the zone in hand."
		}
		return "Click to begin a zone of " + kindWords(w.surf.show.kind) + ". X takes the brush, Shift+S, H, F or U choose the kind. Esc ends."
	}
	return ""
}

// sideName calls a face heart side or bark side once that is known.
func sideName(w *Window, board string, f int) string {
	if b := w.ses.Board(board); b != nil {
		return b.SideName(f)
	}
	return "face " + itoa(f)
}

func itoa(n int) string { return strconv.Itoa(n) }
