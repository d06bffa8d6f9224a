package wood

import (
	"math"
	"sort"
)

// line is where heartwood begins and ends across one station, in face-1
// across. NaN where the station does not tell.
type line struct {
	x      float64
	lo, hi float64 // mm; lo >= hi: no heartwood
	bare   bool    // sapwood only
}

// vague is how far a flaw may hide the edge of the heartwood before the
// station is taken to say nothing, mm. An engineering choice.
const vague = 12.0

// lines returns the edges of the heartwood along a face. side 1 is turned into
// face-1 across.
func lines(f Face, width float64, side int) []line {
	out := make([]line, len(f))
	for i, s := range f {
		lo, hi, bare := s.heart(width)
		if side == 1 {
			lo, hi = width-hi, width-lo
		}
		out[i] = line{s.X, lo, hi, bare}
	}
	return out
}

// piece is a stretch of one kind: heart +1, sap -1.
type piece struct {
	Span
	sign float64
}

// heart returns the one stretch of heartwood that fits a station best: sapwood
// below lo, heartwood from lo to hi, sapwood above. Stray islands cost their
// width; what is not known costs nothing.
func (s Station) heart(width float64) (lo, hi float64, bare bool) {
	var ps []piece
	for _, p := range s.Heart {
		ps = append(ps, piece{p, 1})
	}
	for _, p := range s.Sap {
		ps = append(ps, piece{p, -1})
	}
	if len(ps) == 0 {
		return math.NaN(), math.NaN(), false
	}
	sort.Slice(ps, func(i, j int) bool { return ps[i].From < ps[j].From })
	// The best stretch is the greatest sum of heart less sap.
	best, from, to := 0.0, -1, -1
	run, start := 0.0, 0
	for i, p := range ps {
		if run <= 0 {
			run, start = 0, i
		}
		run += p.sign * (p.To - p.From)
		if p.sign > 0 && run > best {
			best, from, to = run, start, i
		}
	}
	if from < 0 {
		return math.NaN(), math.NaN(), true
	}
	lo, hi = ps[from].From, ps[to].To
	// Between the last sapwood and the first heartwood something may hide the
	// edge; at the board's own edge that is taken for more of the same.
	if from > 0 {
		gap := lo - ps[from-1].To
		lo -= gap / 2
		if gap > vague {
			lo = math.NaN()
		}
	} else if lo <= vague {
		lo = 0
	} else {
		lo = math.NaN()
	}
	if to < len(ps)-1 {
		gap := ps[to+1].From - hi
		hi += gap / 2
		if gap > vague {
			hi = math.NaN()
		}
	} else if hi >= width-vague {
		hi = width
	} else {
		hi = math.NaN()
	}
	return lo, hi, false
}

// border is what one face says about one edge of the board, over its length.
type border struct {
	state borderState
	at    float64 // across, mm: where heartwood ends, or the board's edge
	noise float64 // mm, of at
}

type borderState uint8

const (
	unknown borderState = iota
	seen                // the heartwood's edge lies on the face
	beyond              // heartwood up to the board's edge
)

// Shares of the stations that decide; engineering choices.
const (
	fewest  = 0.2  // stations that tell, for the face to tell
	traces  = 0.08 // with sapwood at an edge, for it to count
	touches = 0.6  // with sapwood at an edge, for its depth to be known
)

// borders returns what a face says at the marked edge and the other one, and
// whether it shows sapwood only.
func borders(ls []line, width float64) (b [2]border, bare bool) {
	var depth [2][]float64
	none := 0
	for _, l := range ls {
		if l.bare {
			none++
		}
		if !math.IsNaN(l.lo) {
			depth[0] = append(depth[0], l.lo)
		}
		if !math.IsNaN(l.hi) {
			depth[1] = append(depth[1], width-l.hi)
		}
	}
	if len(ls) > 0 && 2*none > len(ls) {
		return b, true
	}
	for k, d := range depth {
		if len(d) == 0 || float64(len(d)) < fewest*float64(len(ls)) {
			continue
		}
		sort.Float64s(d)
		with := len(d) - sort.SearchFloat64s(d, thin)
		share := float64(with) / float64(len(d))
		mid := d[len(d)/2]
		spread := (d[len(d)*9/10] - d[len(d)/10]) / 2.5
		switch {
		case share < traces:
			b[k] = border{beyond, 0, 2}
		case share < touches:
			// The edge of the heartwood runs on and off the face.
			b[k] = border{seen, 0, math.Max(4, spread)}
		default:
			b[k] = border{seen, mid, 2 + spread/3}
		}
	}
	b[1].at = width - b[1].at
	return b, false
}

// thin is the least sapwood that counts at an edge, mm: less is how well an
// edge can be seen. An engineering choice.
const thin = 1.5
