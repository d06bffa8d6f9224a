package face

import "heartside/layout/geom"

// interval is a stretch along X or u, mm.
type interval struct{ from, to float64 }

// run is a part of a slice that several things share.
type run struct{ from, to int32 }

// addInterval adds iv to list[start:], which is kept sorted and joined where
// stretches meet within a thousandth of a millimetre.
func addInterval(list []interval, start int, iv interval) []interval {
	if !(iv.to > iv.from) {
		return list
	}
	const meet = 1e-3
	i := len(list)
	for i > start && list[i-1].from > iv.from {
		i--
	}
	if i > start && list[i-1].to >= iv.from-meet {
		i--
		iv.from, iv.to = list[i].from, max(list[i].to, iv.to)
	} else {
		list = append(list, interval{})
		copy(list[i+1:], list[i:])
	}
	k := i + 1
	for k < len(list) && list[k].from <= iv.to+meet {
		iv.to = max(iv.to, list[k].to)
		k++
	}
	list[i] = iv
	return append(list[:i+1], list[k:]...)
}

func sumIntervals(list []interval) float64 {
	var s float64
	for _, iv := range list {
		s += iv.to - iv.from
	}
	return s
}

// overlap returns the length that two sorted lists have in common.
func overlap(a, b []interval) float64 {
	var s float64
	for i, k := 0, 0; i < len(a) && k < len(b); {
		if d := min(a[i].to, b[k].to) - max(a[i].from, b[k].from); d > 0 {
			s += d
		}
		if a[i].to < b[k].to {
			i++
		} else {
			k++
		}
	}
	return s
}

// meanClamp returns the mean of a line from y0 to y1 held between lo and hi.
func meanClamp(y0, y1, lo, hi float64) float64 {
	switch {
	case y0 <= lo && y1 <= lo:
		return lo
	case y0 >= hi && y1 >= hi:
		return hi
	case min(y0, y1) >= lo && max(y0, y1) <= hi:
		return (y0 + y1) / 2
	case y1-y0 < 1e-9 && y0-y1 < 1e-9:
		return min(max((y0+y1)/2, lo), hi)
	}
	g := func(y float64) float64 { // integral of the held value
		switch {
		case y < lo:
			return lo * y
		case y > hi:
			return hi*y + (lo*lo-hi*hi)/2
		}
		return (y*y + lo*lo) / 2
	}
	return (g(y1) - g(y0)) / (y1 - y0)
}

// momentOf returns the integral of y over t.
func momentOf(t *geom.Trapezoid) float64 {
	sq := func(a, b float64) float64 { return (a*a + a*b + b*b) / 3 }
	return (t.X1 - t.X0) * (sq(t.Hi0, t.Hi1) - sq(t.Lo0, t.Lo1)) / 2
}
