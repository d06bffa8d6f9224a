package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/app/tool"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// snapReach is how near an edge must come to snap, surface units.
const snapReach = 7.0

// host is the window as the tools see it.
type host struct{ s *surface }

var _ tool.Host = host{}

func (h host) Project() *model.Project { return h.s.w.ses.Committed() }

func (h host) Hit(at geom.Point) tool.Hit {
	sel := h.s.w.ses.Selected()
	return toTool(h.s.scene().Hit(at), sel.Panel, sel.Strip)
}

func (h host) PanelAt(at geom.Point) geom.Point { return h.s.scene().PanelAt(at) }

func (h host) FaceAt(board string, f int, at geom.Point) geom.Point {
	p, _ := h.s.scene().FaceAt(board, f, at)
	return p
}

// Snap brings a strip to edges, other blanks and the sap line near it.
func (h host) Snap(panel string, m model.Strip) (model.Strip, []tool.Guide) {
	ses := h.s.w.ses
	b := ses.Board(m.Board)
	fp := ses.Panel(panel)
	if b == nil || fp == nil {
		return m, nil
	}
	st, ok := lastStrip(fp, m.ID)
	if !ok {
		return m, nil
	}
	st.Board, st.X, st.Y, st.L, st.W, st.Angle = b, m.X, m.Y, m.L, m.W, m.Angle
	a := ses.Allowances()
	scale := h.s.scene().Scale(scene.BoardArea)
	if scale <= 0 {
		scale = 0.3
	}
	out, guides := cutting.Snap(b, h.others(panel, m, a), st, a, snapReach/scale)
	m.X, m.Y = out.X, out.Y
	var lines []tool.Guide
	for _, g := range guides {
		lines = append(lines, tool.Guide{A: g.A, B: g.B, Why: guideWords(g.Key)})
	}
	return m, lines
}

// others are the blanks of the other strips on the strip's board.
func (h host) others(panel string, m model.Strip, a cutting.Allowances) []geom.Polygon {
	ses := h.s.w.ses
	var out []geom.Polygon
	add := func(id string, list []face.Strip) {
		for i := range list {
			if st := &list[i]; st.Board != nil && st.Board.ID == m.Board && (id != panel || st.ID != m.ID) {
				out = append(out, cutting.Blank(st, a))
			}
		}
	}
	for _, n := range ses.Project().Panels {
		if fp := ses.Panel(n.ID); fp != nil {
			add(n.ID, fp.Strips)
		}
	}
	add("", ses.Spares())
	add("", ses.Cuttings())
	return out
}

func guideWords(key string) string {
	switch key {
	case cutting.ToMarkedEnd:
		return say.T("marked end")
	case cutting.ToOtherEnd:
		return say.T("other end")
	case cutting.ToMarkedEdge:
		return say.T("marked edge")
	case cutting.ToOtherEdge:
		return say.T("other edge")
	case cutting.ToKerf:
		return say.T("a saw cut apart")
	case cutting.ToInLine:
		return say.T("in line")
	case cutting.ToHeartLine:
		return say.T("heartwood begins")
	case cutting.ToSapLine:
		return say.T("sapwood begins")
	}
	return ""
}

func (h host) Preview(e model.Edit) error { return h.s.w.ses.Preview(e) }

func (h host) Commit(e model.Edit) error {
	h.s.w.nudge.drop()
	return h.s.w.ses.Commit(e)
}

func (h host) Cancel() { h.s.w.ses.Cancel() }

// Select takes in hand what was hit.
func (h host) Select(t tool.Hit) {
	ses := h.s.w.ses
	h.s.w.nudge.settle()
	sel := ses.Selected()
	next := session.Selection{Panel: sel.Panel, Board: sel.Board, Strip: sel.Strip, Face: t.Face, Zone: -1}
	switch t.Part {
	case tool.PanelStrip, tool.PanelPlace:
		next.Panel, next.Strip = t.Panel, t.Strip
		if t.Board != "" {
			next.Board = t.Board
		}
	case tool.BoardStrip, tool.RotateHandle:
		next.Board = t.Board
		if t.Panel != "" {
			next.Panel, next.Strip = t.Panel, t.Strip
		}
	case tool.BoardGround, tool.ZoneVertex, tool.ZoneEdge:
		next.Board, next.Zone = t.Board, t.Zone
		if !h.s.show.zoning {
			// Keep an empty place in hand: it can be laid here.
			if _, st, ok := h.s.w.strip(); ok && !st.Empty() {
				next.Strip = ""
			}
		}
	case tool.Lane:
		next.Board = t.Board
		if _, st, ok := h.s.w.strip(); ok && !st.Empty() {
			next.Strip = ""
		}
	case tool.PanelGround:
		next.Strip = ""
	default:
		return
	}
	ses.Select(next)
}

func (h host) Show(k tool.Sketch) {
	s := h.s
	s.show.sketch, s.show.told = k, ""
	say := k.Say
	if k.Carried != "" && k.Board != "" && !k.Fails {
		var line string
		line, s.show.told = s.w.lie(s.w.ses.Selected().Panel, k.Carried)
		say = join(line, say)
	}
	if say != "" {
		s.w.say(say)
	}
	if k.Cursor != nil {
		s.views = s.scene().Kept(k.Face, *k.Cursor)
	}
	s.stale()
}

// Hovering tells in the status line what lies under the pointer.
func (h host) Hovering(t tool.Hit) {
	hit := scene.Hit{Zone: -1}
	if t.Part != tool.Nothing {
		hit = h.s.scene().Hit(h.s.pointer.at)
	}
	old := h.s.show.hover
	h.s.show.hover = hit
	if old.Part != hit.Part || old.Strip != hit.Strip || old.Board != hit.Board || old.Index != hit.Index {
		h.s.stale()
	}
	h.s.w.status.hover(h.s.w, hit)
}

func (h host) Pan(at, by geom.Point) {
	h.s.views = h.s.scene().Panned(at, by)
	h.s.stale()
}

func (h host) Menu(t tool.Hit, at geom.Point) {
	s := h.s
	m := s.w.contextMenu(t)
	if hit := s.scene().Hit(at); hit.Solid != "" {
		m = s.w.solidMenu(hit.Strip)
	}
	if m == nil || len(m.Items) == 0 {
		return
	}
	c := s.w.win.Canvas()
	base := fyne.CurrentApp().Driver().AbsolutePositionForObject(s)
	widget.ShowPopUpMenuAtPosition(m, c, base.AddXY(float32(at.X), float32(at.Y)))
}

// Open answers a double click.
func (h host) Open(t tool.Hit) {
	switch t.Part {
	case tool.PanelPlace:
		h.s.w.act("place")
	case tool.BoardGround, tool.Lane, tool.BoardEdge:
		h.s.w.act("edit-board")
	case tool.PanelGround:
		h.s.w.act("edit-panel")
	case tool.BoardStrip:
		h.s.w.cuttingAsk(t.Strip, nil) // nothing where it is no solid part's
	}
}
