package picture

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// refusal asks for a file in all ways and returns the *Error that each must
// give.
func refusal(t *testing.T, name string, p []byte, lim Limits) *Error {
	t.Helper()
	img, _, err := Decode(context.Background(), bytes.NewReader(p), lim)
	var e *Error
	if !errors.As(err, &e) || img != nil {
		t.Fatalf("%s: Decode gives %v, want an *Error", name, err)
	}
	if e.What == "" || e.Do == "" || strings.Contains(e.Error(), "\n") {
		t.Errorf("%s: %q", name, e.Error())
	}
	if _, _, err := DecodeReduced(context.Background(), bytes.NewReader(p), 100, lim); err == nil {
		t.Errorf("%s: DecodeReduced gives a picture", name)
	}
	return e
}

func TestWhatIsNoPictureIsNamed(t *testing.T) {
	for _, c := range []struct {
		head string
		kind Kind
		says string
	}{
		{"%PDF-1.7\n%\xe2\xe3", NotAPicture, "a PDF document"},
		{"dear maker,\nthe boards are drying\n", NotAPicture, "a text file"},
		{"\xef\xbb\xbf<!DOCTYPE html><p>", NotAPicture, "a web page"},
		{"<svg xmlns=", NotAPicture, "a drawing"},
		{"GIF89a\x10\x00\x10\x00", Unsupported, "a GIF picture"},
		{"BM\x36\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00\x10\x00", Unsupported, "a bitmap"},
		{"PK\x03\x04\x14\x00", NotAPicture, "a ZIP archive"},
		{"\x00\x00\x00\x20ftypqt  \x00\x00\x00\x00qt  ", NotAPicture, "a film"},
		{"\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00", NotAPicture, "a film"},
		{"\x00\x00\x00\x18ftypavif\x00\x00\x00\x00", Unsupported, "an AVIF picture"},
		{"\x00\x00\x00\x18ftypcrx \x00\x00\x00\x00", Unsupported, "raw file"},
		{"RIFF\x10\x00\x00\x00WAVEfmt ", NotAPicture, "a sound"},
		{"II+\x00\x08\x00\x00\x00", Unsupported, "BigTIFF"},
		{"II*\x00\x10\x00\x00\x00CR\x02\x00\x00\x00\x00\x00", Unsupported, "raw file"},
		{"FUJIFILMCCD-RAW 0201", Unsupported, "raw file"},
		{"\x00\x00\x00\x00\x00\x00\x00\x00", NotAPicture, "zeros"},
		{"\x01\x02\x03\x04\x05\xff\xfe\xfd", NotAPicture, "unknown kind"},
		{"", NotAPicture, "empty"},
	} {
		e := refusal(t, c.says, []byte(c.head), Limits{})
		if e.Kind != c.kind || !strings.Contains(e.What, c.says) {
			t.Errorf("%q: %v, %q; want %v, %q", c.head, e.Kind, e.What, c.kind, c.says)
		}
	}
	for _, name := range []string{"cmyk.tif", "jpeg.tif"} {
		if e := refusal(t, name, file(t, name), Limits{}); e.Kind != Unsupported || !strings.Contains(e.Do, "JPEG") {
			t.Errorf("%s: %v", name, e)
		}
	}
}

func TestFolderPipeAndNothing(t *testing.T) {
	dir := t.TempDir()
	for path, kind := range map[string]Kind{dir: NotAPicture, filepath.Join(dir, "none.jpg"): Unreadable, os.DevNull: NotAPicture, "a\x00b": Unreadable} {
		f, err := Open(path)
		var e *Error
		if !errors.As(err, &e) || e.Kind != kind {
			t.Errorf("%q: %v, %v; want the kind %v", path, f, err, kind)
		}
	}
	f, err := os.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var e *Error
	if _, err := Stat(f, Limits{}); !errors.As(err, &e) || e.Kind != NotAPicture {
		t.Errorf("an opened folder: %v", err)
	}
}

// What is cut off anywhere is refused, mostly as that; where only notes after
// the pixels are missing, the whole picture may come instead, never a part.
func TestTruncated(t *testing.T) {
	for _, g := range goldens {
		p := file(t, g.name)
		told, cuts, whole := 0, 0, 0
		for n := 1; n < len(p); n += 1 + len(p)/150 {
			m, _, err := Decode(context.Background(), bytes.NewReader(p[:n]), Limits{})
			var e *Error
			switch {
			case err == nil:
				whole++
				quarters(t, g.name+", cut", m, four, g.within)
				continue
			case !errors.As(err, &e):
				t.Fatalf("%s cut after %d of %d bytes: %v", g.name, n, len(p), err)
			}
			if cuts++; e.Kind == Truncated {
				told++
			}
		}
		if told < cuts*8/10 || whole > cuts/2 {
			t.Errorf("%s: of %d cuts %d are told as such, and %d are not seen", g.name, cuts, told, whole)
		}
	}
}

// allocated returns the bytes f allocates in all.
func allocated(f func()) uint64 {
	var a, b runtime.MemStats
	runtime.ReadMemStats(&a)
	f()
	runtime.ReadMemStats(&b)
	return b.TotalAlloc - a.TotalAlloc
}

// chunk returns a PNG chunk.
func chunk(name string, d []byte) []byte {
	p := binary.BigEndian.AppendUint32(nil, uint32(len(d)))
	p = append(append(p, name...), d...)
	return binary.BigEndian.AppendUint32(p, crc32.ChecksumIEEE(p[4:]))
}

