package snapshot

import (
	"math"

	"heartside/layout/colour"
)

// Kind is how a kind of wood looks. Colours are of planed wood by eye; for no
// kind is a measured pair of heart and sap at hand.
type Kind struct {
	Name       string
	Heart, Sap colour.Lab
	Ring       float64 // mean width of a ring, mm
	Late       float64 // how late in a ring it darkens: 1 evenly, 8 a thin line
	Rings      float64 // how dark the end of a ring gets, 0 to 1
	Pores      float64 // 0 to 1
	Porous     bool    // pores crowd at the beginning of each ring
	Streaks    float64 // dark streaks in the heart, 0 to 1
	Pale       float64 // pale streaks in the heart, 0 to 1
	Edge       float64 // how much darker the heart is at its rim, 0 to 1
}

// Kinds returns the woods.
func Kinds() []Kind {
	lab := func(l, a, b float64) colour.Lab { return colour.Lab{L: l, A: a, B: b} }
	return []Kind{
		{"nut", lab(40, 8, 15), lab(68, 6, 21), 3.6, 2.4, .34, .5, false, .55, .5, .1},
		{"greynut", lab(46, 4, 13), lab(66, 4, 18), 4.4, 2.2, .30, .5, false, .7, .5, .2},
		{"fruitwood", lab(56, 15, 27), lab(74, 7, 24), 2.8, 5, .20, .12, false, .2, .5, .15},
		{"pencil", lab(50, 23, 22), lab(78, 5, 22), 2.4, 4, .22, .02, false, .35, .9, .1},
		{"oak", lab(58, 8, 23), lab(72, 4, 20), 2.6, 1.6, .30, .7, true, .1, .3, 0},
		{"larch", lab(58, 17, 31), lab(76, 7, 27), 3.2, 2.2, .58, .03, false, .1, .2, 0},
		{"fir", lab(63, 14, 27), lab(77, 6, 25), 4.6, 2.6, .60, .02, false, .05, .2, 0},
		{"pine", lab(66, 13, 33), lab(80, 4, 26), 3.4, 3, .42, .02, false, .05, .3, 0},
		{"ash", lab(54, 7, 19), lab(76, 4, 20), 3.8, 1.7, .34, .6, true, .4, .6, .1},
		{"maple", lab(54, 11, 20), lab(80, 4, 17), 3.0, 8, .16, .05, false, .5, .6, .35},
		{"robinia", lab(52, 7, 32), lab(77, 1, 28), 3.6, 1.6, .34, .6, true, .15, .3, 0},
		{"teak", lab(52, 11, 30), lab(72, 4, 24), 3.6, 1.8, .30, .45, true, .45, .3, 0},
		{"purple", lab(36, 19, 8), lab(73, 5, 20), 2.6, 3, .18, .3, false, .3, .2, 0},
		{"redheart", lab(42, 28, 22), lab(74, 7, 24), 2.4, 3, .20, .35, false, .5, .2, 0},
		{"ebony", lab(26, 4, 6), lab(66, 7, 22), 2.0, 3, .20, .25, false, .6, .4, 0},
		{"elm", lab(54, 9, 22), lab(66, 6, 22), 3.4, 1.5, .36, .7, true, .3, .5, .1},
		{"chestnut", lab(60, 7, 24), lab(70, 4, 21), 3.4, 1.6, .32, .6, true, .1, .3, 0},
		{"poplar", lab(57, -2, 20), lab(78, 1, 18), 5.0, 6, .14, .08, false, .6, .6, .2},
		{"beech", lab(54, 15, 21), lab(70, 9, 20), 2.6, 6, .14, .12, false, .6, .5, .4},
		{"yellow", lab(62, 6, 42), lab(80, 0, 22), 2.4, 3, .24, .1, false, .2, .3, 0},
	}
}

// difference is the plain CIELAB distance (CIE 1976).
func difference(a, b colour.Lab) float64 {
	return math.Hypot(a.L-b.L, math.Hypot(a.A-b.A, a.B-b.B))
}

// apart moves the sap away from the heart until they differ by at least least.
func (k Kind) apart(least float64) Kind {
	if d := difference(k.Heart, k.Sap); d < least && d > 0 {
		f := least / d
		k.Sap = colour.Lab{
			L: k.Heart.L + f*(k.Sap.L-k.Heart.L),
			A: k.Heart.A + f*(k.Sap.A-k.Heart.A),
			B: k.Heart.B + f*(k.Sap.B-k.Heart.B),
		}
	}
	return k
}
