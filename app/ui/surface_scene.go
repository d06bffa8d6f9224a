package ui

import (
	"strings"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/app/tool"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

// input gathers what the scene is made from.
func (s *surface) input() scene.Input {
	ses := s.w.ses
	sel := ses.Selected()
	size := s.Size()
	p := ses.Project()
	if s.seen[0] != sel.Panel {
		s.seen[0], s.views.Panel = sel.Panel, scene.View{}
	}
	if s.seen[1] != sel.Board {
		s.seen[1], s.views.Board = sel.Board, scene.View{}
	}
	in := scene.Input{
		Size:   geom.Pt(float64(size.Width), float64(size.Height)),
		Pick:   scene.Pick{Strip: sel.Strip, Board: sel.Board, Face: sel.Face, Zone: -1},
		Hover:  s.show.hover,
		Views:  s.views,
		Sketch: s.sketch(),
		Grain:  s.grain(p.Board(sel.Board)),
		Roll:   s.roll.now(),
	}
	if s.show.zoning {
		in.Pick.Zone = sel.Zone
	}
	if n := p.Panel(sel.Panel); n != nil {
		in.Panel.Panel, in.Panel.Reading = ses.Panel(n.ID), ses.Reading(n.ID)
		sides := n.Role.Sides()
		in.Panel.Front, in.Panel.Back, in.Panel.Left, in.Panel.Right = sides[0].Word, sides[1].Word, sides[2].Word, sides[3].Word
		in.Back = s.backSeen()
		if s.show.before {
			in.Before = ses.BeforePanel(n.ID)
		}
		in.Lit = s.lit(n.ID)
	}
	in.Boards = s.stack(p, sel.Panel, sel.Board)
	s.planedSoFar(&in)
	in.Look = scene.Look{
		Theme: s.w.sceneTheme(), Text: float64(s.w.look.TextPercent()) / 100, Pixels: s.pixels,
		Hatch: s.show.hatch, Outlines: s.show.zoning || s.show.hatch,
		Faces: s.w.faces, Textures: s.textures, Picture: ses.PictureAt, Focus: s.focused,
	}
	in.Words = s.words()
	if in.Before != nil {
		s.compare(&in.Words, sel.Panel)
	}
	return in
}

// stack lists the boards and every strip that lies on one.
func (s *surface) stack(p *model.Project, panel, hand string) scene.Stack {
	ses := s.w.ses
	a := p.Allowances
	st := scene.Stack{InHand: hand, Blank: scene.Blank{Side: a.Joint + a.Rest, End: a.Ends, Kerf: a.Kerf}}
	sawn := func(s *face.Strip) geom.Rect {
		if s.Row == nil {
			return geom.Rect{}
		}
		return cutting.BlankRect(s, ses.Allowances())
	}
	for _, b := range p.Boards {
		if fb := ses.Board(b.ID); fb != nil {
			st.All = append(st.All, fb)
		}
	}
	for _, n := range p.Panels {
		fp := ses.Panel(n.ID)
		if fp == nil {
			continue
		}
		for i := range fp.Strips {
			if fp.Strips[i].Board != nil {
				st.Laid = append(st.Laid, scene.Laid{Panel: n.ID, Strip: &fp.Strips[i], Back: n.ID != panel, Sawn: sawn(&fp.Strips[i])})
			}
		}
	}
	spares := ses.Spares()
	for i := range spares {
		if spares[i].Board != nil {
			st.Laid = append(st.Laid, scene.Laid{Strip: &spares[i], Sawn: sawn(&spares[i])})
		}
	}
	cuttings := ses.Cuttings()
	for i := range cuttings {
		st.Laid = append(st.Laid, scene.Laid{Strip: &cuttings[i], Solid: ses.Number("", cuttings[i].ID)})
	}
	st.Spoiled = spoiledIDs(p)
	return st
}

// lit is the places of the warnings, the one pointed at bright.
func (s *surface) lit(panel string) []scene.Light {
	var out []scene.Light
	for i, n := range s.w.column.notes {
		if n.Place.Empty() || n.Side != face.Show && n.Side != face.Back && i != s.pointed {
			continue
		}
		if i == s.pointed || n.Kind == face.LoneStreak && (n.Side == face.Back) == s.backSeen() {
			out = append(out, scene.Light{Side: n.Side, Place: n.Place, Bright: i == s.pointed, Severe: n.Severe})
		}
	}
	return out
}

func (s *surface) sketch() scene.Sketch {
	k := s.show.sketch
	out := scene.Sketch{Board: k.Board, Face: k.Face, Ring: k.Ring, Kind: session.KindOf(k.Kind),
		Centre: k.Centre, Radius: k.Radius, Line: k.Line, Cursor: k.Cursor, Carried: k.Carried, Swap: k.Swap, Told: s.show.told}
	for _, g := range k.Guides {
		out.Guides = append(out.Guides, scene.Guide{A: g.A, B: g.B, Why: g.Why})
	}
	return out
}

// words writes lengths on the surface in the project's units.
func (s *surface) words() scene.Words {
	ses := s.w.ses
	w := scene.Words{
		Len:   ses.Len,
		Short: func(mm float64) string { return strings.TrimSuffix(ses.Len(mm), " mm") },
		Share: session.Percent, Number: ses.Number, Wood: speciesName,
	}
	if ses.Units() == unit.Inch {
		for _, in := range []float64{0.125, 0.25, 0.5, 1, 2, 6, 12, 24, 48, 120, 240} {
			w.Steps = append(w.Steps, in*25.4)
		}
	}
	return w
}

// toTool turns a hit of the scene into one of the tools, with the panel on
// screen and the strip in hand.
func toTool(h scene.Hit, panel, strip string) tool.Hit {
	out := tool.Hit{Panel: h.Panel, Strip: h.Strip, Board: h.Board, Face: h.Face, Zone: h.Zone, Vertex: -1, At: h.At}
	if out.Panel == "" {
		out.Panel = panel
	}
	switch h.Part {
	case scene.PanelGround, scene.Joint, scene.JointMark, scene.BeforeSide:
		out.Part, out.At = tool.PanelGround, h.Panels
		if h.Part == scene.Joint && h.Strip != "" {
			out.Part = tool.PanelPlace
			if h.Board != "" {
				out.Part = tool.PanelStrip
			}
		}
	case scene.PanelStrip, scene.MarkWedge, scene.PlaneArrow:
		out.Part, out.At = tool.PanelStrip, h.Panels
	case scene.PanelPlace:
		out.Part, out.At = tool.PanelPlace, h.Panels
	case scene.BoardFace:
		out.Part, out.Panel, out.Strip = tool.BoardGround, panel, strip
	case scene.BoardStrip:
		out.Part = tool.BoardStrip
	case scene.RotateHandle:
		out.Part = tool.RotateHandle
	case scene.BoardEdge:
		out.Part = tool.BoardEdge
	case scene.ZoneVertex:
		out.Part, out.Vertex = tool.ZoneVertex, h.Index
	case scene.ZoneEdge:
		out.Part, out.Vertex = tool.ZoneEdge, h.Index
	case scene.Lane:
		out.Part, out.Panel = tool.Lane, panel
	}
	return out
}
