package catalog

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"heartside/layout/colour"
)

// missing is how the table writes a value it does not have.
const missing = "—"

// table is all that the catalogue knows.
type table struct {
	species []Species // as in the file
	sources []Source
	byID    map[string]int
}

func parse(species, sources, swatches []byte) (*table, error) {
	t := &table{byID: map[string]int{}}
	var src struct {
		Sources []Source `yaml:"sources"`
	}
	if err := strict(sources, &src); err != nil {
		return nil, fmt.Errorf("sources: %w", err)
	}
	t.sources = src.Sources
	var sw struct {
		Flag    string                          `yaml:"flag"`
		Species map[string]map[string][]float64 `yaml:"species"`
	}
	if err := strict(swatches, &sw); err != nil {
		return nil, fmt.Errorf("swatches: %w", err)
	}
	if sw.Flag != "illustration" {
		return nil, fmt.Errorf("swatches: flag is %q, but no measured colours exist", sw.Flag)
	}
	if err := t.read(species); err != nil {
		return nil, fmt.Errorf("species: %w", err)
	}
	for id, c := range sw.Species {
		i, ok := t.byID[id]
		if !ok || len(c["heart"]) != 3 || len(c["sap"]) != 3 {
			return nil, fmt.Errorf("swatches: %s: needs a species of the table with three numbers each for heart and sap", id)
		}
		h, s := c["heart"], c["sap"]
		t.species[i].swatch = swatch{colour.Lab{L: h[0], A: h[1], B: h[2]}, colour.Lab{L: s[0], A: s[1], B: s[2]}}
	}
	return t, nil
}

func strict(data []byte, to any) error {
	d := yaml.NewDecoder(bytes.NewReader(data))
	d.KnownFields(true)
	return d.Decode(to)
}

func (t *table) read(data []byte) error {
	r := csv.NewReader(bytes.NewReader(data))
	head, err := r.Read()
	if err != nil {
		return err
	}
	source := map[string]string{}
	for _, s := range t.sources {
		for _, c := range s.Columns {
			source[c] = s.ID
		}
	}
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		w := row{cells: map[string]string{}, source: source}
		for i, name := range head {
			w.cells[name] = cells[i]
		}
		s, err := w.species()
		if err != nil {
			return fmt.Errorf("%s: %w", cells[0], err)
		}
		if _, twice := t.byID[s.ID]; twice {
			return fmt.Errorf("%s: two rows have the id %s", cells[0], s.ID)
		}
		t.byID[s.ID] = len(t.species)
		t.species = append(t.species, s)
	}
}

// row is a line of species.csv under its headings.
type row struct {
	cells  map[string]string
	source map[string]string
	err    error
}

func (w *row) species() (Species, error) {
	shrink, move, stiff, green := w.flag("S src"), w.flag("C src"), w.flag("E src"), w.flag("MC src")
	s := Species{
		ID: ID(w.cells["species"]), Name: w.cells["species"], Latin: w.cells["latin"],
		Shrink:    Shrink{w.value("S_R %", shrink), w.value("S_T %", shrink), w.value("S_V %", shrink)},
		Move:      Move{w.value("C_R", move), w.value("C_T", move)},
		MoveCheck: w.cells["C vs S check"],
		Ratio:     w.value("T/R", Computed),
		SG12:      w.value("SG 12%", stiff),
		Stiff: Stiff{
			Bending: w.value("MOE Mpsi", stiff), BendingGPa: w.value("MOE GPa", stiff),
			// The table of ratios was not seen; the products follow from it.
			RadialRatio: w.value("E_R/E_L", Memory), TangentialRatio: w.value("E_T/E_L", Memory),
			RadialMPa: w.value("E_R MPa*", Computed), TangentialMPa: w.value("E_T MPa*", Computed),
		},
		Green: Green{w.value("green MC heart %", green), w.value("green MC sap %", green)},
	}
	return s, w.err
}

func (w *row) flag(column string) Flag {
	v := w.cells[column]
	switch f := Flag(v); f {
	case Read, Secondary, Computed, Memory:
		return f
	case missing, "":
	default:
		w.err = errors.Join(w.err, fmt.Errorf("%s: %q is no flag", column, v))
	}
	return NoFlag
}

func (w *row) value(column string, f Flag) Value {
	v, has := w.cells[column]
	if !has || w.source[column] == "" {
		w.err = errors.Join(w.err, fmt.Errorf("%s: no such column, or none with a source", column))
	}
	if v == missing || v == "" {
		return Value{}
	}
	x, err := strconv.ParseFloat(v, 64)
	if err != nil || !(x > 0) {
		w.err = errors.Join(w.err, fmt.Errorf("%s: %q is no number above 0", column, v))
	}
	if f == NoFlag {
		w.err = errors.Join(w.err, fmt.Errorf("%s: %q has no flag", column, v))
	}
	return Value{Value: x, OK: true, Flag: f, Source: w.source[column]}
}

// ID makes a species id of a name: lower case, punctuation dropped, words
// joined by hyphens.
func ID(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), "-")
}
