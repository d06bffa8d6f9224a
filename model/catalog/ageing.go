package catalog

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"sync"

	"heartside/assets"
	"heartside/layout/colour"
	"heartside/layout/colour/ageing"
	"heartside/model/say"
)

// aged parses the table of ageing once, as loaded does the others.
var aged = sync.OnceValue(func() map[string]ageing.Species {
	b, err := assets.Tables.ReadFile("tables/ageing.yaml")
	if err == nil {
		var out map[string]ageing.Species
		if out, err = parseAgeing(b, loaded()); err == nil {
			return out
		}
	}
	panic("catalog: " + err.Error())
})

// AgeingOf returns what is known of the ageing of a species: directions with
// their flags and sources, and steps to draw them with, which are
// illustrations. A wood not in the table gets the id and no measured data.
func AgeingOf(species string) ageing.Species {
	if s, ok := aged()[species]; ok {
		return s
	}
	return ageing.Species{ID: species}
}

type sayingYAML struct {
	Says   string `yaml:"says"`
	Flag   string `yaml:"flag"`
	Source string `yaml:"source"`
}

type scaleYAML struct {
	From   float64 `yaml:"from"`
	To     float64 `yaml:"to"`
	Flag   string  `yaml:"flag"`
	Source string  `yaml:"source"`
}

type lampYAML struct {
	sayingYAML `yaml:",inline"`
	Light      string  `yaml:"light"`
	Kin        bool    `yaml:"kin"`   // a near relative
	Other      bool    `yaml:"other"` // other woods
	DL         float64 `yaml:"dL"`
	DA         float64 `yaml:"da"`
	DB         float64 `yaml:"db"`
	DE         float64 `yaml:"dE"`
}

type courseYAML struct {
	sayingYAML `yaml:",inline"`
	Turns      []string   `yaml:"turns"`
	Kin        bool       `yaml:"kin"`
	Scale      *scaleYAML `yaml:"scale"`
	Draw       *struct {
		Size   string    `yaml:"size"`
		One    []float64 `yaml:"one"`
		Ten    []float64 `yaml:"ten"`
		Spread []float64 `yaml:"spread"`
	} `yaml:"draw"`
	Lamps []lampYAML `yaml:"lamps"`
}

type ageingYAML struct {
	Flag    string                `yaml:"flag"`
	Courses map[string]courseYAML `yaml:"courses"`
	Species map[string]struct {
		Heart    string   `yaml:"heart"`
		Sap      string   `yaml:"sap"`
		Blotches bool     `yaml:"blotches"`
		Notes    []string `yaml:"notes"`
	} `yaml:"species"`
	Notes    map[string]sayingYAML `yaml:"notes"`
	Cautions []sayingYAML          `yaml:"cautions"`
	Blotch   sayingYAML            `yaml:"blotch"`
}

// parseAgeing reads the table; every species of t must be in it.
func parseAgeing(data []byte, t *table) (map[string]ageing.Species, error) {
	var y ageingYAML
	if err := strict(data, &y); err != nil {
		return nil, fmt.Errorf("ageing: %w", err)
	}
	if y.Flag != string(ageing.Illustration) {
		return nil, fmt.Errorf("ageing: flag is %q, but no measured changes exist", y.Flag)
	}
	courses := map[string]ageing.Course{}
	for _, id := range slices.Sorted(maps.Keys(y.Courses)) {
		made, err := y.Courses[id].course(t)
		if err != nil {
			return nil, fmt.Errorf("ageing: course %s: %w", id, err)
		}
		courses[id] = made
	}
	var cautions []ageing.Claim
	for _, s := range y.Cautions {
		c, err := s.claim(t)
		if err != nil {
			return nil, fmt.Errorf("ageing: cautions: %w", err)
		}
		cautions = append(cautions, c)
	}
	blotch, err := y.Blotch.claim(t)
	if err != nil {
		return nil, fmt.Errorf("ageing: blotch: %w", err)
	}
	out := map[string]ageing.Species{}
	for _, id := range slices.Sorted(maps.Keys(y.Species)) {
		row := y.Species[id]
		if _, ok := t.byID[id]; !ok {
			return nil, fmt.Errorf("ageing: %s is no species of the table", id)
		}
		heart, ok1 := courses[row.Heart]
		sap, ok2 := courses[row.Sap]
		if !ok1 || !ok2 {
			return nil, fmt.Errorf("ageing: %s: needs courses of the table for heart and sap, has %q and %q", id, row.Heart, row.Sap)
		}
		s := ageing.Species{ID: id, Heart: heart, Sap: sap, Blotches: row.Blotches}
		if row.Blotches {
			s.Cautions = append(s.Cautions, blotch)
		}
		s.Cautions = append(s.Cautions, cautions...)
		for _, n := range row.Notes {
			c, err := y.Notes[n].claim(t)
			if err != nil {
				return nil, fmt.Errorf("ageing: %s: note %q: %w", id, n, err)
			}
			s.Notes = append(s.Notes, c)
		}
		out[id] = s
	}
	for _, sp := range t.species {
		if _, ok := out[sp.ID]; !ok {
			return nil, fmt.Errorf("ageing: %s is missing; give it the course none where nothing is known", sp.ID)
		}
	}
	return out, nil
}

