package buy

import (
	"context"
	"slices"
)

// Options of a choice; the zero value has defaults.
type Options struct {
	Nodes int // boards taken or left in all, 300 000
	Cuts  int // ways to cut them that are tried in all, 10 million, some seconds
}

// filled sets the defaults, which are engineering choices.
func (o Options) filled() Options {
	if o.Nodes <= 0 {
		o.Nodes = 300000
	}
	if o.Cuts <= 0 {
		o.Cuts = 10000000
	}
	return o
}

// Choice is which boards to buy.
type Choice struct {
	Made   bool     // these boards make the job
	Boards []string // in the order of the offer
	Cuts   []Cut    // one way to make the job of them
	Cost   float64
	Least  float64 // no boards that make the job by the cuts considered cost less
	Proved bool    // so none are cheaper than these, or none make it at all

	// By is what the boards were chosen by: money, or where no board on offer
	// has a price the wood that is bought. Cost and Least are then mm3.
	By By

	Stopped bool // the context ended it
	Tried   int
}

// By is what a choice is the least of.
type By string

// What boards are chosen by.
const (
	ByMoney By = "money"
	ByWood  By = "wood"
)

// Cut is a length of a board for one part of the job.
type Cut struct {
	Board, Need string
	From, To    float64 // of its strips, from the marked end
	Strips      int     // or solid parts
	Width       float64 // mm of panel that the strips give together; of a solid part
	Up          [2]int  // the face that shows of the strip at the marked edge, and at the other
}

// Choose returns the boards that make all needs at least cost. Where all boards
// together do not make them, Made is false: Lacking tells what is missing.
//
// Up to about 20 boards the choice is the cheapest one (Proved); with more it
// may stop before, and Least tells how much cheaper another could be at most.
// The same request gives the same choice. When ctx ends, the best so far comes
// back without an error. Errors tell of sizes that make no sense.
func Choose(ctx context.Context, boards []Board, needs []Need, work Work, o Options) (Choice, error) {
	p, err := setup(boards, needs, &work)
	if err != nil {
		return Choice{}, err
	}
	price, by := p.prices()
	s := p.newSearch(ctx, price, -1, o)
	s.run()
	return s.choice(by), nil
}

// prices returns what each board costs; in wood where none has a price.
func (p *problem) prices() ([]float64, By) {
	price := make([]float64, len(p.boards))
	sum := 0.0
	for i := range p.boards {
		price[i] = p.boards[i].Price
		sum += price[i]
	}
	if sum > 0 {
		return price, ByMoney
	}
	for i := range p.boards {
		b := &p.boards[i]
		price[i] = b.Length * b.Width * b.Thickness
	}
	return price, ByWood
}

// choice turns what was found into boards and cuts.
func (s *search) choice(by By) Choice {
	c := Choice{By: by, Least: s.low, Tried: s.tried, Stopped: s.ctx.Err() != nil}
	if len(s.p.need) == 0 {
		c.Made, c.Proved, c.Least = true, true, 0
		return c
	}
	if s.set == nil {
		if c.Proved = s.proved(); c.Proved {
			c.Least = 0
		}
		return c
	}
	s.spare()
	c.Made, c.Cost = true, s.best
	c.Proved = s.proved()
	type bought struct {
		board int
		way   way
	}
	var list []bought
	for i, b := range s.set {
		list = append(list, bought{b, s.plan[i]})
	}
	slices.SortFunc(list, func(a, b bought) int { return a.board - b.board })
	for _, y := range list {
		id := s.p.boards[y.board].ID
		c.Boards = append(c.Boards, id)
		var cuts []Cut
		for _, x := range y.way.pieces {
			j := &s.p.jobs[x.job]
			k := Cut{Board: id, Need: j.ID, From: x.x0, To: x.x1, Strips: x.rip.strips, Width: x.rip.width, Up: x.rip.up}
			if j.solid {
				k.Width = j.least
			}
			cuts = append(cuts, k)
		}
		slices.SortStableFunc(cuts, func(a, b Cut) int {
			if a.From < b.From {
				return -1
			}
			return 1
		})
		c.Cuts = append(c.Cuts, cuts...)
	}
	return c
}

// spare gives back boards that cost nothing and are not needed.
func (s *search) spare() {
	for i := 0; i < len(s.set); i++ {
		if s.price[s.set[i]] > 0 {
			continue
		}
		less := slices.Delete(slices.Clone(s.set), i, i+1)
		if plan, _ := s.p.cut(s.ctx, less, &s.cuts); plan != nil {
			s.set, s.plan = less, plan
			i--
		}
	}
}
