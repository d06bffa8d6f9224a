package cup

import (
	"fmt"
	"math"
)

// Layer is a layer of a section: its thickness (mm), its modulus across the
// width (N/mm2; only the ratios count for the bend) and the strain it would
// have if it were free.
type Layer struct{ Thickness, Modulus, Strain float64 }

// Bend is a section of layers that bend together.
type Bend struct {
	// Kappa is the curvature, 1/mm, positive where the top is hollow (the top
	// is shorter).
	Kappa float64
	// Strain is the change of width at the height Centre (mm from the
	// bottom), the centre of stiffness.
	Strain, Centre float64
	Stress         []LayerStress // as the layers
	Working        []Step
}

// LayerStress is the stress at the bottom and the top of a layer, N/mm2,
// positive where pulled. Wood gives way with time: these are the greatest.
type LayerStress struct{ Bottom, Top float64 }

// Layers returns how a section of layers, from the back to the show face,
// bends: the composite section, plane sections staying plane.
func Layers(layers []Layer) (*Bend, error) {
	if len(layers) == 0 {
		return nil, fmt.Errorf("a section of no layers: give at least one")
	}
	var ea, es, ee, y float64
	for i, l := range layers {
		if badNumber(l.Thickness, l.Modulus, l.Strain) || l.Thickness <= 0 || l.Modulus <= 0 || math.Abs(l.Strain) > most {
			return nil, fmt.Errorf("layer %d from the back, %g mm of modulus %g and strain %g: thickness and modulus must be above 0, the strain a part", i+1, l.Thickness, l.Modulus, l.Strain)
		}
		top := y + l.Thickness
		ea += l.Modulus * l.Thickness
		es += l.Modulus * (top*top - y*y) / 2
		ee += l.Modulus * l.Thickness * l.Strain
		y = top
	}
	b := &Bend{Strain: ee / ea, Centre: es / ea}
	var moment, stiff float64
	each(layers, b.Centre, func(_ int, l Layer, lo, hi float64) {
		moment += l.Modulus * (l.Strain - b.Strain) * (hi*hi - lo*lo) / 2
		stiff += l.Modulus * (hi*hi*hi - lo*lo*lo) / 3
	})
	convex := moment / stiff
	b.Kappa = -convex
	b.Stress = make([]LayerStress, len(layers))
	values := []Value{}
	each(layers, b.Centre, func(i int, l Layer, lo, hi float64) {
		at := func(y float64) float64 { return l.Modulus * (b.Strain + convex*y - l.Strain) }
		b.Stress[i] = LayerStress{at(lo), at(hi)}
		name := fmt.Sprintf("layer %d from the back", i+1)
		values = append(values, Value{Name: name + ", thickness", Number: l.Thickness, Unit: mm},
			Value{Name: name + ", modulus", Number: l.Modulus, Unit: "N/mm2"}, Value{Name: name + ", free strain", Number: l.Strain, Unit: ""})
	})
	b.Working = []Step{{
		Formula: "kappa = -[sum E e (y2^2 - y1^2)/2] / [sum E (y2^3 - y1^3)/3], y from the centre of stiffness",
		Values:  append(values, Value{Name: "centre of stiffness above the back", Number: b.Centre, Unit: mm}, Value{Name: "change of width", Number: b.Strain, Unit: ""}, Value{Name: "curvature", Number: b.Kappa, Unit: perMM}),
		Source:  "Composite section in bending; agrees with S. Timoshenko, Analysis of bi-metal thermostats, J. Opt. Soc. Am. 11 (1925) 233, equation 4, for two layers", Flag: "C",
	}}
	return b, nil
}

// each visits the layers with their heights from the centre.
func each(layers []Layer, centre float64, visit func(i int, l Layer, lo, hi float64)) {
	y := -centre
	for i, l := range layers {
		visit(i, l, y, y+l.Thickness)
		y += l.Thickness
	}
}

// Sap is where sapwood lies in a strip's section: depths from the back and
// from the show face at stations evenly spread over the width, each as a part
// of the thickness.
type Sap struct {
	FromBack, FromShow []float64
}

