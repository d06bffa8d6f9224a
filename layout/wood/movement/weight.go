package movement

import (
	"fmt"
	"math"

	"heartside/layout/wood/moisture"
)

// Density spread: the coefficient of variation of a wood's specific gravity is
// about 10 % (Wood Handbook, ch. 4, from memory).
const densitySpread = 0.10

// Weight is the weight of a piece of wood, kg.
type Weight struct {
	Size
	Density float64 // kg/m3
	MC      float64 // %

	wood   Wood
	swell  float64
	volume float64 // m3
}

// Weight returns the weight of volume mm3 of the wood, as it measures now at a
// moisture content of mc per cent. The specific gravity of the table is of
// ovendry weight and the volume at 12 % MC: density = 1000 SG12 (1 + MC/100) /
// (volume at MC / volume at 12 %), the volume by the linear shrinkage of the
// Wood Handbook, ch. 4 (form from memory).
func (w Wood) Weight(volume, mc float64) (*Weight, error) {
	if err := w.Check(); err != nil {
		return nil, err
	}
	if w.SG12.Value == 0 {
		return nil, fmt.Errorf("%s: specific gravity not known; weigh an offcut", w.name())
	}
	if !(volume >= 0) || math.IsInf(volume, 0) || !(mc >= 0 && mc <= 300) {
		return nil, fmt.Errorf("%s: volume %g mm3 at %g %% MC: want a volume of 0 or more and 0 to 300 %%", w.name(), volume, mc)
	}
	out := &Weight{MC: mc, wood: w, volume: volume / 1e9}
	out.swell = w.volume(mc) / w.volume(12)
	out.Density = 1000 * w.SG12.Value * (1 + mc/100) / out.swell
	kg := out.Density * out.volume
	out.Size = Size{kg, kg * (1 - densitySpread), kg * (1 + densitySpread)}
	return out, nil
}

// volume returns the volume at a moisture content as a share of the green one.
// Where the shrinkage of the volume is not known, that of both directions
// together stands for it.
func (w Wood) volume(mc float64) float64 {
	s := w.SV.Value
	if s == 0 {
		s = w.tangential().s.Value + w.radial().s.Value
	}
	return 1 - s/100*(1-math.Min(mc, w.fsp())/w.fsp())
}

// Working shows how the weight was worked out.
func (k *Weight) Working() moisture.Working {
	return moisture.Working{
		{Formula: "SG12 = ovendry weight / weight of water of the volume at 12 % MC", Values: []moisture.Value{{Name: "SG12", Number: k.wood.SG12.Value}}, Source: "Wood Handbook (FPL-GTR-190), Table 5-3", Flag: k.wood.SG12.Flag},
		{Formula: "density = 1000 SG12 (1 + MC/100) / v, v = volume at MC / volume at 12 %", Values: []moisture.Value{{Name: "MC", Number: k.MC, Unit: "%"}, {Name: "v", Number: k.swell}, {Name: "density", Number: k.Density, Unit: "kg/m3"}}, Source: "Wood Handbook, ch. 4", Flag: moisture.Memory},
		{Formula: "weight = density x volume; a wood's weight varies by about 10 %", Values: []moisture.Value{{Name: "volume", Number: k.volume, Unit: "m3"}, {Name: "weight", Number: k.Value, Unit: "kg"}, {Name: "least", Number: k.Lo, Unit: "kg"}, {Name: "most", Number: k.Hi, Unit: "kg"}}, Source: "Wood Handbook, ch. 4", Flag: moisture.Memory},
	}
}
