package moisture

// Meter is the kind of moisture meter a reading came from.
type Meter string

// Kinds of meter.
const (
	MeterUnknown Meter = ""
	Dielectric   Meter = "dielectric" // a plate held on the face
	Resistance   Meter = "resistance" // pins in the wood
	Oven         Meter = "oven"       // weighed before and after drying: no limits
)

// MeterText says what a meter's reading is worth.
const MeterText = "A dielectric meter (plate) reads from 4 to 30 %, a resistance meter (pins) from 6 to 30 %. " +
	"The average of readings corrected for the wood and its temperature lies within 1 % of the true moisture content. " +
	"A resistance meter reads about 0.5 % too high for each 5.6 C (10 F) the wood is warmer than the meter expects, and too low where it is colder. Readings above 30 % only say \"wet\"."

// MeterSource names where MeterText comes from; it was read there (R).
const MeterSource = "Wood Handbook (FPL-GTR-190), p. 13-2 and 13-3"

// Range returns the readings a meter can be trusted with, in per cent. An
// unknown meter gets the wider range of the two.
func (m Meter) Range() (lo, hi float64) {
	switch m {
	case Resistance:
		return 6, 30
	case Oven:
		return 0, 300
	}
	return 4, 30
}

// Beyond reports whether a reading lies outside the meter's range.
func (m Meter) Beyond(mc float64) bool {
	lo, hi := m.Range()
	return !(mc >= lo && mc <= hi)
}

// Text returns the kind in words.
func (m Meter) Text() string {
	switch m {
	case Dielectric:
		return "dielectric meter (plate)"
	case Resistance:
		return "resistance meter (pins)"
	case Oven:
		return "weighed and dried in an oven"
	}
	return "kind of meter not stated"
}
