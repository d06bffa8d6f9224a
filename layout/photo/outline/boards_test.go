package outline

import (
	"context"
	"encoding/json"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

type boardFace struct {
	name          string
	level         int
	length, width float64
	img           image.Image
	corners       [4]geom.Point
}

// boardFaces reads a folder of photographs with truth: NAME.json with
// length, width and the corners of faces, photographs beside it.
func boardFaces(t testing.TB, dir string, each func(boardFace)) {
	names, _ := filepath.Glob(filepath.Join(dir, "*.json"))
	for _, name := range names {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var meta struct {
			Name          string
			Level         int
			Length, Width float64
			Faces         map[string]struct {
				Photo   string
				Corners [4][2]float64
			}
		}
		if err := json.Unmarshal(raw, &meta); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		keys := []string{}
		for k := range meta.Faces {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			f := meta.Faces[k]
			if f.Photo == "" {
				continue
			}
			file, err := os.Open(filepath.Join(dir, f.Photo))
			if err != nil {
				t.Fatal(err)
			}
			img, _, err := image.Decode(file)
			file.Close()
			if err != nil {
				t.Fatal(err)
			}
			b := boardFace{name: f.Photo, level: meta.Level, length: meta.Length, width: meta.Width, img: img}
			for i, c := range f.Corners {
				b.corners[i] = geom.Pt(c[0], c[1])
			}
			each(b)
		}
	}
}

// offBy returns how far each corner lies from its true place, mm on the face.
func (b *boardFace) offBy(t testing.TB, got [4]geom.Point) (mm [4]float64) {
	r := b.img.Bounds()
	m, _, err := photo.View{Corners: b.corners}.FromFace(r.Dx(), r.Dy(), b.length, b.width)
	if err != nil {
		t.Fatal(err)
	}
	back, _ := m.Inverse()
	for i := range got {
		mm[i] = back.Apply(got[i]).Dist(back.Apply(b.corners[i]))
	}
	return mm
}

func boardsDir(t testing.TB) string {
	dir := os.Getenv("HEARTSIDE_BOARDS")
	if dir == "" {
		t.Skip("HEARTSIDE_BOARDS names no folder of photographs with truth")
	}
	return dir
}

func TestFoundBoards(t *testing.T) {
	good := map[int][2]int{}
	boardFaces(t, boardsDir(t), func(f boardFace) {
		start := time.Now()
		got, err := Find(context.Background(), f.img, f.length, f.width)
		if err != nil {
			t.Logf("%-24s %v", f.name, err)
			return
		}
		mm := f.offBy(t, got.View.Corners)
		// A picture does not tell which end of a standing board is the left one.
		q := got.View.Corners
		if d := f.corners[1].Sub(f.corners[0]); math.Abs(d.Y) > math.Abs(d.X) || d.X < 0 {
			if o := f.offBy(t, [4]geom.Point{q[2], q[3], q[0], q[1]}); slices.Max(o[:]) < slices.Max(mm[:]) {
				mm = o
			}
		}
		g := good[f.level]
		g[1]++
		if slices.Max(mm[:]) <= 3 {
			g[0]++
		}
		good[f.level] = g
		t.Logf("%-24s off %6.2f mm, bow %+.3f, confidence %.2f whole %.2f residual %.2f; %v", f.name, mm, got.View.Bow, got.Confidence, got.Whole, got.Residual, time.Since(start).Round(1e6))
	})
	t.Log(good)
}
