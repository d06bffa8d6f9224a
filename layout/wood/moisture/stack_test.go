package moisture

import (
	"reflect"
	"slices"
	"testing"
)

func room(mc float64) Span {
	l := Level{MC: mc}
	return Span{Now: l, Dry: l, Wet: l}
}

func reads(m Meter, values ...float64) []Reading {
	var out []Reading
	for i, v := range values {
		out = append(out, Reading{Strip: string(rune('a' + i)), MC: v, Known: true, Meter: m})
	}
	return out
}

type found struct {
	kind   FindingKind
	soft   bool
	strips string
}

func short(fs []Finding) []found {
	var out []found
	for _, f := range fs {
		s := ""
		for _, id := range f.Strips {
			s += id
		}
		out = append(out, found{f.Kind, f.Soft, s})
	}
	return out
}

func TestStack(t *testing.T) {
	gap := reads(Dielectric, 6, 8, 9.9)
	gap[1].Known = false
	for _, c := range []struct {
		name string
		in   []Reading
		room float64
		want []found
	}{
		{"alike", reads(Dielectric, 8, 8.3, 7.9), 8, nil},
		{"nothing read", nil, 8, nil},
		{"1.5 apart", reads(Dielectric, 7, 8.5), 8, []found{{NeighboursDiffer, true, "ab"}}},
		{"2 apart, as floats have it", reads(Dielectric, 6.1, 8.1), 7, []found{{NeighboursDiffer, true, "ab"}}},
		{"2.1 apart", reads(Dielectric, 7, 9.1), 8, []found{{NeighboursDiffer, false, "ab"}}},
		{"damp for the room", reads(Dielectric, 11, 11), 8, []found{{OutOfRoom, false, "a"}, {OutOfRoom, false, "b"}}},
		{"dry for the room", reads(Dielectric, 5.9), 8, []found{{OutOfRoom, false, "a"}}},
		{"on the room's limit", reads(Dielectric, 10, 10), 8, nil},
		{"pins in dry wood", reads(Resistance, 5.5), 6, []found{{BeyondMeter, false, "a"}}},
		{"the same with a plate", reads(Dielectric, 5.5), 6, nil},
		{"the same from the oven", reads(Oven, 3), 3, nil},
		{"too wet for any meter", reads(MeterUnknown, 34), 34, []found{{BeyondMeter, false, "a"}}},
		{"not read between", gap, 8, []found{{NotRead, true, "b"}}},
	} {
		got := Stack(c.in, room(c.room), DefaultStackLimits())
		if !reflect.DeepEqual(short(got), c.want) {
			t.Errorf("%s: %v, want %v", c.name, short(got), c.want)
		}
		for _, f := range got {
			if f.Text == "" || f.Flag == NoFlag {
				t.Errorf("%s: %v has no words", c.name, f)
			}
		}
	}
}

// Read from the other edge, a stack has the same joints.
func TestStackFromBehind(t *testing.T) {
	in := reads(Dielectric, 6, 8.5, 8.6, 9.8, 6.5)
	there := Stack(in, room(8), DefaultStackLimits())
	slices.Reverse(in)
	back := Stack(in, room(8), DefaultStackLimits())
	if len(there) != len(back) || len(there) == 0 {
		t.Fatalf("%d findings, %d from behind", len(there), len(back))
	}
	for i, f := range there {
		if g := back[len(back)-1-i]; f.Kind != g.Kind || f.Measure != g.Measure || f.Soft != g.Soft {
			t.Errorf("%v, from behind %v", f, g)
		}
	}
}

// Limits as the publication gives them (R).
func TestMeterRange(t *testing.T) {
	for m, want := range map[Meter][2]float64{Dielectric: {4, 30}, Resistance: {6, 30}} {
		if lo, hi := m.Range(); lo != want[0] || hi != want[1] {
			t.Errorf("%s: %g to %g", m, lo, hi)
		}
	}
}