// SapBend returns the mean curvature that sapwood gives a strip: at every
// station the section is layers of sapwood and heartwood, and the free strain
// of sapwood is that of heartwood times factor. No published measure of the
// factor is known: 1 (no difference, no bend) unless the maker says otherwise.
func SapBend(s Sap, thickness, strain, factor float64) (*Bend, error) {
	if len(s.FromBack) != len(s.FromShow) || len(s.FromBack) == 0 {
		return nil, fmt.Errorf("sapwood at %d and %d stations: give as many from the back as from the show face", len(s.FromBack), len(s.FromShow))
	}
	if badNumber(factor) || factor <= 0 {
		return nil, fmt.Errorf("sapwood moves %g times as much: want a factor above 0", factor)
	}
	out := &Bend{}
	n := float64(len(s.FromBack))
	var share float64
	for i, back := range s.FromBack {
		show := s.FromShow[i]
		if badNumber(back, show) || back < 0 || show < 0 || back > 1 || show > 1 {
			return nil, fmt.Errorf("sapwood station %d: depths %g and %g, want parts of the thickness", i+1, back, show)
		}
		if back+show > 1 { // all sapwood
			back, show = 1, 0
		}
		var layers []Layer
		for _, l := range []Layer{{back, 1, strain * factor}, {1 - back - show, 1, strain}, {show, 1, strain * factor}} {
			if l.Thickness *= thickness; l.Thickness > 0 {
				layers = append(layers, l)
			}
		}
		b, err := Layers(layers)
		if err != nil {
			return nil, err
		}
		out.Kappa += b.Kappa / n
		out.Strain += b.Strain / n
		share += (back + show) / n
	}
	out.Centre = thickness / 2
	out.Working = []Step{{
		Formula: "mean over the width of the curvature of layers of sapwood and heartwood, modulus the same",
		Values: []Value{{Name: "free strain of heartwood", Number: strain, Unit: ""}, {Name: "sapwood against heartwood", Number: factor, Unit: ""},
			{Name: "share of sapwood", Number: share, Unit: ""}, {Name: "thickness", Number: thickness, Unit: mm}, {Name: "curvature", Number: out.Kappa, Unit: perMM}},
		Source: "Composite section in bending; the factor is the maker's, no published pair", Flag: "C",
	}}
	return out, nil
}

// Gradient returns the curvature of a strip whose moisture changes evenly from
// the back to the show face: kappa = C (back - show) / thickness, with
// coefficient the change of width per 1 % and moisture in per cent. Such a
// section bends without stress. A show face drier than the back is hollow.
func Gradient(coefficient, back, show, thickness float64) (*Bend, error) {
	if badNumber(coefficient, back, show, thickness) || thickness <= 0 || coefficient < 0 || math.Abs(coefficient*(back-show)) > most {
		return nil, fmt.Errorf("coefficient %g, moisture %g and %g %%, thickness %g mm: the coefficient must be a part per 1 %%, the thickness above 0", coefficient, back, show, thickness)
	}
	k := coefficient * (back - show) / thickness
	return &Bend{Kappa: k, Centre: thickness / 2, Working: []Step{{
		Formula: "kappa = C (back - show) / thickness",
		Values: []Value{{Name: "C, per 1 % moisture", Number: coefficient, Unit: ""}, {Name: "moisture of the back", Number: back, Unit: "%"},
			{Name: "moisture of the show face", Number: show, Unit: "%"}, {Name: "thickness", Number: thickness, Unit: mm}, {Name: "curvature", Number: k, Unit: perMM}},
		Source: "Derived here: strain that changes evenly over the thickness", Flag: "C",
	}}}, nil
}

// AtAngle returns the coefficient across the width of a strip whose rings stand
// at an angle to the face (degrees): C_T cos^2 + C_R sin^2.
func AtAngle(radial, tangential, degrees float64) float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return tangential*cos*cos + radial*sin*sin
}
