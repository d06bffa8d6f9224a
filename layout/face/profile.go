package face

import (
	"math"

	"heartside/layout/geom"
)

// Profile is what is worked off an edge of the show face: Across into the face
// and Down into the thickness, mm. A bevel is straight, a round-over the quarter
// of an ellipse that begins level with the face and ends upright. The zero value
// is a square edge.
type Profile struct {
	Round        bool
	Across, Down float64
}

// Profiled is the reading of the surface that a profile leaves. Shares are of
// that surface, not of the face as seen from above.
type Profiled struct {
	Worked          bool
	Light, Unwanted Share
	Area            float64 // wooded, mm2
	Width           float64 // mean width of sapwood, mm over the surface
	Guessed         bool    // some wood below the face is not known: the face is taken as the wood under it
}

// profileLevels is how many depths the wood under the profiles is read at. An
// engineering choice: on a bevel of 10 mm the sap line is cut every 2 mm.
const profileLevels = 5

// in returns how far from the edge the profile's surface lies at depth z below
// the show face.
func (q Profile) in(z float64) float64 {
	switch {
	case q.Down <= 0 || z >= q.Down:
		return 0
	case q.Round:
		c := 1 - z/q.Down
		return q.Across * (1 - math.Sqrt(max(0, 1-c*c)))
	}
	return q.Across * (1 - z/q.Down)
}

// arc returns how far it is over the surface from depth z0 to z1.
func (q Profile) arc(z0, z1 float64) float64 {
	z1 = min(z1, q.Down)
	if !(z1 > z0) {
		return 0
	}
	if !q.Round {
		return (z1 - z0) / q.Down * math.Hypot(q.Across, q.Down)
	}
	at := func(z float64) float64 { return math.Acos(min(1, max(0, 1-z/q.Down))) }
	const n = 16
	a, b := at(z0), at(z1)
	var sum float64
	for i := 0; i <= n; i++ { // Simpson's rule
		t := a + (b-a)*float64(i)/n
		w := 2.0
		if i == 0 || i == n {
			w = 1
		} else if i%2 == 1 {
			w = 4
		}
		sum += w * math.Hypot(q.Across*math.Cos(t), q.Down*math.Sin(t))
	}
	return sum * (b - a) / n / 3
}

// sound reports whether the profile can be worked on an edge with so much face
// and thickness.
func (q Profile) sound(room, thickness float64) bool {
	return q.Across > 0 && q.Across < room && q.Down > 0 && q.Down < thickness
}

// profilesOf returns the profiles of p that can be worked. They are worked last,
// so a panel that is still to be planed shows none.
func profilesOf(p *Panel) (out [4]Profile) {
	if p.ToPlane > 0 {
		return out
	}
	for e, q := range p.Profiles {
		room := p.Width / 2
		if e > 1 {
			room = p.Length / 2
		}
		if q.sound(room, p.Thickness) {
			out[e] = q
		}
	}
	return out
}

// worked is what the profiles of a panel make of its show face, seen from above:
// a flat face and about it parts whose wood lies deeper.
type worked struct {
	profiles [4]Profile
	deep     float64      // mm, the deepest of them; 0: all edges are square
	sides    []int        // the edge each side of the outline belongs to
	flat     geom.Polygon // what stays flat
	still    geom.Rect    // a rectangle that no profile reaches
	parts    []workedPart
}

// workedPart is a part of the surface of one profile, as seen from above.
type workedPart struct {
	level   int
	polygon geom.Polygon
	box     geom.Rect
}

// depth is how far below the show face the wood of a level is read, mm.
func (k *worked) depth(level int) float64 {
	return k.deep * (float64(level) + 0.5) / profileLevels
}

// take works the profiles on an outline. Along a curve the surface is taken to
// be as long as the outline; where two profiles meet they are mitred.
func (k *worked) take(outline geom.Polygon, profiles [4]Profile) {
	*k = worked{profiles: profiles}
	for _, q := range profiles {
		k.deep = max(k.deep, q.Down)
	}
	if k.deep == 0 || len(outline) < 3 {
		k.deep = 0
		return
	}
	turn := 1.0
	if outline.SignedArea() < 0 {
		turn = -1
	}
	sides := make([]int, len(outline))
	k.sides = sides
	for i, a := range outline {
		sides[i] = int(sideOf(inwardOf(a, outline[(i+1)%len(outline)], turn)) - Front)
	}
	var rings [profileLevels + 1]geom.Polygon
	for l := range rings {
		z := k.deep * float64(l) / profileLevels
		rings[l] = offset(outline, turn, func(i int) float64 { return profiles[sides[i]].in(z) })
	}
	k.flat = rings[0]
	if k.flat.SignedArea()*turn <= 0 { // the outline is too small for them
		*k = worked{profiles: profiles}
		return
	}
	box := outline.Bounds()
	k.still = geom.R(box.Min.X+profiles[2].Across, box.Min.Y+profiles[0].Across, box.Max.X-profiles[3].Across, box.Max.Y-profiles[1].Across)
	for l := range profileLevels {
		k.divide(sides, rings[l+1], rings[l], l)
	}
}

// divide adds the parts between two rings, edge by edge.
func (k *worked) divide(sides []int, outer, inner geom.Polygon, level int) {
	n := len(sides)
	start := 0
	for i := range n {
		if sides[i] != sides[(i+n-1)%n] {
			start = i
			break
		}
	}
	for from := 0; from < n; {
		to := from + 1
		e := sides[(start+from)%n]
		for to < n && sides[(start+to)%n] == e {
			to++
		}
		part := workedPart{level: level}
		for i := from; i <= to; i++ {
			part.polygon = append(part.polygon, outer[(start+i)%n])
		}
		for i := to; i >= from; i-- {
			part.polygon = append(part.polygon, inner[(start+i)%n])
		}
		if part.polygon.Area() > 1e-9 { // a square edge has one beside a worked one where the outline bends
			part.box = part.polygon.Bounds()
			k.parts = append(k.parts, part)
		}
		from = to
	}
}

// inwardOf returns the unit normal of the side from a to b that points into the
// panel; turn is 1 where that lies to the left.
func inwardOf(a, b geom.Point, turn float64) geom.Point {
	d := b.Sub(a)
	if l := d.Len(); l > 0 {
		return geom.Pt(-d.Y, d.X).Mul(turn / l)
	}
	return geom.Point{}
}

// offset returns an outline whose sides are moved inward, side i by the width
// of i.
func offset(p geom.Polygon, turn float64, width func(i int) float64) geom.Polygon {
	out := make(geom.Polygon, len(p))
	for i, c := range p {
		before := (i + len(p) - 1) % len(p)
		a, b := inwardOf(p[before], c, turn), inwardOf(c, p[(i+1)%len(p)], turn)
		wa, wb := width(before), width(i)
		const straight = 0.1 // sine of the angle under which two sides are one that bends
		if cross := a.Cross(b); math.Abs(cross) > straight {
			out[i] = c.Add(geom.Pt(wa*b.Y-wb*a.Y, wb*a.X-wa*b.X).Mul(1 / cross))
			continue
		}
		mid := a.Add(b)
		if l := mid.Len(); l > 0 {
			out[i] = c.Add(mid.Mul((wa + wb) / 2 / l))
		} else {
			out[i] = c
		}
	}
	return out
}
