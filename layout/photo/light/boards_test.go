package light

import (
	"context"
	"encoding/json"
	"errors"
	"image"
	"image/color"
	_ "image/jpeg"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/photo"
)

// On photographs of boards whose zones are known, in the folder that
// HEARTSIDE_BOARDS names: evening narrows the spread of lightness in heartwood
// and leaves the difference of heart and sap about as it is over their border.
func TestEvenOnBoards(t *testing.T) {
	dir := os.Getenv("HEARTSIDE_BOARDS")
	if dir == "" {
		t.Skip("HEARTSIDE_BOARDS names no folder of boards")
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatal("no boards", err)
	}
	ctx := context.Background()
	var before, after float64
	for _, name := range names {
		var b struct {
			Length, Width float64
			Faces         map[string]struct {
				Photo, Mask string
				Corners     [4][2]float64
			}
		}
		raw, err := os.ReadFile(name)
		if err == nil {
			err = json.Unmarshal(raw, &b)
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range []string{"1", "2"} {
			f := b.Faces[k]
			var v photo.View
			for i, c := range f.Corners {
				v.Corners[i] = geom.Pt(c[0], c[1])
			}
			s, err := photo.Square(ctx, decode(t, filepath.Join(dir, f.Photo)), v, b.Length, b.Width, 1)
			if err != nil {
				t.Fatal(err)
			}
			img := decode(t, filepath.Join(dir, f.Mask))
			m := photo.NewMask(b.Length, b.Width, 1)
			for i := range m.Pix {
				m.Pix[i] = photo.Label(color.GrayModel.Convert(img.At(i%m.W, i/m.W)).(color.Gray).Y)
			}
			even, field, err := Even(ctx, s, m)
			if err != nil {
				t.Fatal(err)
			}
			was, err1 := ZoneColours(ctx, s, m)
			got, err2 := ZoneColours(ctx, even, m)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(err)
			}
			// The difference over the border, where light is nearly one.
			near := beside(m, 12)
			nearWas, err1 := ZoneColours(ctx, s, near)
			nearGot, err2 := ZoneColours(ctx, even, near)
			if err := errors.Join(err1, err2); err != nil {
				t.Fatal(err)
			}
			dWas, dGot := colour.DeltaE(nearWas[1].Mean, nearWas[2].Mean), colour.DeltaE(nearGot[1].Mean, nearGot[2].Mean)
			t.Logf("%-14s ratio %.2f before %.3f left %.3f held %.4f; sd L heart %.1f -> %.1f, sap %.1f -> %.1f; dE of zones %.1f -> %.1f, over the border %.1f -> %.1f",
				f.Photo, field.Ratio, field.Before, field.Left, field.Held, was[1].Spread.L, got[1].Spread.L, was[2].Spread.L, got[2].Spread.L,
				colour.DeltaE(was[1].Mean, was[2].Mean), colour.DeltaE(got[1].Mean, got[2].Mean), dWas, dGot)
			if got[1].Spread.L > was[1].Spread.L+0.5 || got[2].Known && got[2].Spread.L > was[2].Spread.L+0.5 {
				t.Errorf("%s: lightness spreads from %.2f to %.2f in heart, from %.2f to %.2f in sap", f.Photo, was[1].Spread.L, got[1].Spread.L, was[2].Spread.L, got[2].Spread.L)
			}
			// Where much is left, as on a photograph that is bad on purpose, the
			// step is not to be had.
			if field.Left < 0.25 && nearWas[1].Pixels > 1000 && nearWas[2].Pixels > 1000 && math.Abs(dGot-dWas) > 2+0.1*dWas {
				t.Errorf("%s: heart and sap differed by %.2f over their border, now by %.2f", f.Photo, dWas, dGot)
			}
			before += was[1].Spread.L
			after += got[1].Spread.L
		}
	}
	// Most of these photographs have a gradient or a shadow.
	if after > 0.9*before {
		t.Errorf("the spread of heart's lightness went from %.2f to %.2f in sum", before, after)
	}
}

// beside keeps of a mask what lies within mm up or down of the other wood.
func beside(m *photo.Mask, mm int) *photo.Mask {
	out := *m
	out.Pix = make([]photo.Label, len(m.Pix))
	for k, l := range m.Pix {
		for d := 1; d <= mm && out.Pix[k] == photo.Outside && (l == photo.Heart || l == photo.Sap); d++ {
			for _, n := range [2]int{k - d*m.W, k + d*m.W} {
				if n >= 0 && n < len(m.Pix) && m.Pix[n] == photo.Heart+photo.Sap-l {
					out.Pix[k] = l
				}
			}
		}
	}
	return &out
}

func decode(t *testing.T, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}
