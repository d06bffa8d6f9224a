package tool

import (
	"slices"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// painting draws a zone with the brush.
type painting struct {
	zones  Zones
	board  *model.Board
	face   int
	stroke []geom.Point // mm in the face's own coordinates
}

func newPainting(h Host, z Zones, hit Hit, at geom.Point) State {
	b := h.Project().Board(hit.Board)
	if b == nil {
		return z
	}
	p := painting{zones: z, board: b, face: hit.Face}
	return p.to(h, at)
}

func (painting) Busy() bool { return true }

func (p painting) Handle(h Host, e Event) State {
	switch e.Kind {
	case Typed:
		if e.Key == Escape {
			h.Show(Sketch{})
			h.Cancel()
			return p.zones
		}
	case Drag:
		return p.to(h, e.At)
	case Release:
		return p.zones.add(h, p.board.ID, p.face, p.rings(), say.T("Paint a "))
	}
	return p
}

// to carries the brush on.
func (p painting) to(h Host, at geom.Point) painting {
	q := h.FaceAt(p.board.ID, p.face, at)
	if n := len(p.stroke); n > 0 && q.Dist(p.stroke[n-1]) < p.zones.Brush/8 {
		return p
	}
	p.stroke = append(slices.Clone(p.stroke), q)
	zones := slices.Clone(p.board.Faces[p.face-1].Zones)
	for _, r := range p.rings() {
		zones = append(zones, model.Zone{Kind: p.zones.Kind, Polygon: r})
	}
	try(h, model.SetZones{Board: p.board.ID, Face: p.face, Zones: zones, Verb: say.T("Paint a zone")},
		Sketch{Board: p.board.ID, Face: p.face, Kind: p.zones.Kind, Radius: p.zones.Brush, Centre: q})
	return p
}

func (p painting) rings() []geom.Polygon {
	return strokeOutline(p.stroke, p.zones.Brush, geom.R(0, 0, p.board.Length, p.board.Width))
}

// Brush outlines are traced on a grid of this share of the radius and thinned
// to within the same distance, so that a stroke makes a handful of corners
// and not one for every twitch of the hand.
const brushGrain = 0.25

// strokeOutline returns the outer borders of what a round brush of radius r
// covers along a stroke, inside a rectangle. Holes a stroke leaves are filled.
func strokeOutline(stroke []geom.Point, r float64, inside geom.Rect) []geom.Polygon {
	if len(stroke) == 0 || r <= 0 {
		return nil
	}
	box := geom.Polygon(stroke).Bounds()
	box = geom.Rect{Min: box.Min.Sub(geom.Pt(r, r)), Max: box.Max.Add(geom.Pt(r, r))}.Intersect(inside)
	if box.Empty() {
		return nil
	}
	step := max(r*brushGrain, box.W()/2000, box.H()/2000)
	g := newGrid(box, step)
	for i, p := range stroke {
		q := p
		if i > 0 {
			q = stroke[i-1]
		}
		g.sweep(q, p, r)
	}
	var out []geom.Polygon
	for _, ring := range g.borders() {
		if ring = simplify(ring, step*0.75); len(ring) >= 3 && ring.Area() >= 1 {
			out = append(out, ring)
		}
	}
	return out
}

// simplify drops corners of a ring that lie within tol of the line between
// those kept (Douglas and Peucker, 1973), seeded with two far corners.
func simplify(ring geom.Polygon, tol float64) geom.Polygon {
	if len(ring) < 4 {
		return ring
	}
	far := 0
	for i, p := range ring {
		if p.Dist(ring[0]) > ring[far].Dist(ring[0]) {
			far = i
		}
	}
	a := thin(ring[:far+1], tol)
	b := thin(append(slices.Clone(ring[far:]), ring[0]), tol)
	return append(a[:len(a)-1], b[:len(b)-1]...)
}

func thin(line geom.Polygon, tol float64) geom.Polygon {
	if len(line) < 3 {
		return slices.Clone(line)
	}
	a, b := line[0], line[len(line)-1]
	at, worst := 0, tol
	for i := 1; i < len(line)-1; i++ {
		if d := fromSegment(line[i], a, b); d > worst {
			at, worst = i, d
		}
	}
	if at == 0 {
		return geom.Polygon{a, b}
	}
	left := thin(line[:at+1], tol)
	return append(left[:len(left)-1], thin(line[at:], tol)...)
}

// fromSegment returns the distance of p from the segment ab.
func fromSegment(p, a, b geom.Point) float64 {
	d := b.Sub(a)
	if n := d.Dot(d); n > 0 {
		return p.Dist(a.Lerp(b, hold(p.Sub(a).Dot(d)/n, 0, 1)))
	}
	return p.Dist(a)
}
