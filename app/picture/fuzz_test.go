package picture

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// fuzzLimits keep a try short; what is claimed beyond them must cost nothing.
var fuzzLimits = Limits{Pixels: 1 << 18, Bytes: 1 << 20}

// fuzz seeds with the pictures of a format and tries that whatever comes gives
// a picture as large as it says, or an *Error.
func fuzz(f *testing.F, format string, more map[string][]byte) {
	names, err := filepath.Glob("testdata/*")
	if err != nil {
		f.Fatal(err)
	}
	for _, n := range names {
		p, err := os.ReadFile(n)
		if err != nil {
			continue
		}
		if i, err := Stat(bytes.NewReader(p), Limits{}); err == nil && i.Format == format {
			f.Add(p)
			f.Add(p[:len(p)/2])
			f.Add(p[:len(p)*9/10])
		}
	}
	for _, p := range more {
		f.Add(p)
	}
	f.Fuzz(func(t *testing.T, p []byte) {
		m, info, err := Decode(context.Background(), bytes.NewReader(p), fuzzLimits)
		var e *Error
		switch {
		case err != nil && !errors.As(err, &e):
			t.Fatalf("no *Error: %v", err)
		case err == nil && (m.Bounds().Dx() != info.Width || m.Bounds().Dy() != info.Height || info.Width*info.Height > fuzzLimits.Pixels):
			t.Fatalf("%v is not %+v", m.Bounds(), info)
		}
		if _, err := Stat(bytes.NewReader(p), fuzzLimits); err != nil && !errors.As(err, &e) {
			t.Fatalf("no *Error: %v", err)
		}
	})
}

func FuzzJPEG(f *testing.F) { fuzz(f, formatJPEG, bombs(f)) }
func FuzzPNG(f *testing.F)  { fuzz(f, formatPNG, bombs(f)) }
func FuzzWebP(f *testing.F) { fuzz(f, formatWebP, bombs(f)) }
func FuzzTIFF(f *testing.F) { fuzz(f, formatTIFF, bombs(f)) }

func FuzzProfile(f *testing.F) {
	f.Add(inflatedOf(f, "p3.png"))
	f.Fuzz(func(t *testing.T, p []byte) {
		c, name, _ := conversionOf(p, "")
		if name != clean(name) {
			t.Fatalf("the name is %q", name)
		}
		if c != nil {
			c.row([]uint8{0, 128, 255})
		}
	})
}