// claim checks that a statement has words, a flag and a source of the list.
func (s sayingYAML) claim(t *table) (ageing.Claim, error) {
	c := ageing.Claim{Text: s.Says, Flag: ageing.Flag(s.Flag), Source: s.Source}
	if s.Says == "" || !c.Flag.Known() {
		return c, fmt.Errorf("%q flagged %q: needs words and a flag", s.Says, s.Flag)
	}
	for _, src := range t.sources {
		if src.ID == s.Source {
			c.Cited = src.Title + ", " + src.Where
			return c, nil
		}
	}
	return c, fmt.Errorf("%q: the source %q is not in the list", s.Says, s.Source)
}

func (y courseYAML) course(t *table) (ageing.Course, error) {
	var c ageing.Course
	if len(y.Turns) == 0 {
		if y.Draw != nil || y.Scale != nil || y.Flag != "" || len(y.Lamps) > 0 {
			return c, fmt.Errorf("it states no direction, so it may have no flag, scale or drawing")
		}
		return c, nil
	}
	for _, w := range y.Turns {
		turn := ageing.Turn(w)
		if !turn.Known() {
			return c, fmt.Errorf("%q is no direction", w)
		}
		c.Turns = append(c.Turns, turn)
	}
	var err error
	if c.Claim, err = y.claim(t); err != nil {
		return c, err
	}
	c.Claim.Kin = y.Kin
	if s := y.Scale; s != nil {
		if !(s.From >= 0 && s.To > 0 && s.To >= s.From) {
			return c, fmt.Errorf("a scale of %g to %g years cannot be", s.From, s.To)
		}
		words := fmt.Sprintf(say.Mark("most of it within %g to %g years"), s.From, s.To)
		c.Scale = ageing.Scale{From: s.From, To: s.To}
		if c.Scale.Claim, err = (sayingYAML{words, s.Flag, s.Source}).claim(t); err != nil {
			return c, err
		}
	}
	if err := y.draw(&c); err != nil {
		return c, err
	}
	for _, l := range y.Lamps {
		e := ageing.Exposure{Light: l.Light, DL: l.DL, DA: l.DA, DB: l.DB, DE: l.DE}
		said := l.sayingYAML
		said.Says = l.Light + ": " + said.Says + "; not years indoors"
		if e.Claim, err = said.claim(t); err != nil {
			return c, err
		}
		if l.Light == "" || (l.Kin && l.Other) {
			return c, fmt.Errorf("%q: needs its light, and is of a relative or of other woods", l.Says)
		}
		e.Claim.Kin = l.Kin
		c.Exposures = append(c.Exposures, e)
	}
	return c, nil
}

// draw reads the step, which must be as long as its class says.
func (y courseYAML) draw(c *ageing.Course) error {
	d := y.Draw
	if d == nil || len(d.One) != 3 || len(d.Ten) != 3 || len(d.Spread) != 2 {
		return fmt.Errorf("it needs a drawing: one and ten of three numbers, spread of two")
	}
	c.Step = ageing.Step{
		One: ageing.Shift{L: d.One[0], A: d.One[1], B: d.One[2], Spread: d.Spread[0]},
		Ten: ageing.Shift{L: d.Ten[0], A: d.Ten[1], B: d.Ten[2], Spread: d.Spread[1]},
	}
	classes := map[string][2]float64{"none": {0, 2}, "small": {2, 4}, "moderate": {4, 7}, "large": {7, 12}}
	class, ok := classes[d.Size]
	n := math.Sqrt(d.Ten[0]*d.Ten[0] + d.Ten[1]*d.Ten[1] + d.Ten[2]*d.Ten[2])
	if !ok || !(n >= class[0] && n <= class[1]) {
		return fmt.Errorf("a change of %.1f is not of size %q", n, d.Size)
	}
	// The whole model refuses what cannot be drawn.
	_, err := ageing.New(ageing.Today{Lab: colour.Lab{L: 50}}, *c, nil)
	return err
}
