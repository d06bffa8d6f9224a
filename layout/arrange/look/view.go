package look

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// longest is the greatest length, width or distance taken for a real one, mm.
// An engineering choice: it keeps slips of the pen from asking for endless work.
const longest = 1e5

// real reports whether sizes can be worked with.
func real(sizes ...float64) bool {
	for _, v := range sizes {
		if !(math.Abs(v) <= longest) {
			return false
		}
	}
	return true
}

// view is how much of a panel is looked at, by stations along it: its shape
// less what is hidden.
type view struct {
	cut         bool      // less than the whole rectangle
	front, rear []float64 // Y where what is seen begins and ends
	shut        []float64 // mm across that nobody sees
	group       []int     // stations in a row of which the same is seen, by station
	open        []float32 // share of each bin that is seen, by group; nil: all
}

// shutAll reports whether nothing is seen at a station.
func (v *view) shutAll(i int) bool { return v.rear[i] <= v.front[i] }

func viewOf(frame *face.Panel, n int) view {
	v := view{
		cut:   len(frame.Shape) > 2 || len(frame.Hidden) > 0,
		front: make([]float64, n), rear: make([]float64, n), shut: make([]float64, n),
	}
	for i := range v.rear {
		v.rear[i] = frame.Width
	}
	if !v.cut {
		return v
	}
	z := &layers{width: frame.Width, base: face.Heart, outline: frame.Outline()}
	for _, h := range frame.Hidden {
		z.zones = append(z.zones, face.Zone{Kind: face.Blank, Polygon: h})
	}
	v.group = make([]int, n)
	open := make([]float32, bins)
	var each []float32
	bin := frame.Width / bins
	for i := range n {
		v.front[i], v.rear[i], v.shut[i] = frame.Width, 0, frame.Width
		clear(open)
		for _, s := range z.at((float64(i) + 0.5) * frame.Length / float64(n)) {
			if s.kind == face.Blank {
				continue
			}
			v.front[i], v.rear[i] = math.Min(v.front[i], s.lo), math.Max(v.rear[i], s.hi)
			v.shut[i] -= s.hi - s.lo
			for c := int(s.lo / bin); c < bins && float64(c)*bin < s.hi; c++ {
				part := math.Min(s.hi, float64(c+1)*bin) - math.Max(s.lo, float64(c)*bin)
				open[c] += float32(math.Max(part, 0) / bin)
			}
		}
		if k := len(v.open); k == 0 || !slices.Equal(v.open[k-bins:], open) {
			v.open = append(v.open, open...)
		}
		v.group[i] = len(v.open)/bins - 1
		each = append(each, open...)
	}
	if len(v.open)/bins > mostGroups {
		v.merge(each)
	}
	return v
}

// mostGroups is how many parts of the length a shape with slanting sides is
// taken in, so that scoring stays quick. An engineering choice.
const mostGroups = 16

// merge takes stations together, each part of the length as their mean; each
// holds the share of each bin that is seen, by station.
func (v *view) merge(each []float32) {
	n := len(v.group)
	v.open = make([]float32, mostGroups*bins)
	count := [mostGroups]float32{}
	for i := range v.group {
		v.group[i] = (2*i + 1) * mostGroups / (2 * n)
		count[v.group[i]]++
		for c := range bins {
			v.open[v.group[i]*bins+c] += each[i*bins+c]
		}
	}
	for k := range v.open {
		v.open[k] /= max(count[k/bins], 1)
	}
}

// trimmed is the share of an outside long edge, of what is seen of the panel,
// along which the outermost strip has less than the least of unwanted wood: some
// of what the strip has comes off with the trimming or is hidden. e is 0 for
// the front and 1 for the rear.
func (j *Judge) trimmed(p *face.Panel, e int) float64 {
	if len(p.Strips) == 0 {
		return 0
	}
	s := &p.Strips[0]
	if e == 1 {
		s = &p.Strips[len(p.Strips)-1]
	}
	sh := j.sheetOf(s)
	if sh.board == nil {
		return 0
	}
	reach := sh.front
	if e == 1 {
		reach = sh.rear
	}
	over := -p.Y0() // of the strips over either edge of the panel
	bare := 0.0
	for i, w := range reach {
		off := over + j.view.front[i]
		if e == 1 {
			off = over + p.Width - j.view.rear[i]
		}
		if w >= 0 && off < s.W && float64(w)-math.Max(off, 0) < j.rules.Least {
			bare++
		}
	}
	return bare / float64(len(reach))
}
