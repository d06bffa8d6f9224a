package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
)

// Zones is the tool that draws and edits the zones of a board's faces, at
// rest. It is a value: the kind and the brush are those it was made with.
type Zones struct {
	Kind  model.ZoneKind // of what is drawn next
	Brush float64        // radius, mm; 0 draws corner by corner

	// What is in hand: a zone of a face, and maybe a corner of it.
	Board  string
	Face   int
	Zone   int // -1 none
	Vertex int // -1 none
}

// NewZones returns the tool with nothing in hand.
func NewZones(kind model.ZoneKind, brush float64) Zones {
	return Zones{Kind: kind, Brush: brush, Zone: -1, Vertex: -1}
}

// Busy implements State.
func (Zones) Busy() bool { return false }

// Handle implements State.
func (z Zones) Handle(h Host, e Event) State {
	switch e.Kind {
	case Hover:
		hit := h.Hit(e.At)
		h.Hovering(hit)
		h.Show(z.brushSketch(h, hit, e.At))
	case Leave:
		h.Show(Sketch{})
	case Typed:
		if e.Key == Delete || e.Key == Backspace {
			return z.remove(h)
		}
	case Press:
		hit := h.Hit(e.At)
		switch {
		case e.Button == Middle:
			return panning{z, e.At, e.At}
		case e.Button == Secondary:
			return zonePressed{z, hit, e.At}
		case hit.Face == 0 || hit.Board == "":
			h.Select(hit)
			return panning{z, e.At, e.At}
		case z.Brush > 0:
			return newPainting(h, z, hit, e.At)
		case hit.Part == ZoneVertex:
			z.Board, z.Face, z.Zone, z.Vertex = hit.Board, hit.Face, hit.Zone, hit.Vertex
			return bending{zones: z, at: e.At, verb: "Move a corner"}
		case hit.Part == ZoneEdge:
			z.Board, z.Face, z.Zone, z.Vertex = hit.Board, hit.Face, hit.Zone, hit.Vertex+1
			return bending{zones: z, at: e.At, insert: true, verb: "Add a corner"}
		}
		return zonePressed{z, hit, e.At}
	}
	return z
}

// brushSketch shows the brush under the pointer.
func (z Zones) brushSketch(h Host, hit Hit, at geom.Point) Sketch {
	if z.Brush <= 0 || hit.Face == 0 || hit.Board == "" {
		return Sketch{}
	}
	return Sketch{Board: hit.Board, Face: hit.Face, Kind: z.Kind, Radius: z.Brush, Centre: h.FaceAt(hit.Board, hit.Face, at)}
}

// Hold takes a zone in hand.
func (z Zones) Hold(board string, face, zone int) Zones {
	z.Board, z.Face, z.Zone, z.Vertex = board, face, zone, -1
	return z
}

// zonesOf returns the zones of the face in hand, nil where it is gone.
func (z Zones) zonesOf(p *model.Project) []model.Zone {
	b := p.Board(z.Board)
	if b == nil || z.Face < 1 || z.Face > 2 || z.Zone < 0 || z.Zone >= len(b.Faces[z.Face-1].Zones) {
		return nil
	}
	return b.Faces[z.Face-1].Zones
}

// remove deletes the corner in hand, or the zone where no corner is held or
// none can be spared.
func (z Zones) remove(h Host) State {
	zones := z.zonesOf(h.Project())
	if zones == nil {
		h.Show(Sketch{Say: "Click a zone or a corner first, then delete it."})
		return z
	}
	ring := zones[z.Zone].Polygon
	out, verb := slices.Clone(zones), "Delete a zone"
	if z.Vertex >= 0 && z.Vertex < len(ring) && len(ring) > 3 {
		out[z.Zone].Polygon = slices.Delete(slices.Clone(ring), z.Vertex, z.Vertex+1)
		verb = "Delete a corner of a zone"
	} else {
		out = slices.Delete(out, z.Zone, z.Zone+1)
		z.Zone = -1
	}
	z.Vertex = -1
	commit(h, model.SetZones{Board: z.Board, Face: z.Face, Zones: out, Verb: verb})
	h.Select(Hit{Part: BoardGround, Board: z.Board, Face: z.Face, Zone: z.Zone})
	return z
}

func commit(h Host, e model.Edit) {
	h.Show(Sketch{})
	if err := h.Commit(e); err != nil {
		h.Show(Sketch{Say: err.Error()})
	}
}

// zonePressed waits to see whether a press on a face picks a zone, begins a
// polygon or drags the view.
type zonePressed struct {
	zones Zones
	hit   Hit
	at    geom.Point
}

func (zonePressed) Busy() bool { return true }

