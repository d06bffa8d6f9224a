package picture

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The colours of testdata/four.png by quarter: upper left, upper right, lower
// left, lower right, as it was made.
var four = [4][3]int{{200, 40, 40}, {40, 180, 60}, {40, 60, 200}, {220, 200, 60}}

// All of these were made from four.png by other programs, see testdata's
// README; within is what their coding may change.
var goldens = []struct {
	name, format string
	orientation  int
	within       int
}{
	{"four.png", "PNG", 1, 0},
	{"interlaced.png", "PNG", 1, 0},
	{"sixteen.png", "PNG", 1, 0},
	{"turned1.jpg", "JPEG", 1, 2},
	{"turned2.jpg", "JPEG", 2, 2},
	{"turned3.jpg", "JPEG", 3, 2},
	{"turned4.jpg", "JPEG", 4, 2},
	{"turned5.jpg", "JPEG", 5, 2},
	{"turned6.jpg", "JPEG", 6, 2},
	{"turned7.jpg", "JPEG", 7, 2},
	{"turned8.jpg", "JPEG", 8, 2},
	{"progressive.jpg", "JPEG", 1, 2},
	{"cmyk.jpg", "JPEG", 1, 2},
	{"lossless.webp", "WebP", 1, 0},
	{"lossy.webp", "WebP", 1, 2},
	{"turned8.webp", "WebP", 8, 0},
	{"turned3.png", "PNG", 3, 0},
	{"plain.tif", "TIFF", 1, 0},
	{"lzw.tif", "TIFF", 1, 0},
	{"deflate.tif", "TIFF", 1, 0},
	{"sixteen.tif", "TIFF", 1, 0},
	{"turned6.tif", "TIFF", 6, 0},
}

func file(t testing.TB, name string) []byte {
	t.Helper()
	p, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func rgbAt(m image.Image, x, y int) [3]int {
	r, g, b, a := m.At(x, y).RGBA()
	if a != 0xffff {
		return [3]int{-1, -1, -1}
	}
	return [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}
}

func near(a, b [3]int, within int) bool {
	for i := range a {
		if math.Abs(float64(a[i]-b[i])) > float64(within) {
			return false
		}
	}
	return true
}

// quarters compares the middles of the four quarters.
func quarters(t *testing.T, name string, m image.Image, want [4][3]int, within int) {
	t.Helper()
	w, h := m.Bounds().Dx(), m.Bounds().Dy()
	for i, p := range [4][2]int{{w / 4, h / 4}, {w * 3 / 4, h / 4}, {w / 4, h * 3 / 4}, {w * 3 / 4, h * 3 / 4}} {
		if got := rgbAt(m, p[0], p[1]); !near(got, want[i], within) {
			t.Errorf("%s: the colour at (%d, %d) is %v, want %v", name, p[0], p[1], got, want[i])
		}
	}
}

func TestEveryFormatIsUpright(t *testing.T) {
	for _, g := range goldens {
		p := file(t, g.name)
		m, info, err := Decode(context.Background(), bytes.NewReader(p), Limits{})
		if err != nil {
			t.Errorf("%s: %v", g.name, err)
			continue
		}
		if m.Bounds() != image.Rect(0, 0, 48, 32) {
			t.Errorf("%s: it covers %v, want 48 x 32", g.name, m.Bounds())
		}
		quarters(t, g.name, m, four, g.within)
		if info.Format != g.format || info.Orientation != g.orientation || info.Width != 48 || info.Height != 32 {
			t.Errorf("%s: %+v", g.name, info)
		}
		stat, err := Stat(bytes.NewReader(p), Limits{})
		if err != nil || stat != info {
			t.Errorf("%s: Stat says %+v, %v; Decode %+v", g.name, stat, err, info)
		}
		// A reader that can only go forward does as well.
		if _, _, err := Decode(context.Background(), struct{ *strings.Reader }{strings.NewReader(string(p))}, Limits{}); err != nil {
			t.Errorf("%s, read forward: %v", g.name, err)
		}
	}
}

func TestReducedIsTheSamePictureSmaller(t *testing.T) {
	for _, g := range goldens {
		m, info, err := DecodeReduced(context.Background(), bytes.NewReader(file(t, g.name)), 12, Limits{})
		if err != nil {
			t.Errorf("%s: %v", g.name, err)
			continue
		}
		if m.Rect != image.Rect(0, 0, 12, 8) || info.Width != 48 {
			t.Errorf("%s: it covers %v of %d, want 12 x 8 of 48", g.name, m.Rect, info.Width)
		}
		quarters(t, g.name, m, four, g.within)
	}
	m, _, err := DecodeReduced(context.Background(), bytes.NewReader(file(t, "turned6.jpg")), 4000, Limits{})
	if err != nil || m.Rect != image.Rect(0, 0, 48, 32) {
		t.Errorf("not smaller: %v, %v", m.Rect, err)
	}
}

// The mean of equal parts of black and white is half the light, which sRGB
// codes as 188 (IEC 61966-2-1: 255*(1.055*0.5^(1/2.4) - 0.055) = 187.5).
func TestReducingAveragesLight(t *testing.T) {
	src := image.NewGray(image.Rect(0, 0, 300, 200))
	for i := range src.Pix {
		if (i%300+i/300)%2 == 0 {
			src.Pix[i] = 255
		}
	}
	// 300 to 70: every new pixel is 4.29 old ones wide.
	out, err := reduce(context.Background(), src, &opened{raw: raw{w: 300, h: 200, turn: 1}}, 70, 47)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range out.Pix {
		if want := 188; i%4 < 3 && math.Abs(float64(int(v)-want)) > 6 {
			t.Fatalf("value %d is %d, want about %d", i, v, want)
		}
	}
	// Of one light all over nothing is lost, at the borders neither.
	for i := range src.Pix {
		src.Pix[i] = 77
	}
	if out, _ = reduce(context.Background(), src, &opened{raw: raw{w: 300, h: 200, turn: 6}}, 70, 47); out.Rect != image.Rect(0, 0, 47, 70) {
		t.Errorf("turned, it covers %v", out.Rect)
	}
	for i, v := range out.Pix {
		if i%4 < 3 && v != 77 {
			t.Fatalf("value %d is %d, want 77", i, v)
		}
	}
}

func TestAlphaLiesOverWhite(t *testing.T) {
	m, _, err := Decode(context.Background(), bytes.NewReader(file(t, "alpha.png")), Limits{})
	if err != nil {
		t.Fatal(err)
	}
	// Opacity 128/255 over white: v*128/255 + 255*127/255, by hand.
	quarters(t, "alpha.png", m, [4][3]int{{227, 147, 147}, {147, 217, 157}, {147, 157, 227}, {237, 227, 157}}, 1)
}

func TestGreyIsGrey(t *testing.T) {
	m, _, err := Decode(context.Background(), bytes.NewReader(file(t, "grey.jpg")), Limits{})
	if err != nil {
		t.Fatal(err)
	}
	// ImageMagick weighs 0.2126 R + 0.7152 G + 0.0722 B: by hand 74, 142, 66, 194.
	quarters(t, "grey.jpg", m, [4][3]int{{74, 74, 74}, {142, 142, 142}, {66, 66, 66}, {194, 194, 194}}, 1)
}

func TestNotesOfTheCamera(t *testing.T) {
	info, err := Stat(bytes.NewReader(file(t, "turned6.jpg")), Limits{})
	if err != nil {
		t.Fatal(err)
	}
	// As exiftool was told to write them.
	want := time.Date(2024, 5, 17, 14, 3, 22, 0, time.FixedZone("", 2*3600))
	if !info.Taken.Equal(want) || info.Focal35 != 26 || info.Camera != "Maker Camera 7" {
		t.Errorf("%+v", info)
	}
	for _, tag := range []string{"GPSLatitude", "GPSLongitude"} {
		if wanted[tag] {
			t.Errorf("%s is read", tag)
		}
	}
}

func TestFinishedContextStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, g := range goldens {
		if _, _, err := Decode(ctx, bytes.NewReader(file(t, g.name)), Limits{}); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v, want context.Canceled", g.name, err)
		}
	}
	if _, err := upright(ctx, image.NewGray(image.Rect(0, 0, 4, 4)), &opened{raw: raw{w: 4, h: 4, turn: 1}}); !errors.Is(err, context.Canceled) {
		t.Errorf("copying: %v", err)
	}
	if _, err := reduce(ctx, image.NewGray(image.Rect(0, 0, 4, 4)), &opened{raw: raw{w: 4, h: 4, turn: 1}}, 2, 2); !errors.Is(err, context.Canceled) {
		t.Errorf("reducing: %v", err)
	}
}

