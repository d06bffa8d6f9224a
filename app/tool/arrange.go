package tool

import (
	"heartside/layout/geom"
	"heartside/model"
)

// Arrange is the tool that lays strips on boards and orders them in the
// panel, at rest.
type Arrange struct{}

// Busy implements State.
func (Arrange) Busy() bool { return false }

// Handle implements State.
func (a Arrange) Handle(h Host, e Event) State {
	switch e.Kind {
	case Hover:
		h.Hovering(h.Hit(e.At))
	case Leave:
		h.Hovering(Hit{Zone: -1})
	case Double:
		h.Open(h.Hit(e.At))
	case Press:
		hit := h.Hit(e.At)
		if e.Button == Middle {
			return panning{a, e.At, e.At}
		}
		h.Select(hit)
		return pressed{hit: hit, at: e.At, button: e.Button}
	}
	return a
}

// pressed waits to see whether a press becomes a drag.
type pressed struct {
	hit    Hit
	at     geom.Point
	button Button
}

func (pressed) Busy() bool { return true }

func (p pressed) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return Arrange{}
		}
	case Double:
		h.Open(p.hit)
		return Arrange{}
	case Release:
		if p.button == Secondary {
			h.Menu(p.hit, e.At)
		}
		return Arrange{}
	case Drag:
		if e.At.Dist(p.at) < slack || p.wavers(h, e) {
			return p
		}
		next := p.begin(h, e)
		return next.Handle(h, e)
	}
	return p
}

// A strip of the panel slides along its board once it is drawn at least so far
// sideways, in surface units and mm, and twice as far as up or down.
const slideSlack, slideLeast = 10, 3

// wavers reports whether it is not clear yet that a strip of the panel is to
// be slid: reordering leaves every cut where it is, sliding moves one.
func (p pressed) wavers(h Host, e Event) bool {
	d := e.At.Sub(p.at)
	if p.button == Secondary || p.hit.Part != PanelStrip || abs(d.Y) >= slack && abs(d.Y) >= abs(d.X) {
		return false
	}
	least := abs(h.PanelAt(e.At).X-h.PanelAt(p.at).X) >= slideLeast
	return !least || abs(d.X) < slideSlack || abs(d.X) < 2*abs(d.Y)
}

// begin chooses the gesture for what was pressed and which way it is dragged.
func (p pressed) begin(h Host, e Event) State {
	if p.button == Secondary {
		return panning{Arrange{}, p.at, p.at}
	}
	proj := h.Project()
	switch p.hit.Part {
	case PanelPlace, PanelStrip:
		n := proj.Panel(p.hit.Panel)
		if n == nil {
			break
		}
		s, ok := n.Strip(p.hit.Strip)
		if !ok {
			break
		}
		d := e.At.Sub(p.at)
		if p.hit.Part == PanelStrip && abs(d.X) > abs(d.Y) {
			return sliding{panel: p.hit.Panel, strip: s, from: h.PanelAt(p.at)}
		}
		return carrying{panel: p.hit.Panel, strip: s, from: h.PanelAt(p.at)}
	case BoardStrip, RotateHandle:
		s, ok := stripOf(proj, p.hit)
		b := proj.Board(p.hit.Board)
		if !ok || b == nil {
			break
		}
		grab := toFace1(b, p.hit.Face, h.FaceAt(b.ID, p.hit.Face, p.at))
		if p.hit.Part == RotateHandle {
			return newTurning(p.hit, s, b, grab)
		}
		return moving{hit: p.hit, strip: s, board: b, grab: grab}
	case BoardGround:
		if s, ok := nextEmpty(proj, p.hit.Panel, p.hit.Strip); ok {
			b := proj.Board(p.hit.Board)
			if b == nil {
				break
			}
			return sweeping{hit: p.hit, strip: s, board: b,
				from: toFace1(b, p.hit.Face, h.FaceAt(b.ID, p.hit.Face, p.at))}
		}
	}
	return panning{Arrange{}, p.at, p.at}
}

// stripOf finds the strip of the panel on screen that was hit.
func stripOf(p *model.Project, hit Hit) (model.Strip, bool) {
	n := p.Panel(hit.Panel)
	if n == nil {
		return model.Strip{}, false
	}
	return n.Strip(hit.Strip)
}

// nextEmpty returns the place in hand where it is empty, else the first empty
// place of the panel from the front.
func nextEmpty(p *model.Project, panel, inHand string) (model.Strip, bool) {
	n := p.Panel(panel)
	if n == nil {
		return model.Strip{}, false
	}
	if s, ok := n.Strip(inHand); ok && s.Empty() {
		return s, true
	}
	for _, s := range n.Strips {
		if s.Empty() {
			return s, true
		}
	}
	return model.Strip{}, false
}

// panning drags the view.
type panning struct {
	back State
	at   geom.Point // where the drag began
	last geom.Point
}

func (panning) Busy() bool { return true }

func (p panning) Handle(h Host, e Event) State {
	switch e.Kind {
	case Drag, Hover:
		h.Pan(p.at, e.At.Sub(p.last))
		p.last = e.At
	case Release:
		return p.back
	case Typed:
		if e.Key == Escape {
			return p.back
		}
	}
	return p
}

// done ends a gesture: commit where there is an edit, drop it otherwise.
func done(h Host, edit model.Edit) State {
	if edit == nil {
		h.Show(Sketch{})
		h.Cancel()
	} else {
		commit(h, edit)
	}
	return Arrange{}
}

// try previews an edit and shows the sketch, or what speaks against it.
func try(h Host, edit model.Edit, sk Sketch) {
	if edit == nil {
		h.Cancel()
		h.Show(sk)
		return
	}
	if err := h.Preview(edit); err != nil {
		sk.Say, sk.Fails = err.Error(), true
	}
	h.Show(sk)
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
