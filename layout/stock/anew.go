package stock

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// fromSpares fills as many open places as can be with spares, the best fitting
// ones (augmenting paths, Kuhn 1955), and some of the places before others.
func (r *repair) fromSpares(first []slot) {
	places := r.places()
	wide := func(q slot) float64 { return r.now[q.i].Strips[q.k].W }
	slices.SortStableFunc(places, func(a, b slot) int { return cmp.Compare(wide(b), wide(a)) })
	for _, q := range slices.Backward(first) {
		places = slices.Insert(slices.DeleteFunc(places, func(p slot) bool { return p == q }), 0, q)
	}
	fits := make([][]int, len(places))
	for n, q := range places {
		d, s := &r.now[q.i].Demand, &r.now[q.i].Strips[q.k]
		j := jobOf(d, &r.supply, r.opt)
		for x := range r.spares {
			if c := &r.spares[x]; c.Board != nil && c.Stage < face.Glued && s.W > 0 && c.W >= s.W-tiny && c.L >= math.Min(d.Length, s.L)-tiny && j.may(c.Board) {
				fits[n] = append(fits[n], x)
			}
		}
		slices.SortStableFunc(fits[n], func(a, b int) int {
			return cmp.Or(cmp.Compare(r.spares[a].W, r.spares[b].W), cmp.Compare(r.spares[a].L, r.spares[b].L))
		})
	}
	owner := make([]int, len(r.spares))
	for x := range owner {
		owner[x] = -1
	}
	var give func(n int, tried []bool) bool
	give = func(n int, tried []bool) bool {
		for _, x := range fits[n] {
			if tried[x] {
				continue
			}
			tried[x] = true
			if owner[x] < 0 || give(owner[x], tried) {
				owner[x] = n
				return true
			}
		}
		return false
	}
	for n := range places {
		give(n, make([]bool, len(r.spares)))
	}
	var rest []face.Strip
	for x, n := range owner {
		if n < 0 {
			rest = append(rest, r.spares[x])
			continue
		}
		q := places[n]
		s := r.spares[x]
		if s.Stage < face.Sawn { // what is sawn stays as it is, wider than need be
			s.W = r.now[q.i].Strips[q.k].W
			s.L = math.Min(s.L, math.Max(r.now[q.i].Demand.Length, r.now[q.i].Strips[q.k].L))
		}
		j := jobOf(&r.now[q.i].Demand, &r.supply, r.opt)
		s.Up = j.up(&s, r.opt.Cell)
		r.out.Spares = append(r.out.Spares, s.ID)
		r.put(q.i, q.k, s)
	}
	r.spares = rest
}

// up returns the face of a strip that suits the job better.
func (j *job) up(s *face.Strip, cell float64) int {
	t, err := NewTable(s.Board, s.Angle, cell, 0)
	if err != nil {
		return s.UpFace()
	}
	in := t.into(*s)
	rect := cutRect(&in)
	if j.lie(t, rect, 2).fault < j.lie(t, rect, 1).fault-tiny {
		return 2
	}
	return 1
}

// anew cuts what demand i still lacks in other widths, giving up strips of it
// where that must be.
func (r *repair) anew(i int) error {
	d := &r.now[i].Demand
	if len(r.open[i]) == 0 {
		return nil
	}
	if d.Count > 0 {
		r.out.Short[i] = r.shortOf(i)
		return nil
	}
	open := slices.Clone(r.open[i])
	var free []int // places that may be given up
	for k, s := range r.out.Made[i].Strips {
		if !slices.Contains(open, k) && s.Board != nil && s.Stage < face.Sawn && !s.Pinned {
			free = append(free, k)
		}
	}
	tries := 0
	var least *fill
	for n := 0; n <= len(free) && tries < mostTries && r.ctx.Err() == nil; n++ {
		var best *fill
		err := combos(len(free), n, func(pick []int) (bool, error) {
			places := slices.Clone(open)
			for _, x := range pick {
				places = append(places, free[x])
			}
			slices.Sort(places)
			f, err := r.fill(i, places)
			if err != nil {
				return false, err
			}
			if best == nil || f.sum.key(FewestJoints).less(best.sum.key(FewestJoints)) {
				best = f
			}
			tries++
			return tries < mostTries, nil
		})
		if err != nil {
			return err
		}
		if least == nil {
			least = best
		}
		if best != nil && best.short == nil {
			r.take(i, best)
			return nil
		}
	}
	if least == nil { // ended before the first try
		r.out.Short[i] = r.shortOf(i)
		return nil
	}
	r.take(i, least)
	r.out.Short[i] = least.short
	return nil
}

