package session

import (
	"cmp"
	"context"
	"math"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/model"
)

// Laying is one way to bring two strips side by side in the panel.
type Laying struct {
	For    string      // in words: what makes room for what comes in; "" nothing comes in
	Anew   bool        // a planned strip is sawn from another place
	Change string      // what is done, "" nothing
	Panel  *face.Panel // as it then lies
	Edit   model.Edit  // one step
	After  After       // once weighed
	Told   []string    // what the cutting rules say of it that they do not say now; once weighed

	b      *bench
	way    *[2]lying
	spares []face.Strip
	weighs bool
}

// Weigh reads the panel as it would lie, where that was not done yet.
func (l *Laying) Weigh() { l.weigh(face.NewReader()) }

func (l *Laying) weigh(r *face.Reader) {
	if l.weighs || l.Panel == nil {
		return
	}
	l.weighs = true
	read := r.Read(l.Panel)
	l.After = After{Light: read.Show.Light.Value, Unwanted: read.Show.Unwanted.Value, Coverage: read.Show.Coverage}
	for i := range read.Warnings {
		if read.Warnings[i].Kind == face.LoneStreak {
			l.After.LoneStreaks++
		}
	}
	l.Told = l.b.told(l.Panel, l.spares)
}

// weigh reads the first way of every match, until ctx ends.
func (b *bench) weigh(ctx context.Context, list []Match) {
	r := face.NewReader()
	r.Remember(8 * len(b.pieces))
	for i := range list {
		if ctx.Err() != nil {
			return
		}
		list[i].Lays[0].weigh(r)
	}
}

// told is what the cutting rules say of the panel as it would lie and do not
// say of it as it lies.
func (b *bench) told(p *face.Panel, spares []face.Strip) []string {
	key := func(w *face.Warning) string { return string(w.Kind) + w.Why + fmtList(w.Strips) }
	others := func(spares []face.Strip) []face.Strip { return append(slices.Clone(b.rest), spares...) }
	was := map[string]bool{}
	now := cutting.NewChecker(others(b.view.spares), b.cut, b.machines).Panel(b.panel)
	for i := range now {
		was[key(&now[i])] = true
	}
	var out []string
	w := b.words
	w.panel = p
	w.number = func(id string) string { return b.numberIn(p, id) }
	for _, x := range cutting.NewChecker(others(spares), b.cut, b.machines).Panel(p) {
		if !was[key(&x)] {
			title, text := w.say(&x)
			out = append(out, title+". "+text)
		}
	}
	return out
}

func fmtList(ids []string) string {
	out := ""
	for _, id := range ids {
		out += "\x00" + id
	}
	return out
}

// seat is a place of a panel that is being laid: a strip as it is to lie, or
// one of the pieces as it is.
type seat struct {
	piece int // -1 one still to be cut
	lay   *lying
}

// plan is a way to lay two strips that was found possible.
type plan struct {
	seats []seat
	out   []int // pieces that leave the panel
	cost  float64
	way   *[2]lying
	wider bool // by what comes in
}

// lays lists the ways to lay two strips side by side, each of ways being the
// same two as front and rear strip.
func (b *bench) lays(ways [][2]lying) []Laying {
	var plans []plan
	for _, outs := range b.rooms(&ways[0]) {
		best := plan{cost: -1}
		for w := range ways {
			if p, ok := b.arrange(&ways[w], outs); ok && (best.cost < 0 || p.cost < best.cost) {
				best = p
			}
		}
		if best.cost >= 0 {
			plans = append(plans, best)
		}
	}
	slices.SortStableFunc(plans, func(x, y plan) int {
		return cmp.Or(cmp.Compare(b.loss(&x), b.loss(&y)), cmp.Compare(x.cost, y.cost))
	})
	var out []Laying
	for i := range plans {
		out = append(out, b.laying(&plans[i]))
	}
	return out
}

// loss ranks what a plan costs beside moves: an empty place is filled for
// nothing, a strip that makes room is a loss, a panel made wider the greatest.
func (b *bench) loss(p *plan) int {
	n := 0
	for _, i := range p.out {
		if b.pieces[i].strip.Board != nil {
			n++
		}
	}
	if extra := len(p.seats) - b.inPanel; extra > 0 {
		n += 10 * extra
	}
	return n
}