// bombs are small files that claim to be enormous.
func bombs(t testing.TB) map[string][]byte {
	jpg, pn := file(t, "turned1.jpg"), file(t, "four.png")
	set := func(p []byte, at int, v ...byte) []byte {
		q := bytes.Clone(p)
		copy(q[at:], v)
		return q
	}
	sof := bytes.Index(jpg, []byte{0xff, 0xc0})
	huge := []byte{0xea, 0x60, 0xea, 0x60} // 60000, 60000
	ihdr := chunk("IHDR", []byte{0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60, 8, 2, 0, 0, 0})
	fits := chunk("IHDR", []byte{0, 0, 0x1f, 0x40, 0, 0, 0x1f, 0x40, 8, 2, 0, 0, 0}) // 8000
	tif := file(t, "plain.tif")
	width := bytes.Index(tif, []byte{0x00, 0x01, 0x03, 0x00, 1, 0, 0, 0})  // tag 256, a short
	height := bytes.Index(tif, []byte{0x01, 0x01, 0x03, 0x00, 1, 0, 0, 0}) // tag 257
	vp8l := file(t, "lossless.webp")
	return map[string][]byte{
		"JPEG, size":                 set(jpg, sof+5, huge...),
		"JPEG, size within limits":   set(jpg, sof+5, 0x1f, 0x40, 0x1f, 0x40),
		"PNG, size":                  append(append(bytes.Clone(pn[:8]), ihdr...), pn[33:]...),
		"PNG, size within limits":    append(append(bytes.Clone(pn[:8]), fits...), pn[33:]...),
		"TIFF, size":                 set(set(tif, width+8, 0x60, 0xea), height+8, 0x60, 0xea),
		"TIFF, one strip of 60000":   set(tif, height+8, 0x60, 0xea),
		"TIFF, directory everywhere": set(tif, 4, 0xff, 0xff, 0xff, 0x7f),
		"WebP, size":                 set(vp8l, 21, 0xff, 0xff, 0xff, 0x0f), // 16384 x 16384
	}
}

func TestBombsCostNothing(t *testing.T) {
	for name, p := range bombs(t) {
		var e *Error
		got := allocated(func() { e = refusal(t, name, p, Limits{}) })
		if e.Kind != TooLarge && e.Kind != Truncated && e.Kind != Damaged {
			t.Errorf("%s: %v", name, e)
		}
		// The largest of these would take over 100 MB to decode.
		if got > 40<<20 {
			t.Errorf("%s: %d MB were allocated to say %v", name, got>>20, e)
		}
	}
}

// A text that inflates to 64 MB is skipped, one in a profile's place is cut.
func TestCompressedTextIsNotInflated(t *testing.T) {
	pn := file(t, "four.png")
	zeros := deflated(t, 64<<20)
	for _, name := range []string{"zTXt", "iCCP"} {
		p := append(bytes.Clone(pn[:33]), chunk(name, append([]byte("Raw profile type exif\x00\x00"), zeros...))...)
		p = append(p, pn[33:]...)
		var err error
		got := allocated(func() { _, _, err = Decode(context.Background(), bytes.NewReader(p), Limits{}) })
		if err != nil || got > 40<<20 {
			t.Errorf("%s: %v, %d MB allocated", name, err, got>>20)
		}
	}
}

// More passes than any camera makes cost time, not bytes.
func TestManyPasses(t *testing.T) {
	p := file(t, "progressive.jpg")
	at := bytes.LastIndex(p, []byte{0xff, 0xda})
	scan := p[at : len(p)-2]
	q := append(bytes.Clone(p[:at]), bytes.Repeat(scan, mostScans+1)...)
	if e := refusal(t, "passes", append(q, 0xff, 0xd9), Limits{}); e.Kind != Unsupported || !strings.Contains(e.What, "passes") {
		t.Errorf("%v", e)
	}
}

func TestLimits(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 100, 50))); err != nil {
		t.Fatal(err)
	}
	p := b.Bytes()
	if _, err := Stat(bytes.NewReader(p), Limits{Pixels: 5000, Bytes: int64(len(p))}); err != nil {
		t.Errorf("just within the limits: %v", err)
	}
	for _, lim := range []Limits{{Pixels: 4999}, {Bytes: int64(len(p)) - 1}} {
		if e := refusal(t, "limits", p, lim); e.Kind != TooLarge {
			t.Errorf("%+v: %v", lim, e)
		}
		_, err := Stat(struct{ *bytes.Buffer }{bytes.NewBuffer(p)}, lim)
		var e *Error
		if !errors.As(err, &e) || e.Kind != TooLarge {
			t.Errorf("%+v, read forward: %v", lim, err)
		}
	}
}

func TestKindsHaveNames(t *testing.T) {
	seen := map[string]bool{}
	for k := NotAPicture; k <= Unreadable; k++ {
		if s := k.String(); s == "" || strings.HasPrefix(s, "Kind(") || seen[s] {
			t.Errorf("kind %d is %q", int(k), s)
		} else {
			seen[s] = true
		}
	}
	for _, e := range Kinds() {
		if e[0] != '.' || e != strings.ToLower(e) {
			t.Errorf("ending %q", e)
		}
	}
}

func TestErrorKeepsItsCause(t *testing.T) {
	_, err := Open(filepath.Join(t.TempDir(), "none"))
	if !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v", err)
	}
}
