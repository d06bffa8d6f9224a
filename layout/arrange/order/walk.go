package order

import (
	"bytes"
	"container/heap"
	"context"
	"fmt"
)

// Best returns the k cheapest orders of p in rising cost, fewer where there are
// no more; equal ones by strip, then state, from the front. When ctx ends it
// returns those found so far and the context's error. Errors: a problem that is
// not sound, ErrTooLarge.
//
// Costs are compared on a grid of a part in 10^13 of the greatest total; those
// that agree on it count as equal.
func Best(ctx context.Context, p *Problem, k int) ([]Answer, error) {
	if k <= 0 {
		return nil, nil
	}
	var out []Answer
	err := Walk(ctx, p, func(a Answer) bool {
		out = append(out, a)
		return len(out) < k
	})
	return out, err
}

// Walk visits the orders of p in rising cost, as Best has them, until visit
// returns false or there are no more. Each Answer is the visitor's to keep.
// Errors are those of Best. Memory grows by some hundreds of bytes an order.
func Walk(ctx context.Context, p *Problem, visit func(Answer) bool) error {
	if err := p.check(); err != nil {
		return err
	}
	t := newTable(compacted(p))
	if err := t.fill(ctx); err != nil {
		return err
	}
	return (&walk{t: t, n: p.Places}).run(ctx, visit)
}

// walk is the best-first search. A part of an order waits in the heap with its
// key: the cost of the best order that begins so. When it is taken, its best
// continuation and the next best in its own place are put in, so that every
// order still to come begins like something in the heap.
type walk struct {
	t     *table
	n     int
	parts []part
	heads []byte // n bytes a part: strip*States+state by place
	heap  []int32
	next  []step
}

// part is the beginning of an order.
type part struct {
	key   int64  // cost of the best order that begins so
	spent int64  // cost of the part without its last place and the joint in front of it
	set   uint64 // free strips used, the last place's not
	prev  int16  // way at the place before, -1 at the first
	way   int16  // way at the last place
	size  int16  // places filled
}

func (w *walk) head(x int32) []byte {
	at := int(x) * w.n
	return w.heads[at : at+int(w.parts[x].size)]
}

// Len, Less, Swap, Push and Pop keep the heap: by key, then by the strips and
// states of the part.
func (w *walk) Len() int      { return len(w.heap) }
func (w *walk) Swap(a, b int) { w.heap[a], w.heap[b] = w.heap[b], w.heap[a] }
func (w *walk) Less(a, b int) bool {
	x, y := &w.parts[w.heap[a]], &w.parts[w.heap[b]]
	if x.key != y.key {
		return x.key < y.key
	}
	return bytes.Compare(w.head(w.heap[a]), w.head(w.heap[b])) < 0
}
func (w *walk) Push(any) {}
func (w *walk) Pop() any {
	w.heap = w.heap[:len(w.heap)-1]
	return nil
}

// put adds a part to the heap, the head of which begins as that of part from.
func (w *walk) put(x part, from int32) {
	id := int32(len(w.parts))
	w.parts = append(w.parts, x)
	for range w.n {
		w.heads = append(w.heads, 0)
	}
	y := w.t.ways[x.way]
	if from >= 0 {
		copy(w.heads[int(id)*w.n:], w.heads[int(from)*w.n:][:x.size-1])
	}
	w.heads[int(id)*w.n+int(x.size)-1] = byte(y.strip*States + int(y.state))
	w.heap = append(w.heap, id)
	heap.Fix(w, len(w.heap)-1)
}

// choices lists what may stand at a place, with the cost of the best order.
func (w *walk) choices(place int, set uint64, spent int64, prev int16) []step {
	t := w.t
	rank := 0
	if place > 0 {
		rank = t.rank(set)
	}
	w.next = t.nexts(w.next[:0], place-1, rank, set)
	if prev >= 0 {
		row := t.pair[int(prev)*len(t.ways):]
		for i := range w.next {
			w.next[i].cost += row[w.next[i].way]
		}
	}
	for i := range w.next {
		w.next[i].cost += spent
	}
	return w.next
}

// after finds the best choice that comes after the one with the given key and
// way, and puts it in the heap.
func (w *walk) after(x part, from int32, key int64, than int16) {
	best := step{-1, limit}
	// Ways stand in the order of strips and states, so the first of equals is
	// the one to come first.
	for _, c := range w.choices(int(x.size)-1, x.set, x.spent, x.prev) {
		later := c.cost > key || c.cost == key && c.way > int(than)
		if later && c.cost < best.cost {
			best = c
		}
	}
	if best.way >= 0 {
		x.way, x.key = int16(best.way), best.cost
		w.put(x, from)
	}
}

func (w *walk) run(ctx context.Context, visit func(Answer) bool) error {
	t, width := w.t, len(w.t.ways)
	w.after(part{prev: -1, size: 1}, -1, -never, -1)
	for turn := 1; len(w.heap) > 0; turn++ {
		if turn%256 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		if len(w.parts) >= mostParts {
			return fmt.Errorf("order: gave up after %d partial orders: %w", len(w.parts), ErrTooLarge)
		}
		id := w.heap[0]
		heap.Pop(w)
		x := w.parts[id]
		if int(x.size) == w.n {
			if !visit(w.answer(id)) {
				return nil
			}
		} else {
			y := x
			y.spent += t.single[(int(x.size)-1)*width+int(x.way)]
			if x.prev >= 0 {
				y.spent += t.pair[int(x.prev)*width+int(x.way)]
			}
			if int(x.way) < t.m*t.k {
				y.set |= 1 << (int(x.way) / t.k)
			}
			y.prev = x.way
			y.size++
			w.after(y, id, -never, -1)
		}
		w.after(x, id, x.key, x.way)
	}
	return nil
}

// mostParts keeps a walk that nobody stops under about a gigabyte.
const mostParts = 8_000_000

func (w *walk) answer(id int32) Answer {
	a := Answer{Strips: make([]int, w.n), States: make([]uint8, w.n)}
	for k, b := range w.head(id) {
		a.Strips[k], a.States[k] = int(b)/States, b%States
	}
	a.Cost = w.t.p.Cost(a.Strips, a.States)
	return a
}
