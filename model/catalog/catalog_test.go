package catalog

import (
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// values calls f with every value of a species and the name of its field.
func values(s Species, f func(name string, v Value)) {
	var walk func(name string, v reflect.Value)
	walk = func(name string, v reflect.Value) {
		if v.Type() == reflect.TypeFor[Value]() {
			f(name, v.Interface().(Value))
			return
		}
		if v.Kind() == reflect.Struct {
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(name+"."+v.Type().Field(i).Name, v.Field(i))
				}
			}
		}
	}
	walk(s.ID, reflect.ValueOf(s))
}

func TestEveryValueSaysWhereItComesFrom(t *testing.T) {
	all := All()
	if len(all) != 54 {
		t.Fatalf("the table has 54 woods, read %d", len(all))
	}
	n := 0
	for _, s := range all {
		values(s, func(name string, v Value) {
			if !v.OK {
				if v != (Value{}) {
					t.Errorf("%s: a missing value holds %+v", name, v)
				}
				return
			}
			n++
			switch v.Flag {
			case Read, Secondary, Computed, Memory:
			default:
				t.Errorf("%s: flag %q", name, v.Flag)
			}
			if src := SourceOf(v.Source); src.Title == "" || src.Where == "" {
				t.Errorf("%s: source %q is not in the list", name, v.Source)
			}
			if v.Flag == Memory && !strings.Contains(v.Text(), "not confirmed") {
				t.Errorf("%s: %q hides that it was remembered", name, v.Text())
			}
		})
	}
	if n < 400 {
		t.Errorf("only %d values read", n)
	}
}

// Figures of the Wood Handbook, FPL-GTR-190 (2010): Tables 4-3, 13-5, 5-3b and
// 4-1, with the flags they were obtained under.
func TestKnownRows(t *testing.T) {
	w := Find("walnut-black")
	for _, c := range []struct {
		name string
		got  Value
		want float64
		flag Flag
	}{
		{"walnut S_R", w.Shrink.Radial, 5.5, Read},
		{"walnut S_T", w.Shrink.Tangential, 7.8, Read},
		{"walnut S_V", w.Shrink.Volume, 12.8, Read},
		{"walnut C_R", w.Move.Radial, 0.00190, Read},
		{"walnut C_T", w.Move.Tangential, 0.00274, Read},
		{"white fir C_T", Find("fir-white").Move.Tangential, 0.00245, Secondary},
		{"sugar maple S_T", Find("maple-sugar-hard").Shrink.Tangential, 9.9, Memory},
		{"white ash SG", Find("ash-white").SG12, 0.60, Secondary},
		{"white ash green sap", Find("ash-white").Green.Sap, 44, Read},
	} {
		if !c.got.OK || c.got.Value != c.want || c.got.Flag != c.flag {
			t.Errorf("%s: got %+v, want %g flagged %s", c.name, c.got, c.want, c.flag)
		}
	}
	if v := Find("hickory-true-group").Shrink.Radial; v.OK || v.Value != 0 {
		t.Errorf("a dash in the table became %+v", v)
	}
}

// C follows from S as 1/(30*100/S - 30 + 10), derived from the Handbook's
// equations 13-2 and 13-3; redwood and western redcedar with 22 for 30.
func TestMovementFollowsFromShrinkage(t *testing.T) {
	checked := 0
	for _, s := range All() {
		fsp := 30.0
		if strings.HasPrefix(s.ID, "redwood") || s.ID == "cedar-western-red" {
			fsp = 22
		}
		agrees := func(name string, c, sh Value) {
			got := 1 / (fsp*100/sh.Value - fsp + 10)
			if math.Abs(math.Round(got*1e5)-math.Round(c.Value*1e5)) > 1 {
				t.Errorf("%s %s: table %.5f, from shrinkage %.5f", s.ID, name, c.Value, got)
			}
			checked++
		}
		switch s.MoveCheck {
		case "ok":
			agrees("radial", s.Move.Radial, s.Shrink.Radial)
			agrees("tangential", s.Move.Tangential, s.Shrink.Tangential)
		case "ok(T)":
			agrees("tangential", s.Move.Tangential, s.Shrink.Tangential)
		case "":
		default:
			r, tg, ok := strings.Cut(strings.TrimPrefix(s.MoveCheck, "calc "), "/")
			cr, err1 := strconv.ParseFloat(r, 64)
			ct, err2 := strconv.ParseFloat(tg, 64)
			if !ok || err1 != nil || err2 != nil {
				t.Errorf("%s: check %q", s.ID, s.MoveCheck)
			}
			agrees("radial as noted", Value{Value: cr}, s.Shrink.Radial)
			agrees("tangential as noted", Value{Value: ct}, s.Shrink.Tangential)
		}
	}
	if checked < 90 {
		t.Errorf("only %d values compared", checked)
	}
}

