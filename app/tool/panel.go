package tool

import (
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// carrying takes a strip or an empty place out of the panel: over the panel
// it changes the order, over a board it is laid there.
type carrying struct {
	panel string
	strip model.Strip
	from  geom.Point // panel mm where it was taken
	edit  model.Edit
}

func (carrying) Busy() bool { return true }

func (c carrying) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return done(h, nil)
		}
	case Release:
		if p, ok := c.edit.(model.PlaceStrip); ok {
			return laid(h, c.edit, c.panel, c.strip.ID, p.Board)
		}
		return done(h, c.edit)
	case Drag:
		under := h.Hit(e.At)
		switch {
		case under.Part.onBoard():
			edit, sk := drop(h, c.panel, c.strip, under, e)
			c.edit = edit
			try(h, edit, sk)
		case under.Part.inPanel():
			c = c.overPanel(h, e)
		default:
			c.edit = nil
			try(h, nil, Sketch{Carried: c.strip.ID, Say: say.T("Drop it on a board or in the panel; here it stays where it was.")})
		}
	}
	return c
}

// overPanel orders the strip anew, or swaps it with the one under the pointer
// while Control is held.
func (c carrying) overPanel(h Host, e Event) carrying {
	n := h.Project().Panel(c.panel)
	if n == nil || n.StripIndex(c.strip.ID) < 0 {
		c.edit = nil
		h.Cancel()
		return c
	}
	at := indexAt(n, h.PanelAt(e.At).Y)
	was := n.StripIndex(c.strip.ID)
	if e.Mods.Control {
		other := n.Strips[at].ID
		if other == c.strip.ID {
			c.edit = nil
			h.Cancel()
			h.Show(Sketch{Carried: c.strip.ID, Say: say.T("Drop it on the strip it is to change places with.")})
			return c
		}
		c.edit = model.SwapStrips{Panel: c.panel, A: c.strip.ID, B: other}
		try(h, c.edit, Sketch{Carried: c.strip.ID, Swap: other, Say: say.T("Release to let the two strips change places.")})
		return c
	}
	if at == was {
		c.edit = nil
		h.Cancel()
		h.Show(Sketch{Carried: c.strip.ID, Say: say.T("Drop it in front of or behind another strip, or on a board.")})
		return c
	}
	c.edit = model.MoveStrip{Panel: c.panel, Strip: c.strip.ID, To: at}
	try(h, c.edit, Sketch{Carried: c.strip.ID, Say: say.T("Release to keep this order.")})
	return c
}

// indexAt returns which strip of a panel, from the front, lies at height y;
// beyond the strips the nearest.
func indexAt(n *model.Panel, y float64) int {
	edge := (n.Width - n.StripsWidth()) / 2
	for i := range n.Strips {
		edge += n.Strips[i].W
		if y < edge {
			return i
		}
	}
	return max(len(n.Strips)-1, 0)
}

// sliding drags a strip along the panel. The wood moves under the place: the
// strip is cut elsewhere along its board. With Shift the strip itself is
// shifted along the panel.
type sliding struct {
	panel string
	strip model.Strip
	from  geom.Point // panel mm
	edit  model.Edit
}

func (sliding) Busy() bool { return true }

func (s sliding) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return done(h, nil)
		}
	case Release:
		return done(h, s.edit)
	case Drag:
		d := h.PanelAt(e.At).X - s.from.X
		if e.Mods.Shift {
			s.edit = model.ShiftStrip{Panel: s.panel, Strip: s.strip.ID, Shift: s.strip.Shift + d}
			try(h, s.edit, Sketch{Carried: s.strip.ID, Say: say.T("Shifting the strip along the panel.")})
			return s
		}
		t := slid(s.strip, d)
		var guides []Guide
		if !e.Mods.Control {
			t, guides = snapAlong(h, s.panel, t, geom.Rotate(t.Angle).Apply(geom.Pt(1, 0)))
		}
		s.edit = place(s.panel, t)
		try(h, s.edit, Sketch{Board: t.Board, Face: 1, Guides: guides, Carried: t.ID,
			Say: say.T("Sliding the strip along its board. Hold Shift to shift it along the panel instead.")})
	}
	return s
}

// slid returns the strip cut so that its figure moves by d along the panel:
// the cut moves the other way along the strip, and the way round that the
// strip lies decides which way that is on the board.
func slid(s model.Strip, d float64) model.Strip {
	along := -d
	if s.Turned {
		along = d
	}
	v := geom.Rotate(s.Angle).Apply(geom.Pt(along, 0))
	s.X, s.Y = s.X+v.X, s.Y+v.Y
	return s
}
