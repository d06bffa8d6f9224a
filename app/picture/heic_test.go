//go:build !noheic

package picture

import (
	"bytes"
	"context"
	"errors"
	"image"
	"testing"
)

// The pictures and what heif-convert of libheif 1.15.1 shows of them: colours
// at the middles of the quarters, and the size.
var heics = []struct {
	name        string
	w, h        int
	orientation int
	profile     string
	want        [4][3]int
	within      int
}{
	{"plain.heic", 192, 128, 1, "", four, 3},
	{"ten.heic", 192, 128, 1, "", four, 3},
	// Its own property turns it by a quarter, and EXIF asks for the same: to
	// be done once.
	{"grid.heic", 180, 250, 6, "", four, 3},
	{"mirrored.heic", 180, 250, 7, "", [4][3]int{four[2], four[3], four[0], four[1]}, 3},
	{"p3.heic", 180, 250, 6, "Display P3", fourP3, 4},
}

func TestHEICIsTurnedOnce(t *testing.T) {
	for _, g := range heics {
		p := file(t, g.name)
		m, info, err := Decode(context.Background(), bytes.NewReader(p), Limits{})
		if err != nil {
			t.Errorf("%s: %v", g.name, err)
			continue
		}
		if m.Bounds() != image.Rect(0, 0, g.w, g.h) {
			t.Errorf("%s: it covers %v", g.name, m.Bounds())
		}
		quarters(t, g.name, m, g.want, g.within)
		if info.Format != "HEIC" || info.Width != g.w || info.Height != g.h || info.Orientation != g.orientation || info.Profile != g.profile || info.Approximate {
			t.Errorf("%s: %+v", g.name, info)
		}
		small, _, err := DecodeReduced(context.Background(), bytes.NewReader(p), 60, Limits{})
		if err != nil || max(small.Rect.Dx(), small.Rect.Dy()) != 60 {
			t.Errorf("%s, reduced: %v", g.name, err)
			continue
		}
		quarters(t, g.name+", reduced", small, g.want, g.within)
	}
}

func TestTruncatedHEIC(t *testing.T) {
	for _, g := range heics {
		p := file(t, g.name)
		for n := 1; n < len(p); n += 1 + len(p)/60 {
			m, _, err := Decode(context.Background(), bytes.NewReader(p[:n]), Limits{})
			var e *Error
			switch {
			case err == nil: // without the notes at its end
				quarters(t, g.name, m, g.want, g.within)
			case !errors.As(err, &e):
				t.Fatalf("%s cut after %d bytes: %v", g.name, n, err)
			case n > 16 && e.Kind != Truncated:
				t.Errorf("%s cut after %d bytes: %v", g.name, n, e)
			}
		}
	}
}

// heicBombs claim other sizes in their tables than they have.
func heicBombs(t testing.TB) map[string][]byte {
	grid := file(t, "grid.heic")
	set := func(after string, off int, v ...byte) []byte {
		q := bytes.Clone(grid)
		copy(q[bytes.Index(q, []byte(after))+len(after)+off:], v)
		return q
	}
	// The layout: version, flags, rows-1, columns-1, width, height.
	layout := string([]byte{0, 0, 1, 1, 0, 250, 0, 180})
	last := bytes.LastIndex(grid, []byte("ispe")) + 8
	whole := bytes.Clone(grid)
	copy(whole[last:], []byte{0, 0, 0x1f, 0x40, 0, 0, 0x1f, 0x40})
	both := bytes.Clone(whole)
	copy(both[bytes.Index(both, []byte(layout))+4:], []byte{0x1f, 0x40, 0x1f, 0x40})
	many := bytes.Clone(both)
	copy(many[bytes.Index(many, []byte{0, 0, 1, 1, 0x1f, 0x40}):], []byte{0, 0, 255, 255})
	// The size within the coded part itself: the sequence parameter set has
	// it behind 13 bytes; ones make the codes that hold it short or long.
	set33 := bytes.Index(grid, []byte{0x42, 0x01})
	coded := bytes.Clone(grid)
	copy(coded[set33+15:], []byte{0xa0, 0x00, 0x08, 0x00})
	return map[string][]byte{
		"part of 60000 x 60000":    set("ispe", 4, 0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60),
		"part of 8000 x 8000":      set("ispe", 4, 0, 0, 0x1f, 0x40, 0, 0, 0x1f, 0x40),
		"whole of 8000 x 8000":     whole,
		"layout of 8000 x 8000":    both,
		"256 x 256 parts":          many,
		"layout of no size":        set(layout[:4], 0, 0, 0, 0, 0),
		"coded as another size":    coded,
		"tables of no length":      set("meta", -8, 0, 0, 0, 4),
		"tables longer than it is": set("iprp", -8, 0x7f, 0, 0, 0),
	}
}

func TestHEICBombsCostNothing(t *testing.T) {
	// The decoder is made ready once, which takes memory of its own.
	if _, _, err := Decode(context.Background(), bytes.NewReader(file(t, "grid.heic")), Limits{}); err != nil {
		t.Fatal(err)
	}
	for name, p := range heicBombs(t) {
		var e *Error
		got := allocated(func() { e = refusal(t, name, p, Limits{}) })
		if e.Kind != TooLarge && e.Kind != Damaged && e.Kind != Truncated {
			t.Errorf("%s: %v", name, e)
		}
		if got > 4<<20 {
			t.Errorf("%s: %d MB were allocated to say %v", name, got>>20, e)
		}
	}
	if e := refusal(t, "limit", file(t, "grid.heic"), Limits{Pixels: 40000}); e.Kind != TooLarge {
		t.Errorf("%v", e)
	}
}

// Sizes of sequence parameter sets, by hand after ITU-T H.265, 7.3.2.2: sets
// of the test pictures, whose sizes heif-info tells.
func TestSizeOfSet(t *testing.T) {
	for name, want := range map[string][2]int{"plain.heic": {192, 128}, "ten.heic": {192, 128}, "grid.heic": {128, 96}} {
		p := file(t, name)
		at := bytes.Index(p, []byte{0x42, 0x01})
		n := int(be.Uint16(p[at-2:]))
		w, h, err := sizeOfSet(p[at : at+n])
		if err != nil || w != want[0] || h != want[1] {
			t.Errorf("%s: %d x %d, %v; want %v", name, w, h, err, want)
		}
		for k := 2; k < 16; k++ {
			if _, _, err := sizeOfSet(p[at : at+k]); err == nil {
				t.Errorf("%s: %d bytes of a set are taken for one", name, k)
			}
		}
	}
}

// Four quarter turns and two mirrorings change nothing; the others are those of
// EXIF 2.32, 4.6.4 A, worked with a letter F on paper.
func TestTurnsOfTurns(t *testing.T) {
	for o := 1; o <= 8; o++ {
		if q := turnLeft[turnLeft[turnLeft[turnLeft[o]]]]; q != o {
			t.Errorf("four quarters of %d are %d", o, q)
		}
		if q := flop[flop[o]]; q != o {
			t.Errorf("two mirrorings of %d are %d", o, q)
		}
	}
	if turnLeft[1] != 8 || turnLeft[8] != 3 || flop[1] != 2 || flop[6] != 5 {
		t.Error("a quarter anticlockwise is 8, half a turn 3, mirrored 2, a quarter clockwise and mirrored 5")
	}
}
