package geom

// Simplify returns p with fewer points, all of them points of p, so that no
// point left out lies farther than deviation mm from the edge that replaces
// it (Douglas and Peucker 1973). A ring that does not cross itself still does
// not: where that would happen, less is left out. Three points or fewer, or no
// deviation allowed, come back as they are.
func (p Polygon) Simplify(deviation float64) Polygon {
	if len(p) <= 3 || !(deviation > 0) {
		return p
	}
	sound := p.Validate() == nil
	for range 8 {
		out := p.thinned(deviation)
		if !sound || out.Validate() == nil {
			return out
		}
		deviation /= 2
	}
	return p
}

func (p Polygon) thinned(deviation float64) Polygon {
	far, most := 0, -1.0
	for i, q := range p {
		if d := q.Dist(p[0]); d > most {
			far, most = i, d
		}
	}
	keep := make([]bool, len(p)+1)
	keep[0], keep[far] = true, true
	p.thin(0, far, deviation, keep)
	p.thin(far, len(p), deviation, keep)
	keep[len(p)] = false // the first point again
	out := make(Polygon, 0, len(p))
	for i, q := range p {
		if keep[i] {
			out = append(out, q)
		}
	}
	if len(out) >= 3 {
		return out
	}
	return p
}

// thin marks what must stay between points from and to, which stay.
func (p Polygon) thin(from, to int, deviation float64, keep []bool) {
	type span struct{ from, to int }
	for todo := []span{{from, to}}; len(todo) > 0; {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		at, most := -1, deviation
		for i := s.from + 1; i < s.to; i++ {
			if d := SegmentDistance(p[i], p[s.from], p[s.to%len(p)]); d > most {
				at, most = i, d
			}
		}
		if at >= 0 {
			keep[at] = true
			todo = append(todo, span{s.from, at}, span{at, s.to})
		}
	}
}
