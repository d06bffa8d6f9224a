package intake

import (
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// laid returns a mask with what was set by hand on it.
func laid(m, by *photo.Mask) *photo.Mask {
	if by == nil {
		return m
	}
	out := *m
	out.Pix = append([]photo.Label(nil), m.Pix...)
	for k, l := range by.Pix {
		if l != photo.Outside {
			out.Pix[k] = l
		}
	}
	return &out
}

// differing returns by with the cells in which now differs from was.
func differing(by, was, now *photo.Mask) *photo.Mask {
	out := *now
	out.Pix = make([]photo.Label, len(now.Pix))
	if by != nil {
		copy(out.Pix, by.Pix)
	}
	for k, l := range now.Pix {
		if l != was.Pix[k] {
			out.Pix[k] = l
		}
	}
	return &out
}

// opened drops what is nowhere 3 cells thick: zones are drawn to within a
// millimetre, and such slivers along their borders were set by nobody.
func opened(by *photo.Mask) *photo.Mask {
	const side = 3
	out := *by
	out.Pix = make([]photo.Label, len(by.Pix))
	for j := 0; j+side <= by.H; j++ {
		for i := 0; i+side <= by.W; i++ {
			full := true
			for k := 0; k < side*side && full; k++ {
				full = by.At(i+k%side, j+k/side) != photo.Outside
			}
			for k := 0; k < side*side && full; k++ {
				at := (j+k/side)*by.W + i + k%side
				out.Pix[at] = by.Pix[at]
			}
		}
	}
	return &out
}

// changeOf compares two masks; points are the marks of the act, none where it
// has no place of its own.
func changeOf(was, now *photo.Mask, points []geom.Point) Change {
	n, far := 0, 0
	var near []bool
	if len(points) > 0 {
		near = reached(was, now, points)
	}
	for k, l := range now.Pix {
		if l == was.Pix[k] {
			continue
		}
		n++
		if near != nil && !near[k] {
			far++
		}
	}
	all := float64(max(len(now.Pix), 1))
	return Change{Share: float64(n) / all, Far: float64(far) / all}
}

// reached returns the changed cells that hang together with a line. A stroke
// that changes nothing where it lies reaches what begins within a few mm of
// it.
func reached(was, now *photo.Mask, points []geom.Point) []bool {
	const about = 6 // mm
	w, h := now.W, now.H
	out := make([]bool, w*h)
	var list []int
	kx, ky := float64(w)/now.Length, float64(h)/now.Width
	add := func(i, j int) {
		if i < 0 || j < 0 || i >= w || j >= h {
			return
		}
		if k := j*w + i; !out[k] && now.Pix[k] != was.Pix[k] {
			out[k] = true
			list = append(list, k)
		}
	}
	dot := func(p geom.Point) {
		ci, cj := int(p.X*kx), int((now.Width-p.Y)*ky)
		for j := cj - int(about*ky); j <= cj+int(about*ky); j++ {
			for i := ci - int(about*kx); i <= ci+int(about*kx); i++ {
				add(i, j)
			}
		}
	}
	for n, p := range points {
		dot(p)
		if n == 0 {
			continue
		}
		q := points[n-1]
		for d := float64(about); d < p.Dist(q); d += about {
			dot(q.Lerp(p, d/p.Dist(q)))
		}
	}
	for n := 0; n < len(list); n++ {
		i, j := list[n]%w, list[n]/w
		add(i-1, j)
		add(i+1, j)
		add(i, j-1)
		add(i, j+1)
	}
	return out
}
