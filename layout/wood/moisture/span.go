package moisture

import (
	"fmt"
	"math"
)

// Air is the state of a room.
type Air struct{ RH, Temp float64 } // per cent; degrees C

// Origin says where a moisture content came from.
type Origin string

// Origins.
const (
	FromAir     Origin = "air"     // equilibrium with air
	FromReading Origin = "reading" // a meter's, or an entered value
	FromPreset  Origin = "preset"  // a published usual value or range
)

// Level is a moisture content and where it came from.
type Level struct {
	MC     float64 // per cent
	Origin Origin
	Air    Air    // with FromAir
	Meter  Meter  // with FromReading
	Preset string // with FromPreset: its id
}

// LevelOfAir returns the moisture content wood reaches in the air.
func LevelOfAir(a Air) (Level, error) {
	mc, err := EMC(a.RH, a.Temp)
	return Level{MC: mc, Origin: FromAir, Air: a}, err
}

// LevelOfReading returns a level as read or entered, in per cent. A reading
// the meter cannot be trusted with is taken; see Meter.Beyond and Stack.
func LevelOfReading(mc float64, m Meter) (Level, error) {
	if !(mc >= 0 && mc <= 300) {
		return Level{}, fmt.Errorf("moisture content %g %%: want 0 to 300", mc)
	}
	return Level{MC: mc, Origin: FromReading, Meter: m}, nil
}

// Working shows where the level came from.
func (l Level) Working() Working {
	mc := Value{"MC", l.MC, "%"}
	switch l.Origin {
	case FromAir:
		h, t := l.Air.RH/100, l.Air.Temp
		w := Working{{
			Formula: "MC = 1800/W [K h/(1-K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2)], h = RH/100",
			Values:  []Value{{"RH", l.Air.RH, "%"}, {"T", t, "C"}, {"h", h, ""}},
			Source:  EMCSource, Flag: Secondary,
		}}
		for i, name := range []string{"W", "K", "K1", "K2"} {
			p := celsius[i]
			w[0].Values = append(w[0].Values, Value{name, p[0] + t*(p[1]+t*p[2]), ""})
		}
		w[0].Values = append(w[0].Values, mc)
		return w
	case FromPreset:
		if p, ok := PresetOf(l.Preset); ok {
			flag := p.RangeFlag
			if l.MC == p.Usual {
				flag = p.UsualFlag
			}
			return Working{{Formula: p.Name, Values: []Value{mc}, Source: p.Source, Flag: flag}}
		}
	case FromReading:
		return Working{{Formula: "as read or entered", Values: []Value{mc}, Source: l.Meter.Text(), Flag: Given}}
	}
	return Working{{Formula: "as entered", Values: []Value{mc}, Flag: Given}}
}

// Season is a time of the year.
type Season string

// Seasons.
const (
	Now Season = "now"
	Dry Season = "dry"
	Wet Season = "wet"
)

// Span is the moisture content now, in the driest and in the dampest season.
// Now may lie outside the other two: wood fresh from a yard often does.
type Span struct{ Now, Dry, Wet Level }

// SpanOfAir returns the span of three states of the air.
func SpanOfAir(now, dry, wet Air) (Span, error) {
	var s Span
	for _, at := range []struct {
		season Season
		air    Air
		level  *Level
	}{{Now, now, &s.Now}, {Dry, dry, &s.Dry}, {Wet, wet, &s.Wet}} {
		l, err := LevelOfAir(at.air)
		if err != nil {
			return Span{}, fmt.Errorf("climate, %s: %w", at.season, err)
		}
		*at.level = l
	}
	return s, s.Check()
}

// At returns the level of a season, that of Now for any other word.
func (s Span) At(season Season) Level {
	switch season {
	case Dry:
		return s.Dry
	case Wet:
		return s.Wet
	}
	return s.Now
}

// Check says what is wrong with a span.
func (s Span) Check() error {
	for _, season := range []Season{Now, Dry, Wet} {
		if mc := s.At(season).MC; math.IsNaN(mc) || mc < 0 || mc > 300 {
			return fmt.Errorf("climate, %s: moisture content %g %%: want 0 to 300", season, mc)
		}
	}
	if s.Dry.MC > s.Wet.MC {
		return fmt.Errorf("climate: dry %.1f %% lies above wet %.1f %%; exchange the two seasons", s.Dry.MC, s.Wet.MC)
	}
	return nil
}

// Outside reports whether the wood is now damper or drier than it will be in
// any season: then it should wait, or moves once more than the seasons say.
func (s Span) Outside() bool { return s.Now.MC < s.Dry.MC || s.Now.MC > s.Wet.MC }

// BuiltIn returns the span of the same room with the work done in another
// season: its level stands for now.
func (s Span) BuiltIn(season Season) Span {
	s.Now = s.At(season)
	return s
}
