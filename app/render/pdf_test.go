package render

import (
	"bytes"
	"image"
	"image/color"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"heartside/layout/geom"
)

func document(t *testing.T, plain bool) []byte {
	t.Helper()
	p := NewPDF(Meta{Title: "Hall table", Author: "a maker", Date: time.Date(2024, 3, 1, 9, 0, 0, 0, time.UTC), Plain: plain}, faces(t))
	p.AddPage(210, 297)
	p.Bookmark("Panel ½", 0)
	drawing(p)
	// Several pictures of one width, which the library would order by chance.
	for i := 0; i < 6; i++ {
		pic := image.NewRGBA(image.Rect(0, 0, 12, 12))
		for k := range pic.Pix {
			pic.Pix[k] = uint8(40*i + k%7)
			if k%4 == 3 {
				pic.Pix[k] = 255
			}
		}
		p.Image(pic, geom.Affine{A: 1, C: 10 + 20*float64(i), E: 1, F: 150}, nil)
		p.Image(pic, geom.Affine{A: 1, C: 10 + 20*float64(i), E: 1, F: 170}, nil)
	}
	p.AddPage(297, 210)
	p.Push(Box(geom.R(0, 0, 100, 100))) // left open: the page end closes it
	p.Fill(Box(geom.R(10, 20, 60, 40)), color.NRGBA{R: 255, A: 255})
	b, err := p.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestPDFIsTheSameEveryTime(t *testing.T) {
	first := document(t, false)
	for i := 0; i < 5; i++ {
		if !bytes.Equal(first, document(t, false)) {
			t.Fatal("two documents of one drawing differ")
		}
	}
	if len(first) > 200_000 {
		t.Errorf("%d bytes: the typefaces are not cut down to what is used", len(first))
	}
}

// What the file says, by the page description operators of ISO 32000-1.
func TestPDFStatesSizesAndShapes(t *testing.T) {
	s := string(document(t, true))
	for _, want := range []string{
		`/MediaBox \[0 0 595\.2\d 841\.8\d\]`, // A4 in points: 210 / 25.4 x 72
		`/MediaBox \[0 0 841\.8\d 595\.2\d\]`,
		// A box from 10, 20 to 60, 40 mm on a page 210 mm high.
		`1\.000 0\.000 0\.000 rg 28\.346 538\.583 m 170\.079 538\.583 l 170\.079 481\.89 l 28\.346 481\.89 l h f\*`,
		`W\* n`, `/CreationDate`, `D:20240301090000`, `/Outlines`,
	} {
		if !regexp.MustCompile(want).MatchString(s) && !strings.Contains(s, want) {
			t.Errorf("the document lacks %s", want)
		}
	}
	if n := strings.Count(s, "/Subtype /Image"); n != 7 {
		t.Errorf("%d pictures kept, want 7: one drawn twice is kept once", n)
	}
}

func TestPDFRefusesToDrawOnNoPage(t *testing.T) {
	p := NewPDF(Meta{}, faces(t))
	p.Fill(Box(geom.R(0, 0, 1, 1)), ink)
	if _, err := p.Bytes(); err == nil {
		t.Error("no error")
	}
}

// An independent reader shows the page as our own raster does.
func TestPDFLooksLikeTheRaster(t *testing.T) {
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm (poppler-utils) is not installed")
	}
	p := NewPDF(Meta{}, faces(t))
	p.AddPage(200, 120)
	drawing(p)
	data, err := p.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "d.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-r", "50.8", "-png", "-singlefile", file, filepath.Join(dir, "d")).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	f, err := os.Open(filepath.Join(dir, "d.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	got, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	want := white(400, 240)
	drawing(NewRaster(want, 2, faces(t)))
	// The page size is rounded up to whole pixels by the reader.
	if s := got.Bounds().Size(); s.X < 400 || s.X > 401 || s.Y < 240 || s.Y > 241 {
		t.Fatalf("page of %v, want %v", s, want.Bounds().Size())
	}
	var off float64
	for y := 0; y < 240; y++ {
		for x := 0; x < 400; x++ {
			a := color.GrayModel.Convert(got.At(x, y)).(color.Gray).Y
			b := color.GrayModel.Convert(want.At(x, y)).(color.Gray).Y
			if d := int(a) - int(b); d > 90 || d < -90 {
				off++
			}
		}
	}
	if share := off / (400 * 240); share > 0.004 {
		t.Errorf("%.2f %% of the page differs", 100*share)
	}
}
