package model

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
)

// ZonesFromTape turns sap widths measured along the two long edges of a face
// into sap zones in that face's coordinates, all in mm. near runs along y = 0,
// far along y = width; between the three stations (x = 0, length/2, length)
// the sap line is straight. Widths that meet or overlap make the face sap all
// the way across there. A width of 0 at all three stations makes no zone.
// Widths outside 0 to width are brought within.
func ZonesFromTape(length, width float64, near, far Tape) []Zone {
	var out []Zone
	for _, poly := range sapAlong(length, width, near) {
		out = append(out, Zone{Kind: Sap, Polygon: poly})
	}
	for _, poly := range sapAlong(length, width, far) {
		mirrored := make(geom.Polygon, len(poly))
		for i, q := range poly {
			mirrored[len(poly)-1-i] = geom.Pt(q.X, width-q.Y)
		}
		out = append(out, Zone{Kind: Sap, Polygon: mirrored})
	}
	return out
}

// sapAlong returns the regions between y = 0 and the sap line, anticlockwise;
// two where the line comes down to the edge in the middle.
func sapAlong(length, width float64, t Tape) []geom.Polygon {
	for i, w := range t {
		if !(w > 0) {
			w = 0
		}
		t[i] = math.Min(w, width)
	}
	var out []geom.Polygon
	piece := func(ring geom.Polygon) {
		if spread(ring) > 0 {
			out = append(out, ring)
		}
	}
	half := length / 2
	if t[1] == 0 {
		piece(geom.Polygon{{X: 0, Y: 0}, {X: half, Y: 0}, {X: 0, Y: t[0]}})
		piece(geom.Polygon{{X: half, Y: 0}, {X: length, Y: 0}, {X: length, Y: t[2]}})
		return out
	}
	ring := geom.Polygon{{X: 0, Y: 0}, {X: length, Y: 0}}
	if t[2] > 0 {
		ring = append(ring, geom.Pt(length, t[2]))
	}
	ring = append(ring, geom.Pt(half, t[1]))
	if t[0] > 0 {
		ring = append(ring, geom.Pt(0, t[0]))
	}
	piece(ring)
	return out
}

// TapeFromZones reads sap widths back: along y = 0 and along y = width, at
// x = 0, length/2 and length, each the unbroken run of sap from that edge. A
// section that is sap all the way across has its whole width from either edge.
func TapeFromZones(length, width float64, base ZoneKind, zones []Zone) (near, far Tape) {
	const inside = 1e-6 // mm; a section through a zone's end would read nothing
	for i, x := range []float64{inside, length / 2, length - inside} {
		n, f := sapRuns(x, width, base, zones)
		near[i], far[i] = roundTape(n), roundTape(f)
	}
	return near, far
}

func roundTape(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// sapRuns returns the runs of sap from y = 0 up and from y = width down in the
// section at x.
func sapRuns(x, width float64, base ZoneKind, zones []Zone) (near, far float64) {
	cuts := []float64{0, width}
	for _, z := range zones {
		for i, a := range z.Polygon {
			b := z.Polygon[(i+1)%len(z.Polygon)]
			if (a.X > x) != (b.X > x) {
				if y := a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y); y > 0 && y < width {
					cuts = append(cuts, y)
				}
			}
		}
	}
	slices.SortFunc(cuts, cmp.Compare)
	sap := func(i int) bool {
		if cuts[i+1] == cuts[i] {
			return true
		}
		q, kind := geom.Pt(x, (cuts[i]+cuts[i+1])/2), base
		for _, z := range zones {
			if z.Polygon.Contains(q) {
				kind = z.Kind
			}
		}
		return kind == Sap
	}
	for i := 0; i+1 < len(cuts) && sap(i); i++ {
		near = cuts[i+1]
	}
	for i := len(cuts) - 2; i >= 0 && sap(i); i-- {
		far = width - cuts[i]
	}
	return near, far
}

// FaceTapeZones turns sap widths along the physical edges of a board into the
// zones of its face 1 or 2. Each tape runs from the marked end. On face 1 the
// marked edge is y = 0, on face 2 it is y = width. face must be 1 or 2;
// lengths are mm.
func FaceTapeZones(face int, length, width float64, markedEdge, otherEdge Tape) []Zone {
	if face == 2 {
		return ZonesFromTape(length, width, otherEdge, markedEdge)
	}
	return ZonesFromTape(length, width, markedEdge, otherEdge)
}

// FaceTape reads the sap widths of face 1 or 2 of a board along its physical
// edges, mm, each from the marked end.
func FaceTape(b *Board, face int) (markedEdge, otherEdge Tape) {
	i := 0
	if face == 2 {
		i = 1
	}
	near, far := TapeFromZones(b.Length, b.Width, b.Faces[i].Base, b.Faces[i].Zones)
	if face == 2 {
		return far, near
	}
	return near, far
}

// PlanedZones returns the sap zones measured on a strip after planing, in the
// strip's own (s, t); nil where none were measured.
func PlanedZones(s Strip) []Zone {
	if s.Planed == nil {
		return nil
	}
	return ZonesFromTape(s.L, s.W, s.Planed.Near, s.Planed.Far)
}

// MeasuredAsShown reports whether sap widths were measured on the face of the
// strip that shows.
func (s Strip) MeasuredAsShown() bool {
	return s.Planed != nil && (s.Planed.Face == 0 || s.Planed.Face == s.Up)
}