// Rows of luma and chroma, of every spacing and wherever they begin, are what
// the standard library gives pixel by pixel.
func TestRowsOfLumaAndChroma(t *testing.T) {
	for _, ratio := range []image.YCbCrSubsampleRatio{
		image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
		image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410,
	} {
		for _, r := range []image.Rectangle{image.Rect(0, 0, 13, 9), image.Rect(3, 5, 16, 14), image.Rect(0, 3, 13, 12)} {
			m := image.NewYCbCr(r, ratio)
			for i := range m.Y {
				m.Y[i] = uint8(i * 37)
			}
			for i := range m.Cb {
				m.Cb[i], m.Cr[i] = uint8(i*53), uint8(i*71)
			}
			read, row := rowsOf(m, nil), make([]uint8, 3*r.Dx())
			for y := range r.Dy() {
				read(y, row)
				for x := range r.Dx() {
					if got, want := [3]int{int(row[3*x]), int(row[3*x+1]), int(row[3*x+2])}, rgbAt(m, r.Min.X+x, r.Min.Y+y); got != want {
						t.Fatalf("%v of %v: (%d, %d) is %v, want %v", ratio, r, x, y, got, want)
					}
				}
			}
		}
	}
}

// Every kind of picture in memory gives the same rows as its own At.
func TestRowsOfEveryKind(t *testing.T) {
	r := image.Rect(3, 5, 10, 9)
	kinds := []image.Image{image.NewRGBA(r), image.NewNRGBA(r), image.NewGray(r), image.NewGray16(r), image.NewRGBA64(r),
		image.NewNRGBA64(r), image.NewCMYK(r), image.NewPaletted(r, color.Palette{color.White, color.NRGBA{200, 10, 20, 128}})}
	for _, m := range kinds {
		d := m.(interface {
			Set(x, y int, c color.Color)
		})
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				d.Set(x, y, color.NRGBA{uint8(20 * x), uint8(25 * y), uint8(x * y), uint8(255 - 9*x)})
			}
		}
		read, row := rowsOf(m, nil), make([]uint8, 3*r.Dx())
		for y := range r.Dy() {
			read(y, row)
			for x := range r.Dx() {
				cr, cg, cb, a := m.At(r.Min.X+x, r.Min.Y+y).RGBA()
				for c, v := range [3]uint32{cr, cg, cb} {
					want := float64(v+0xffff-a) / 257 // premultiplied, over white
					if got := float64(row[3*x+c]); math.Abs(got-want) > 1.1 {
						t.Fatalf("%T: channel %d at (%d, %d) is %g, want %g", m, c, x, y, got, want)
					}
				}
			}
		}
	}
}
