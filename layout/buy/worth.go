package buy

import (
	"context"
	"math"
	"slices"
)

// Worth is what a board is worth to a job.
type Worth struct {
	Board  string
	Amount float64 // what the job saves by the board, were it free
	Needed bool    // the job cannot be made without it; Amount is then 0
	Chosen bool    // it is among the boards of the best choice
	Proved bool    // Amount is exact
	By     By
}

// Worths returns what each board on offer, or each of those named in of where that
// is not nil, is worth to the job: the cost of the
// best choice without it less that of the best with it at a price of 0. It is the
// most that may be paid for the board before the job does better without it; a
// board is chosen where its price is under that. Boards that do nothing are
// worth 0. Where no boards make the job nothing is worth anything and the list is
// empty.
func Worths(ctx context.Context, boards []Board, of []string, needs []Need, work Work, o Options) ([]Worth, error) {
	p, err := setup(boards, needs, &work)
	if err != nil {
		return nil, err
	}
	price, by := p.prices()
	base := p.newSearch(ctx, price, -1, o)
	base.run()
	if base.set == nil || len(p.need) == 0 {
		return nil, ctx.Err()
	}
	sure := base.proved()
	var out []Worth
	for b := range boards {
		if of != nil && !slices.Contains(of, boards[b].ID) {
			continue
		}
		w := Worth{Board: boards[b].ID, Chosen: slices.Contains(base.set, b), By: by, Proved: sure}
		if w.Chosen {
			// With it free the best stays the best, for less.
			s := p.newSearch(ctx, price, b, o)
			s.run()
			w.Proved = sure && s.proved()
			if w.Needed = s.set == nil; !w.Needed {
				w.Amount = math.Max(0, s.best-(base.best-price[b]))
			}
		} else {
			free := slices.Clone(price)
			free[b] = 0
			s := p.newSearch(ctx, free, -1, o)
			s.run()
			w.Proved = sure && s.proved()
			w.Amount = math.Max(0, base.best-s.best)
		}
		out = append(out, w)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	return out, nil
}
