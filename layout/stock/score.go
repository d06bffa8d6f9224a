package stock

import "math"

// totals are what a plan comes to; all of them add up over its bundles.
type totals struct {
	short  float64 // finished wood that is lacking, mm2
	over   float64 // unwanted wood beyond the limits, mm2
	used   float64 // mm2
	cost   float64
	look   float64 // wood that the looks do not welcome, mm2
	strips float64
	boards float64 // cut into that were whole
}

func (t totals) plus(o totals) totals {
	return totals{t.short + o.short, t.over + o.over, t.used + o.used, t.cost + o.cost, t.look + o.look, t.strips + o.strips, t.boards + o.boards}
}

// key is what plans are compared by, the weightiest first.
type key [7]float64

func (t totals) key(obj Objective) key {
	k := key{t.short, t.over}
	switch obj {
	case LeastCost:
		k[2], k[3], k[4], k[5], k[6] = t.cost, t.used, t.look, t.strips, t.boards
	case BestLook:
		k[2], k[3], k[4], k[5], k[6] = t.look, t.strips, t.used, t.cost, t.boards
	case FewestJoints:
		k[2], k[3], k[4], k[5], k[6] = t.strips, t.look, t.used, t.cost, t.boards
	case WholeBoards:
		k[2], k[3], k[4], k[5], k[6] = t.boards, t.used, t.cost, t.look, t.strips
	default:
		k[2], k[3], k[4], k[5], k[6] = t.used, t.cost, t.look, t.strips, t.boards
	}
	return k
}

// less reports whether a is better than b by more than rounding.
func (k key) less(b key) bool {
	for i := range k {
		eps := 1e-7 * math.Max(1, math.Max(math.Abs(k[i]), math.Abs(b[i])))
		if k[i] < b[i]-eps {
			return true
		}
		if k[i] > b[i]+eps {
			return false
		}
	}
	return false
}
