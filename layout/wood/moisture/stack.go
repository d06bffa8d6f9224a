package moisture

import (
	"fmt"
	"math"
)

// Reading is the moisture content of one strip.
type Reading struct {
	Strip string
	MC    float64 // per cent
	Known bool    // false: not read
	Meter Meter
}

// FindingKind names what was found in a stack.
type FindingKind string

// Kinds of finding.
const (
	NeighboursDiffer FindingKind = "neighbours-differ" // two that meet at a joint
	OutOfRoom        FindingKind = "out-of-room"       // not at home in the room yet
	BeyondMeter      FindingKind = "beyond-meter"      // outside what the meter can tell
	NotRead          FindingKind = "not-read"
)

// Finding is one thing that speaks against gluing the stack as it is.
type Finding struct {
	Kind           FindingKind
	Soft           bool // worth knowing; nothing need be done
	Strips         []string
	Measure, Limit float64 // points of MC, or the reading and the bound it passes
	Text           string
	Source         string
	Flag           Flag
}

// StackLimits are how far apart moisture contents may lie, in points of per
// cent.
type StackLimits struct {
	Neighbours float64 // strips that meet at a joint
	Little     float64 // the same, worth a word
	Room       float64 // from what the room will give the wood
}

// DefaultStackLimits returns 2, 1 and 2. That strips of a panel lie within 1
// to 2 points is common practice, no source; within 2 of the room is quoted
// from E. Wengert (S).
func DefaultStackLimits() StackLimits { return StackLimits{Neighbours: 2, Little: 1, Room: 2} }

// slack keeps 8.1 - 6.1 from being more than 2.
const slack = 1e-9

// Stack looks through the strips of a panel, front to back, for neighbours
// that differ, strips that are not yet at the moisture content of the room as
// it is now, and readings no meter can give. A strip that was not read is no
// one's neighbour.
func Stack(readings []Reading, room Span, limits StackLimits) []Finding {
	var out []Finding
	var missing []string
	for i, r := range readings {
		if !r.Known {
			missing = append(missing, r.Strip)
			continue
		}
		if f, ok := beyond(r); ok {
			out = append(out, f)
		}
		if d := r.MC - room.Now.MC; math.Abs(d) > limits.Room+slack {
			damper := "damper"
			if d < 0 {
				damper = "drier"
			}
			out = append(out, Finding{Kind: OutOfRoom, Strips: []string{r.Strip}, Measure: math.Abs(d), Limit: limits.Room,
				Text:   fmt.Sprintf("Strip %s is %.1f points %s than wood that has settled in the room (%.1f %%, against %.1f %%). Let it stand, stickered, and read it again.", r.Strip, math.Abs(d), damper, r.MC, room.Now.MC),
				Source: "E. Wengert, extension column: match the moisture content of service within 2 %", Flag: Secondary})
		}
		if i == 0 || !readings[i-1].Known {
			continue
		}
		before := readings[i-1]
		d := math.Abs(r.MC - before.MC)
		if d <= limits.Little+slack && d <= limits.Neighbours+slack {
			continue
		}
		f := Finding{Kind: NeighboursDiffer, Strips: []string{before.Strip, r.Strip}, Measure: d, Limit: limits.Neighbours,
			Text:   fmt.Sprintf("Strips %s and %s differ by %.1f points (%.1f %% and %.1f %%): when they have come to the same, one stands proud at the joint and the joint is strained.", before.Strip, r.Strip, d, before.MC, r.MC),
			Source: "keep neighbours within 1 to 2 %", Flag: Practice}
		if d <= limits.Neighbours+slack {
			f.Soft, f.Limit = true, limits.Little
			f.Text = fmt.Sprintf("Strips %s and %s differ by %.1f points (%.1f %% and %.1f %%): about what a meter cannot tell apart.", before.Strip, r.Strip, d, before.MC, r.MC)
		}
		out = append(out, f)
	}
	if len(missing) > 0 {
		out = append(out, Finding{Kind: NotRead, Soft: true, Strips: missing, Measure: float64(len(missing)),
			Text: "Not every strip has a moisture reading: the check of the stack leaves those out.", Flag: Choice})
	}
	return out
}

func beyond(r Reading) (Finding, bool) {
	if !r.Meter.Beyond(r.MC) {
		return Finding{}, false
	}
	lo, hi := r.Meter.Range()
	limit := hi
	if r.MC < lo {
		limit = lo
	}
	return Finding{Kind: BeyondMeter, Strips: []string{r.Strip}, Measure: r.MC, Limit: limit,
		Text:   fmt.Sprintf("Strip %s reads %.1f %%, outside the %g to %g %% this meter can tell (%s). Read it again, or weigh and dry a piece.", r.Strip, r.MC, lo, hi, r.Meter.Text()),
		Source: MeterSource, Flag: Read}, true
}
