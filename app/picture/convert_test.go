package picture

import (
	"bytes"
	"context"
	"strings"
	"testing"
)

// The colours of four.png taken as Display P3, in sRGB: transicc of LittleCMS
// 2.14 (-i the profile -o *sRGB), brought into range.
var fourP3 = [4][3]int{{218, 0, 26}, {0, 183, 30}, {34, 61, 208}, {224, 199, 0}}

func TestProfilesAreFollowed(t *testing.T) {
	for _, c := range []struct {
		name   string
		want   [4][3]int
		space  string
		within int
	}{
		{"p3.jpg", fourP3, "Display P3", 2},
		{"p3.png", fourP3, "Display P3", 1},
		{"p3.tif", fourP3, "Display P3", 1},
		{"p3.webp", fourP3, "Display P3", 1},
		// The same from transicc for the profile in adobe.jpg.
		{"adobe.jpg", [4][3]int{{233, 35, 35}, {0, 181, 42}, {20, 57, 205}, {228, 201, 37}}, "Compatible with Adobe RGB (1998)", 3},
	} {
		m, info, err := Decode(context.Background(), bytes.NewReader(file(t, c.name)), Limits{})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if info.Profile != c.space || info.Approximate {
			t.Errorf("%s: %+v", c.name, info)
		}
		quarters(t, c.name, m, c.want, c.within)
		small, _, err := DecodeReduced(context.Background(), bytes.NewReader(file(t, c.name)), 12, Limits{})
		if err != nil {
			t.Errorf("%s, reduced: %v", c.name, err)
			continue
		}
		quarters(t, c.name+", reduced", small, c.want, c.within)
	}
}

// Colours of woods: values of Display P3 and what transicc makes of them.
func TestColoursOfWood(t *testing.T) {
	icc := inflatedOf(t, "p3.png")
	byProfile, name, approx := conversionOf(icc, "")
	if name != "Display P3" || approx {
		t.Fatalf("the profile is %q, approximate %v", name, approx)
	}
	byName, _, _ := conversionOf(nil, "Display P3")
	for _, c := range []struct{ p3, srgb [3]int }{
		{[3]int{150, 100, 60}, [3]int{159, 97, 51}},
		{[3]int{210, 180, 140}, [3]int{216, 179, 134}},
		{[3]int{60, 40, 30}, [3]int{64, 39, 28}},
		{[3]int{0, 0, 0}, [3]int{0, 0, 0}},
		{[3]int{255, 255, 255}, [3]int{255, 255, 255}},
	} {
		for how, conv := range map[string]*conversion{"profile": byProfile, "name": byName} {
			p := []uint8{uint8(c.p3[0]), uint8(c.p3[1]), uint8(c.p3[2])}
			conv.row(p)
			if got := [3]int{int(p[0]), int(p[1]), int(p[2])}; !near(got, c.srgb, 1) {
				t.Errorf("%v by its %s is %v, want %v", c.p3, how, got, c.srgb)
			}
		}
	}
}

// inflatedOf returns the profile of a PNG.
func inflatedOf(t testing.TB, name string) []byte {
	t.Helper()
	s, err := sourceOf(context.Background(), bytes.NewReader(file(t, name)), DefaultLimits())
	if err != nil {
		t.Fatal(err)
	}
	r, err := lookPNG(s, DefaultLimits())
	if err != nil || r.profile == nil {
		t.Fatalf("no profile in %s: %v", name, err)
	}
	return r.profile
}

func TestPrintingColoursAreSaidToBeApproximate(t *testing.T) {
	info, err := Stat(bytes.NewReader(file(t, "cmyk.jpg")), Limits{})
	if err != nil || !info.Approximate || info.Profile != "CMYK" {
		t.Errorf("%+v, %v", info, err)
	}
}

// A broken profile costs the colours, not the picture.
func TestBrokenProfile(t *testing.T) {
	icc := inflatedOf(t, "p3.png")
	for n := range len(icc) {
		p, err := parseProfile(icc[:n])
		if err == nil && n < 128+4+12*9 {
			t.Fatalf("%d bytes of a profile are taken for one: %+v", n, p.name)
		}
	}
	if c, name, approx := conversionOf([]byte("nonsense"), ""); c != nil || !approx || name != "unreadable" {
		t.Errorf("%v, %q, %v", c, name, approx)
	}
}

// Colour bars of full red, green, blue and yellow in luma and chroma of video
// range: ITU-R BT.709-6 (item 3.4, 8 bits) and BT.601-7.
func TestLumaAndChroma(t *testing.T) {
	for _, c := range []struct {
		m         *matrix
		y, cb, cr uint8
		want      [3]int
	}{
		{matrixOf(0.2126, 0.0722, false), 63, 102, 240, [3]int{255, 0, 0}},
		{matrixOf(0.2126, 0.0722, false), 173, 42, 26, [3]int{0, 255, 0}},
		{matrixOf(0.2126, 0.0722, false), 32, 240, 118, [3]int{0, 0, 255}},
		{matrixOf(0.2126, 0.0722, false), 219, 16, 138, [3]int{255, 255, 0}},
		{matrixOf(0.299, 0.114, false), 81, 90, 240, [3]int{255, 0, 0}},
		{matrixOf(0.299, 0.114, false), 145, 54, 34, [3]int{0, 255, 0}},
		{matrixOf(0.299, 0.114, false), 41, 240, 110, [3]int{0, 0, 255}},
		{matrixOf(0.299, 0.114, false), 235, 128, 128, [3]int{255, 255, 255}},
		{matrixOf(0.299, 0.114, true), 76, 85, 255, [3]int{254, 0, 0}}, // JFIF 1.02
		{&matrix{identical: true}, 1, 2, 3, [3]int{3, 1, 2}},
	} {
		r, g, b := c.m.rgb(c.y, c.cb, c.cr)
		if got := [3]int{int(r), int(g), int(b)}; !near(got, c.want, 2) {
			t.Errorf("luma %d with chroma %d, %d is %v, want %v", c.y, c.cb, c.cr, got, c.want)
		}
	}
}

func TestCleanNames(t *testing.T) {
	for in, want := range map[string]string{
		"Display P3\x00rest": "Display P3", " a\tb\x1b[2J ": "ab[2J", strings.Repeat("x", 200): strings.Repeat("x", 80),
	} {
		if got := clean(in); got != want {
			t.Errorf("%q is cleaned to %q, want %q", in, got, want)
		}
	}
}
