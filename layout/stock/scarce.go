package stock

import (
	"context"
	"slices"
)

// Only names a board without which a part cannot be made, and the other parts
// that could take it.
type Only struct {
	Part   string
	Board  string
	Others []string // in the order of the demands; may be empty
	Alone  bool     // no other board gives even one strip or piece of the part
}

// Scarce names, for every demand that the boards can make when it comes alone,
// each board that it cannot do without, with the other demands that could be cut
// from it. They come in the order of the demands and the boards.
//
// A board is needed where the others do not give enough by what they hold at
// most, which is certain, or where a search of a few hundred steps finds no
// way without it. When ctx ends, what was found comes back with its error.
func Scarce(ctx context.Context, supply Supply, demands []Demand) ([]Only, error) {
	if err := check(&supply, demands); err != nil {
		return nil, err
	}
	p, err := setup(&supply, demands, LeastWood, Options{}, false)
	if err != nil {
		return nil, err
	}
	var out []Only
	for k := range p.jobs {
		way := p.way(ctx, k, -1)
		if way == nil {
			continue
		}
		// Only what every way found so far takes can be needed.
		needed := func(b int) bool { return slices.ContainsFunc(way.laid, func(o *bundle) bool { return o.lot == b }) }
		spared := make([]bool, len(p.lots))
		for _, b := range p.jobs[k].boards {
			if spared[b] || !needed(b) {
				continue
			}
			if other := p.way(ctx, k, b); other != nil {
				for i := range spared {
					spared[i] = spared[i] || !slices.ContainsFunc(other.laid, func(o *bundle) bool { return o.lot == i })
				}
				continue
			}
			if err := ctx.Err(); err != nil {
				return out, err
			}
			o := Only{Part: p.jobs[k].id, Board: p.lots[b].Board.ID, Alone: len(p.jobs[k].boards) == 1}
			for i := range p.jobs {
				if i != k && slices.Contains(p.jobs[i].boards, b) {
					o.Others = append(o.Others, p.jobs[i].id)
				}
			}
			out = append(out, o)
		}
	}
	return out, ctx.Err()
}

// scarceNodes bounds the search for a way to make a part without a board. An
// engineering choice.
const scarceNodes = 400

// way returns a way to make a job by itself without one of the lots, nil where
// none is found.
func (p *problem) way(ctx context.Context, k, without int) *plan {
	one := *p
	one.lots = slices.Clone(p.lots)
	for b := range one.lots {
		one.lots[b].class = -1 // no longer alike where one must do without
	}
	j := p.jobs[k]
	j.boards = nil
	st, most := p.start(), 0.0
	for _, b := range p.jobs[k].boards {
		if b != without {
			j.boards = append(j.boards, b)
			most += st.capacity(&j, b)
		}
	}
	if most < j.need-tiny {
		return nil
	}
	j.limit = [2]float64{1, 1}
	one.jobs, one.obj = []job{j}, FewestJoints
	s := newSearcher(ctx, &one, scarceNodes, nil)
	s.any = true
	s.dive(one.start())
	if s.best.sum.short > 0 {
		return nil
	}
	return s.best
}
