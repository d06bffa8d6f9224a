package buy

import (
	"math"

	"heartside/layout/face"
)

// rip is one way to rip a length of a board into strips of a job.
type rip struct {
	width  float64 // of the strips together, or number of solid parts
	strips int
	up     [2]int     // the face that shows, of the strip at the marked edge and at the other
	un     [2]float64 // mm unwanted on show and back
	either float64    // mm unwanted on one of the two or both
	fixed  bool       // the unwanted wood cannot be ripped off
}

// gives returns what a rip counts for in a dim.
func (r *rip) gives(d dim) float64 {
	switch d {
	case dShow:
		return r.width - r.un[0]
	case dBack:
		return r.width - r.un[1]
	case dClear:
		if r.fixed {
			return r.width - r.un[0] - r.un[1]
		}
		return r.width - r.either
	case dAsIs:
		if r.fixed {
			return -r.un[0]
		}
		return 0
	case dAsIsBk:
		if r.fixed {
			return -r.un[1]
		}
		return 0
	}
	return r.width
}

// length is a length of a board between two cross-cuts, its strips from x0 to
// x1.
type length struct {
	b      *Board
	x0, x1 float64
}

// bands returns the sapwood along the two edges of a face in the length, mm:
// the widest it may be, and the narrowest.
func (l *length) bands(f int, doubt float64) (wide, narrow [2]float64) {
	for e := range wide {
		w := l.b.Sap[f][e]
		narrow[e], wide[e] = w.over(l.x0, l.x1, l.b.Length)
		if w != (Widths{}) {
			wide[e] = math.Min(l.b.Width, wide[e]+doubt)
		}
		narrow[e] = math.Max(0, narrow[e]-doubt)
		if l.b.Unseen[f] {
			wide[e], narrow[e] = l.b.Width, 0
		}
	}
	return wide, narrow
}

// rips returns the ways to rip a length for a job; none where it gives nothing.
func (l *length) rips(j *job, w *Work) []rip {
	e := w.Allowances.Joint + w.Allowances.Rest
	between := 2*e + w.Allowances.Kerf
	var wide, narrow [2][2]float64
	for f := range wide {
		wide[f], narrow[f] = l.bands(f, w.Doubt)
	}
	if j.solid {
		return l.parts(j, e, between, wide, narrow)
	}
	var out []rip
	for n := 1; ; n++ {
		all := l.b.Width - 2*e - float64(n-1)*between
		if all < float64(n)*j.least-tiny {
			break
		}
		r := rip{width: math.Min(all, float64(n)*j.most), strips: n, up: [2]int{1, 1}}
		switch {
		case !j.limited[0] && !j.limited[1]:
			out = append(out, r)
		case j.Wanted == face.WantSap:
			for up := 1; up <= 2; up++ {
				r.up = [2]int{up, up}
				out = append(out, asIsSap(r, narrow, e, float64(n-1)*between, all-r.width))
			}
		default:
			out = append(out, heartRips(r, j, wide, e, all)...)
		}
	}
	if j.limited[0] || j.limited[1] {
		out = append(out, l.clear(j, e, between, wide, narrow)...)
	}
	return out
}

// heartRips returns a length in n strips, each way up: its sapwood lies along
// the two edges, whose allowances are cut from it.
func heartRips(r rip, j *job, wide [2][2]float64, e, all float64) []rip {
	var out []rip
	for ups := range 4 {
		up := [2]int{1 + ups&1, 1 + ups>>1}
		if r.strips == 1 && up[0] != up[1] {
			continue
		}
		q := r
		q.up = up
		both, on := 0.0, [2]float64{}
		for edge, f := range up {
			s, b := math.Max(0, wide[f-1][edge]-e), math.Max(0, wide[2-f][edge]-e)
			q.un[0] += s
			q.un[1] += b
			q.either += math.Max(s, b)
		}
		q.un[0], q.un[1], q.either = math.Min(all, q.un[0]), math.Min(all, q.un[1]), math.Min(all, q.either)
		// Ripped clear, a strip must be left, and widths between those of two
		// numbers of strips must not be missing.
		q.fixed = all-q.either < j.least-tiny || j.most < 2*j.least-tiny
		if off := all - r.width; off > 0 && !q.fixed {
			// More is ripped off than the strips could hold: from what is
			// sapwood on both faces first, then on the show face.
			both = q.un[0] + q.un[1] - q.either
			on[0], on[1] = q.un[0]-both, q.un[1]-both
			for _, v := range [...]*float64{&both, &on[0], &on[1]} {
				t := math.Min(*v, off)
				*v -= t
				off -= t
			}
			q.un[0], q.un[1], q.either = both+on[0], both+on[1], both+on[0]+on[1]
		}
		q.un[0], q.un[1] = math.Min(q.un[0], q.width), math.Min(q.un[1], q.width)
		q.either = math.Min(q.either, q.width)
		out = append(out, q)
	}
	return out
}

