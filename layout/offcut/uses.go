package offcut

import (
	"fmt"
	"math"

	"heartside/layout/cutting"
)

// Want is a small part that offcuts might give, its grain along its length.
// Sizes are finished, mm.
type Want struct {
	ID                       string
	Length, Width, Thickness float64 // Thickness 0: any board will do
	Clear                    bool    // no flaw in the offcut
}

// Use is what one offcut would give of a want.
type Use struct {
	Offcut int // which of the list
	Want   string
	Along  int // pieces one behind the other
	Across int // side by side
}

// Count returns how many pieces it gives.
func (u Use) Count() int { return u.Along * u.Across }

// Uses returns for every offcut what it would give if it were cut for one of the
// wants alone, in the order of the offcuts and the wants; those that give nothing
// are left out. The pieces' blanks have the allowances, with a saw cut between
// two. plane is the least thickness that planing takes off.
func Uses(list []Offcut, wants []Want, a cutting.Allowances, plane float64) ([]Use, error) {
	for _, w := range wants {
		for _, v := range [...]float64{w.Length, w.Width} {
			if !(v > 0) || math.IsInf(v, 0) {
				return nil, fmt.Errorf("part %s: %g x %g mm is no size; give length and width over 0", w.ID, w.Length, w.Width)
			}
		}
	}
	var out []Use
	for i := range list {
		o := &list[i]
		for _, w := range wants {
			if w.Clear && o.Flaw || w.Thickness > 0 && o.Thickness > 0 && o.Thickness < w.Thickness+plane-0.01 {
				continue
			}
			l, b := cutting.BlankSize(w.Length, w.Width, a)
			u := Use{i, w.ID, many(o.Length(), l, a.Kerf), many(o.Width(), b, a.Kerf)}
			if u.Count() > 0 {
				out = append(out, u)
			}
		}
	}
	return out, nil
}

// many returns how many pieces of a size lie in a room with a kerf between.
func many(room, size, kerf float64) int {
	return int(math.Floor((room+kerf)/(size+kerf) + 1e-9))
}
