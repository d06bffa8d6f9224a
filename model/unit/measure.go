package unit

import "math"

// Volumes and areas in mm3 and mm2, exact by the definition of the inch.
const (
	BoardFootMM3  = 144 * InchMM * InchMM * InchMM // 2 359 737.216
	CubicFootMM3  = FootMM * FootMM * FootMM       // 28 316 846.592
	CubicMetreMM3 = 1e9
	SquareInchMM2 = InchMM * InchMM
	SquareFootMM2 = FootMM * FootMM
)

// BoardFeet returns a volume in mm3 in board feet of 144 cubic inches.
func BoardFeet(mm3 float64) float64 { return mm3 / BoardFootMM3 }

// CubicFeet returns a volume in mm3 in cubic feet.
func CubicFeet(mm3 float64) float64 { return mm3 / CubicFootMM3 }

// CubicMetres returns a volume in mm3 in cubic metres.
func CubicMetres(mm3 float64) float64 { return mm3 / CubicMetreMM3 }

// FormatVolume prints a volume in mm3: in m3 to four decimals as "0.0131 m³",
// under 0.001 m3 in whole cm3; in inches in board feet to two decimals as
// "5.55 bd ft".
func FormatVolume(mm3 float64, sys System) string { return FormatVolumeLike(mm3, mm3, sys) }

// FormatVolumeLike prints a volume in the unit that another one is printed in, so
// that the two can be compared.
func FormatVolumeLike(mm3, like float64, sys System) string {
	switch {
	case math.IsNaN(mm3) || math.IsInf(mm3, 0):
		return notKnown()
	case sys == Inch:
		return signed(BoardFeet(mm3), 2) + " bd ft"
	case math.Abs(like) < 1e6:
		return signed(mm3/1e3, 0) + " cm³"
	}
	return signed(CubicMetres(mm3), 4) + " m³"
}

// FormatCubicFeet prints a volume in mm3 in cubic feet to two decimals as
// "1.25 ft³".
func FormatCubicFeet(mm3 float64) string {
	if math.IsNaN(mm3) || math.IsInf(mm3, 0) {
		return notKnown()
	}
	return signed(CubicFeet(mm3), 2) + " ft³"
}

// FormatArea prints an area in mm2: from 0.1 m2 to three decimals as
// "0.405 m²", from 1 cm2 to 0.1 cm2 as "225 cm²", below in whole mm2; in inches
// from 1 square foot to two decimals as "4.36 ft²", below to 0.1 as "35 in²".
func FormatArea(mm2 float64, sys System) string { return FormatAreaLike(mm2, mm2, sys) }

// FormatAreaLike prints an area in the unit that another one is printed in, so that
// the two can be compared.
func FormatAreaLike(mm2, like float64, sys System) string {
	a := math.Abs(like)
	switch {
	case math.IsNaN(mm2) || math.IsInf(mm2, 0):
		return notKnown()
	case sys == Inch && a >= SquareFootMM2:
		return signed(mm2/SquareFootMM2, 2) + " ft²"
	case sys == Inch:
		return trimmed(mm2/SquareInchMM2, 1) + " in²"
	case a >= 1e5:
		return signed(mm2/1e6, 3) + " m²"
	case a >= 100:
		return trimmed(mm2/100, 1) + " cm²"
	}
	return signed(mm2, 0) + " mm²"
}
