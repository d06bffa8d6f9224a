package stock

import (
	"context"
	"fmt"
	"slices"

	"heartside/layout/face"
)

// Made is a demand with the strips chosen for it, a panel's front to back.
type Made struct {
	Demand Demand
	Strips []face.Strip
}

// Loss is what cannot be used any more: boards, but for what is sawn from them
// already, and strips by their ids. Where a lost strip lay nothing is cut.
type Loss struct {
	Boards []string
	Strips []string
}

// Changed is how a loss can be made good.
type Changed struct {
	Made    []Made     // as before, but for the changed strips; places that stay empty have no board
	Strips  []string   // ids of the strips that are new or lie elsewhere than before
	Spares  []string   // ids of the spares among them
	Freed   []string   // ids of strips that were given up though they were not lost
	Short   []*Short   // by demand; nil where nothing is missing
	Stopped bool       // the context ended it
	Old     [][]string // by demand: ids of the strips that are no more
}

// mostTries bounds the sets of strips of a panel that are given up on trial. An
// engineering choice.
const mostTries = 60

// mostShares bounds how often spares are shared out anew where something is left
// without wood. An engineering choice.
const mostShares = 6

// Spoiled makes good a loss with the least change. What is not lost stays where
// it is, what is sawn always, and empty places stay empty. Lost strips are
// replaced by spares that are large enough, as many as can be, those first that
// cannot be cut anew; then by strips of their own size, of the best look, where
// the boards have room; then a panel's missing width is cut in other widths, in
// the fewest strips. Only where that fails are other strips of that
// panel given up that are not sawn and not pinned, one, two and so on, and
// its width is filled anew. supply.Taken holds neither the strips of now nor the
// spares.
//
// A spare keeps its id; other strips take those of the places they fill, and
// where they are more, one made of the demand's. The same request gives the same
// answer. Errors tell of what makes no sense, such as a loss that is not there.
func Spoiled(ctx context.Context, supply Supply, now []Made, spares []face.Strip, loss Loss, o Options) (Changed, error) {
	demands := make([]Demand, len(now))
	for i := range now {
		demands[i] = now[i].Demand
	}
	if err := check(&supply, demands); err != nil {
		return Changed{}, err
	}
	supply.tables = &tableBook{got: map[tableKey]*Table{}}
	var r *repair
	var first []slot
	for range mostShares {
		n := &repair{ctx: ctx, supply: supply, now: now, opt: o.filled()}
		if err := n.begin(loss, spares); err != nil {
			return Changed{}, err
		}
		n.fromSpares(first)
		if err := n.alike(); err != nil {
			return Changed{}, err
		}
		if r == nil || n.lacking() < r.lacking()-tiny {
			r = n
		}
		// What found nothing gets a spare before others, which may be cut anew.
		late := n.places()
		for _, q := range first {
			if !slices.Contains(late, q) {
				late = append(late, q)
			}
		}
		if n.lacking() == 0 || slices.Equal(late, first) || ctx.Err() != nil {
			break
		}
		first = late
	}
	for i := range now {
		if err := r.anew(i); err != nil {
			return Changed{}, err
		}
	}
	r.out.Stopped = ctx.Err() != nil
	return r.out, nil
}

// repair is a loss being made good.
type repair struct {
	ctx    context.Context
	supply Supply // without lost boards
	now    []Made
	opt    Options
	spares []face.Strip
	gone   []face.Strip // lost strips where they lay on boards that are still there
	open   [][]int      // by demand: places still without a strip
	out    Changed
}

// slot is a place of a demand.
type slot struct{ i, k int }

// begin sets out with nothing replaced yet.
func (r *repair) begin(loss Loss, spares []face.Strip) error {
	if err := r.lose(loss, spares); err != nil {
		return err
	}
	n := len(r.now)
	r.out.Made, r.out.Short, r.out.Old = make([]Made, n), make([]*Short, n), make([][]string, n)
	for i := range r.now {
		r.out.Made[i] = Made{r.now[i].Demand, slices.Clone(r.now[i].Strips)}
	}
	return nil
}

// places lists those that are still open.
func (r *repair) places() []slot {
	var out []slot
	for i := range r.open {
		for _, k := range r.open[i] {
			out = append(out, slot{i, k})
		}
	}
	return out
}

// lacking returns the area of the strips of places that are still open.
func (r *repair) lacking() float64 {
	sum := 0.0
	for _, q := range r.places() {
		s := &r.now[q.i].Strips[q.k]
		sum += s.L * s.W
	}
	return sum
}

