package scene

import (
	"sort"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// kindAt returns the kind on top of a face at a point, Blank outside its
// outline.
func kindAt(b *face.Board, f int, p geom.Point) face.Kind {
	bf := &b.Faces[f-1]
	if bf.Outline != nil && !bf.Outline.Contains(p) {
		return face.Blank
	}
	if i := zoneAt(b, f, p); i >= 0 {
		return bf.Zones[i].Kind
	}
	return bf.Base
}

// zoneAt returns the topmost zone of a face at a point, -1 none.
func zoneAt(b *face.Board, f int, p geom.Point) int {
	zones := b.Faces[f-1].Zones
	for i := len(zones) - 1; i >= 0; i-- {
		if zones[i].Polygon.Contains(p) {
			return i
		}
	}
	return -1
}

// run is a stretch of one kind across a face.
type run struct {
	y0, y1 float64
	kind   face.Kind
}

// runsAt returns the kinds met across a face at x, from y = 0 to its width.
func runsAt(b *face.Board, f int, x float64) []run {
	bf := &b.Faces[f-1]
	ys := []float64{0, b.Width}
	add := func(p geom.Polygon) {
		for i, a := range p {
			c := p[(i+1)%len(p)]
			if (a.X > x) != (c.X > x) {
				if y := a.Y + (x-a.X)/(c.X-a.X)*(c.Y-a.Y); y > 0 && y < b.Width {
					ys = append(ys, y)
				}
			}
		}
	}
	add(bf.Outline)
	for i := range bf.Zones {
		add(bf.Zones[i].Polygon)
	}
	sort.Float64s(ys)
	var out []run
	for i := 0; i+1 < len(ys); i++ {
		if ys[i+1]-ys[i] < 1e-9 {
			continue
		}
		k := kindAt(b, f, geom.Pt(x, (ys[i]+ys[i+1])/2))
		if n := len(out); n > 0 && out[n-1].kind == k {
			out[n-1].y1 = ys[i+1]
			continue
		}
		out = append(out, run{ys[i], ys[i+1], k})
	}
	return out
}

// sapAtEdges returns the sap widths measured at x from the edge at y = 0 and
// from the edge at y = width, in from where the wood begins.
func sapAtEdges(b *face.Board, f int, x float64) (low, high run) {
	rs := runsAt(b, f, x)
	for len(rs) > 0 && rs[0].kind == face.Blank {
		rs = rs[1:]
	}
	for len(rs) > 0 && rs[len(rs)-1].kind == face.Blank {
		rs = rs[:len(rs)-1]
	}
	if len(rs) > 0 && rs[0].kind == face.Sap {
		low = rs[0]
	}
	if n := len(rs); n > 0 && rs[n-1].kind == face.Sap {
		high = rs[n-1]
	}
	return low, high
}

// lightStations is how many lines across a face its light share is read from.
const lightStations = 128

// lightShare returns the shares of a face that are sapwood and that have not
// been seen, read along lines across it; false where there is no wood.
func lightShare(b *face.Board, f int) (sap, unseen float64, ok bool) {
	var all float64
	for i := 0; i < lightStations; i++ {
		for _, r := range runsAt(b, f, b.Length*(float64(i)+0.5)/lightStations) {
			w := r.y1 - r.y0
			switch r.kind {
			case face.Blank:
				continue
			case face.Sap:
				sap += w
			case face.Unseen:
				unseen += w
			}
			all += w
		}
	}
	if all == 0 {
		return 0, 0, false
	}
	return sap / all, unseen / all, true
}
