package buy

import (
	"cmp"
	"math"
	"slices"
)

// Ways of one board that are kept where parts are many and small. Engineering
// choices: where more would be, a job may be made dearer than it need be, never
// wrongly.
const (
	mostCounts = 400 // numbers of lengths for each part
	mostWays   = 160
)

// piece is a length in a way of cutting a board.
type piece struct {
	job    int
	x0, x1 float64
	rip    rip
}

// way is one way to cut a board, and what it gives of everything wanted.
type way struct {
	gives  []float64
	pieces []piece
}

// ways returns the ways to cut a board for jobs, none of which gives as much of
// everything as another, in a fixed order.
func ways(b *Board, jobs []job, w *Work, dims int) []way {
	a := w.Allowances
	margin, step := math.Max(a.Ends, a.Snipe), 2*a.Ends+a.Kerf
	order := make([]int, 0, len(jobs)) // those the board can be cut for, the longest first
	for q := range jobs {
		if j := &jobs[q]; j.thick <= b.Thickness+0.01 && j.long+2*margin <= b.Length+tiny {
			order = append(order, q)
		}
	}
	slices.SortStableFunc(order, func(p, q int) int { return cmp.Compare(jobs[q].long, jobs[p].long) })
	var out []way
	for _, counts := range lengths(order, jobs, b.Length-2*margin, step) {
		for _, back := range []bool{false, true} {
			list := []way{{gives: make([]float64, dims)}}
			x := margin
			for k, q := range order {
				for range counts[k] {
					l := length{b, x, x + jobs[q].long}
					if back {
						l.x0, l.x1 = b.Length-l.x1, b.Length-l.x0
					}
					list = grow(list, &l, q, jobs, w)
					x += jobs[q].long + step
				}
			}
			out = append(out, list...)
		}
	}
	return undominated(out)
}

// lengths returns how many lengths a board may be cut into for each job, so
// that no more fit.
func lengths(order []int, jobs []job, room, step float64) [][]int {
	var out [][]int
	counts := make([]int, len(order))
	var next func(k int, left float64)
	next = func(k int, left float64) {
		if len(out) == mostCounts {
			return
		}
		if k == len(order) {
			for i, q := range order {
				if counts[i] < useful(&jobs[q]) && jobs[q].long <= left+tiny {
					return
				}
			}
			out = append(out, slices.Clone(counts))
			return
		}
		j := &jobs[order[k]]
		n := 0
		for n < useful(j) && float64(n+1)*j.long+float64(n)*step <= left+tiny {
			n++
		}
		for ; n >= 0; n-- {
			counts[k] = n
			next(k+1, left-float64(n)*(j.long+step))
		}
		counts[k] = 0
	}
	next(0, room)
	return out
}

// useful returns how many lengths a job can make use of at most.
func useful(j *job) int {
	if j.solid {
		return j.Count
	}
	return int(math.Ceil(j.glued / j.least))
}

// grow lays one more length after each way of a list.
func grow(list []way, l *length, q int, jobs []job, w *Work) []way {
	j := &jobs[q]
	rips := l.rips(j, w)
	out := slices.Clone(list)
	for i := range list {
		for _, r := range rips {
			y := way{gives: slices.Clone(list[i].gives), pieces: slices.Clone(list[i].pieces)}
			for k, d := range j.dims {
				y.gives[j.at+k] += r.gives(d)
			}
			y.pieces = append(y.pieces, piece{q, l.x0, l.x1, r})
			out = append(out, y)
		}
	}
	return undominated(out)
}

// covers reports whether a gives as much of everything as b.
func covers(a, b []float64) bool {
	for i, v := range b {
		if a[i] < v-tiny {
			return false
		}
	}
	return true
}

// undominated leaves out ways that give no more of anything than another, and
// where too many are left those that give least.
func undominated(list []way) []way {
	var out []way
	for i := range list {
		if !slices.ContainsFunc(out, func(o way) bool { return covers(o.gives, list[i].gives) }) {
			out = slices.DeleteFunc(out, func(o way) bool { return covers(list[i].gives, o.gives) })
			out = append(out, list[i])
		}
	}
	if len(out) > mostWays {
		sum := func(y way) (s float64) {
			for _, v := range y.gives {
				s += v
			}
			return s
		}
		slices.SortStableFunc(out, func(a, b way) int { return cmp.Compare(sum(b), sum(a)) })
		out = slices.Clip(out[:mostWays])
	}
	return out
}
