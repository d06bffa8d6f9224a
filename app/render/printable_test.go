package render

import (
	"encoding/xml"
	"image/color"
	"io"
	"regexp"
	"strings"
	"testing"

	"heartside/layout/geom"
)

// What is drawn from the left. Hebrew is written with escapes since editors turn
// it. By hand after UAX 9: letters that run left come out in the other order,
// numbers in them keep theirs, and a line that begins so has what follows at
// its left.
func TestScriptsThatRunLeft(t *testing.T) {
	f := faces(t)
	for in, want := range map[string]string{
		"\u05e9\u05dc\u05d5\u05dd":         "\u05dd\u05d5\u05dc\u05e9",
		"top \u05d0\u05d1 12":              "top 12 \u05d1\u05d0",
		"\u05d0\u05d1 12":                  "12 \u05d1\u05d0",
		"\u05d0\u05d1 top":                 "top \u05d1\u05d0",
		"A1 \u05d0\u05d1, \u05d2\u05d3 B2": "A1 \u05d3\u05d2 ,\u05d1\u05d0 B2",
		"\u05d0 (\u05d1)":                  "(\u05d1) \u05d0",
		"plain (text)":                     "plain (text)",
	} {
		if got := f.Printable(in, Style{}); got != want {
			t.Errorf("%+q became %+q, want %+q", in, got, want)
		}
	}
}

// Forms read off the Unicode chart of Arabic Presentation Forms-B: seen initial
// FEB3, lam with alef joined FEFC, meem alone FEE1; beh initial FE91, medial
// FE92, final FE90; alef alone FE8D, dal final FEAA; yeh final FEF2.
func TestArabicIsJoined(t *testing.T) {
	all := func(rune) bool { return true }
	for in, want := range map[string]string{
		"\u0633\u0644\u0627\u0645": "\ufeb3\ufefc\ufee1",
		"\u0628\u0628\u0628":       "\ufe91\ufe92\ufe90",
		"\u0628\u062f\u0627":       "\ufe91\ufeaa\ufe8d",
		"\u0641\u064a":             "\ufed3\ufef2",
	} {
		if got := string(joined([]rune(in), all)); got != want {
			t.Errorf("%+q became %+q, want %+q", in, got, want)
		}
	}
	if got := joined([]rune("\u0628\u0628"), func(rune) bool { return false }); string(got) != "\u0628\u0628" {
		t.Errorf("without the forms: %+q", string(got))
	}
}

// No cut lacks what the sheets' own words need, nor Greek, Cyrillic, Hebrew and
// Arabic; all lack Chinese, and say so.
func TestLacks(t *testing.T) {
	f := faces(t)
	for s, want := range map[string]bool{
		"½ × − ☐ ‹1F600›": false, "Ω": false, "Ж": false, "\u05d0": false, "\u0628": false, "木": true, "a\t\u200d": false,
	} {
		if got := f.Lacks(s); got != want {
			t.Errorf("%q lacks: %v", s, got)
		}
	}
}

// The drawing is well-formed and as large as it says; text stays text.
func TestSVG(t *testing.T) {
	f := faces(t)
	s := NewSVG(120, 80, "A & B", f)
	s.Push(Box(geom.R(0, 0, 50, 50)))
	s.Fill(Box(geom.R(10, 20, 60, 40)), color.NRGBA{R: 255, A: 128})
	s.Pop()
	s.Pop()
	s.Hatch(Box(geom.R(0, 0, 10, 10)), Hatch{Angle: 45, Spacing: 2, Pen: Pen{Width: 0.2, Color: ink}})
	s.Stroke(Segment(geom.Pt(1, 2), geom.Pt(3, 4)), Pen{Width: 0.5, Color: ink, Dash: []float64{2, 1}, Round: true})
	s.Text(geom.Pt(5, 6), "A1 <木> & \u05d0\u05d1", Style{Size: 4, Bold: true, Narrow: true, Color: ink, Align: Middle, Turn: 90})
	s.Push(Box(geom.R(0, 0, 1, 1))) // left open
	data, err := s.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(string(data)))
	text := ""
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, data)
		}
		if c, ok := tok.(xml.CharData); ok {
			text += string(c)
		}
	}
	for _, want := range []string{"A & B", "A1 <木> & \u05d0\u05d1"} {
		if !strings.Contains(text, want) {
			t.Errorf("no text %q", want)
		}
	}
	for _, want := range []string{
		`width="120mm" height="80mm" viewBox="0 0 120 80"`, `M10 20L60 20L60 40L10 40Z`, `fill-opacity="0.502"`,
		`stroke-dasharray="2 1"`, `rotate(-90 5 6)`, `text-anchor="middle"`, `font-weight="bold"`,
	} {
		if !strings.Contains(string(data), want) {
			t.Errorf("no %s in\n%s", want, data)
		}
	}
}

// ISO 32000-1, 9.6.4: the name of a typeface of which some characters are
// embedded begins with six capitals and a plus; and of each of 700 kB no more
// than some tens are there.
func TestFontsAreSubsets(t *testing.T) {
	s := string(document(t, true))
	names := regexp.MustCompile(`/(?:BaseFont|FontName) /(\S+)`).FindAllStringSubmatch(s, -1)
	if len(names) < 3 {
		t.Fatalf("names %q", names)
	}
	for _, n := range names {
		if !regexp.MustCompile(`^[A-Z]{6}\+DejaVuSans`).MatchString(n[1]) {
			t.Errorf("a typeface is named %s", n[1])
		}
	}
	for _, n := range regexp.MustCompile(`/Length1 (\d+)`).FindAllStringSubmatch(s, -1) {
		if len(n[1]) > 5 {
			t.Errorf("a typeface of %s bytes", n[1])
		}
	}
	if subsetTag(map[rune]bool{'a': true}) == subsetTag(map[rune]bool{'b': true}) {
		t.Error("one mark for different characters")
	}
}
