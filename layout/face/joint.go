package face

import "math"

// jointData is what is read of the meeting of two neighbouring strips. It
// holds while both strips stay as they are and where they are to one another.
type jointData struct {
	a, b    uint64 // versions of the front and the rear strip
	shift   float64
	reading Joint
	faces   [2]jointFace
}

// jointFace is what the fragments on either side of a joint are to each other,
// the first index being the side: 0 the front strip, 1 the rear one.
type jointFace struct {
	links [][2]int32   // fragments that join over the glue line
	near  [2][]tint    // wanted wood beyond the joint near each fragment
	hard  [2][]float64 // length along which each fragment meets wanted wood there
}

// read fills j for strips a and b, a the front one; shift is the left end of a
// less that of b, what is added to a's u to get b's.
func (j *jointData) read(w *work, sa, sb *Strip, a, b *stripData, shift float64) {
	j.a, j.b, j.shift = a.version, b.version, shift
	j.reading = Joint{}
	for k := range j.faces {
		j.faces[k].read(&a.faces[k], &b.faces[k], sa.W, shift, a.key.wanted)
	}
	j.kinds(&a.faces[Show], &b.faces[Show], shift)
	j.steps(a, b, shift)
	from := max(a.ends.from, b.ends.from-shift)
	to := min(a.ends.to, b.ends.to-shift)
	if to <= from {
		return
	}
	places := threePlaces(interval{from, to})
	w.lay(sa, Show, a.key.up)
	for k, u := range places {
		_, j.reading.FrontW[k] = sapWidths(w.column.at(w.layers.list, u, sa.W))
	}
	w.lay(sb, Show, b.key.up)
	for k, u := range places {
		j.reading.RearW[k], _ = sapWidths(w.column.at(w.layers.list, u+shift, sb.W))
	}
}

// kinds finds what meets along the joint, and where it disagrees.
func (j *jointData) kinds(a, b *faceData, shift float64) {
	var alike [2]float64 // heart to heart, sap to sap
	var differ float64
	meet(a.runs[1], b.runs[0], shift, func(p, q *kindRun, length float64) {
		switch {
		case p.kind > Sap || q.kind > Sap:
		case p.kind == q.kind:
			alike[p.kind] += length
		default:
			differ += length
		}
	})
	known := alike[Heart] + alike[Sap] + differ
	if known <= 0 {
		j.reading.Kind = Unjudged
		return
	}
	j.reading.Mismatch = differ / known
	switch {
	case differ > alike[Heart] && differ > alike[Sap]:
		j.reading.Kind = SapHeart
	case alike[Sap] > alike[Heart]:
		j.reading.Kind = SapSap
	default:
		j.reading.Kind = HeartHeart
	}
}

// meet walks along two edges at once, the second moved by shift, and calls f
// for every pair of runs that face each other.
func meet(a, b []kindRun, shift float64, f func(p, q *kindRun, length float64)) {
	for i, k := 0, 0; i < len(a) && k < len(b); {
		p, q := &a[i], &b[k]
		if d := min(p.to, q.to-shift) - max(p.from, q.from-shift); d > 0 {
			f(p, q, d)
		}
		if p.to < q.to-shift {
			i++
		} else {
			k++
		}
	}
}

// steps finds the mean difference between the widths of sapwood that the two
// strips hold against the joint, over the places where either holds any.
func (j *jointData) steps(a, b *stripData, shift float64) {
	var sum, n float64
	other := b.joint[0]
	for c, wide := range a.joint[1] {
		k := int(math.Floor(((float64(c)+0.5)*cellSize + shift) / cellSize))
		u := (float64(c) + 0.5) * cellSize
		if k < 0 || k >= len(other) || u < a.ends.from || u > a.ends.to || u+shift < b.ends.from || u+shift > b.ends.to {
			continue
		}
		if wide > 0 || other[k] > 0 {
			sum += math.Abs(float64(wide - other[k]))
			n++
		}
	}
	if n > 0 {
		j.reading.Step = sum / n
	}
}

// read finds which fragments join over the glue line, what wanted wood lies
// near each beyond it, and how far it is bounded by it.
func (j *jointFace) read(a, b *faceData, width, shift float64, wanted Wanted) {
	j.links = j.links[:0]
	for k, f := range [2]*faceData{a, b} {
		j.near[k], j.hard[k] = j.near[k][:0], j.hard[k][:0]
		for range f.frags {
			j.near[k] = append(j.near[k], tint{})
			j.hard[k] = append(j.hard[k], 0)
		}
	}
	j.join(a, b, width, shift)
	meet(a.runs[1], b.runs[0], shift, func(p, q *kindRun, length float64) {
		if p.owner >= 0 && p.kind != Flaw && q.kind == wanted.Wood() {
			j.hard[0][p.owner] += length
		}
		if q.owner >= 0 && q.kind != Flaw && p.kind == wanted.Wood() {
			j.hard[1][q.owner] += length
		}
	})
	if !a.woods.comparable(&b.woods) {
		return
	}
	columns := int(math.Round(shift / cellSize))
	for k := range a.frags {
		if fr := &a.frags[k]; fr.area > 0 && fr.box.Max.Y > width-nearby {
			j.near[0][k] = b.cells.near(fr, a.tens, columns, -width)
		}
	}
	for k := range b.frags {
		if fr := &b.frags[k]; fr.area > 0 && fr.box.Min.Y < nearby {
			j.near[1][k] = a.cells.near(fr, b.tens, -columns, width)
		}
	}
}

// join links the fragments whose pieces lie within the gap of one another
// across the glue line.
func (j *jointFace) join(a, b *faceData, width, shift float64) {
	begun := 0
	for i := range a.pieces {
		p := &a.pieces[i]
		if a.owner[i] < 0 || max(p.Hi0, p.Hi1) < width-gapAcross {
			continue
		}
		// b's pieces are in the order of X0, but an early one may be long.
		for k := begun; k < len(b.pieces); k++ {
			q := &b.pieces[k]
			if q.X0-shift > p.X1+touching {
				break
			}
			if b.owner[k] < 0 || min(q.Lo0, q.Lo1) > gapAcross {
				continue
			}
			gap := gapAcross
			if Kind(p.Label) == Flaw || Kind(q.Label) == Flaw {
				gap = touching
			}
			pair := [2]int32{a.owner[i], b.owner[k]}
			if n := len(j.links); (n == 0 || j.links[n-1] != pair) && nearAcross(p, q, -shift, width, gap) {
				j.links = append(j.links, pair)
			}
		}
	}
}
