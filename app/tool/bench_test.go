package tool

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// The bench is a window without a screen: one unit is 2 mm everywhere, y runs
// down, and all that follows can be worked in the head.
//
//	panel    x = 2 (px - 100), y = 2 (240 - py); its front at py 240
//	board A  x likewise; face 1 y = 2 (400 - py), from py 400 up to 295; its
//	         edge from 400 to 413; face 2 y = 2 (518 - py), from 413 to 518
//	board B  folded, 20 units high, from py 600 to 620: y = 8 (620 - py)
type bench struct {
	t       testing.TB
	hist    *model.History
	preview *model.Project
	snap    func(model.Strip) (model.Strip, []Guide)

	commits int
	refused int
	sketch  Sketch
	picked  []Hit
	hovers  []Hit
	opened  []Hit
	menus   []Hit
	panned  geom.Point // sum
	panAt   geom.Point
}

var _ Host = (*bench)(nil)

func newBench(t testing.TB, edits ...model.Edit) *bench {
	t.Helper()
	p := table()
	for _, e := range edits {
		q, err := model.Apply(p, e)
		if err != nil {
			t.Fatal(err)
		}
		p = q
	}
	return &bench{t: t, hist: model.NewHistory(p)}
}

// table is a panel of 900 x 450 mm of five strips of 930 x 90, front to back:
// A1 and A2 (turned) from board A, B1 (face 2 up) from board B, and the empty
// places 4 and 5. Face 1 of board A has 40 mm of sap along its marked edge.
func table() *model.Project {
	p := model.NewProject()
	a := model.NewBoard("A", "walnut-black", 2400, 210, 26)
	a.Faces[0] = model.Face{Known: true, Zones: []model.Zone{{Kind: model.Sap, Polygon: ring(0, 0, 2400, 0, 2400, 40, 0, 40)}}}
	p.Boards = []*model.Board{a, model.NewBoard("B", "walnut-black", 1800, 160, 26)}
	n := model.NewPanel("top", model.RoleTop, 900, 450, 20)
	for _, id := range []string{"A1", "A2", "B1", "4", "5"} {
		n.Strips = append(n.Strips, model.NewPlace(id, 930, 90))
	}
	s := n.Strips
	s[0].Board, s[0].X, s[0].Y = "A", 40, 10
	s[1].Board, s[1].X, s[1].Y, s[1].Turned = "A", 1100, 10, true
	s[2].Board, s[2].X, s[2].Y, s[2].Up = "B", 30, 20, 2
	p.Panels = []*model.Panel{n}
	return p
}

func ring(xy ...float64) geom.Polygon {
	var p geom.Polygon
	for i := 0; i+1 < len(xy); i += 2 {
		p = append(p, geom.Pt(xy[i], xy[i+1]))
	}
	return p
}

func (b *bench) shown() *model.Project {
	if b.preview != nil {
		return b.preview
	}
	return b.hist.Current()
}

func (b *bench) Project() *model.Project { return b.hist.Current() }

func (b *bench) PanelAt(at geom.Point) geom.Point { return geom.Pt(2*(at.X-100), 2*(240-at.Y)) }

func (b *bench) FaceAt(board string, face int, at geom.Point) geom.Point {
	x := 2 * (at.X - 100)
	switch {
	case board == "A" && face == 1:
		return geom.Pt(x, 2*(400-at.Y))
	case board == "A" && face == 2:
		return geom.Pt(x, 2*(518-at.Y))
	case board == "B" && face == 2:
		return geom.Pt(x, 160-8*(620-at.Y))
	case board == "B":
		return geom.Pt(x, 8*(620-at.Y))
	}
	return geom.Point{}
}

func (b *bench) Hit(at geom.Point) Hit {
	h := Hit{Panel: "top", Zone: -1, Vertex: -1}
	switch {
	case at.Y < 260:
		return b.hitPanel(h, at)
	case at.Y >= 280 && at.Y <= 530:
		return b.hitBoard(h, at)
	case at.Y >= 600 && at.Y <= 620 && at.X >= 100 && at.X <= 1000:
		h.Part, h.Board, h.Face, h.At = Lane, "B", 1, b.FaceAt("B", 1, at)
	}
	return h
}

func (b *bench) hitPanel(h Hit, at geom.Point) Hit {
	h.Part, h.At = PanelGround, b.PanelAt(at)
	y := 0.0
	for _, s := range b.shown().Panel("top").Strips {
		if h.At.Y >= y && h.At.Y < y+s.W && math.Abs(h.At.X-450-s.Shift) <= s.L/2 {
			h.Part, h.Strip = PanelPlace, s.ID
			if !s.Empty() {
				h.Part, h.Board, h.Face = PanelStrip, s.Board, s.Up
			}
		}
		y += s.W
	}
	return h
}

func (b *bench) hitBoard(h Hit, at geom.Point) Hit {
	board := b.shown().Board("A")
	h.Face = 1
	if at.Y >= 413 {
		h.Face = 2
	}
	h.At = b.FaceAt("A", h.Face, at)
	if at.Y > 400 && at.Y < 413 {
		h.Part, h.Board, h.Face = BoardEdge, "A", 0
		return h
	}
	if b.handle(&h, at) || b.corner(&h, at) {
		return h
	}
	for i, z := range board.Faces[h.Face-1].Zones {
		if z.Polygon.Contains(h.At) {
			h.Zone = i
		}
	}
	q := toFace1(board, h.Face, h.At)
	for _, s := range b.shown().Panel("top").Strips {
		if d := geom.Rotate(-s.Angle).Apply(q.Sub(geom.Pt(s.X, s.Y))); s.Board == "A" && d.X >= 0 && d.X <= s.L && d.Y >= 0 && d.Y <= s.W {
			h.Part, h.Board, h.Strip = BoardStrip, "A", s.ID
			return h
		}
	}
	if !geom.R(0, 0, 2400, 210).Contains(h.At) {
		return Hit{Panel: "top", Zone: -1, Vertex: -1}
	}
	h.Part, h.Board = BoardGround, "A"
	return h
}

