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
	const near = 3.0 // pixels of the plane: the blur of one edge
next:
	for _, s := range all {
		if len(kept) >= most {
			break
		}
		for _, k := range kept {
			l := through(k.a, k.b)
			da, db := l.off(s.a), l.off(s.b)
			if da > -near && da < near && db > -near && db < near {
				continue next
			}
			// A line leaning across a better one at a small angle.
			d, e := k.b.Sub(k.a), s.b.Sub(s.a)
			if c := d.Cross(e); c*c < 0.0025*d.Dot(d)*e.Dot(e) && da*db < 0 && da > -3*near && da < 3*near && db > -3*near && db < 3*near {
				continue next
			}
		}
		kept = append(kept, s)
	}
	return kept
}
