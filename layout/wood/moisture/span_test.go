package moisture

import (
	"math"
	"strings"
	"testing"

	"heartside/layout/layouttest"
)

func TestSpanOfAir(t *testing.T) {
	s, err := SpanOfAir(Air{50, 20}, Air{30, 20}, Air{65, 20})
	if err != nil {
		t.Fatal(err)
	}
	// Values at 20 C worked out apart from this code (C).
	for season, want := range map[Season]float64{Now: 9.27, Dry: 6.19, Wet: 12.00} {
		layouttest.Near(t, string(season), s.At(season).MC, want, 0.0051)
	}
	if s.Outside() {
		t.Error("now lies between the seasons")
	}
	if _, err := SpanOfAir(Air{50, 20}, Air{65, 20}, Air{30, 20}); err == nil || !strings.Contains(err.Error(), "exchange") {
		t.Errorf("dry above wet: %v", err)
	}
	if _, err := SpanOfAir(Air{50, 20}, Air{30, 20}, Air{99, 20}); err == nil || !strings.Contains(err.Error(), "wet") {
		t.Errorf("air beyond the table: %v", err)
	}
	s.Now.MC = 14
	if err := s.Check(); err != nil || !s.Outside() {
		t.Errorf("wood from the yard: %v, outside %v", err, s.Outside())
	}
	s.Dry.MC = math.NaN()
	if s.Check() == nil {
		t.Error("no moisture content passes")
	}
}

// The recommended values: Fig. 13-1 as quoted (S), ranges of Table 13-2 from
// memory (M).
func TestPresets(t *testing.T) {
	want := map[string][3]float64{"interior": {6, 8, 10}, "interior-dry": {4, 6, 9}, "interior-damp": {8, 11, 13}}
	for _, p := range Presets() {
		if w, ok := want[p.ID]; ok {
			if [3]float64{p.Low, p.Usual, p.High} != w || p.UsualFlag != Secondary || p.RangeFlag != Memory {
				t.Errorf("%s: %v", p.ID, p)
			}
			delete(want, p.ID)
		}
		s, ok := p.Span()
		if !ok {
			if p.ID != "own" {
				t.Errorf("%s has no numbers", p.ID)
			}
			continue
		}
		if s.Check() != nil || s.Outside() || s.Dry.MC == s.Wet.MC {
			t.Errorf("%s: %v", p.ID, s)
		}
		if p.Source == "" || p.Note == "" {
			t.Errorf("%s does not say where it comes from", p.ID)
		}
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
}

func TestWhereALevelCameFrom(t *testing.T) {
	air, err := LevelOfAir(Air{45, 20})
	if err != nil {
		t.Fatal(err)
	}
	reading, err := LevelOfReading(8.1, Resistance)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := LevelOfReading(-1, Oven); err == nil {
		t.Error("a negative reading passes")
	}
	preset := Level{MC: 10, Origin: FromPreset, Preset: "interior"}
	usual := Level{MC: 8, Origin: FromPreset, Preset: "interior"}
	for _, c := range []struct {
		level Level
		flag  Flag
		words string
	}{{air, Secondary, "4-5"}, {reading, Given, "pins"}, {preset, Memory, "13-2"}, {usual, Secondary, "13-1"}, {Level{MC: 7}, Given, ""}} {
		w := c.level.Working()
		if len(w) != 1 || w[0].Flag != c.flag || !strings.Contains(w[0].Source, c.words) {
			t.Errorf("%v: %v", c.level, w)
		}
		if last := w[0].Values[len(w[0].Values)-1]; last.Number != c.level.MC || last.Unit != "%" {
			t.Errorf("%v ends in %v", c.level, last)
		}
	}
}

func TestFlagsHaveWords(t *testing.T) {
	seen := map[string]Flag{}
	for _, f := range []Flag{NoFlag, Read, Secondary, Derived, Memory, Choice, Practice, Given} {
		if other, dup := seen[f.Text()]; dup || f.Text() == "" {
			t.Errorf("%q and %q read the same", f, other)
		}
		seen[f.Text()] = f
	}
}