// 1.10 x bending stiffness x ratio, whole MPa: common form of the shear
// correction, from memory; the inputs are rounded, so 1 per cent is allowed.
func TestStiffnessAcross(t *testing.T) {
	for _, s := range All() {
		if !s.Stiff.RadialMPa.OK {
			continue
		}
		for _, c := range [][2]Value{{s.Stiff.RadialMPa, s.Stiff.RadialRatio}, {s.Stiff.TangentialMPa, s.Stiff.TangentialRatio}} {
			want := 1.10 * s.Stiff.Bending.Value * 6894.757 * c[1].Value
			if math.Abs(c[0].Value/want-1) > 0.01 {
				t.Errorf("%s: %g MPa, from bending stiffness %g", s.ID, c[0].Value, want)
			}
		}
	}
}

func TestIDs(t *testing.T) {
	for name, want := range map[string]string{
		"Walnut, black":         "walnut-black",
		"Maple, sugar (hard)":   "maple-sugar-hard",
		"Yellow-poplar":         "yellow-poplar",
		"Pine, loblolly (SYP)":  "pine-loblolly-syp",
		"Redwood, old-growth":   "redwood-old-growth",
		"Hickory, true (group)": "hickory-true-group",
	} {
		if got := ID(name); got != want {
			t.Errorf("%s: id %s, want %s", name, got, want)
		}
		if s := Find(want); s.Name != name || !s.Known() {
			t.Errorf("%s not found: %q", want, s.Name)
		}
	}
}

func TestUnknownSpecies(t *testing.T) {
	s := Find("ironwood-of-mars")
	if s.Known() || s.Name != "" || s.ID != "ironwood-of-mars" || s.SG12.OK {
		t.Errorf("got %+v", s)
	}
	if h, p := s.HeartSwatch(), s.SapSwatch(); p.L <= h.L {
		t.Errorf("heart %v, sap %v", h, p)
	}
}

func TestNearest(t *testing.T) {
	for id, want := range map[string]string{
		"black-walnut": "walnut-black",
		"walnut-balck": "walnut-black",
		"Walnut":       "walnut-black",
		"cherry":       "cherry-black",
		"hard-maple":   "maple-sugar-hard",
		"white oak":    "oak-white",
		"teek":         "teak",
		"zzzzzzzzz":    "",
		"":             "",
	} {
		got := Nearest(id)
		if got != want {
			t.Errorf("%q: nearest %q, want %q", id, got, want)
		}
	}
}

func TestSwatches(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range All() {
		if s.swatch == (swatch{}) {
			t.Errorf("%s has no drawing colours", s.ID)
		}
		h, p := s.HeartSwatch(), s.SapSwatch()
		if h.L < 20 || p.L > 95 || h.L >= p.L {
			t.Errorf("%s: heart %v, sap %v: sapwood is the lighter one", s.ID, h, p)
		}
		seen[s.ID] = true
	}
	if !seen["walnut-black"] {
		t.Error("no black walnut")
	}
}

func TestParseRefuses(t *testing.T) {
	const head = "species,latin,S_R %,S_T %,S_V %,S src,C_R,C_T,C src,C vs S check,T/R,SG 12%,MOE Mpsi,MOE GPa,E src,E_R/E_L,E_T/E_L,E_R MPa*,E_T MPa*,green MC heart %,green MC sap %,MC src\n"
	const good = "Pear,Pyrus,4,7,11,R,—,—,—,,1.75,—,—,—,—,—,—,—,—,—,—,—\n"
	src := []byte("sources:\n  - {id: a, title: b, where: c, about: d, columns: ['S_R %','S_T %','S_V %',C_R,C_T,T/R,'SG 12%',MOE Mpsi,MOE GPa,E_R/E_L,E_T/E_L,E_R MPa*,E_T MPa*,'green MC heart %','green MC sap %']}\n")
	none := []byte("flag: illustration\nspecies: {}\n")
	if _, err := parse([]byte(head+good), src, none); err != nil {
		t.Fatalf("a good table is refused: %v", err)
	}
	for name, c := range map[string]struct{ csv, src, sw string }{
		"unknown flag":     {head + strings.Replace(good, ",R,", ",X,", 1), string(src), string(none)},
		"value, no flag":   {head + strings.Replace(good, ",R,", ",—,", 1), string(src), string(none)},
		"not a number":     {head + strings.Replace(good, ",4,", ",four,", 1), string(src), string(none)},
		"two of one":       {head + good + good, string(src), string(none)},
		"unknown key":      {head + good, string(src) + "more: 1\n", string(none)},
		"claimed measured": {head + good, string(src), "flag: measured\nspecies: {}\n"},
		"swatch of none":   {head + good, string(src), "flag: illustration\nspecies: {fig: {heart: [1,2,3], sap: [1,2,3]}}\n"},
		"column, no value": {strings.Replace(head, "C_R", "CR", 1) + good, string(src), string(none)},
	} {
		if _, err := parse([]byte(c.csv), []byte(c.src), []byte(c.sw)); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
