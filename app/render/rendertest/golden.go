// Package rendertest compares what tests draw with files kept under
// testdata/golden at the top of the source tree.
//
// With UPDATE_GOLDEN=1 in the environment the files are written anew; that is
// refused where CI is set. Where a comparison fails, what was drawn, and for
// pictures the difference, is written under testdata/failed.
package rendertest

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/layout/layouttest"
)

// updating reports whether goldens are to be written anew.
func updating(t testing.TB) bool {
	t.Helper()
	if os.Getenv("UPDATE_GOLDEN") == "" {
		return false
	}
	if ci := os.Getenv("CI"); ci != "" && ci != "0" && ci != "false" {
		t.Fatal("UPDATE_GOLDEN is refused where CI is set: goldens are looked at before they are kept")
	}
	return true
}

func save(t testing.TB, name string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// Golden compares text with the golden of that name, such as
// "scene/empty.txt".
func Golden(t testing.TB, name, got string) {
	t.Helper()
	file := filepath.Join(layouttest.Root(t), "testdata", "golden", filepath.FromSlash(name))
	if updating(t) {
		save(t, file, []byte(got))
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		fail(t, name, []byte(got))
		t.Errorf("golden %s is missing (UPDATE_GOLDEN=1 writes it): %v", name, err)
		return
	}
	if string(want) == got {
		return
	}
	fail(t, name, []byte(got))
	w, g := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := 0; i < max(len(w), len(g)); i++ {
		if a, b := line(w, i), line(g, i); a != b {
			t.Errorf("golden %s, line %d:\n want %s\n  got %s\n(%d lines wanted, %d drawn)", name, i+1, a, b, len(w), len(g))
			return
		}
	}
}

func line(s []string, i int) string {
	if i < len(s) {
		return s[i]
	}
	return "(no more lines)"
}

func fail(t testing.TB, name string, data []byte) {
	t.Helper()
	save(t, filepath.Join(layouttest.Root(t), "testdata", "failed", filepath.FromSlash(name)), data)
}

// Image compares a picture with the golden of that name. A pixel differs
// where it is off by more than tolerance (0 to 1) of the greatest difference
// there is, weighed as the eye does; up to most pixels may differ.
func Image(t testing.TB, name string, got image.Image, tolerance float64, most int) {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, got); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(layouttest.Root(t), "testdata", "golden", filepath.FromSlash(name))
	if updating(t) {
		save(t, file, b.Bytes())
		return
	}
	data, err := os.ReadFile(file)
	if err != nil {
		fail(t, name, b.Bytes())
		t.Errorf("golden %s is missing (UPDATE_GOLDEN=1 writes it): %v", name, err)
		return
	}
	want, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("golden %s: %v", name, err)
	}
	if want.Bounds().Size() != got.Bounds().Size() {
		fail(t, name, b.Bytes())
		t.Errorf("golden %s is %v, drawn %v", name, want.Bounds().Size(), got.Bounds().Size())
		return
	}
	off, diff := Differing(want, got, tolerance)
	if off <= most {
		return
	}
	fail(t, name, b.Bytes())
	var d bytes.Buffer
	if err := png.Encode(&d, diff); err == nil {
		fail(t, strings.TrimSuffix(name, ".png")+"-diff.png", d.Bytes())
	}
	t.Errorf("golden %s: %d pixels differ, %d may; see testdata/failed/%s", name, off, most, name)
}

// Differing counts the pixels of two equally large pictures that differ by
// more than tolerance and returns a picture of them, red where they do. The
// difference is the weighted distance in YIQ of Kotsarenko and Ramos (2010).
func Differing(a, b image.Image, tolerance float64) (int, *image.RGBA) {
	size := a.Bounds().Size()
	out := image.NewRGBA(image.Rect(0, 0, size.X, size.Y))
	limit := 35215 * tolerance * tolerance // 35215: the greatest possible distance
	n := 0
	for y := 0; y < size.Y; y++ {
		for x := 0; x < size.X; x++ {
			p := onWhite(a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y))
			q := onWhite(b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y))
			dr, dg, db := p[0]-q[0], p[1]-q[1], p[2]-q[2]
			dy := 0.29889531*dr + 0.58662247*dg + 0.11448223*db
			di := 0.59597799*dr - 0.27417610*dg - 0.32180189*db
			dq := 0.21147017*dr - 0.52261711*dg + 0.31114694*db
			if 0.5053*dy*dy+0.299*di*di+0.1957*dq*dq > limit {
				n++
				out.SetRGBA(x, y, color.RGBA{R: 255, A: 255})
				continue
			}
			g := uint8(200 + (p[0]+p[1]+p[2])/15)
			out.SetRGBA(x, y, color.RGBA{R: g, G: g, B: g, A: 255})
		}
	}
	return n, out
}

// onWhite returns the channels of c over white, 0 to 255.
func onWhite(c color.Color) [3]float64 {
	r, g, b, a := c.RGBA()
	rest := 0xFFFF - float64(a)
	return [3]float64{(float64(r) + rest) / 257, (float64(g) + rest) / 257, (float64(b) + rest) / 257}
}
