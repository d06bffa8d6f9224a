package moisture

import (
	"fmt"
	"math"
)

// Limits of the published values: Table 4-2 of the Wood Handbook runs from 30
// degrees F and from 5 to 95 per cent RH, and was compared here up to 140
// degrees F. Below 5 per cent the formula runs to 0 at 0.
const (
	MaxRH   = 95.0
	MinTemp = (30.0 - 32) / 1.8 // -1.1 C
	MaxTemp = (140.0 - 32) / 1.8
)

// EMCSource names where the formula and its constants come from.
const EMCSource = "Wood Handbook (FPL-GTR-282, 2021), eq. 4-5"

// EMCCaveat is said beside every equilibrium moisture content.
const EMCCaveat = "For practical use: it knows no difference between woods, nor between wood that dries and wood that takes up water (FPL-GTR-229)."

// constants are W, K, K1 and K2 of eq. 4-5 as polynomials of the temperature.
type constants [4][3]float64

// celsius is quoted from FPL-GTR-282, p. 4-3 (S), and gives 228 cells of Table
// 4-2 within 0.055 points (C).
var celsius = constants{
	{349, 1.29, 0.0135},
	{0.805, 0.000736, -0.00000273},
	{6.27, -0.00938, -0.000303},
	{1.91, 0.0407, -0.000293},
}

// at returns the moisture content in per cent at a relative humidity h, 0 to
// 1, and a temperature in the unit of the constants.
func (c *constants) at(h, temp float64) float64 {
	var v [4]float64
	for i, p := range c {
		v[i] = p[0] + temp*(p[1]+temp*p[2])
	}
	kh := v[1] * h
	first, second := v[2]*kh, v[2]*v[3]*kh*kh
	return 1800 / v[0] * (kh/(1-kh) + (first+2*second)/(1+first+second))
}

// EMC returns the moisture content, in per cent, that wood reaches in air of
// relative humidity rh (0 to 95 per cent) at temp (-1.1 to 60 degrees C), by
// the Hailwood-Horrobin form of the Wood Handbook, eq. 4-5.
func EMC(rh, temp float64) (float64, error) {
	if err := checkTemp(temp); err != nil {
		return 0, err
	}
	if !(rh >= 0 && rh <= 100) {
		return 0, fmt.Errorf("relative humidity %g %%: want 0 to %g", rh, MaxRH)
	}
	if rh > MaxRH {
		return 0, fmt.Errorf("relative humidity %g %%: the published values end at %g; enter a meter's reading of the wood instead", rh, MaxRH)
	}
	return celsius.at(rh/100, temp), nil
}

// RH returns the relative humidity, in per cent and good to 0.001, in which
// wood keeps a moisture content mc at temp degrees C: EMC turned round.
func RH(mc, temp float64) (float64, error) {
	if err := checkTemp(temp); err != nil {
		return 0, err
	}
	most := celsius.at(MaxRH/100, temp)
	if !(mc >= 0 && mc <= most) {
		return 0, fmt.Errorf("moisture content %g %% at %g C: want 0 to %.1f, where the published values end", mc, temp, most)
	}
	lo, hi := 0.0, MaxRH
	for hi-lo > 1e-6 {
		mid := (lo + hi) / 2
		if celsius.at(mid/100, temp) < mc {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}

func checkTemp(temp float64) error {
	if math.IsNaN(temp) || temp < MinTemp || temp > MaxTemp {
		return fmt.Errorf("temperature %g C: want %.1f to %.0f, where values are published; enter a meter's reading of the wood instead", temp, MinTemp, MaxTemp)
	}
	return nil
}
