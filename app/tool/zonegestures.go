package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

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
		Say: say.T("Click the corners of the zone. Enter or a double click closes it, Backspace takes the last corner back, Esc drops it.")})
}

func (d drawing) close(h Host) State {
	if len(d.ring) < 3 || d.ring.Area() < 1 {
		h.Show(Sketch{Board: d.board, Face: d.face, Kind: d.zones.Kind, Ring: d.ring,
			Say: say.T("A zone needs at least three corners with wood between them. Click another corner, or press Esc to drop it.")})
		return d
	}
	// A border that cannot be kept is told, and stays to be put right.
	if err := d.zones.tried(h, d.board, d.face, d.ring); err != nil {
		h.Show(Sketch{Board: d.board, Face: d.face, Kind: d.zones.Kind, Ring: d.ring,
			Say: say.F("%s Backspace takes the last corner back, Esc drops the zone.", err.Error())})
		return d
	}
	return d.zones.add(h, d.board, d.face, []geom.Polygon{d.ring}, say.T("Draw a "))
}

// tried says what speaks against a new zone, nil for nothing.
func (z Zones) tried(h Host, board string, face int, ring geom.Polygon) error {
	b := h.Project().Board(board)
	if b == nil {
		return nil // add drops it
	}
	zones := append(slices.Clone(b.Faces[face-1].Zones), model.Zone{Kind: z.Kind, Polygon: ring})
	_, err := model.Apply(h.Project(), model.SetZones{Board: board, Face: face, Zones: zones})
	return err
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
			return b.unset()
		}
	case Release:
		if b.edit == nil || !commit(h, b.edit) {
			return b.unset()
		}
		return b.zones
	case Drag:
		if b.edit == nil && e.At.Dist(b.at) < slack {
			return b
		}
		zones := b.zones.zonesOf(h.Project())
		if zones == nil { // the zone is gone
			h.Cancel()
			h.Show(Sketch{})
			b.zones.Zone, b.zones.Vertex = -1, -1
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
		b.edit = model.SetZones{Board: b.zones.Board, Face: b.zones.Face, Zones: out, Verb: say.F("%s of a zone", b.verb)}
		try(h, b.edit, Sketch{Board: b.zones.Board, Face: b.zones.Face})
	}
	return b
}

// unset is the tool where the gesture came to nothing: a corner that was to be
// added is not in hand.
func (b bending) unset() Zones {
	if b.insert {
		b.zones.Vertex = -1
	}
	return b.zones
}
