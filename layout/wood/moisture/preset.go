package moisture

// Preset is a usual moisture content and its range for a kind of place, to
// begin with and change.
type Preset struct {
	ID, Name             string
	Low, Usual, High     float64 // per cent; all 0 where nothing is published
	Source               string
	UsualFlag, RangeFlag Flag
	Note                 string
}

const rangeNote = "The published range is that of single pieces when they are fitted. That it stands for the year's dry and wet season here is an engineering choice; a hygrometer in the house, or a meter on the wood, beats any map."

// Presets returns the places there are numbers for, and last one without, for
// the maker's own.
func Presets() []Preset {
	const source = "Wood Handbook (FPL-GTR-190), Fig. 13-1 (usual value) and Table 13-2 (range)"
	return []Preset{
		{"interior", "Indoors, most of the United States", 6, 8, 10, source, Secondary, Memory, rangeNote},
		{"interior-dry", "Indoors, dry Southwest of the United States", 4, 6, 9, source, Secondary, Memory, rangeNote},
		{"interior-damp", "Indoors, damp southern coast of the United States", 8, 11, 13, source, Secondary, Memory, rangeNote},
		{"workshop", "Heated workshop, wood ready to glue", 6, 7, 8, "E. Wengert, extension column: about 35 % RH in the heating season, 7.0 % MC (usual value); Wood Handbook, ch. 10, wood for interior furniture (range)", Secondary, Memory,
			"Dry coasts and damp ones lie outside: 5 to 6 % and 9 to 11 % are common practice there, no source."},
		{ID: "own", Name: "Anywhere else: your own values", Note: "No range was found for other places. Take the driest and the dampest week's relative humidity and temperature from a hygrometer, or a meter's readings of wood that has stood in the room for a year."},
	}
}

// PresetOf returns the place of an id, and false where there is none.
func PresetOf(id string) (Preset, bool) {
	for _, p := range Presets() {
		if p.ID == id {
			return p, true
		}
	}
	return Preset{}, false
}

// Span returns the preset as a span, the usual value standing for now, and
// false where the preset has no numbers.
func (p Preset) Span() (Span, bool) {
	if p.High == 0 {
		return Span{}, false
	}
	at := func(mc float64) Level { return Level{MC: mc, Origin: FromPreset, Preset: p.ID} }
	return Span{at(p.Usual), at(p.Low), at(p.High)}, true
}
