package ui

import (
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// nudger moves the strip in hand on its board by key. A run of keys is one
// gesture: it previews from where the strip lay and commits once, when the key
// comes up or anything else is done.
type nudger struct {
	w     *Window
	panel string
	strip string
	by    geom.Point
}

// move adds to the run.
func (n *nudger) move(by geom.Point) {
	panel, s, ok := n.w.strip()
	if !ok || s.Empty() {
		n.w.say(say.T("Take a strip that lies on a board in hand first; the arrow keys then move it there."))
		return
	}
	if n.strip != s.ID || n.panel != panel {
		n.settle()
		n.panel, n.strip = panel, s.ID
	}
	n.by = n.by.Add(by)
	e, ok := n.edit()
	if !ok {
		n.drop()
		return
	}
	if err := n.w.ses.Preview(e); err != nil {
		n.drop()
		n.w.ses.Cancel()
		n.w.say(say.Err(err))
		return
	}
	n.w.surf.tell(panel, s.ID)
}

// edit is what the run comes to.
func (n *nudger) edit() (model.Edit, bool) {
	p := n.w.ses.Committed().Panel(n.panel)
	if p == nil {
		return nil, false
	}
	s, ok := p.Strip(n.strip)
	if !ok {
		return nil, false
	}
	return model.PlaceStrip{Panel: n.panel, Strip: s.ID, Board: s.Board, X: s.X + n.by.X, Y: s.Y + n.by.Y, Angle: s.Angle}, true
}

// settle commits the run.
func (n *nudger) settle() {
	if n.strip == "" {
		return
	}
	e, ok := n.edit()
	n.drop()
	if !ok {
		n.w.ses.Cancel()
		return
	}
	if err := n.w.ses.Commit(e); err != nil {
		n.w.say(say.Err(err))
	}
}

// drop forgets the run.
func (n *nudger) drop() {
	if n.strip != "" {
		n.w.surf.untell()
	}
	n.panel, n.strip, n.by = "", "", geom.Point{}
}
