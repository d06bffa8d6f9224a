package stock

import (
	"context"
	"math/rand/v2"
)

// firstNodes bounds the first search, which ends small cases at once, and
// roundNodes that which lays anew what was taken out of a plan. Engineering
// choices.
const (
	firstNodes = 300
	roundNodes = 120
)

// best searches for the best plan: in full for a little, then by taking the
// strips of one or two jobs or boards out of the best plan and laying them anew,
// then in full against what was found, as far as the nodes go. proved tells
// that there is no better one of such bundles.
func (p *problem) best(ctx context.Context, report func(Progress)) (out *plan, proved bool, tried int) {
	of := firstNodes + p.opt.Nodes + p.opt.Rounds*roundNodes
	tell := func(done int, b *plan) {
		if report == nil || b == nil {
			return
		}
		report(Progress{Done: min(done, of), Of: of, Missing: b.sum.short, Used: b.sum.used, Cost: b.sum.cost, Strips: int(b.sum.strips)})
	}
	first := newSearcher(ctx, p, min(p.opt.Nodes, firstNodes), nil)
	first.dive(p.start())
	out, tried = first.best, first.nodes
	tell(first.nodes, out)
	if !first.cut {
		tell(of, out)
		return out, true, tried
	}
	rng := rand.New(rand.NewPCG(p.opt.Seed, 0x73746f636b))
	for round := 0; round < p.opt.Rounds && ctx.Err() == nil; round++ {
		st := p.start()
		drop := p.dropped(rng, out)
		for i, b := range out.laid {
			if !drop[i] {
				st.relay(b)
			}
		}
		r := newSearcher(ctx, p, roundNodes, out)
		r.dive(st)
		out = r.best
		tried += r.nodes
		tell(firstNodes+(round+1)*roundNodes, out)
	}
	if p.opt.Nodes <= firstNodes {
		return out, false, tried
	}
	full := newSearcher(ctx, p, p.opt.Nodes, out)
	full.tick = func(s *searcher) {
		if s.nodes%64 == 0 {
			tell(of-p.opt.Nodes+s.nodes, s.best)
		}
	}
	full.dive(p.start())
	tell(of, full.best)
	return full.best, !full.cut, tried + full.nodes
}

// dropped chooses the bundles that are taken out of a plan: those of one or two
// jobs, or of one or two boards.
func (p *problem) dropped(rng *rand.Rand, b *plan) []bool {
	out := make([]bool, len(b.laid))
	if len(b.laid) == 0 {
		return out
	}
	byLot := rng.IntN(2) == 0
	for range 1 + rng.IntN(2) {
		pick := b.laid[rng.IntN(len(b.laid))]
		for i, o := range b.laid {
			if byLot && o.lot == pick.lot || !byLot && o.job == pick.job {
				out[i] = true
			}
		}
	}
	return out
}
