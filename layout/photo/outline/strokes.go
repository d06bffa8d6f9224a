package outline

// distinct keeps the best of the strokes, leaving out those that tell of the
// same edge as a better one.
func distinct(all []stroke, most int) []stroke {
	var kept []stroke
	var lines []line
	const near = 2.5 // pixels of the plane: the blur of one edge
next:
	for _, i := range ranked(len(all), func(i int) float64 { return all[i].score }) {
		if len(kept) >= most {
			break
		}
		s := all[i]
		for k, l := range lines {
			da, db := l.off(s.a), l.off(s.b)
			if da > -near && da < near && db > -near && db < near && overlap(kept[k], s) > 0.5 {
				continue next
			}
		}
		kept, lines = append(kept, s), append(lines, through(s.a, s.b))
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
