package unit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Worked by hand from 1 in = 25.4 mm: 7 3/8 in = 7.375 x 25.4 = 187.325,
// 1 ft 2 1/2 in = 14.5 x 25.4 = 368.3, 3/8 in = 9.525.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		sys  System
		want float64
	}{
		{"24", MM, 24}, {"24", "", 24}, {" 24 mm ", MM, 24}, {"24mm", Inch, 24}, {"24 MM", MM, 24},
		{"2.4 cm", MM, 24}, {"1.2 m", MM, 1200}, {"1.2m", Inch, 1200}, {"2 metres", MM, 2000},
		{"12,5", MM, 12.5}, {"12,5 mm", Inch, 12.5}, {"0,125", MM, 0.125}, {".5", MM, 0.5}, {"24.", MM, 24}, {"1.200", MM, 1.2},
		{"7 3/8", Inch, 187.325}, {"7.375", Inch, 187.325}, {"7-3/8", Inch, 187.325}, {`7 3/8"`, Inch, 187.325},
		{`7 3/8"`, MM, 187.325}, {"7 3/8 in", MM, 187.325}, {"7 3/8 in.", MM, 187.325}, {"7 3/8 inches", MM, 187.325}, {"7⅜″", MM, 187.325}, {"7 ⅜”", MM, 187.325}, {"7-⅜ in", MM, 187.325}, {"7 3⁄8″", MM, 187.325},
		{`3/8"`, MM, 9.525}, {"3/8", Inch, 9.525}, {"½ in", MM, 12.7}, {"¼", Inch, 6.35}, {"¾″", MM, 19.05}, {"⅛″", MM, 3.175}, {"9/8", Inch, 28.575}, {"5/4", Inch, 31.75},
		{`1'-2 1/2"`, MM, 368.3}, {`1' 2 1/2"`, MM, 368.3}, {"1'2.5", MM, 368.3}, {"1′ 2½″", MM, 368.3}, {"1 ft 2 1/2 in", MM, 368.3}, {"1’-2 1/2”", Inch, 368.3}, {"1' 2½''", MM, 368.3},
		{"1' 2", MM, 355.6}, {"1'", MM, 304.8}, {"1.5'", MM, 457.2}, {"1 1/2 ft", MM, 457.2}, {"½'", Inch, 152.4}, {`0'-6"`, MM, 152.4},
		{"14.5 in", MM, 368.3}, {"14,5 in", MM, 368.3}, {"12''", MM, 304.8},
		{"-3", MM, -3}, {"−7 3/8\"", MM, -187.325}, {"+5 mm", MM, 5}, {"- 3 mm", MM, -3}, {"-0", MM, 0}, {"0", Inch, 0},
		{"1000 m", MM, 1e6},
	} {
		got, err := Parse(c.text, c.sys)
		if err != nil || math.Abs(got-c.want) > 1e-9 || math.Signbit(got) != math.Signbit(c.want) {
			t.Errorf("%q in %q: %g, %v; want %g", c.text, c.sys, got, err, c.want)
		}
	}
}

func TestParseErrorsSayWhereAndWhatToDo(t *testing.T) {
	for _, c := range []struct {
		text string
		sys  System
		at   int
		hint string // part of the whole message
	}{
		{"", MM, 1, "type a length"}, {"   ", MM, 1, "type a length"},
		{"7 3/8", MM, 1, `add " or in`}, {"½", MM, 1, `add " or in`}, {"5/4", MM, 1, `add " or in`},
		{"1/2 mm", MM, 1, "decimals"}, {"7 3/8 cm", MM, 1, "decimals"},
		{"24 furlongs", MM, 4, "use mm, cm, m"}, {"24 kg", MM, 4, `"kg"`}, {"1e3", MM, 2, ""}, {"NaN", MM, 1, ""}, {"Inf mm", MM, 1, ""}, {"0x10", MM, 2, ""},
		{"1,200 mm", MM, 1, "1200 or 1.200"}, {"1.2.3", MM, 1, "more than one"}, {"1,200.5", MM, 1, "more than one"}, {"1 200 mm", MM, 3, "without a gap"},
		{"3/0\"", MM, 3, "divided by 0"}, {"3/", Inch, 3, "under the stroke"}, {"3/\"", Inch, 3, "under the stroke"}, {"/8", Inch, 1, "number is wanted"}, {"1.5/2\"", MM, 1, "whole numbers"}, {"7 9/8\"", MM, 3, "under 1"}, {"7 1.5/2\"", MM, 3, "whole numbers"},
		{"1' 14\"", MM, 4, "under 12"}, {"1.5' 2\"", MM, 6, "whole feet"}, {"1' 2 mm", MM, 6, "inches"}, {"1'-", MM, 4, "inches"}, {"1' 2\" 3", MM, 7, "more follows"},
		{"-", MM, 2, "number is wanted"}, {"--3", MM, 2, ""}, {"3-", MM, 2, "unit is wanted"}, {"mm", MM, 1, "number is wanted"}, {"24 mm mm", MM, 7, "more follows"}, {"24 mm 3", MM, 7, "more follows"}, {"3 + 4", MM, 3, "unit is wanted"},
		{"#5", MM, 1, "does not belong"}, {"5 €", MM, 3, "does not belong"}, {".", MM, 1, "no digits"}, {",,", MM, 1, "no digits"},
		{"1001 m", MM, 1, "1 km"}, {"1234567890123456", MM, 1, "too many digits"}, {"\xff", MM, 1, ""}, {"٣", MM, 1, ""},
	} {
		got, err := Parse(c.text, c.sys)
		var e *ParseError
		if !errors.As(err, &e) {
			t.Errorf("%q was read as %g, %v", c.text, got, err)
			continue
		}
		if c.hint != "" && !strings.Contains(e.Error(), c.hint) {
			t.Errorf("%q: %q does not say %q", c.text, e.Error(), c.hint)
		}
		if e.Text != c.text || e.At != c.at || e.What == "" || e.Hint == "" || got != 0 {
			t.Errorf("%q: %+v, want character %d", c.text, e, c.at)
		}
	}
}