// asIsSap returns a length in strips as it is where sapwood is wanted: what is
// lost between strips counts as lost from it.
func asIsSap(r rip, narrow [2][2]float64, e, lost, off float64) rip {
	for k, f := range [2]int{r.up[0] - 1, 2 - r.up[0]} {
		sap := math.Max(0, narrow[f][0]-e) + math.Max(0, narrow[f][1]-e) - lost - off
		r.un[k] = r.width - math.Max(0, math.Min(r.width, sap))
	}
	r.either, r.fixed = math.Min(r.width, r.un[0]+r.un[1]), true
	return r
}

// clear returns a length ripped clear of unwanted wood: on one face, which then
// shows, and on both.
func (l *length) clear(j *job, e, between float64, wide, narrow [2][2]float64) []rip {
	var out []rip
	for _, on := range [...][]int{{0}, {1}, {0, 1}} {
		r := rip{up: [2]int{on[0] + 1, on[0] + 1}, fixed: true}
		for _, room := range l.clearRooms(j, e, between, on, wide, narrow) {
			best, strips := 0.0, 0
			for n := 1; ; n++ {
				all := room - float64(n-1)*between
				if all < float64(n)*j.least-tiny {
					break
				}
				if v := math.Min(all, float64(n)*j.most); v > best+tiny {
					best, strips = v, n
				}
			}
			r.width += best
			r.strips += strips
		}
		if r.strips == 0 {
			continue
		}
		if len(on) == 1 {
			r.un[1] = r.width // not looked into
		}
		r.either = r.un[1]
		out = append(out, r)
	}
	return out
}

// clearRooms returns the widths across a length that are clear of unwanted wood
// on the given faces, within which strips as glued may lie.
func (l *length) clearRooms(j *job, e, between float64, on []int, wide, narrow [2][2]float64) []float64 {
	var off, sap [2]float64
	for edge := range off {
		off[edge], sap[edge] = e, math.Inf(1)
		for _, f := range on {
			off[edge] = math.Max(off[edge], wide[f][edge])
			sap[edge] = math.Min(sap[edge], narrow[f][edge])
		}
	}
	if j.Wanted != face.WantSap {
		return []float64{l.b.Width - off[0] - off[1]}
	}
	sap[0] = math.Min(sap[0], l.b.Width-e)
	sap[1] = math.Min(sap[1], l.b.Width-sap[0]-between)
	return []float64{sap[0] - e, sap[1] - e}
}

// parts returns a length in solid parts, as many as it holds.
func (l *length) parts(j *job, e, between float64, wide, narrow [2][2]float64) []rip {
	many := func(room float64) int {
		if room < j.least-tiny {
			return 0
		}
		return int((room+between)/(j.least+between) + tiny)
	}
	best := rip{up: [2]int{1, 1}}
	see := func(n int, up [2]int) {
		if n > best.strips {
			best.strips, best.up = n, up
		}
	}
	switch {
	case !j.limited[0] && !j.limited[1]:
		see(many(l.b.Width-2*e), best.up)
	case j.Wanted == face.WantSap:
		for _, on := range [...][]int{{0}, {1}, {0, 1}} {
			if len(on) == 1 && j.limited[1] || len(on) == 2 && !j.limited[1] {
				continue
			}
			n := 0
			for _, room := range l.clearRooms(j, e, between, on, wide, narrow) {
				n += many(room)
			}
			see(n, [2]int{on[0] + 1, on[0] + 1})
		}
	default:
		for ups := range 4 {
			up := [2]int{1 + ups&1, 1 + ups>>1}
			var off, bare [2]float64 // with as much sapwood as may be, and with none
			for edge, f := range up {
				off[edge], bare[edge] = e, e
				for k, g := range [2]int{f - 1, 2 - f} {
					if j.limited[k] {
						off[edge] = math.Max(off[edge], wide[g][edge]-j.may[k])
						bare[edge] = math.Max(bare[edge], wide[g][edge])
					}
				}
			}
			if n := many(l.b.Width - off[0] - off[1]); n >= 2 {
				see(n, up)
			} else if up[0] == up[1] {
				// The sapwood of one edge only is left in a single part.
				see(min(1, max(many(l.b.Width-off[0]-bare[1]), many(l.b.Width-bare[0]-off[1]))), up)
			}
		}
	}
	if best.strips == 0 {
		return nil
	}
	best.width = float64(best.strips)
	return []rip{best}
}
