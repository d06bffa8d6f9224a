package stock

import (
	"context"
	"fmt"
	"math"

	"heartside/layout/face"
)

// Part is what a plan gives of one demand.
type Part struct {
	Demand   string
	Strips   []face.Strip // in the order of the boards; IDs are those of the demand with a number
	Width    float64      // of a panel's strips together, as glued, mm
	Unwanted [2]float64   // share on show and back expected, unseen wood counted half
	OverMost bool         // more than the demand's limits allow
	Short    *Short       // what could not be made; nil: all is there
}

// Use is what a plan takes of one board.
type Use struct {
	Board  string
	Strips int
	Used   float64 // mm2: blanks, kerfs and what is left too small to be of use
	Left   float64 // mm2 still of use
	Cost   float64
}

// Result is a plan.
type Result struct {
	Parts  []Part // in the order of the demands
	Boards []Use  // those that are cut, in the order of the supply
	Used   float64
	Lost   float64 // of Used, what does not end up in finished parts
	Cost   float64
	Strips int

	Missing   float64 // finished wood that is lacking, mm2
	Unwelcome float64 // wood that shows and that the looks do not welcome, mm2

	Proved  bool // no plan made of bundles of strips in the corners of rooms is better
	Stopped bool // the context ended it
	Tried   int  // bundles laid
	Snipe   bool // strips may lie in what thicknessing spoils, as there was no room elsewhere

	over   float64 // unwanted wood beyond the limits, mm2
	opened int     // boards cut into that were whole
}

// Plan chooses strips for all demands from the boards of a supply. Strips lie
// clear of what is taken, of flaws and, where all can be made that way, of what
// thicknessing may spoil at the ends. Those of a panel come to its width and the
// excess wanted at its edges, each a multiple of the grid; their lengths lie
// between the panel's and that with the over-length. A demand that cannot be
// made in full is made as far as it can be.
//
// The same request gives the same plan. When ctx ends, the best plan so far
// comes back without an error. Errors tell of sizes that make no sense.
func Plan(ctx context.Context, supply Supply, demands []Demand, obj Objective, o Options) (Result, error) {
	switch obj {
	case LeastWood, LeastCost, BestLook, FewestJoints, WholeBoards:
	default:
		return Result{}, fmt.Errorf("no objective is called %q", obj)
	}
	if err := check(&supply, demands); err != nil {
		return Result{}, err
	}
	if len(demands) == 0 {
		return Result{Proved: true}, nil
	}
	run := func(snipe bool) (Result, *plan, error) {
		p, err := setup(&supply, demands, obj, o, snipe)
		if err != nil {
			return Result{}, nil, err
		}
		b, proved, tried := p.best(ctx, o.Progress)
		r := p.result(b)
		r.Proved, r.Tried, r.Stopped = proved, tried, ctx.Err() != nil
		return r, b, nil
	}
	r, b, err := run(true)
	if err != nil || b.sum.short == 0 || supply.Allowances.Snipe <= supply.Allowances.Ends || r.Stopped {
		return r, err
	}
	loose, c, err := run(false)
	if err == nil && c.sum.short < b.sum.short-tiny {
		loose.Snipe = true
		loose.Tried += r.Tried
		return loose, nil
	}
	return r, err
}

// result turns a plan into strips of boards.
func (p *problem) result(b *plan) Result {
	r := Result{Parts: make([]Part, len(p.jobs)), Cost: b.sum.cost, Used: b.sum.used, Strips: int(b.sum.strips),
		Missing: b.sum.short, Unwelcome: b.sum.look, over: b.sum.over, opened: int(b.sum.boards)}
	st := p.start()
	for _, o := range b.laid {
		st.relay(o)
	}
	for k := range p.jobs {
		r.Parts[k] = p.partOf(k, st)
		r.Lost -= p.jobs[k].finished(st.parts[k].left)
	}
	r.Lost += r.Used
	for i := range p.lots {
		l, s := &p.lots[i], &st.shelves[i]
		if s.site < 0 {
			continue
		}
		u := Use{Board: l.Board.ID, Used: l.used(s), Left: s.usable, Cost: l.cost(s)}
		for _, o := range b.laid {
			if o.lot == i {
				u.Strips += len(o.rects)
			}
		}
		r.Boards = append(r.Boards, u)
	}
	return r
}

// finished returns the area of finished parts that are made.
func (j *job) finished(left float64) float64 {
	if j.solid {
		return (j.need - left) * j.size[0] * j.size[1]
	}
	return j.size[0] * math.Min(j.size[1], j.need-left)
}

// partOf returns the strips of a job.
func (p *problem) partOf(k int, st *state) Part {
	j, q := &p.jobs[k], &st.parts[k]
	out := Part{Demand: j.id}
	all := 0.0
	for lot := range p.lots {
		for _, b := range st.laid {
			if b.job != k || b.lot != lot {
				continue
			}
			for i, r := range b.rects {
				s := p.lots[lot].sites[b.site].Strip(r)
				s.Up = b.ups[i]
				s.ID = fmt.Sprintf("%s%d", j.id, len(out.Strips)+1)
				out.Strips = append(out.Strips, s)
				out.Width += r.H()
				all += area(r)
			}
		}
	}
	if all > 0 {
		for f := range out.Unwanted {
			out.Unwanted[f] = q.unwanted[f] / all
		}
	}
	for f, most := range j.limit {
		out.OverMost = out.OverMost || most < 1 && out.Unwanted[f] > most+1e-9
	}
	if q.left > tiny {
		out.Short = p.lacking(k, st)
	}
	return out
}
