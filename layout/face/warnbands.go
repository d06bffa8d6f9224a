package face

import "heartside/layout/geom"

// warnBands tells of lone streaks, slivers and what lies on one side only.
func (r *Reader) warnBands(p *Panel, side Side) {
	bands := r.groups[side].bands
	for i := range bands {
		bands[i].level = i
	}
	for i := range bands {
		if bands[i].Lone && bands[i].level == i {
			r.warnLone(p, side, i)
		}
	}
	for i := range bands {
		b := &bands[i]
		if !b.Sliver {
			continue
		}
		r.tell(p, Warning{
			Kind: SliverKind, Side: side, Strips: r.stripIDs(p, b), Band: b.ID,
			Measure: b.MeanWidth, Limit: sliverWidth, Assumed: b.Assumed, Weight: min(1, b.Length/1e4),
		}, b.place, b.level)
	}
	r.warnOneEdge(p, side)
	if side == Show {
		r.warnOneJoint(p)
	}
}

// warnLone tells of a lone streak: the band i and the other lone bands that
// continue it, at the same Y or at another place along the same strip.
func (r *Reader) warnLone(p *Panel, side Side, i int) {
	bands := r.groups[side].bands
	worst, place := i, bands[i].place
	hard, later := bands[i].Hard, bands[i].Later
	for grown := true; grown; {
		grown = false
		for k := i + 1; k < len(bands); k++ {
			b := &bands[k]
			if !b.Lone || b.level != k || !r.continues(bands, i, k) {
				continue
			}
			b.level, grown = i, true
			place = place.Union(b.place)
			hard, later = hard || b.Hard, later && b.Later
			if b.Area > bands[worst].Area {
				worst = k
			}
		}
	}
	b := &bands[worst]
	w := Warning{
		Kind: LoneStreak, Side: side, Strips: r.stripIDs(p, b), Band: b.ID,
		Measure: b.Contrast, Limit: r.limits(p).Contrast, Assumed: b.Assumed, Later: later, Weight: min(4, 20*b.Share),
	}
	switch {
	case hard:
		w.Why = "hard"
		w.Weight += hardWeight
	case b.Unknown:
		w.Why = "unknown-colour"
	}
	if later {
		w.Weight -= hardWeight
	}
	r.tell(p, w, place, i)
}

// continues reports whether band k continues a band of the streak that band i
// leads.
func (r *Reader) continues(bands []bandData, i, k int) bool {
	b := &bands[k]
	for n := i; n < len(bands); n++ {
		a := &bands[n]
		if a.level != i || n == k {
			continue
		}
		if overlapY(&a.place, &b.place) >= sameLevel {
			return true
		}
		apart := a.place.Max.X <= b.place.Min.X || b.place.Max.X <= a.place.Min.X
		if apart && len(a.Strips) == 1 && len(b.Strips) == 1 && a.Strips[0] == b.Strips[0] {
			return true
		}
	}
	return false
}

// stripIDs lists the strips of a band, the one that holds most of it first.
func (r *Reader) stripIDs(p *Panel, b *bandData) []string {
	from := len(r.store.names)
	r.store.names = append(r.store.names, p.Strips[b.worst].ID)
	for _, i := range b.Strips {
		if i != b.worst {
			r.store.names = append(r.store.names, p.Strips[i].ID)
		}
	}
	n := len(r.store.names)
	return r.store.names[from:n:n]
}

// warnOneEdge tells of a band along one outside long edge where the other
// carries none.
func (r *Reader) warnOneEdge(p *Panel, side Side) {
	bands := r.groups[side].bands
	for i := range bands {
		b := &bands[i]
		k := r.tight(OneSidedEdge, side, b.place)
		for e := range b.edges {
			if b.edges[e] < edgeAlong*p.Length*k || answered(p, bands, 1-e) {
				continue
			}
			r.tell(p, Warning{
				Kind: OneSidedEdge, Side: side, Strips: r.stripIDs(p, b), Band: b.ID,
				Measure: b.edges[e], Limit: edgeAlong * p.Length, Assumed: b.Assumed, Weight: min(1, b.Share),
			}, b.place, b.level)
		}
	}
}

// answered reports whether some band lies along a long edge for most of its
// own length and a good part of the panel's.
func answered(p *Panel, bands []bandData, e int) bool {
	for i := range bands {
		if b := &bands[i]; !b.Sliver && b.edges[e] >= edgeAnswer*p.Length-barEps && b.edges[e] >= edgeAlong*b.Length-barEps {
			return true
		}
	}
	return false
}

// warnOneJoint tells of joints where sapwood meets heartwood along most of
// their length.
func (r *Reader) warnOneJoint(p *Panel) {
	if _, ok := p.Wanted.Unwanted(); !ok {
		return
	}
	g := &r.groups[Show]
	for i := range r.reading.Joints {
		j := &r.reading.Joints[i]
		if r.strips[i] == nil || r.strips[i+1] == nil || j.Kind == Unjudged {
			continue
		}
		line := geom.R(0, r.ys[i+1]-1, p.Length, r.ys[i+1]+1)
		k := r.tight(OneSidedJoint, Show, line)
		if j.Kind != SapHeart && k >= 1 || j.Mismatch < 0.5*k {
			continue
		}
		var most float64
		band := -1
		for n := range g.bands {
			b := &g.bands[n]
			if h := r.hardAlong(Show, g.sorted[b.nodes.from:b.nodes.to], i); h > most {
				most, band = h, n
			}
		}
		if band < 0 {
			continue
		}
		b := &g.bands[band]
		front, rear := p.Strips[i].ID, p.Strips[i+1].ID
		if len(b.Strips) > 0 && b.Strips[0] == i+1 {
			front, rear = rear, front
		}
		r.tell(p, Warning{
			Kind: OneSidedJoint, Side: Show, Strips: r.store.list(front, rear), Band: b.ID,
			Measure: j.Mismatch, Limit: 0.5, Assumed: b.Assumed, Weight: min(1, j.Mismatch),
		}, line, b.level)
	}
}
