package ageing

import (
	"fmt"
	"math"

	"heartside/layout/colour"
)

// Aim is the colour that sapwood is dyed or toned to.
type Aim int

// The aims. Dye stays put while the heartwood goes on changing, so a match
// today is none later, and one for later is none today.
const (
	HeartNow   Aim = iota // the heartwood as it is
	HeartOne              // as it will be after one year
	HeartTen              // as it will be after ten
	HeartMidst            // half way between now and ten years
)

// Aims returns all aims in their order.
func Aims() []Aim { return []Aim{HeartNow, HeartOne, HeartTen, HeartMidst} }

// String names the aim in words.
func (a Aim) String() string {
	switch a {
	case HeartNow:
		return "the heartwood now"
	case HeartOne:
		return "the heartwood in one year"
	case HeartTen:
		return "the heartwood in ten years"
	case HeartMidst:
		return "half way between now and ten years"
	}
	return "unknown"
}

// colour returns the colour aimed at.
func (a Aim) colour(heart *Curve) colour.Lab {
	now, ten := heart.At(0).Lab, heart.At(10).Lab
	switch a {
	case HeartOne:
		return heart.At(1).Lab
	case HeartTen:
		return ten
	case HeartMidst:
		return colour.Lab{L: mix(now.L, ten.L, 0.5), A: mix(now.A, ten.A, 0.5), B: mix(now.B, ten.B, 0.5)}
	}
	return now
}

// Hit is the spread of a careful match by hand on the maker's own test pieces.
// An engineering choice: the step at which observers of finished wood saw
// another colour (Drvna industrija 71(2), 2020).
const Hit = 2.0

// Match is dyed sapwood beside the heartwood.
type Match struct {
	Aim    Aim
	Colour colour.Lab // to dye to
	From   float64    // CIEDE2000 from the bare sapwood: how strong the dye is
	// TooLight says that the aim is lighter than the sapwood: dye only darkens.
	TooLight bool
	Outlook  // heartwood beside dyed sapwood
}

// Worst returns the greatest difference of now, one and ten years.
func (m Match) Worst() Contrast { return m.Greatest() }

// Dye returns how sapwood dyed to an aim matches the heartwood over the years.
// The dye is taken to stay; what the sapwood does beneath it is not known, so
// its spread is added.
func Dye(heart, sap *Curve, aim Aim) Match {
	bare := sap.At(0)
	m := Match{Aim: aim, Colour: aim.colour(heart)}
	m.From = colour.DeltaE(bare.Lab, m.Colour)
	m.TooLight = m.Colour.L > bare.Lab.L
	at := func(years float64) Contrast {
		h := heart.At(years)
		beneath := sap.At(years).Spread
		grown := math.Sqrt(max(float64(beneath*beneath)-float64(bare.Spread*bare.Spread), 0))
		return Between(h, Shade{Years: years, Lab: m.Colour, Spread: math.Hypot(Hit, grown), Basis: h.Basis})
	}
	m.Outlook = Outlook{at(0), at(1), at(10)}
	return m
}

// Pieces are the test pieces to reserve from the same boards.
type Pieces struct {
	Count         int
	Length, Width float64 // mm, the least
}

// PiecesFor returns the test pieces for a number of colour steps: one a step,
// heartwood and sapwood on each, large enough to judge. Common practice, no
// source.
func PiecesFor(steps int) Pieces {
	return Pieces{Count: max(steps, 1), Length: 150, Width: 75}
}

// String says what to reserve.
func (p Pieces) String() string {
	return fmt.Sprintf("%d of at least %g x %g mm from the same boards, heartwood and sapwood on each, sanded and finished in the full sequence", p.Count, p.Length, p.Width)
}

// Plan is what dyeing the sapwood would do and need.
type Plan struct {
	Undyed   Outlook
	Matches  []Match // one an aim, in the order of Aims
	Area     float64 // to colour, m2
	Pieces   Pieces  // a step an aim
	Cautions []Claim
}

// PlanDye weighs every aim for sapwood of an area in m2.
func PlanDye(heart, sap *Curve, area float64, cautions []Claim) (Plan, error) {
	if !(area >= 0) || math.IsInf(area, 0) {
		return Plan{}, fmt.Errorf("ageing: %g m2 is no area to colour; give 0 or more", area)
	}
	p := Plan{Undyed: OutlookOf(heart, sap), Area: area, Cautions: cautions}
	for _, a := range Aims() {
		p.Matches = append(p.Matches, Dye(heart, sap, a))
	}
	p.Pieces = PiecesFor(len(p.Matches))
	return p, nil
}

// Steadiest returns the match whose worst difference is the smallest, the
// earliest of equals, and false where nothing is known of the heartwood: then
// every aim is the same colour.
func (p Plan) Steadiest() (Match, bool) {
	if len(p.Matches) == 0 || p.Matches[0].Ten.Basis == None {
		return Match{}, false
	}
	best := p.Matches[0]
	for _, m := range p.Matches[1:] {
		if m.Worst().DE < best.Worst().DE {
			best = m
		}
	}
	return best, true
}
