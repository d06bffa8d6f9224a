package face

import (
	"math"

	"heartside/layout/geom"
)

// warnNarrow tells of flaws that reach an edge or an end of the panel.
func (r *Reader) warnNarrow(p *Panel) {
	for side := Front; side <= Right; side++ {
		for i, st := range r.strips {
			if st == nil {
				continue
			}
			st.flawsAt(side, func(fl *flaw) {
				r.tell(p, Warning{
					Kind: FlawInEdge, Side: side, Strips: r.store.list(p.Strips[i].ID), Measure: fl.area,
				}, r.inPanel(i, fl.box), -1)
			})
		}
	}
}

// warnStrips tells of neighbours of different moisture and of strips that
// plane against the others.
func (r *Reader) warnStrips(p *Panel) {
	for i := 0; i+1 < len(p.Strips); i++ {
		a, b := p.Strips[i].Board, p.Strips[i+1].Board
		if a == nil || b == nil || a == b || !(a.Moisture > 0) || !(b.Moisture > 0) {
			continue
		}
		line := geom.R(0, r.ys[i+1]-1, p.Length, r.ys[i+1]+1)
		if d := math.Abs(a.Moisture - b.Moisture); d > moistureMost*r.tight(MoistureDiffers, Show, line)+1e-9 {
			r.tell(p, Warning{
				Kind: MoistureDiffers, Side: Show, Strips: r.store.list(p.Strips[i].ID, p.Strips[i+1].ID),
				Boards: r.store.list(a.ID, b.ID), Measure: d, Limit: moistureMost, Weight: min(1, d/100),
			}, line, -1)
		}
	}
	r.warnPlanes(p)
}

// warnPlanes names the strips that plane against the majority; where there is
// none, those against the front one.
func (r *Reader) warnPlanes(p *Panel) {
	right, left, first := 0, 0, 0
	for i := range p.Strips {
		d := p.Strips[i].Planing()
		if first == 0 {
			first = d
		}
		switch {
		case d > 0:
			right++
		case d < 0:
			left++
		}
	}
	if right == 0 || left == 0 {
		return
	}
	most := 1
	if left > right || (left == right && first < 0) {
		most = -1
	}
	from := len(r.store.names)
	var place geom.Rect
	for i := range p.Strips {
		if d := p.Strips[i].Planing(); d != 0 && d != most {
			r.store.names = append(r.store.names, p.Strips[i].ID)
			place = place.Union(r.inPanel(i, r.strips[i].key.clip))
		}
	}
	n := len(r.store.names)
	r.tell(p, Warning{
		Kind: PlanesBackwards, Side: Show, Strips: r.store.names[from:n:n], Measure: float64(min(right, left)),
	}, place, planesBand)
	r.warnStripes(p, r.store.names[from:n:n], place)
}

// planesBand keeps what is said of planing directions together: it is about no
// band.
const planesBand = 1 << 30

// warnStripes tells of strips that lie against the others in turns: where the
// fibres come up to the left beside where they come up to the right, one is
// bright when the other is dark, and a finish makes it plainer. One change from
// front to back makes two halves; two or more make stripes. Strips whose
// direction is not known or mixed are passed over.
func (r *Reader) warnStripes(p *Panel, against []string, place geom.Rect) {
	turns, last := 0, 0
	for i := range p.Strips {
		d := p.Strips[i].Planing()
		if d != 0 && last != 0 && d != last {
			turns++
		}
		if d != 0 {
			last = d
		}
	}
	if most := r.limits(p).Turns; turns >= most {
		r.tell(p, Warning{
			Kind: StripeRisk, Side: Show, Strips: against, Measure: float64(turns), Limit: float64(most),
		}, place, planesBand)
	}
}

// warnSize tells where the strips do not make the panel: all together too
// narrow for it with the excess wanted at its edges, or one too short for its
// place.
func (r *Reader) warnSize(p *Panel) {
	whole := geom.Rect{Max: geom.Pt(p.Length, p.Width)}
	if have, need := p.StripsWidth()-p.Width, 2*p.PanelEdge; have < need-sizeEps {
		r.tell(p, Warning{Kind: PanelTooSmall, Side: Show, Why: "width", Measure: have, Limit: need}, whole, -1)
	}
	for i := range p.Strips {
		if r.strips[i] == nil {
			continue
		}
		from, to := 0.0, p.Length
		if r.fin.shaped {
			x0, x1, ok := r.fin.extent(r.ys[i], r.ys[i]+p.Strips[i].W)
			if !ok {
				continue
			}
			from, to = x0, x1
		}
		left, right := r.lefts[i]-from, to-r.lefts[i]-p.Strips[i].L
		if short := math.Max(left, right); short > sizeEps {
			r.tell(p, Warning{
				Kind: PanelTooSmall, Side: Show, Strips: r.store.list(p.Strips[i].ID), Why: "length", Measure: -short,
			}, r.inPanel(i, r.strips[i].key.clip), -1)
		}
	}
}
