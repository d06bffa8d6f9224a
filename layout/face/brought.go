package face

import (
	"cmp"
	"math"
	"slices"

	"heartside/layout/geom"
)

// How the wood that planing brings to the show face of a strip is read.
// Engineering choices with no published source.
const (
	broughtStep = 10.0 // mm between the places along the strip
	broughtRun  = 60.0 // mm along which a width must be there to count, as for specks
)

// brought is the unwanted wood that the finished show face of a strip shows where
// the sawn face showed wanted wood.
type brought struct {
	known bool    // the finished face is another than the sawn one
	fresh float64 // width where the sawn face has none to which it belongs, mm
	more  float64 // width by which wood that was there is wider, mm
	area  float64 // mm2
	sawn  float64 // unwanted wood of the sawn face, mm2
	all   float64 // unwanted wood of the finished face, mm2, read the same way
	box   geom.Rect
}

// readBrought compares the show face of a strip as sawn and as planed. Measured
// faces are no forecast, so nothing is said of them.
func (st *stripData) readBrought(w *work, f *finished, sawn, s *Strip, left, at float64) {
	unwanted, judged := st.key.wanted.Unwanted()
	if !judged || s.Planed != nil || s.Board == sawn.Board || st.key.clip.Empty() {
		return
	}
	out := &st.brought
	out.known = true
	w.lay(s, Show, st.key.up)
	w.layers.finish(f, left, at, true)
	w.before.reset(sawn)
	w.before.board(sawn, st.key.up)
	w.before.finish(f, left, at, true)
	w.fresh, w.more = w.fresh[:0], w.more[:0]
	clip := st.key.clip
	n := max(1, math.Ceil(clip.W()/broughtStep))
	step := clip.W() / n
	for k := 0.0; k < n; k++ {
		u := clip.Min.X + (k+0.5)*step
		was, now := w.sawn.at(w.before.list, u, s.W), w.column.at(w.layers.list, u, s.W)
		var fresh, more float64
		for _, a := range was {
			if a.kind == unwanted {
				out.sawn += step * max(0, min(a.to, clip.Max.Y)-max(a.from, clip.Min.Y))
			}
		}
		for _, b := range now {
			lo, hi := max(b.from, clip.Min.Y), min(b.to, clip.Max.Y)
			if b.kind != unwanted || hi <= lo {
				continue
			}
			out.all += step * (hi - lo)
			wide, at, old := newIn(was, interval{clip.Min.Y, clip.Max.Y}, interval{lo, hi}, unwanted, st.key.wanted.Wood())
			if wide <= 0 {
				continue
			}
			out.area += step * wide
			out.box = out.box.Union(geom.R(u-step/2, at.from, u+step/2, at.to))
			if old {
				more = max(more, wide)
			} else {
				fresh = max(fresh, wide)
			}
		}
		w.fresh, w.more = append(w.fresh, fresh), append(w.more, more)
	}
	run := int(math.Ceil(broughtRun/step)) - 1
	out.fresh, out.more = held(w.fresh, run), held(w.more, run)
}

// newIn returns how much of a stretch was wanted wood, from where to where, and
// whether unwanted wood that is seen lay in it or against it.
func newIn(was []kindRun, seen, now interval, unwanted, wanted Kind) (wide float64, at interval, old bool) {
	const against = 1 // mm
	at = interval{now.to, now.from}
	for _, a := range was {
		switch a.kind {
		case wanted:
			if from, to := max(a.from, now.from), min(a.to, now.to); to > from {
				wide += to - from
				at.from, at.to = min(at.from, from), max(at.to, to)
			}
		case unwanted:
			from, to := max(a.from, seen.from), min(a.to, seen.to)
			old = old || to-from > against && from < now.to+against && to > now.from-against
		}
	}
	return wide, at, old
}

// held returns the width that is reached at more than n places.
func held(list []float64, n int) float64 {
	if len(list) == 0 {
		return 0
	}
	slices.Sort(list)
	return list[max(0, len(list)-1-n)]
}

// warnBrought tells of unwanted wood that planing brings to the show face: a
// strip that shows none of it as sawn, or much less; a streak or a share over the
// limit that only the finished face has.
func (r *Reader) warnBrought(p *Panel) {
	any := false
	for _, st := range r.strips {
		any = any || st != nil && st.brought.known
	}
	if !any {
		return
	}
	limits := r.limits(p)
	for i, st := range r.strips {
		if st == nil || !(st.brought.area > 0) {
			continue
		}
		b := &st.brought
		place := r.inPanel(i, b.box)
		k := r.tight(SapAfterPlaning, Show, place)
		w := Warning{Kind: SapAfterPlaning, Side: Show, Strips: r.store.list(p.Strips[i].ID)}
		band, lone := r.bandOf(i, place)
		switch {
		case lone && b.area >= r.groups[Show].bands[band].Area/2:
			w.Why, w.Measure, w.Limit = "streak", max(b.fresh, b.more), limits.Fresh
		case b.fresh > limits.Fresh*k:
			w.Why, w.Measure, w.Limit = "fresh", b.fresh, limits.Fresh
		case b.more > limits.More*k:
			w.Why, w.Measure, w.Limit = "more", b.more, limits.More
		default:
			continue
		}
		if band >= 0 {
			band = r.groups[Show].bands[band].level
		}
		w.Weight = min(0.9, w.Measure/1000)
		r.tell(p, w, place, band)
	}
	r.warnBroughtOver(p)
}

// bandOf returns the largest band of the show face that holds most of its wood in
// strip i at a place, -1 for none, and whether it is a lone streak.
func (r *Reader) bandOf(i int, place geom.Rect) (band int, lone bool) {
	band = -1
	bands := r.groups[Show].bands
	for n := range bands {
		b := &bands[n]
		if b.worst == i && !b.place.Intersect(place).Empty() && (band < 0 || b.Area > bands[band].Area) {
			band = n
		}
	}
	return band, band >= 0 && bands[band].Lone
}

// warnBroughtOver tells where the show face keeps to the maker's limit as sawn
// and not as planed, with the strips that bring the wood, most first.
func (r *Reader) warnBroughtOver(p *Panel) {
	f, limit := &r.reading.Show, p.Limit[Show]
	place := geom.Rect{Max: geom.Pt(p.Length, p.Width)}
	if limit >= 1 || !(f.Unwanted.Value > limit*r.tight(OverLimit, Show, place)+1e-9) {
		return
	}
	sawn := f.Unwanted.Value * f.Area
	from := len(r.store.ints)
	for i, st := range r.strips {
		if st == nil || !st.brought.known {
			continue
		}
		sawn += st.brought.sawn - st.brought.all
		if st.brought.area > 0 {
			r.store.ints = append(r.store.ints, i)
		}
	}
	by := r.store.ints[from:]
	if len(by) == 0 || sawn > limit*f.Area {
		return
	}
	slices.SortStableFunc(by, func(a, b int) int {
		return cmp.Compare(r.strips[b].brought.area, r.strips[a].brought.area)
	})
	names := len(r.store.names)
	for _, i := range by[:min(3, len(by))] {
		r.store.names = append(r.store.names, p.Strips[i].ID)
	}
	n := len(r.store.names)
	r.tell(p, Warning{
		Kind: SapAfterPlaning, Side: Show, Strips: r.store.names[names:n:n], Why: "limit",
		Measure: f.Unwanted.Value, Limit: limit, Weight: f.Unwanted.Value - limit,
	}, place, -1)
}