// rooms lists what may leave the panel for what comes in: nothing, pieces by
// index. A strip that is cut anew for a piece of the panel needs no room.
func (b *bench) rooms(way *[2]lying) [][]int {
	come := 0
	in := map[int]bool{}
	for i := range way {
		if l := &way[i]; l.at < 0 || b.pieces[l.at].spare {
			come++
		} else {
			in[l.at] = true
		}
	}
	out := [][]int{nil}
	free := func(i int) bool { return i < b.inPanel && !in[i] && !b.pieces[i].held() }
	for i := 0; i < b.inPanel; i++ {
		switch {
		case come == 1 && free(i):
			out = append(out, []int{i})
		case come == 2 && free(i) && free(i+1):
			out = append(out, []int{i, i + 1})
		}
	}
	return out
}

// arrange lays the two beside one another with the fewest moves, so that what
// is held stays: the other strips that stood there go where the two were.
func (b *bench) arrange(way *[2]lying, outs []int) (plan, bool) {
	seats := make([]seat, 0, b.inPanel+2)
	for i := 0; i < b.inPanel; i++ {
		seats = append(seats, seat{piece: i})
	}
	at := [2]int{-1, -1}
	k := 0
	for i := range way {
		l := &way[i]
		switch {
		case l.at >= 0 && !b.pieces[l.at].spare:
			at[i] = l.at
		case k < len(outs):
			at[i] = outs[k]
			k++
		default:
			return b.insert(seats, way)
		}
		seats[at[i]] = seat{l.at, l}
	}
	best := plan{cost: -1}
	for a := 0; a+1 < len(seats); a++ {
		list := slices.Clone(seats)
		var moved []seat
		for _, i := range [2]int{a, a + 1} {
			if i != at[0] && i != at[1] {
				moved = append(moved, seats[i])
			}
		}
		n := 0
		for _, i := range [2]int{min(at[0], at[1]), max(at[0], at[1])} {
			if i != a && i != a+1 {
				list[i] = moved[n]
				n++
			}
		}
		list[a], list[a+1] = seats[at[0]], seats[at[1]]
		if c, ok := b.cost(list); ok {
			c += 1e-3 * math.Abs(float64(at[0]+at[1]-2*a-1)) // the least way among equals
			if best.cost < 0 || c < best.cost {
				best = plan{seats: list, out: outs, cost: c, way: way}
			}
		}
	}
	return best, best.cost >= 0
}

// insert makes the panel wider by what comes in and keeps the order of the
// others. Two that come in lie at the back.
func (b *bench) insert(seats []seat, way *[2]lying) (plan, bool) {
	at := len(seats)
	new := []seat{{way[0].at, &way[0]}, {way[1].at, &way[1]}}
	for i := range way {
		if l := &way[i]; l.at >= 0 && !b.pieces[l.at].spare {
			seats[l.at].lay = l
			at, new = l.at+1-i, slices.Delete(new, i, i+1)
		}
	}
	p := plan{seats: slices.Insert(seats, at, new...), way: way, wider: true}
	c, ok := b.cost(p.seats)
	p.cost = c
	return p, ok
}

// turning is what turning a strip end for end counts, of moving one: it turns
// the planing direction round too. An engineering choice.
const turning = 1.2

// cost counts what is moved or turned end for end; false where something held
// would not stay.
func (b *bench) cost(list []seat) (float64, bool) {
	c := 0.0
	for i, s := range list {
		if s.piece < 0 {
			continue
		}
		p := &b.pieces[s.piece]
		if i != s.piece && !p.spare {
			c++
			if p.held() {
				return 0, false
			}
		}
		if l := s.lay; l != nil {
			if p.held() && (l.m.Up != p.strip.UpFace() || l.m.Turned != p.m.Turned) {
				return 0, false
			}
			if l.m.Turned != p.m.Turned {
				c += turning
			}
		}
	}
	return c, true
}
