package order

import (
	"context"
	"fmt"
	"math/bits"
)

// mostBytes is how large the table may grow: 1 GB, with the rest of the program
// beside it. An engineering choice.
const mostBytes = 1 << 30

// table holds the cost to go: by place, by the set of free strips used so far
// in rising order, by the strip of it that was placed last and its way. After a
// pinned place there is one entry a set.
type table struct {
	*compact
	layers [][]int64
	choose [mostStrips + 1][mostStrips + 2]uint64 // binomials, stopping at full
}

const full = uint64(1) << 40 // more sets than any table holds

// Bytes returns the memory that Best and Walk take for the table of p, and
// roughly how many additions filling it takes. A problem that is not sound
// gives 0.
func Bytes(p *Problem) (bytes, additions float64) {
	if p.check() != nil {
		return 0, 0
	}
	return newTable(compacted(p)).size()
}

func newTable(c *compact) *table {
	t := &table{compact: c}
	for n := range t.choose {
		t.choose[n][0] = 1
		for k := 1; k <= n; k++ {
			t.choose[n][k] = min(full, t.choose[n-1][k-1]+t.choose[n-1][k])
		}
	}
	return t
}

// entries returns how many entries a set has after a place.
func (t *table) entries(place int) int {
	if t.pinned[place] >= 0 {
		return 1
	}
	return t.filled[place] * t.k
}

func (t *table) size() (bytes, additions float64) {
	for place := range t.pinned {
		n := float64(t.choose[t.m][t.filled[place]]) * float64(t.entries(place))
		bytes += 8 * n
		if place+1 < len(t.pinned) {
			next := 1
			if t.pinned[place+1] < 0 {
				next = (t.m - t.filled[place]) * t.k
			}
			additions += n * float64(next)
		}
	}
	return bytes, additions
}

// fill computes the table from the last place to the first.
func (t *table) fill(ctx context.Context) error {
	if bytes, _ := t.size(); bytes > mostBytes {
		return fmt.Errorf("order: %d strips for %d places: %w", t.p.Strips, t.p.Places, ErrTooLarge)
	}
	t.layers = make([][]int64, len(t.pinned))
	for place := len(t.pinned) - 1; place >= 0; place-- {
		sets := int(t.choose[t.m][t.filled[place]])
		t.layers[place] = make([]int64, sets*t.entries(place))
		if err := t.layer(ctx, place); err != nil {
			return err
		}
	}
	return nil
}

// layer fills the table after a place from that after the next.
func (t *table) layer(ctx context.Context, place int) error {
	n := len(t.ways)
	out, size := t.layers[place], t.entries(place)
	set := uint64(1)<<t.filled[place] - 1
	next := make([]step, 0, t.m*t.k)
	for rank := 0; rank*size < len(out); rank++ {
		if rank%1024 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		here := out[rank*size : (rank+1)*size]
		if place+1 == len(t.pinned) {
			rest := int64(0)
			if !t.enough(set) {
				rest = never
			}
			for e := range here {
				here[e] = rest
			}
		} else {
			next = t.nexts(next[:0], place, rank, set)
			if w := t.pinned[place]; w >= 0 {
				here[0] = least(next, t.pair[w*n:(w+1)*n])
			} else {
				e := 0
				for s := set; s != 0; s &= s - 1 {
					w := bits.TrailingZeros64(s) * t.k
					for range t.k {
						here[e] = least(next, t.pair[w*n:(w+1)*n])
						e++
						w++
					}
				}
			}
		}
		set = following(set)
	}
	return nil
}

// step is a way to fill the next place: what it and all after it cost, the
// joint in front of it apart.
type step struct {
	way  int
	cost int64
}

// nexts lists what may stand at place+1 after a set of the given rank, by way.
func (t *table) nexts(list []step, place, rank int, set uint64) []step {
	n := len(t.ways)
	single := t.single[(place+1)*n : (place+2)*n]
	layer := t.layers[place+1]
	if w := t.pinned[place+1]; w >= 0 {
		if c := single[w] + layer[rank]; c < limit {
			list = append(list, step{w, c})
		}
		return list
	}
	// The rank of a set in rising order is the sum of binomials of its members
	// (the combinatorial number system). With one more member, those above it
	// move up one.
	size := t.entries(place + 1)
	below, above, less := uint64(0), uint64(0), 0
	for s, r := set, 2; s != 0; s &= s - 1 {
		above += t.choose[bits.TrailingZeros64(s)][r]
		r++
	}
	for j := range t.m {
		if set>>j&1 == 1 {
			less++
			below += t.choose[j][less]
			above -= t.choose[j][less+1]
			continue
		}
		at := int(below+t.choose[j][less+1]+above)*size + less*t.k
		for w := j * t.k; w < (j+1)*t.k; w++ {
			if c := single[w] + layer[at]; c < limit {
				list = append(list, step{w, c})
			}
			at++
		}
	}
	return list
}

// least returns the lowest cost of a next step behind the way whose row of
// pair costs is given.
func least(next []step, pair []int64) int64 {
	best := limit
	for i := range next {
		if c := next[i].cost + pair[next[i].way]; c < best {
			best = c
		}
	}
	if best == limit {
		return never
	}
	return best
}

// following returns the next larger set with as many members (the trick known
// as Gosper's).
func following(set uint64) uint64 {
	if set == 0 {
		return 0
	}
	low := set & -set
	up := set + low
	return up | (set^up)>>2/low
}

// rank returns the number of sets of the same size before set.
func (t *table) rank(set uint64) int {
	r := uint64(0)
	for k := 1; set != 0; set &= set - 1 {
		r += t.choose[bits.TrailingZeros64(set)][k]
		k++
	}
	return int(r)
}
