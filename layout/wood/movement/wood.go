package movement

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/wood/moisture"
)

// Number is a value of a table and how it was obtained. A value of 0 is
// unknown.
type Number struct {
	Value float64
	Flag  moisture.Flag
}

// Wood is what is known of a wood's movement. Either the coefficient or the
// shrinkage will do; the one gives the other.
type Wood struct {
	Name string
	// Change of size per 1 % MC as a share of the size at 10 %, along the rings
	// and across them: Wood Handbook, Table 13-5.
	CT, CR Number
	// Shrinkage from green to ovendry, % of the green size, along the rings,
	// across them and of the volume: Tables 4-3 and 4-4.
	ST, SR, SV Number
	// FSP is the MC above which nothing moves; 0 stands for 30.
	FSP float64
	// SapFactor is how much sapwood moves against heartwood; 0 stands for 1.00.
	SapFactor float64
	// SG12 is the specific gravity: ovendry weight, volume at 12 % MC.
	SG12 Number
	// Stiffness along the rings and across them, MPa.
	ET, ER Number
}

// Sources of the numbers.
const (
	tableC = "Wood Handbook (FPL-GTR-190), Table 13-5"
	tableS = "Wood Handbook (FPL-GTR-190), Tables 4-3 and 4-4"
	eq132  = "Wood Handbook (FPL-GTR-190), eq. 13-2"
	eq133  = "Wood Handbook (FPL-GTR-190), eq. 13-3"
)

// SapText is said wherever a factor for sapwood is set or used.
const SapText = "The published tables make no difference between heartwood and sapwood, and no measured pair was found for furniture woods: 1.00 unless you know better."

// AverageText is said beside every movement.
const AverageText = "The published numbers are averages of many boards. Most boards are not quite flat-sawn, so this rather says too much of the width; single boards differ."

// FSP returns the moisture content above which a wood of the table does not
// move: 22 for western redcedar and redwood (footnote of Table 13-5, from
// memory; only 22 gives their printed coefficients from their shrinkage), 30
// for all others. The id is the catalog's, such as "redwood-old-growth".
func FSP(id string) float64 {
	if id == "cedar-western-red" || strings.HasPrefix(id, "redwood") {
		return 22
	}
	return 30
}

// Check says what is wrong with the numbers of a wood.
func (w Wood) Check() error {
	for _, n := range []struct {
		name  string
		value float64
		most  float64
	}{
		{"tangential coefficient", w.CT.Value, 0.01}, {"radial coefficient", w.CR.Value, 0.01},
		{"tangential shrinkage", w.ST.Value, 30}, {"radial shrinkage", w.SR.Value, 30}, {"shrinkage of the volume", w.SV.Value, 40},
		{"fibre saturation point", w.FSP, 40}, {"sapwood factor", w.SapFactor, 3}, {"specific gravity", w.SG12.Value, 1.5},
		{"stiffness along the rings", w.ET.Value, 50000}, {"stiffness across the rings", w.ER.Value, 50000},
	} {
		if !(n.value >= 0 && n.value <= n.most) {
			return fmt.Errorf("%s: %s %g: want 0 (unknown) to %g", w.name(), n.name, n.value, n.most)
		}
	}
	if w.FSP != 0 && w.FSP < 15 {
		return fmt.Errorf("%s: fibre saturation point %g %%: want 15 to 40, or 0 for 30", w.name(), w.FSP)
	}
	if w.CT.Value == 0 && w.ST.Value == 0 {
		return fmt.Errorf("%s: no coefficient and no shrinkage along the rings; enter one of them, or choose a wood of the table", w.name())
	}
	return nil
}

func (w Wood) name() string {
	if w.Name == "" {
		return "wood without a name"
	}
	return w.Name
}

func (w Wood) fsp() float64 {
	if w.FSP == 0 {
		return 30
	}
	return w.FSP
}

// Sap returns the factor of sapwood.
func (w Wood) Sap() float64 {
	if w.SapFactor == 0 {
		return 1
	}
	return w.SapFactor
}

// CoefficientOf returns the coefficient that goes with a shrinkage of s per
// cent: C = 1 / (FSP*100/s - FSP + 10), the shrinkage form taken from 10 % MC.
// It gives the printed coefficients to the last digit wherever the table did
// not borrow them from another wood or a group (C).
func CoefficientOf(s, fsp float64) float64 { return 1 / (fsp*100/s - fsp + 10) }

// ShrinkageOf turns CoefficientOf round.
func ShrinkageOf(c, fsp float64) float64 { return fsp * 100 / (1/c + fsp - 10) }

// direction is a wood's movement one way.
type direction struct {
	c, s Number
	// beside is true where s is not the table's: the shrinkage that goes with
	// the coefficient is greater.
	beside bool
}

// apart is by how much the shrinkage that goes with the coefficient may pass
// the table's: the last digit of a coefficient is up to 0.7 % of it. An
// engineering choice.
const apart = 1.02

func (w Wood) tangential() direction { return resolve(w.CT, w.ST, w.fsp()) }

// radial falls back on the tangential numbers: too much rather than too
// little.
func (w Wood) radial() direction {
	if w.CR.Value == 0 && w.SR.Value == 0 {
		return w.tangential()
	}
	return resolve(w.CR, w.SR, w.fsp())
}

// resolve fills in what is missing. Where the two contradict each other, the
// table's coefficient holds inside its limits and the greater outside, so that
// a little more drying never means less movement.
func resolve(c, s Number, fsp float64) direction {
	switch {
	case c.Value == 0:
		return direction{c: Number{CoefficientOf(s.Value, fsp), moisture.Derived}, s: s}
	case s.Value == 0:
		return direction{c: c, s: Number{ShrinkageOf(c.Value, fsp), moisture.Derived}}
	}
	if other := ShrinkageOf(c.Value, fsp); other > s.Value*apart {
		return direction{c: c, s: Number{other, moisture.Derived}, beside: true}
	}
	return direction{c: c, s: s}
}

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
