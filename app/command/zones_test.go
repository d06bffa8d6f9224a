package command

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"heartside/layout/layouttest"
)

func boardPhoto(t *testing.T, name string) string {
	t.Helper()
	return filepath.Join(layouttest.Root(t), "testdata", "boards", name)
}

// overlap is the sapwood that two masks have in common, of what either has.
// Flaws of the truth count neither way.
func overlap(t *testing.T, path string, truth string) float64 {
	t.Helper()
	read := func(path string) *image.Gray {
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		img, err := png.Decode(f)
		if err != nil {
			t.Fatal(err)
		}
		g, ok := img.(*image.Gray)
		if !ok {
			t.Fatalf("%s is no grey picture", path)
		}
		return g
	}
	got, want := read(path), read(truth)
	if got.Rect != want.Rect {
		t.Fatalf("the mask is %v, want %v: 1 pixel a mm", got.Rect, want.Rect)
	}
	both, either := 0, 0
	for k, v := range want.Pix {
		if v > 4 || got.Pix[k] > 4 {
			t.Fatalf("grey value %d", got.Pix[k])
		}
		if v == 3 {
			continue
		}
		if v == 2 && got.Pix[k] == 2 {
			both++
		}
		if v == 2 || got.Pix[k] == 2 {
			either++
		}
	}
	return float64(both) / float64(either)
}

// c11-redcedar-L1, face 1: 1071 x 194 mm, 16.65 % sapwood, its corners as told
// beside the picture.
func TestZones(t *testing.T) {
	truth := [4][2]float64{}
	var told struct {
		Faces map[string]struct{ Corners [4][2]float64 }
	}
	data, err := os.ReadFile(boardPhoto(t, "c11-redcedar-L1.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &told); err != nil {
		t.Fatal(err)
	}
	truth = told.Faces["1"].Corners
	to := filepath.Join(t.TempDir(), "mask.png")
	var out, errs bytes.Buffer
	if code := Run([]string{"zones", boardPhoto(t, "c11-redcedar-L1-1.jpg"), "--size", "1071x194", "-o", to, "--json"}, &out, &errs); code != Done {
		t.Fatalf("code %d: %s", code, errs.String())
	}
	var got zonesJSON
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatalf("%v in %s", err, out.String())
	}
	for i, c := range got.Corners {
		if dx, dy := c[0]-truth[i][0], c[1]-truth[i][1]; dx*dx+dy*dy > 9 {
			t.Errorf("corner %d at %v, want %v within 3 pixels", i, c, truth[i])
		}
	}
	if got.LightShare < 0.1565 || got.LightShare > 0.1765 || !got.Sure || got.Confidence < 0.5 || got.ResidualMM <= 0 || got.ResidualMM > 1 {
		t.Errorf("%+v", got)
	}
	if v := overlap(t, to, boardPhoto(t, "c11-redcedar-L1-1-mask.png")); v < 0.96 {
		t.Errorf("overlap %.3f with the truth", v)
	}
	var words []string
	for _, c := range truth {
		for _, v := range c {
			b, _ := json.Marshal(v)
			words = append(words, string(b))
		}
	}
	out.Reset()
	if code := Run([]string{"zones", boardPhoto(t, "c11-redcedar-L1-1.jpg"), "--size", "1071 mm × 19.4 cm", "--corners", strings.Join(words, ","), "-o", to}, &out, &errs); code != Done {
		t.Fatalf("code %d: %s", code, errs.String())
	}
	if v := overlap(t, to, boardPhoto(t, "c11-redcedar-L1-1-mask.png")); v < 0.97 {
		t.Errorf("overlap %.3f with the truth, corners given", v)
	}
	if !strings.Contains(out.String(), "light 1") || !strings.Contains(out.String(), to) {
		t.Errorf("it says\n%s", out.String())
	}
}

func TestZonesRefuses(t *testing.T) {
	photo := boardPhoto(t, "c11-redcedar-L1-1.jpg")
	text := filepath.Join(t.TempDir(), "photo.jpg")
	if err := os.WriteFile(text, []byte("no picture at all"), 0o600); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "m.png")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{photo, "--size", "1071x194"}, "-o MASK.png"},
		{[]string{photo, "--size", "1071x194", "-o", "m.jpg"}, "PNG"},
		{[]string{photo, "-o", to}, "--size"},
		{[]string{photo, "--size", "1071", "-o", to}, "LENGTHxWIDTH"},
		{[]string{photo, "--size", "1071xwide", "-o", to}, "width"},
		{[]string{photo, "--size", "0x194", "-o", to}, "length"},
		{[]string{photo, "--size", "1071x90000", "-o", to}, "width"},
		{[]string{photo, "--size", "1071x194", "--corners", "1,2,3", "-o", to}, "3 figures where there are 8"},
		{[]string{photo, "--size", "1071x194", "--corners", "1,2,3,4,5,6,7,x", "-o", to}, "“x” is no figure"},
		{[]string{photo, "--size", "1071x194", "--corners", "0,0,900,0,900,300,0,300", "-o", to}, "clockwise"},
		{[]string{text, "--size", "1071x194", "-o", to}, "photo.jpg"},
		{[]string{text + "x", "--size", "1071x194", "-o", to}, "photo.jpgx"},
		{[]string{filepath.Dir(text), "--size", "1071x194", "-o", to}, "folder"},
		{[]string{"--size", "1071x194", "-o", to}, "no photograph named"},
		{[]string{photo, "--size", "1071x194", "-o", filepath.Join(to, "x", "m.png")}, "cannot be written"},
	} {
		var out, errs bytes.Buffer
		if code := Run(append([]string{"zones"}, c.args...), &out, &errs); code != Failed || !strings.Contains(errs.String(), c.want) {
			t.Errorf("%v: code %d, %q; want %q in it", c.args, code, errs.String(), c.want)
		}
		if _, err := os.Stat(to); err == nil {
			t.Errorf("%v left a mask", c.args)
		}
	}
}

// Every key that zones --json prints is in the README's table.
func TestReadmeNamesEveryKeyOfZones(t *testing.T) {
	_, rest, ok := strings.Cut(readme(t), "`zones` finds the board")
	if !ok {
		t.Fatal("the README does not say what zones does")
	}
	table, _, _ := strings.Cut(rest, "\n### ")
	typ := reflect.TypeFor[zonesJSON]()
	for i := range typ.NumField() {
		if name := typ.Field(i).Tag.Get("json"); !strings.Contains(table, "`"+name) {
			t.Errorf("the README does not name %s", name)
		}
	}
}
