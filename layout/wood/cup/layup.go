package cup

import "fmt"

// Change is what happens to a strip from as glued to a season.
type Change struct {
	Strains Strains
	Bend    float64 // curvature of its layers, 1/mm, as it lies
}

// Laid is a strip as it lies, with what the seasons do to it. The Strains and
// the Bend of Strip do not count.
type Laid struct {
	Strip
	Dry, Wet Change
	// Radial and Tangential are the coefficients per 1 % moisture.
	Radial, Tangential float64
}

// LayupName names a way of choosing which faces show.
type LayupName string

// Ways of laying up. The order of the strips stays.
const (
	LaidAsIs      LayupName = "as-laid"
	LaidHeartUp   LayupName = "heart-up"
	LaidBarkUp    LayupName = "bark-up"
	LaidAlternate LayupName = "alternate"
	LaidBestFace  LayupName = "best-face"
)

// Layup is one way with what the seasons make of it.
type Layup struct {
	Name LayupName
	// Rolled says which strips are rolled over against as laid.
	Rolled   []bool
	Dry, Wet *Panel
}

// Comparison holds the ways side by side, with one face drier than the other
// beside them for scale.
type Comparison struct {
	Layups []Layup
	// Gradient is the panel with the show face drier than the back by Points
	// per cent of moisture and nothing else, whichever face is up; a wetter
	// show face bends as much the other way.
	Gradient *Panel
	Points   float64
}

// OnePoint is the usual difference of moisture for scale, per cent; an
// engineering choice.
const OnePoint = 1.0

// Compare lays the strips up in every way. best says which strips are to be
// rolled over so that each shows its better face; nil where nobody chose.
// Strips that are quarter-sawn or of unknown side stay as they lie in the ways
// that go by the side, and do not count in the alternation.
func Compare(laid []Laid, best []bool, points float64) (*Comparison, error) {
	if best != nil && len(best) != len(laid) {
		return nil, fmt.Errorf("better faces of %d strips for a panel of %d: give one a strip", len(best), len(laid))
	}
	n := len(laid)
	ways := []Layup{{Name: LaidAsIs, Rolled: make([]bool, n)}, {Name: LaidHeartUp, Rolled: make([]bool, n)},
		{Name: LaidBarkUp, Rolled: make([]bool, n)}, {Name: LaidAlternate, Rolled: make([]bool, n)}}
	var last Bark
	for i, s := range laid {
		side := s.Side()
		if side != BarkUp && side != BarkDown {
			continue
		}
		ways[1].Rolled[i] = side == BarkUp
		ways[2].Rolled[i] = side == BarkDown
		if side == last {
			ways[3].Rolled[i] = true
			side = side.rolledOver()
		}
		last = side
	}
	if best != nil {
		ways = append(ways, Layup{Name: LaidBestFace, Rolled: append([]bool(nil), best...)})
	}
	c := &Comparison{Points: points}
	for _, w := range ways {
		var err error
		if w.Dry, err = season(laid, w.Rolled, func(s Laid) Change { return s.Dry }); err != nil {
			return nil, err
		}
		if w.Wet, err = season(laid, w.Rolled, func(s Laid) Change { return s.Wet }); err != nil {
			return nil, err
		}
		c.Layups = append(c.Layups, w)
	}
	var across []Strip
	for _, s := range laid {
		angle := 0.0 // of a strip whose pith nobody knows: flat-sawn, the most it can move
		if s.PithKnown {
			angle = s.Section.Angle()
		} else if s.Bark == BarkBeside {
			angle = 90
		}
		g, err := Gradient(AtAngle(s.Radial, s.Tangential, angle), points, 0, s.Section.Thickness)
		if err != nil {
			return nil, fmt.Errorf("strip %s: %w", s.ID, err)
		}
		t := s.Strip
		t.Strains, t.Bend = Strains{}, g.Kappa
		across = append(across, t)
	}
	var err error
	c.Gradient, err = Of(across)
	return c, err
}

func season(laid []Laid, rolled []bool, change func(Laid) Change) (*Panel, error) {
	var strips []Strip
	for i, s := range laid {
		t, c := s.Strip, change(s)
		t.Strains, t.Bend = c.Strains, c.Bend
		if rolled[i] {
			t = t.RolledOver()
		}
		strips = append(strips, t)
	}
	return Of(strips)
}
