package face

import (
	"cmp"
	"slices"

	"heartside/layout/geom"
)

// Thresholds of the milder warnings. Engineering choices with no published
// source, but for moistureMost, which is common practice, no source.
const (
	lopsidedShare = 0.05 // least unwanted share
	lopsidedOff   = 0.10 // of the width, the balance point off the middle
	moistureMost  = 2.0  // per cent between neighbours
	flawLeast     = 1.0  // mm2
	sizeEps       = 0.05 // mm; what is printed is rounded to as much, and files to less
)

// weights rank the kinds; what is found adds less than the steps between them.
var weights = map[WarningKind]float64{
	LoneStreak: 100, PanelTooSmall: 95, OverLimit: 80, FlawOnShow: 75, FlawInEdge: 60,
	MoistureDiffers: 55, SliverKind: 50, NotSeen: 45, OneSidedJoint: 40, OneSidedEdge: 35,
	SapAfterPlaning: 37, Lopsided: 30, PlanesBackwards: 25, StripeRisk: 20, ColoursNotComparable: 15,
}

// hardWeight is what a hard straight border adds to a lone streak: straight
// glue-line borders shout and wandering sap lines whisper.
const hardWeight = 20

// candidate is a warning with what it is about, before the milder ones of the
// same streak are put under the worst.
type candidate struct {
	Warning
	band  int       // index of a band, or of the first of a group; -1 where none
	place geom.Rect // of the show face
	under int       // index of the worse warning it goes under, -1 where none
}

// warn judges the panel and lists its warnings, worst first.
func (r *Reader) warn(p *Panel) {
	r.found = r.found[:0]
	if r.reading.Placed > 0 {
		for side := Show; side <= Back; side++ {
			r.warnLimit(p, side)
			if side == Back && !p.BothShow {
				continue
			}
			r.warnBands(p, side)
			r.warnFace(p, side)
		}
		r.warnBrought(p)
		r.warnNarrow(p)
		r.warnStrips(p)
		r.warnSize(p)
	}
	r.rank()
	r.states = r.states[:0]
	for i := range r.found {
		c := &r.found[i]
		r.states = append(r.states, state{c.Kind, c.Side, c.place})
	}
}

// tell adds a warning. place is given on the show face.
func (r *Reader) tell(p *Panel, w Warning, place geom.Rect, band int) {
	w.Place = r.asSeen(p, w.Side, place)
	w.Weight += weights[w.Kind]
	r.found = append(r.found, candidate{w, band, place, -1})
}

// rank sorts what was found and puts the milder warnings of a streak under
// its worst.
func (r *Reader) rank() {
	slices.SortStableFunc(r.found, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.Weight, a.Weight), cmp.Compare(a.Side, b.Side),
			cmp.Compare(a.place.Min.Y, b.place.Min.Y), cmp.Compare(a.place.Min.X, b.place.Min.X))
	})
	for i := range r.found {
		c := &r.found[i]
		if c.band < 0 {
			continue
		}
		for k := range r.found[:i] {
			if o := &r.found[k]; o.under < 0 && o.band == c.band && o.Side == c.Side {
				c.under = k
				break
			}
		}
	}
	for i := range r.found {
		if r.found[i].under >= 0 {
			continue
		}
		from := len(r.store.under)
		for k := range r.found {
			if r.found[k].under == i {
				r.store.under = append(r.store.under, r.found[k].Warning)
			}
		}
		w := r.found[i].Warning
		if n := len(r.store.under); n > from {
			w.Under = r.store.under[from:n:n]
		}
		r.reading.Warnings = append(r.reading.Warnings, w)
	}
}

// warnLimit tells of more unwanted wood than the maker allows. What is not
// seen yet may be enough to pass the limit: Why says unseen then.
func (r *Reader) warnLimit(p *Panel, side Side) {
	limit, s := p.Limit[side], r.side(side).Unwanted
	place := geom.Rect{Max: geom.Pt(p.Length, p.Width)}
	k := r.tight(OverLimit, side, place)
	switch {
	case limit >= 1:
	case s.Value > limit*k+1e-9:
		r.tell(p, Warning{Kind: OverLimit, Side: side, Measure: s.Value, Limit: limit, Weight: s.Value - limit}, place, -1)
	case s.Hi > limit*k+1e-9 && s.Hi > s.Value:
		r.tell(p, Warning{Kind: OverLimit, Side: side, Measure: s.Hi, Limit: limit, Why: "unseen", Weight: -30}, place, -1)
	}
}

// warnFace tells of flaws, of what was not seen, of colours that do not
// compare and of unwanted wood that lies to one side.
func (r *Reader) warnFace(p *Panel, side Side) {
	f := r.side(side)
	for i := range f.Flaws {
		if fl := &f.Flaws[i]; fl.Area >= flawLeast {
			r.tell(p, Warning{
				Kind: FlawOnShow, Side: side, Strips: r.store.list(p.Strips[fl.Strip].ID),
				Measure: fl.Area, Weight: min(1, fl.Area/1e4),
			}, r.asSeen(p, side, fl.Place), -1)
		}
	}
	r.warnUnseen(p, side, "unseen", func(st *stripData) bool { return st.faces[side].area[Unseen] > 0 })
	r.warnUnseen(p, side, "guessed", func(st *stripData) bool { return st.guessed[side] && st.faces[side].wooded() > 0 })
	if r.split[side] {
		names := len(r.store.names)
		for i, st := range r.strips {
			if st == nil || !st.faces[side].woods.photo || slices.Contains(r.store.names[names:], p.Strips[i].Board.ID) {
				continue
			}
			r.store.names = append(r.store.names, p.Strips[i].Board.ID)
		}
		n := len(r.store.names)
		r.tell(p, Warning{Kind: ColoursNotComparable, Side: side, Boards: r.store.names[names:n:n]},
			geom.Rect{Max: geom.Pt(p.Length, p.Width)}, -1)
	}
	r.warnLopsided(p, side)
}

// warnUnseen lists the strips of a face that hold, says why, in one warning.
func (r *Reader) warnUnseen(p *Panel, side Side, why string, holds func(*stripData) bool) {
	names := len(r.store.names)
	var place geom.Rect
	var area float64
	for i, st := range r.strips {
		if st != nil && holds(st) {
			r.store.names = append(r.store.names, p.Strips[i].ID)
			place = place.Union(r.inPanel(i, st.key.clip))
			if why == "unseen" {
				area += st.faces[side].area[Unseen]
			} else {
				area += st.faces[side].wooded()
			}
		}
	}
	n := len(r.store.names)
	if n == names || area <= 0 {
		return
	}
	r.tell(p, Warning{
		Kind: NotSeen, Side: side, Strips: r.store.names[names:n:n], Why: why, Measure: area / r.side(side).Area,
	}, place, -1)
}

// warnLopsided tells of unwanted wood whose balance point lies off the middle.
// Where one band makes most of it, it is that band's warning.
func (r *Reader) warnLopsided(p *Panel, side Side) {
	f := r.side(side)
	place := geom.Rect{Max: geom.Pt(p.Length, p.Width)}
	k := r.tight(Lopsided, side, place)
	off := max(f.Balance, -f.Balance)
	if f.Unwanted.Value < lopsidedShare*k || off <= lopsidedOff*k {
		return
	}
	band := -1
	bands := r.groups[side].bands
	for i := range bands {
		if bands[i].Area >= f.Unwanted.Value*f.Area/2 {
			band = bands[i].level
		}
	}
	r.tell(p, Warning{Kind: Lopsided, Side: side, Measure: f.Balance, Limit: lopsidedOff, Weight: off}, place, band)
}