// Quarters are nominal: n/4 of an inch, so 4/4 is 25.4 mm and 5/4 31.75 mm.
func TestParseThickness(t *testing.T) {
	for _, c := range []struct {
		text     string
		sys      System
		mm       float64
		quarters int
	}{
		{"4/4", MM, 25.4, 4}, {"5/4", MM, 31.75, 5}, {" 8 / 4 ", Inch, 50.8, 8}, {"6/4", Inch, 38.1, 6}, {"16/4", MM, 101.6, 16}, {"10/4", MM, 63.5, 10},
		{"26", MM, 26, 0}, {"1 1/8\"", MM, 28.575, 0}, {"3/4", Inch, 19.05, 0}, {"5/4\"", MM, 31.75, 0}, {"1.25", Inch, 31.75, 0},
	} {
		mm, q, err := ParseThickness(c.text, c.sys)
		if err != nil || math.Abs(mm-c.mm) > 1e-9 || q != c.quarters {
			t.Errorf("%q in %s: %g, %d quarters, %v; want %g and %d", c.text, c.sys, mm, q, err, c.mm, c.quarters)
		}
	}
	for _, bad := range []string{"", "0", "-3", "3/4", "17/4", "4/5", "5/4 mm", "x"} {
		var e *ParseError
		if mm, _, err := ParseThickness(bad, MM); !errors.As(err, &e) || mm != 0 {
			t.Errorf("%q was read as %g, %v", bad, mm, err)
		}
	}
}

// What is printed reads back to within half of the last place printed.
func TestParseReadsWhatFormatPrints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-9e5, 9e5).Draw(t, "mm")
		if rapid.Bool().Draw(t, "small") {
			mm /= 3000
		}
		s := Style{
			System:  rapid.SampledFrom([]System{MM, Inch}).Draw(t, "system"),
			WholeMM: rapid.Bool().Draw(t, "whole"),
			PerInch: rapid.SampledFrom([]int{0, 8, 16, 32, 64}).Draw(t, "per inch"),
			Feet:    rapid.Bool().Draw(t, "feet"),
		}
		half := 0.05
		switch {
		case s.System == Inch && s.PerInch == 0:
			half = InchMM / 32
		case s.System == Inch:
			half = InchMM / 2 / float64(s.PerInch)
		case s.WholeMM:
			half = 0.5
		}
		text := s.Format(mm)
		for _, sys := range []System{MM, Inch} { // a unit is always there
			got, err := Parse(text, sys)
			if err != nil || math.Abs(got-mm) > half+1e-9 {
				t.Fatalf("%g prints as %s and reads as %g, %v", mm, text, got, err)
			}
			if again := s.Format(got); again != text {
				t.Fatalf("%s prints again as %s", text, again)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"24", "24 mm", "2.4 cm", "7 3/8\"", "7-3/8", "1'-2 1/2\"", "1' 2", "½", "12,5", "4/4", "−3″", "''", "1e9", "\xff\xfe", "7 ⅜ ”", "1/0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, sys := range []System{MM, Inch, "other"} {
			mm, err := Parse(s, sys)
			var e *ParseError
			switch {
			case err == nil && !(math.Abs(mm) <= longestMM):
				t.Fatalf("%q was read as %g", s, mm)
			case err != nil && (!errors.As(err, &e) || e.At < 1 || e.At > len([]rune(s))+1 || e.Hint == ""):
				t.Fatalf("%q: %+v", s, err)
			}
			if mm, _, err := ParseThickness(s, sys); err == nil && !(mm > 0 && mm <= longestMM) {
				t.Fatalf("thickness %q was read as %g", s, mm)
			}
		}
	})
}
