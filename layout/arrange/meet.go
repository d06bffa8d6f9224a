package arrange

import (
	"math"
	"slices"

	"heartside/layout/face"
)

// excused tells why the wood that w warned of stands no longer alone, and
// which strips it meets or mirrors.
func (o *outcome) excused(w *note, width float64) (face.Excuse, []string) {
	switch w.Kind {
	case face.LoneStreak, face.OneSidedJoint, face.OneSidedEdge, face.SliverKind:
	default:
		return face.NoExcuse, nil
	}
	if len(w.Strips) == 0 || w.Side > face.Back {
		return face.NoExcuse, nil
	}
	list := o.bands[w.Side]
	at := -1
	for i := range list {
		if slices.Contains(list[i].strips, w.Strips[0]) && (at < 0 || list[i].area > list[at].area) {
			at = i
		}
	}
	if at < 0 {
		return face.NoExcuse, nil
	}
	b := &list[at]
	switch b.excuse {
	case face.ExcuseJoint:
		return b.excuse, others(b.strips, w.Strips[0])
	case face.ExcuseMirror, face.ExcusePair:
		// The band nearest to its reflection; of a pair, the one beside it.
		best, off := -1, math.Inf(1)
		for i := range list {
			if i == at || b.excuse == face.ExcusePair && len(list[i].strips) != 1 {
				continue
			}
			d := math.Abs(b.centre + list[i].centre - width)
			if b.excuse == face.ExcusePair {
				d = math.Abs(b.centre - list[i].centre)
			}
			if d < off {
				best, off = i, d
			}
		}
		if best >= 0 && (b.excuse == face.ExcusePair || math.Abs(2*b.centre-width) > off) {
			return b.excuse, others(list[best].strips, w.Strips[0])
		}
	}
	return b.excuse, nil
}

func others(ids []string, id string) []string {
	var out []string
	for _, s := range ids {
		if s != id {
			out = append(out, s)
		}
	}
	return out
}
