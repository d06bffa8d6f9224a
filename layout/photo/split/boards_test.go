package split

import (
	"context"
	"encoding/json"
	"fmt"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// boardsFolder names a folder of photographed boards with their truth, as the
// tests of app/boardset describe it. The tests that need one are skipped
// without.
const boardsFolder = "HEARTSIDE_BOARDS"

type boardFace struct {
	name  string
	level int
	share float64
	s     *photo.Squared
	truth []uint8 // 1 heart, 2 sap, 3 flaw; 1 px a mm
	w, h  int
}

func boards(t testing.TB) []boardFace {
	t.Helper()
	dir := os.Getenv(boardsFolder)
	if dir == "" {
		t.Skip("set " + boardsFolder + " to a folder of photographed boards with truth")
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no boards in %s (%v)", dir, err)
	}
	sort.Strings(names)
	var out []boardFace
	for _, name := range names {
		var meta struct {
			Level         int
			Length, Width float64
			Faces         map[string]struct {
				Photo, Mask string
				Corners     [4][2]float64
				Share       float64 `json:"sap_share"`
				K1          float64 `json:"lens_k1"`
				Bow         *float64
			}
		}
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(raw, &meta); err != nil {
			t.Fatal(name, err)
		}
		for _, k := range []string{"1", "2"} {
			f, ok := meta.Faces[k]
			if !ok {
				continue
			}
			var q [4]geom.Point
			for i, c := range f.Corners {
				q[i] = geom.Pt(c[0], c[1])
			}
			bow := -f.K1
			if f.Bow != nil {
				bow = *f.Bow
			}
			s, err := photo.Square(context.Background(), picture(t, filepath.Join(dir, f.Photo)), photo.View{Corners: q, Bow: bow}, meta.Length, meta.Width, 1)
			if err != nil {
				t.Fatal(name, err)
			}
			b := boardFace{name: filepath.Base(f.Photo), level: meta.Level, share: f.Share, s: s}
			m := picture(t, filepath.Join(dir, f.Mask))
			b.w, b.h = m.Bounds().Dx(), m.Bounds().Dy()
			for y := range b.h {
				for x := range b.w {
					v, _, _, _ := m.At(x+m.Bounds().Min.X, y+m.Bounds().Min.Y).RGBA()
					b.truth = append(b.truth, uint8(v>>8))
				}
			}
			out = append(out, b)
		}
	}
	return out
}

func picture(t testing.TB, name string) image.Image {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(name, err)
	}
	return img
}

func maskIoU(m *photo.Mask, b *boardFace) (iou, share float64) {
	in, un, n, p := 0, 0, 0, 0
	for at, k := range b.truth {
		if k != 1 && k != 2 {
			continue
		}
		n++
		s := m.Pix[at] == photo.Sap
		if s {
			p++
		}
		if s && k == 2 {
			in++
		}
		if s || k == 2 {
			un++
		}
	}
	if n > 0 {
		share = float64(p) / float64(n)
	}
	if un == 0 {
		return 1, share
	}
	return float64(in) / float64(un), share
}

// TestBoardsChanged turns, cuts and relights photographed boards.
func TestBoardsChanged(t *testing.T) {
	all := boards(t)
	for _, v := range variants() {
		var sum, n [6]float64
		false0, none := 0, 0
		for k := range all {
			b, ok := v.of(&all[k])
			if !ok {
				continue
			}
			f, err := New(context.Background(), b.s)
			if err != nil {
				t.Fatal(err)
			}
			r, err := f.Auto(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			iou, share := maskIoU(r.Mask, &b)
			switch {
			case b.share >= .02:
				sum[b.level] += iou
				n[b.level]++
				if iou < .9 {
					t.Logf("  %-22s %s sap %.3f found %.3f overlap %.3f confidence %.2f %s %.2f %v", b.name, v.name, b.share, share, iou, r.Confidence, r.guess.name, r.v, r.Doubts)
				}
			case b.share == 0:
				none++
				if share >= .01 {
					false0++
					t.Logf("  %-22s %s no sap, found %.3f confidence %.2f %s %.2f", b.name, v.name, share, r.Confidence, r.guess.name, r.v)
				}
			}
		}
		line := ""
		for l := 1; l <= 5; l++ {
			if n[l] > 0 {
				line += fmt.Sprintf("  L%d %.3f (%.0f)", l, sum[l]/n[l], n[l])
			}
		}
		t.Logf("%-14s%s  false %d of %d", v.name, line, false0, none)
	}
}
