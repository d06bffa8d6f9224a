package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
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
	case Press, Double: // the second of two quick presses works as the first
		hit := h.Hit(e.At)
		switch {
		case e.Button == Middle:
			return panning{z, e.At, e.At}
		case e.Button == Secondary:
			return zonePressed{z, hit, e.At}
		case !hit.Part.onFace():
			h.Select(hit)
			return panning{z, e.At, e.At}
		case z.Brush > 0:
			return newPainting(h, z, hit, e.At)
		case hit.Part == ZoneVertex:
			z.Board, z.Face, z.Zone, z.Vertex = hit.Board, hit.Face, hit.Zone, hit.Vertex
			return bending{zones: z, at: e.At, verb: say.T("Move a corner")}
		case hit.Part == ZoneEdge:
			z.Board, z.Face, z.Zone, z.Vertex = hit.Board, hit.Face, hit.Zone, hit.Vertex+1
			return bending{zones: z, at: e.At, insert: true, verb: say.T("Add a corner")}
		}
		return zonePressed{z, hit, e.At}
	}
	return z
}

// brushSketch shows the brush under the pointer.
func (z Zones) brushSketch(h Host, hit Hit, at geom.Point) Sketch {
	if z.Brush <= 0 || !hit.Part.onFace() {
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
		h.Show(Sketch{Say: say.T("Click a zone or a corner first, then delete it.")})
		return z
	}
	ring := zones[z.Zone].Polygon
	was := z
	out, verb := slices.Clone(zones), say.T("Delete a zone")
	if z.Vertex >= 0 && z.Vertex < len(ring) && len(ring) > 3 {
		out[z.Zone].Polygon = slices.Delete(slices.Clone(ring), z.Vertex, z.Vertex+1)
		verb = say.T("Delete a corner of a zone")
	} else {
		out = slices.Delete(out, z.Zone, z.Zone+1)
		z.Zone = -1
	}
	z.Vertex = -1
	if !commit(h, model.SetZones{Board: z.Board, Face: z.Face, Zones: out, Verb: verb}) {
		return was
	}
	h.Select(Hit{Part: BoardGround, Board: z.Board, Face: z.Face, Zone: z.Zone})
	return z
}

// commit makes an edit, or says what speaks against it.
func commit(h Host, e model.Edit) bool {
	h.Show(Sketch{})
	if err := h.Commit(e); err != nil {
		h.Show(Sketch{Say: err.Error(), Fails: true})
		return false
	}
	return true
}

// add puts new zones on top of a face and takes the last in hand.
func (z Zones) add(h Host, board string, face int, rings []geom.Polygon, verb string) State {
	b := h.Project().Board(board)
	if b == nil || len(rings) == 0 {
		h.Cancel()
		h.Show(Sketch{})
		return z
	}
	zones := slices.Clone(b.Faces[face-1].Zones)
	for _, r := range rings {
		zones = append(zones, model.Zone{Kind: z.Kind, Polygon: r})
	}
	if !commit(h, model.SetZones{Board: board, Face: face, Zones: zones, Verb: say.F("%s%s zone", verb, string(z.Kind))}) {
		return z
	}
	h.Show(Sketch{Say: say.T("The zone is in hand: drag its corners, drag an edge to add one, Delete takes it away.")})
	z = z.Hold(board, face, len(zones)-1)
	h.Select(Hit{Part: BoardGround, Board: board, Face: face, Zone: z.Zone})
	return z
}
