package wane

import (
	"context"
	"encoding/json"
	"image"
	_ "image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// seenBoard is a face of a modelled board with the truth of where it lies.
type seenBoard struct {
	name          string
	level         int
	length, width float64
	img           image.Image
	corners       [4]geom.Point
}

// seenBoards reads a folder of photographs with truth, as testdata/boards
// tells.
func seenBoards(t testing.TB, dir string, each func(seenBoard)) {
	names, _ := filepath.Glob(filepath.Join(dir, "*.json"))
	for _, name := range names {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var meta struct {
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
		for _, k := range []string{"1", "2"} {
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
			b := seenBoard{name: f.Photo, level: meta.Level, length: meta.Length, width: meta.Width, img: img}
			for i, c := range f.Corners {
				b.corners[i] = geom.Pt(c[0], c[1])
			}
			each(b)
		}
	}
}

func boardsDir() string {
	if dir := os.Getenv("HEARTSIDE_BOARDS"); dir != "" {
		return dir
	}
	return "../../../testdata/boards"
}

// Boards with straight edges in a rectangle laid loosely about them, a tenth
// of their width off on either side: the truth of the pictures says where the
// edges are and how wide that rectangle is. The bow of the lens, which is left
// in, and the cells take their part of what is allowed. Levels 1 to 3; others
// are logged.
func TestTracePhotographs(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and longer where races are looked for")
	}
	seenBoards(t, boardsDir(), func(b seenBoard) {
		r := b.img.Bounds()
		m, lens, err := photo.View{Corners: b.corners}.FromFace(r.Dx(), r.Dy(), b.length, b.width)
		if err != nil {
			t.Fatal(err)
		}
		slack := 0.1 * b.width
		v := photo.View{}
		for i, c := range geom.R(0, -slack, b.length, b.width+slack).Polygon() {
			v.Corners[i] = lens.Bowed(m.Apply(c))
		}
		f, err := Within(context.Background(), b.img, v, b.length, 0, Camera{})
		if err != nil {
			t.Errorf("%s: %v", b.name, err)
			return
		}
		k := (b.width + 2*slack) / f.Width
		var e []float64
		for x := 5.0; x < b.length-5; x += 5 {
			low, high := across(f.Ring, x)
			e = append(e, math.Abs(low*k-slack), math.Abs(high*k-b.width-slack))
		}
		slices.Sort(e)
		t.Logf("%-22s L%d: %.1f mm in the middle, %.1f on 95 of 100, %.1f at most, sure %.2f; width %.1f (off %.3f) of %.1f", b.name, b.level, e[len(e)/2], e[len(e)*95/100], e[len(e)-1], f.Sure, f.Width, f.Off, b.width+2*slack)
		if v := e[len(e)*95/100]; b.level <= 3 && v > 5 {
			t.Errorf("%s: 95 of 100 places within %.1f mm of the edges, want 5", b.name, v)
		}
		if math.Abs(k-1) > 0.02 && b.level <= 3 {
			t.Errorf("%s: rectangle %.1f mm wide, want %.1f", b.name, f.Width, b.width+2*slack)
		}
	})
}

// The same boards with nothing known but length and width: the corners, of
// levels 1 to 3, lie within 4 in a hundred of the width, as half of a
// perspective may be taken for the board's shape.
func TestFramePhotographs(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and longer where races are looked for")
	}
	seenBoards(t, boardsDir(), func(b seenBoard) {
		if os.Getenv("HEARTSIDE_BOARDS") == "" && (b.level > 3 || strings.HasSuffix(b.name, "-2.jpg")) {
			return // they are looked at where a folder is named
		}
		r := b.img.Bounds()
		f, err := Frame(context.Background(), b.img, b.length, b.width, Camera{})
		if err != nil {
			t.Logf("%s: %v", b.name, err)
			return
		}
		m, _, err := photo.View{Corners: b.corners}.FromFace(r.Dx(), r.Dy(), b.length, b.width)
		if err != nil {
			t.Fatal(err)
		}
		back, _ := m.Inverse()
		off := math.Inf(1)
		for turn := range 4 {
			w := 0.0
			for i, c := range b.corners {
				w = math.Max(w, back.Apply(f.View.Corners[(i+turn)%4]).Dist(back.Apply(c)))
			}
			off = math.Min(off, w)
		}
		t.Logf("%-22s L%d: worst corner %.1f mm, sure %.2f, narrow %.2f; width %.1f (off %.3f) of %.1f", b.name, b.level, off, f.Sure, f.Narrow, f.Width, f.Off, b.width)
		if b.level <= 3 && off > math.Max(0.04*b.width, 6) {
			t.Errorf("%s: a corner lies %.1f mm off", b.name, off)
		}
	})
}
