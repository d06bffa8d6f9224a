package face

import (
	"math"

	"heartside/layout/geom"
)

// sapReach is where the distance to the sap line is cut off, mm. An
// engineering choice with no published source.
const sapReach = 40.0

// sapLine answers how far a point of one face lies within the sapwood. Flaws
// are read as the wood around them.
type sapLine struct {
	rect    geom.Rect
	outline geom.Polygon
	base    Kind
	zones   []Zone
	bounds  []geom.Rect
	border  [][2]geom.Point // where heartwood meets sapwood
	buckets [][]int32       // of the border, by x
}

// newSapLine prepares a face that fills rect but for what is outside outline.
func newSapLine(rect geom.Rect, outline geom.Polygon, base Kind, zones []Zone) *sapLine {
	l := &sapLine{rect: rect, outline: outline, base: base, zones: zones}
	var edges [][2]geom.Point
	for _, z := range zones {
		l.bounds = append(l.bounds, z.Polygon.Bounds())
		if z.Kind > Sap {
			continue
		}
		for i, a := range z.Polygon {
			edges = append(edges, [2]geom.Point{a, z.Polygon[(i+1)%len(z.Polygon)]})
		}
	}
	for i, e := range edges {
		cuts := []float64{0, 1}
		for k, o := range edges {
			apart := max(o[0].X, o[1].X) < min(e[0].X, e[1].X) || min(o[0].X, o[1].X) > max(e[0].X, e[1].X)
			if k != i && !apart {
				if t, ok := crossing(e, o); ok {
					cuts = append(cuts, t)
				}
			}
		}
		l.addBorder(e, cuts)
	}
	l.buckets = make([][]int32, max(1, int(math.Ceil(rect.W()/sapReach))))
	for i, s := range l.border {
		b0, b1 := l.bucket(min(s[0].X, s[1].X)-sapReach), l.bucket(max(s[0].X, s[1].X)+sapReach)
		for b := b0; b <= b1; b++ {
			l.buckets[b] = append(l.buckets[b], int32(i))
		}
	}
	return l
}

func (l *sapLine) bucket(x float64) int {
	return min(max(int((x-l.rect.Min.X)/sapReach), 0), len(l.buckets)-1)
}

// addBorder adds the parts of an edge that have heartwood on one side and
// sapwood on the other.
func (l *sapLine) addBorder(e [2]geom.Point, cuts []float64) {
	d := e[1].Sub(e[0])
	n := d.Len()
	if n == 0 {
		return
	}
	for i := 1; i < len(cuts); i++ { // few
		for k := i; k > 0 && cuts[k] < cuts[k-1]; k-- {
			cuts[k], cuts[k-1] = cuts[k-1], cuts[k]
		}
	}
	side := geom.Pt(-d.Y, d.X).Mul(0.02 / n)
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] < 1e-12 {
			continue
		}
		mid := e[0].Lerp(e[1], (cuts[i]+cuts[i-1])/2)
		a, b := l.wood(mid.Add(side), true), l.wood(mid.Sub(side), true)
		if (a == Heart && b == Sap) || (a == Sap && b == Heart) {
			l.border = append(l.border, [2]geom.Point{e[0].Lerp(e[1], cuts[i-1]), e[0].Lerp(e[1], cuts[i])})
		}
	}
}

// crossing returns where on e it is crossed by o, as a share of e.
func crossing(e, o [2]geom.Point) (float64, bool) {
	d, q := e[1].Sub(e[0]), o[1].Sub(o[0])
	den := d.Cross(q)
	if den == 0 {
		return 0, false
	}
	w := o[0].Sub(e[0])
	t, s := w.Cross(q)/den, w.Cross(d)/den
	return t, t > 0 && t < 1 && s >= 0 && s <= 1
}

// wood returns the kind at p, flaws apart: Heart, Sap, Unseen or Blank. What
// is not seen is looked through where through is set.
func (l *sapLine) wood(p geom.Point, through bool) Kind {
	if !l.rect.Contains(p) || (l.outline != nil && !l.outline.Contains(p)) {
		return Blank
	}
	for i := len(l.zones) - 1; i >= 0; i-- {
		k := l.zones[i].Kind
		if k == Flaw || (through && k == Unseen) || !l.bounds[i].Contains(p) {
			continue
		}
		if l.zones[i].Polygon.Contains(p) {
			return k
		}
	}
	if l.base == Flaw {
		return Heart
	}
	return l.base
}

// at returns the kind at p and the signed distance from p to the sap line,
// positive within the sapwood, held to sapReach.
func (l *sapLine) at(p geom.Point) (Kind, float64) {
	k := l.wood(p, false)
	if k > Sap {
		return k, 0
	}
	best := sapReach * sapReach
	for _, i := range l.buckets[l.bucket(p.X)] {
		best = min(best, distance2(p, l.border[i]))
	}
	if k == Heart {
		return k, -math.Sqrt(best)
	}
	return k, math.Sqrt(best)
}

// distance2 returns the square of the distance from p to a segment.
func distance2(p geom.Point, s [2]geom.Point) float64 {
	d, w := s[1].Sub(s[0]), p.Sub(s[0])
	t := 0.0
	if n := d.Dot(d); n > 0 {
		t = min(max(w.Dot(d)/n, 0), 1)
	}
	w = w.Sub(d.Mul(t))
	return w.Dot(w)
}

// noteKey names a face of a board, or a planed face of a strip of a size.
type noteKey struct {
	board  *Board
	face   int
	planed *PlanedFace
	l, w   float64
}

// note is what is worked out of a face once.
type note struct {
	woods woods
	line  *sapLine
	used  uint64
}

// noteOf returns the note of face f of b, made when first asked for.
func (w *work) noteOf(b *Board, f int) *note {
	key := noteKey{board: b, face: f}
	n := w.notes[key]
	if n == nil {
		bf := &b.Faces[f-1]
		n = &note{
			woods: woodsOf(b, f),
			line:  newSapLine(geom.Rect{Max: geom.Pt(b.Length, b.Width)}, bf.Outline, bf.Base, bf.Zones),
		}
		w.keep(key, n)
	}
	n.used = w.used
	return n
}

// planedNote returns the note of the planed face of a strip, whose woods are
// not set.
func (w *work) planedNote(s *Strip) *note {
	key := noteKey{planed: s.Planed, l: s.L, w: s.W}
	n := w.notes[key]
	if n == nil {
		n = &note{line: newSapLine(geom.Rect{Max: geom.Pt(s.L, s.W)}, nil, s.Planed.Base, s.Planed.Zones)}
		w.keep(key, n)
	}
	n.used = w.used
	return n
}

func (w *work) keep(key noteKey, n *note) {
	if w.notes == nil {
		w.notes = map[noteKey]*note{}
	}
	w.notes[key] = n
}

// forget drops the notes that the last few readings had no use for, so that a
// long session does not hold every board it ever saw.
func (w *work) forget() {
	const most = 256
	if len(w.notes) <= most {
		return
	}
	for k, n := range w.notes {
		if n.used+most < w.used {
			delete(w.notes, k)
		}
	}
}