func (p zonePressed) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			return p.zones
		}
	case Drag:
		if e.At.Dist(p.at) >= slack {
			return panning{p.zones, p.at, p.at}
		}
	case Release:
		if e.Button == Secondary {
			h.Select(p.hit)
			h.Menu(p.hit, e.At)
			return p.zones
		}
		if p.hit.Zone >= 0 && !e.Mods.Control {
			h.Select(p.hit)
			return p.zones.Hold(p.hit.Board, p.hit.Face, p.hit.Zone)
		}
		first := inBoard(h.Project(), p.hit.Board, h.FaceAt(p.hit.Board, p.hit.Face, p.at))
		d := drawing{zones: p.zones, board: p.hit.Board, face: p.hit.Face, ring: geom.Polygon{first}}
		d.show(h, first)
		return d
	}
	return p
}

// inBoard brings a point onto the board.
func inBoard(p *model.Project, board string, q geom.Point) geom.Point {
	b := p.Board(board)
	if b == nil {
		return q
	}
	return geom.Pt(hold(q.X, 0, b.Length), hold(q.Y, 0, b.Width))
}

// drawing sets a polygon corner by corner. Enter or a double click closes it,
// Backspace takes the last corner back.
type drawing struct {
	zones Zones
	board string
	face  int
	ring  geom.Polygon
}

func (drawing) Busy() bool { return true }

func (d drawing) Handle(h Host, e Event) State {
	switch e.Kind {
	case Hover, Drag:
		d.show(h, inBoard(h.Project(), d.board, h.FaceAt(d.board, d.face, e.At)))
	case Press:
		if e.Button != Primary {
			return d
		}
		q := inBoard(h.Project(), d.board, h.FaceAt(d.board, d.face, e.At))
		if len(d.ring) > 0 && q == d.ring[len(d.ring)-1] {
			return d
		}
		d.ring = append(slices.Clone(d.ring), q)
		d.show(h, q)
	case Double:
		return d.close(h)
	case Typed:
		switch e.Key {
		case Enter:
			return d.close(h)
		case Escape:
			h.Show(Sketch{})
			return d.zones
		case Backspace, Delete:
			d.ring = slices.Clone(d.ring[:len(d.ring)-1])
			if len(d.ring) == 0 {
				h.Show(Sketch{})
				return d.zones
			}
			d.show(h, d.ring[len(d.ring)-1])
		}
	}
	return d
}

func (d drawing) show(h Host, next geom.Point) {
	h.Show(Sketch{Board: d.board, Face: d.face, Kind: d.zones.Kind, Ring: append(slices.Clone(d.ring), next),
		Say: "Click the corners of the zone. Enter or a double click closes it, Backspace takes the last corner back, Esc drops it."})
}

func (d drawing) close(h Host) State {
	if len(d.ring) < 3 || d.ring.Area() < 1 {
		h.Show(Sketch{Board: d.board, Face: d.face, Kind: d.zones.Kind, Ring: d.ring,
			Say: "A zone needs at least three corners with wood between them. Click another corner, or press Esc to drop it."})
		return d
	}
	return d.zones.add(h, d.board, d.face, []geom.Polygon{d.ring}, "Draw a ")
}

// add puts new zones on top of a face and takes the last in hand.
func (z Zones) add(h Host, board string, face int, rings []geom.Polygon, verb string) State {
	b := h.Project().Board(board)
	if b == nil || len(rings) == 0 {
		h.Show(Sketch{})
		return z
	}
	zones := slices.Clone(b.Faces[face-1].Zones)
	for _, r := range rings {
		zones = append(zones, model.Zone{Kind: z.Kind, Polygon: r})
	}
	commit(h, model.SetZones{Board: board, Face: face, Zones: zones, Verb: verb + string(z.Kind) + " zone"})
	z = z.Hold(board, face, len(zones)-1)
	h.Select(Hit{Part: BoardGround, Board: board, Face: face, Zone: z.Zone})
	return z
}

// bending drags a corner of a zone, set anew where an edge was pressed.
type bending struct {
	zones  Zones
	at     geom.Point
	insert bool
	verb   string
	edit   model.Edit
}

func (bending) Busy() bool { return true }

func (b bending) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			h.Show(Sketch{})
			h.Cancel()
			return b.zones
		}
	case Release:
		if b.edit != nil {
			commit(h, b.edit)
		} else if b.insert {
			b.zones.Vertex = -1
		}
		return b.zones
	case Drag:
		if b.edit == nil && e.At.Dist(b.at) < slack {
			return b
		}
		zones := b.zones.zonesOf(h.Project())
		if zones == nil {
			return b.zones
		}
		q := inBoard(h.Project(), b.zones.Board, h.FaceAt(b.zones.Board, b.zones.Face, e.At))
		ring := slices.Clone(zones[b.zones.Zone].Polygon)
		switch {
		case b.insert:
			ring = slices.Insert(ring, min(b.zones.Vertex, len(ring)), q)
		case b.zones.Vertex < len(ring):
			ring[b.zones.Vertex] = q
		}
		out := slices.Clone(zones)
		out[b.zones.Zone].Polygon = ring
		b.edit = model.SetZones{Board: b.zones.Board, Face: b.zones.Face, Zones: out, Verb: b.verb + " of a zone"}
		try(h, b.edit, Sketch{Board: b.zones.Board, Face: b.zones.Face})
	}
	return b
}