// handle finds the handle of the strip picked last, 20 units beyond its end
// on the face that is up, 9 units around.
func (b *bench) handle(h *Hit, at geom.Point) bool {
	s, ok := b.shown().Panel("top").Strip(b.last().Strip)
	if !ok || s.Board != "A" || s.Up != h.Face {
		return false
	}
	p := geom.Rotate(s.Angle).Apply(geom.Pt(s.L+40, s.W/2)).Add(geom.Pt(s.X, s.Y))
	if toFace1(b.shown().Board("A"), h.Face, h.At).Dist(p) > 18 {
		return false
	}
	h.Part, h.Board, h.Strip = RotateHandle, "A", s.ID
	return true
}

// corner finds a corner within 6 units, else an edge within 4, of the zone
// picked last.
func (b *bench) corner(h *Hit, at geom.Point) bool {
	k := b.last()
	if k.Board != "A" || k.Face != h.Face || k.Zone < 0 || k.Zone >= len(b.shown().Board("A").Faces[h.Face-1].Zones) {
		return false
	}
	p := b.shown().Board("A").Faces[h.Face-1].Zones[k.Zone].Polygon
	for i := range p {
		if p[i].Dist(h.At) <= 12 {
			h.Part, h.Board, h.Zone, h.Vertex = ZoneVertex, "A", k.Zone, i
			return true
		}
	}
	for i := range p {
		if fromSegment(h.At, p[i], p[(i+1)%len(p)]) <= 8 {
			h.Part, h.Board, h.Zone, h.Vertex = ZoneEdge, "A", k.Zone, i
			return true
		}
	}
	return false
}

// last returns what was picked last.
func (b *bench) last() Hit { return append([]Hit{{Zone: -1}}, b.picked...)[len(b.picked)] }

func (b *bench) Snap(_ string, s model.Strip) (model.Strip, []Guide) {
	if b.snap == nil {
		return s, nil
	}
	return b.snap(s)
}

func (b *bench) Preview(e model.Edit) error {
	p, err := model.Apply(b.hist.Current(), e)
	if err == nil {
		b.preview = p
	}
	return err
}

func (b *bench) Commit(e model.Edit) error {
	b.preview = nil
	b.commits++
	err := b.hist.Commit(e)
	if err != nil {
		b.refused++
	}
	return err
}

func (b *bench) Cancel()                  { b.preview = nil }
func (b *bench) Select(h Hit)             { b.picked = append(b.picked, h) }
func (b *bench) Show(k Sketch)            { b.sketch = k }
func (b *bench) Hovering(h Hit)           { b.hovers = append(b.hovers, h) }
func (b *bench) Open(h Hit)               { b.opened = append(b.opened, h) }
func (b *bench) Menu(h Hit, _ geom.Point) { b.menus = append(b.menus, h) }
func (b *bench) Pan(at, by geom.Point)    { b.panAt, b.panned = at, b.panned.Add(by) }

// play gives events to a tool and returns where it stands.
func (b *bench) play(s State, events ...Event) State {
	b.t.Helper()
	for _, e := range events {
		s = s.Handle(b, e)
	}
	return s
}

// strip returns a strip as committed.
func (b *bench) strip(id string) model.Strip {
	b.t.Helper()
	s, ok := b.Project().Panel("top").Strip(id)
	if !ok {
		b.t.Fatalf("strip %s is gone", id)
	}
	return s
}

// zones returns the zones of a face of board A as committed.
func (b *bench) zones(face int) []model.Zone { return b.Project().Board("A").Faces[face-1].Zones }

// still checks that nothing was changed: no preview stands, and the project
// is the very one.
func (b *bench) still(start *model.Project) {
	b.t.Helper()
	if b.preview != nil {
		b.t.Error("a preview stands")
	}
	if b.Project() != start || b.hist.CanUndo() {
		b.t.Errorf("the project was changed: %q", b.hist.UndoLabel())
	}
	if len(b.sketch.Guides) > 0 || b.sketch.Carried != "" {
		b.t.Errorf("left on screen: %+v", b.sketch)
	}
}

func press(x, y float64) Event   { return Event{Kind: Press, At: geom.Pt(x, y), Button: Primary} }
func drag(x, y float64) Event    { return Event{Kind: Drag, At: geom.Pt(x, y), Button: Primary} }
func release(x, y float64) Event { return Event{Kind: Release, At: geom.Pt(x, y), Button: Primary} }
func double(x, y float64) Event  { return Event{Kind: Double, At: geom.Pt(x, y), Button: Primary} }
func hover(x, y float64) Event   { return Event{Kind: Hover, At: geom.Pt(x, y)} }
func typed(k Key) Event          { return Event{Kind: Typed, Key: k} }

func shift(e Event) Event          { e.Mods.Shift = true; return e }
func control(e Event) Event        { e.Mods.Control = true; return e }
func with(b Button, e Event) Event { e.Button = b; return e }

// gesture is a press, a drag by way of the start plus 5 units, and a release.
func gesture(from, to geom.Point, held func(Event) Event) []Event {
	out := []Event{press(from.X, from.Y), drag(from.X+5, from.Y), drag(to.X, to.Y), release(to.X, to.Y)}
	if held != nil {
		for i := range out {
			out[i] = held(out[i])
		}
	}
	return out
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }
