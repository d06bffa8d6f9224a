package ui

import (
	"context"
	"image"
	"math"
	"path/filepath"
	"testing"

	"heartside/app/intake"
)

// The pictures are one of 48 x 32 pixels with a colour a quarter, stored turned
// by another program; see the README beside them.
func turnedPicture(t *testing.T, name string) string {
	t.Helper()
	path, err := filepath.Abs(filepath.Join("..", "picture", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// upright reports whether the quarters are red, green, blue and yellow.
func upright(m image.Image) bool {
	if m == nil || m.Bounds() != image.Rect(0, 0, 48, 32) {
		return false
	}
	for i, want := range [4][3]int{{200, 40, 40}, {40, 180, 60}, {40, 60, 200}, {220, 200, 60}} {
		r, g, b, _ := m.At(12+24*(i%2), 8+16*(i/2)).RGBA()
		for k, v := range [3]uint32{r, g, b} {
			if math.Abs(float64(v>>8)-float64(want[k])) > 3 {
				return false
			}
		}
	}
	return true
}

func TestPicturesStandUprightWhereTheyArePaired(t *testing.T) {
	s := openReading(t, stack("A"), 100, atOnce)
	names := []string{"four.png", "turned6.jpg", "turned8.webp", "turned6.tif"}
	for _, n := range names {
		s.rack.content()
		s.rack.pics.clear()
		path := turnedPicture(t, n)
		s.drop(path)
		s.q.wait(t, "the small picture", func() bool { return s.rack.pics.looks.got[path] != nil })
		if m := s.rack.pics.rows[0].thumb.Image; !upright(m) {
			t.Errorf("%s: the picture in the row lies otherwise", n)
		}
		if m, scale, err := openPhoto(context.Background(), path); err != nil || !upright(m) || scale != 1 {
			t.Errorf("%s, to set corners on: %v", n, err)
		}
	}
	if p := s.rack.pics.rows[0].place(); p.Part == intake.NoPart {
		t.Errorf("no place is proposed: %v", p)
	}
}

func TestAPictureThatCannotBeShownSaysWhy(t *testing.T) {
	s := openReading(t, stack("A"), 100, atOnce)
	path := turnedPicture(t, "README.jpg")
	p := newPreviews(s.Window)
	told := false
	p.ready = func(string) { told = true }
	p.want(path)
	s.q.wait(t, "the answer", func() bool { return told })
	if p.got[path] != nil || p.trouble(path) == "" {
		t.Errorf("says %q", p.trouble(path))
	}
}
