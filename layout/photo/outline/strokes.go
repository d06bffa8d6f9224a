package outline

import (
	"slices"
)

// distinct keeps the best of the strokes, leaving out those that tell of the
// same edge as a better one.
func distinct(all []stroke, most int) []stroke {
	slices.SortStableFunc(all, func(x, y stroke) int {
		switch {
		case x.score > y.score:
			return -1
		case x.score < y.score:
			return 1
		}
		return 0
	})
	var kept []stroke
	const near = 2.5 // pixels of the plane: the blur of one edge
next:
	for _, s := range all {
		if len(kept) >= most {
			break
		}
		for _, k := range kept {
			l := through(k.a, k.b)
			da, db := l.off(s.a), l.off(s.b)
			if da > -near && da < near && db > -near && db < near && overlap(k, s) > 0.5 {
				continue next
			}
		}
		kept = append(kept, s)
	}
	return kept
}

// overlap is the share of t that lies beside s.
func overlap(s, t stroke) float64 {
	d := s.b.Sub(s.a)
	l := d.Dot(d)
	a, b := t.a.Sub(s.a).Dot(d)/l, t.b.Sub(s.a).Dot(d)/l
	if a > b {
		a, b = b, a
	}
	return (min(b, 1) - max(a, 0)) / max(b-a, 1e-9)
}