// fill is a way to fill some places of a panel anew.
type fill struct {
	places []int
	strips []face.Strip
	short  *Short
	sum    totals
}

func (r *repair) fill(i int, places []int) (*fill, error) {
	j := jobOf(&r.now[i].Demand, &r.supply, r.opt)
	j.need = 0
	for k, s := range r.out.Made[i].Strips {
		if slices.Contains(places, k) {
			j.need += s.W
			continue
		}
		if j.narrow == 0 || s.W < j.narrow {
			j.narrow = s.W
		}
		j.wide = math.Max(j.wide, s.W)
	}
	j.need = up(j.need, r.opt.Grid)
	if !(j.need > 0) {
		return &fill{places: places}, nil
	}
	p, b, err := r.solve([]job{j}, FewestJoints, r.taken(i, places))
	if err != nil {
		return nil, err
	}
	part := p.result(b).Parts[0]
	return &fill{places, part.Strips, part.Short, b.sum}, nil
}

// take puts the strips of a fill into its places: one after another, those that
// are more after the last; places that are more go.
func (r *repair) take(i int, f *fill) {
	lost := slices.Clone(r.open[i])
	var out []face.Strip
	n := 0
	add := func(id string, old *face.Strip) {
		s := f.strips[n]
		s.ID = id
		if old != nil {
			s.Shift = old.Shift
		}
		n++
		out = append(out, s)
		r.out.Strips = append(r.out.Strips, id)
	}
	for k, old := range r.out.Made[i].Strips {
		at := slices.Index(f.places, k)
		if at < 0 {
			out = append(out, old)
			continue
		}
		if !slices.Contains(lost, k) {
			r.out.Freed = append(r.out.Freed, old.ID)
		}
		if n < len(f.strips) {
			add(old.ID, &old)
		} else {
			r.out.Old[i] = append(r.out.Old[i], old.ID)
		}
		for x := 1; at == len(f.places)-1 && n < len(f.strips); x++ {
			add(r.newID(i, out, x), nil)
		}
	}
	if f.short != nil {
		// One empty place stands for what is missing.
		out = append(out, face.Strip{ID: r.newID(i, out, 1), L: f.short.L, W: f.short.Width, Up: 1})
	}
	r.out.Made[i].Strips = out
	r.open[i] = nil
}

// newID returns an id for a further strip of a demand that no strip has.
func (r *repair) newID(i int, list []face.Strip, n int) string {
	used := func(id string) bool {
		same := func(s face.Strip) bool { return s.ID == id }
		for k := range r.now {
			if slices.ContainsFunc(r.now[k].Strips, same) || slices.ContainsFunc(r.out.Made[k].Strips, same) {
				return true
			}
		}
		return slices.ContainsFunc(list, same) || slices.ContainsFunc(r.spares, same) || slices.ContainsFunc(r.supply.Taken, same)
	}
	for n += len(r.now[i].Strips); ; n++ {
		if id := fmt.Sprintf("%s%d", r.now[i].Demand.ID, n); !used(id) {
			return id
		}
	}
}

// shortOf tells what is missing of a demand where nothing more is cut; its open
// places stay as empty ones.
func (r *repair) shortOf(i int) *Short {
	d := &r.now[i].Demand
	out := &Short{L: d.Length, W: d.Width, Strips: len(r.open[i])}
	for _, k := range r.open[i] {
		s := &r.out.Made[i].Strips[k]
		s.Board = nil
		if d.Count == 0 {
			out.Width, out.W = out.Width+s.W, s.W
		}
	}
	_, edges := cutting.BlankSize(0, 0, r.supply.Allowances)
	j := jobOf(d, &r.supply, r.opt)
	supply := r.supply
	supply.Taken = r.taken(-1, nil)
	if p, err := setupJobs(&supply, []job{j}, LeastWood, r.opt, false); err == nil {
		out.Boards = p.near(0, p.start(), out.W+edges)
	}
	return out
}

// combos visits the choices of n among m in their order until told to stop.
func combos(m, n int, visit func([]int) (bool, error)) error {
	pick := make([]int, n)
	var next func(at, from int) (bool, error)
	next = func(at, from int) (bool, error) {
		if at == n {
			return visit(pick)
		}
		for x := from; x <= m-(n-at); x++ {
			pick[at] = x
			if on, err := next(at+1, x+1); !on || err != nil {
				return false, err
			}
		}
		return true, nil
	}
	_, err := next(0, 0)
	return err
}