// lose finds what a loss takes.
func (r *repair) lose(loss Loss, spares []face.Strip) error {
	var boards []Stock
	for _, id := range loss.Boards {
		if !slices.ContainsFunc(r.supply.Boards, func(k Stock) bool { return k.Board.ID == id }) {
			return fmt.Errorf("board %s is not among the boards; nothing is lost with it", id)
		}
	}
	for _, k := range r.supply.Boards {
		if !slices.Contains(loss.Boards, k.Board.ID) {
			boards = append(boards, k)
		}
	}
	r.supply.Boards = boards
	lost := func(s *face.Strip) bool {
		return slices.Contains(loss.Strips, s.ID) || s.Board != nil && s.Stage < face.Sawn && slices.Contains(loss.Boards, s.Board.ID)
	}
	found := map[string]bool{}
	note := func(s *face.Strip) {
		found[s.ID] = true
		if s.Board != nil {
			r.gone = append(r.gone, *s)
		}
	}
	r.open = make([][]int, len(r.now))
	for i := range r.now {
		for k := range r.now[i].Strips {
			if s := &r.now[i].Strips[k]; lost(s) {
				note(s)
				r.open[i] = append(r.open[i], k)
			}
		}
	}
	for i := range spares {
		if s := &spares[i]; lost(s) {
			note(s)
		} else {
			r.spares = append(r.spares, *s)
		}
	}
	for _, id := range loss.Strips {
		if !found[id] {
			return fmt.Errorf("strip %s is neither in a part nor a spare; nothing is lost with it", id)
		}
	}
	return nil
}

// taken returns all that lies on the boards, but for some strips of a demand.
func (r *repair) taken(but int, free []int) []face.Strip {
	out := append(append(slices.Clone(r.supply.Taken), r.spares...), r.gone...)
	for i := range r.out.Made {
		for k, s := range r.out.Made[i].Strips {
			if s.Board != nil && !slices.Contains(r.open[i], k) && !(i == but && slices.Contains(free, k)) {
				out = append(out, s)
			}
		}
	}
	return out
}

// put fills a place and leaves it no longer open.
func (r *repair) put(i, k int, s face.Strip) {
	old := r.out.Made[i].Strips[k]
	s.Shift, s.Pinned, s.Turned = old.Shift, old.Pinned, old.Turned
	r.out.Made[i].Strips[k] = s
	r.out.Strips = append(r.out.Strips, s.ID)
	if s.ID != old.ID {
		r.out.Old[i] = append(r.out.Old[i], old.ID)
	}
	r.open[i] = slices.DeleteFunc(r.open[i], func(o int) bool { return o == k })
}

// alike replaces lost strips by others of their size from the boards.
func (r *repair) alike() error {
	var jobs []job
	var slots []slot
	for i := range r.open {
		d := &r.now[i].Demand
		for _, k := range r.open[i] {
			s := &r.now[i].Strips[k]
			if !(s.W > 0) || !(s.L > 0) {
				continue
			}
			one := *d
			one.ID, one.Count = fmt.Sprintf("%s/%d", d.ID, k), 1
			one.Width = s.W
			j := jobOf(&one, &r.supply, r.opt)
			j.allow, j.width, j.least = d.Boards, s.W, s.W
			j.long = max(j.short, s.L)
			jobs, slots = append(jobs, j), append(slots, slot{i, k})
		}
	}
	if len(jobs) == 0 {
		return nil
	}
	p, b, err := r.solve(jobs, BestLook, r.taken(-1, nil))
	if err != nil {
		return err
	}
	for _, part := range p.result(b).Parts {
		for n := range jobs {
			if jobs[n].id == part.Demand && len(part.Strips) == 1 {
				s := part.Strips[0]
				s.ID = r.now[slots[n].i].Strips[slots[n].k].ID
				r.put(slots[n].i, slots[n].k, s)
			}
		}
	}
	return nil
}

// solve plans jobs beside what is taken; clear of snipe where that can be.
func (r *repair) solve(jobs []job, obj Objective, taken []face.Strip) (*problem, *plan, error) {
	s := r.supply
	s.Taken = taken
	p, err := setupJobs(&s, slices.Clone(jobs), obj, r.opt, true)
	if err != nil {
		return nil, nil, err
	}
	b, _, _ := p.best(r.ctx, r.opt.Progress)
	if b.sum.short == 0 || s.Allowances.Snipe <= s.Allowances.Ends {
		return p, b, nil
	}
	q, err := setupJobs(&s, slices.Clone(jobs), obj, r.opt, false)
	if err != nil {
		return nil, nil, err
	}
	if c, _, _ := q.best(r.ctx, r.opt.Progress); c.sum.short < b.sum.short-tiny {
		return q, c, nil
	}
	return p, b, nil
}
