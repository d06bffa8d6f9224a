package face

import (
	"math/rand/v2"
	"reflect"
	"testing"
)

// What a reader remembers of strips never changes a result: panels laid by lot
// read as from nothing, with and without coverage, also when there is room for
// few.
func TestRememberedStripsReadTheSame(t *testing.T) {
	for _, room := range []int{0, 3, 1000} {
		rng := rand.New(rand.NewPCG(5, uint64(room)))
		p := wideTop(5)
		p.Strips = p.Strips[:5]
		p.Length = 600
		p.Width = p.StripsWidth() - 10
		r := NewReader()
		r.Remember(room)
		for k := range 40 {
			q := *p
			q.Strips = append([]Strip(nil), p.Strips...)
			rng.Shuffle(len(q.Strips), func(a, b int) { q.Strips[a], q.Strips[b] = q.Strips[b], q.Strips[a] })
			for i := range q.Strips {
				q.Strips[i].Up, q.Strips[i].Turned = 1+rng.IntN(2), rng.IntN(2) == 1
			}
			if rng.IntN(6) == 0 {
				q.Strips[1] = q.Strips[2] // the same strip twice
			}
			skip := rng.IntN(3) > 0
			r.SkipCoverage(skip)
			got, full := r.Read(&q).Clone(), ReadFull(&q).Clone()
			if skip {
				full.Show.Coverage, full.Back.Coverage = 0, 0
			}
			if !reflect.DeepEqual(got, full) {
				t.Fatalf("room for %d, reading %d differs from one from nothing", room, k)
			}
			p = &q
		}
	}
}
