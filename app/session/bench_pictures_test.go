package session

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"golang.org/x/image/draw"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/file"
)

// twelve returns a photograph of a board as a JPEG of 12 million pixels, and
// the corners of the board in it.
func twelve(b *testing.B) ([]byte, [4]geom.Point) {
	b.Helper()
	f, err := os.Open("../../testdata/boards/c01-walnut-L1-1.jpg")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	small, err := jpeg.Decode(f)
	if err != nil {
		b.Fatal(err)
	}
	k := 4000 / float64(small.Bounds().Dx())
	big := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	draw.ApproxBiLinear.Scale(big, image.Rect(0, 0, 4000, int(k*float64(small.Bounds().Dy()))), small, small.Bounds(), draw.Src, nil)
	var w bytes.Buffer
	if err := jpeg.Encode(&w, big, &jpeg.Options{Quality: 90}); err != nil {
		b.Fatal(err)
	}
	corners := [4]geom.Point{{X: 80.18, Y: 950.13}, {X: 1877.76, Y: 966.51}, {X: 1890.8, Y: 475.06}, {X: 88.17, Y: 412.98}}
	for i := range corners {
		corners[i] = corners[i].Mul(k)
	}
	return w.Bytes(), corners
}

// photographedBoard is a long board with two split faces, and sap along one
// edge of as many corners as a traced border has.
func photographedBoard(id string, corners [4]geom.Point) *model.Board {
	b := model.NewBoard(id, "walnut-black", 2400, 210, 27)
	for i := range b.Faces {
		sap := geom.Polygon{{X: 2400}, {}}
		for x := 0.0; x <= 2400; x += 40 {
			sap = append(sap, geom.Pt(x, 25+float64(int(x)%120)/12))
		}
		b.Faces[i] = model.Face{Photo: fmt.Sprintf("%s%d.jpg", id, i+1), Corners: &corners, Known: true,
			Split: &model.Split{By: model.SplitFound, Sure: 0.9}, Base: model.Heart,
			Zones: []model.Zone{{Kind: model.Sap, Polygon: sap}}}
	}
	return b
}

// One photograph of 12 million pixels from its file to what the readings take,
// nothing kept from before.
func BenchmarkPictureCold(b *testing.B) {
	data, corners := twelve(b)
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "A1.jpg"), data, 0o600); err != nil {
		b.Fatal(err)
	}
	board := photographedBoard("A", corners)
	k, _ := keyOfPicture(board, 0)
	spec := specOf(board, 0)
	b.ReportAllocs()
	for b.Loop() {
		l, err := newShelf("", 0).look(context.Background(), order{&shot{}, k, Folder(dir)}, &spec)
		if err != nil || l.heart == nil || l.note != "" {
			b.Fatal(err, l)
		}
	}
}

// The same in parts.
func BenchmarkPictureParts(b *testing.B) {
	data, corners := twelve(b)
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "A1.jpg"), data, 0o600); err != nil {
		b.Fatal(err)
	}
	board := photographedBoard("A", corners)
	k, _ := keyOfPicture(board, 0)
	spec := specOf(board, 0)
	ctx := context.Background()
	sq, err := readPicture(ctx, Folder(dir), &k, picturePx)
	if err != nil {
		b.Fatal(err)
	}
	pic, left, note, err := spec.pixels(ctx, sq)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("decode and square", func(b *testing.B) {
		for b.Loop() {
			_, _ = readPicture(ctx, Folder(dir), &k, picturePx)
		}
	})
	b.Run("even", func(b *testing.B) {
		for b.Loop() {
			_, _, _, _ = spec.pixels(ctx, sq)
		}
	})
	b.Run("see", func(b *testing.B) {
		for b.Loop() {
			spec.see(pic, left, note)
		}
	})
}

// A project of 200 boards with photographs of both faces, whose looks are on
// disk, until all is read and every board is seen by the readings.
func BenchmarkReopen200(b *testing.B) {
	data, corners := twelve(b)
	dir, cache := b.TempDir(), b.TempDir()
	first := filepath.Join(dir, "first.jpg")
	if err := os.WriteFile(first, data, 0o600); err != nil {
		b.Fatal(err)
	}
	p := Blank()
	for i := range 200 {
		q, err := model.Apply(p, model.AddBoard{Board: photographedBoard(fmt.Sprintf("B%d", i), corners)})
		if err != nil {
			b.Fatal(err)
		}
		p = q
	}
	path := filepath.Join(dir, "project.yaml")
	if err := file.Save(path, p); err != nil {
		b.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err == nil {
		p, _, err = file.Read(text, "project.yaml")
	}
	if err != nil {
		b.Fatal(err)
	}
	shelf := newShelf(cache, 0)
	var l *look
	for _, board := range p.Boards {
		for i := range board.Faces {
			if err := os.Link(first, filepath.Join(dir, board.Faces[i].Photo)); err != nil {
				b.Fatal(err)
			}
			k, _ := keyOfPicture(board, i)
			o, spec := order{&shot{}, k, Folder(dir)}, specOf(board, i)
			if l == nil {
				var err error
				if l, err = shelf.look(context.Background(), o, &spec); err != nil {
					b.Fatal(err)
				}
				continue
			}
			if err := shelf.looks.Put(o.lookName(shelf, &spec), l.text()); err != nil {
				b.Fatal(err)
			}
		}
	}
	var heap, sys, live uint64
	posted := make(chan func(), 1000)
	for b.Loop() {
		runtime.GC()
		s := New(Blank(), Options{Post: func(f func()) { posted <- f }, Cache: cache})
		if err := s.Open(path); err != nil {
			b.Fatal(err)
		}
		var m runtime.MemStats
		peak := func() {
			runtime.ReadMemStats(&m)
			heap, sys = max(heap, m.HeapInuse), max(sys, m.Sys)
		}
		for s.Loading() > 0 {
			(<-posted)()
			peak()
		}
		for _, board := range s.Project().Boards {
			if s.Board(board.ID).Faces[1].Heart == nil || s.Small(board.ID, 2) == nil {
				b.Fatal("not read")
			}
		}
		peak()
		runtime.GC()
		runtime.ReadMemStats(&m)
		live = max(live, m.HeapAlloc)
		runtime.KeepAlive(s)
		s.Close()
	}
	b.ReportMetric(float64(live)/1e6, "liveMB")
	b.ReportMetric(float64(heap)/1e6, "peakMB")
	b.ReportMetric(float64(sys)/1e6, "sysMB")
}
