package session

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/file"
)

// A board of 300 x 60 mm whose face is striped along, half a mm dark and half
// a mm light, and its photograph with per pixels a mm, the face 20 pixels from
// the left and 10 from the top.
func stripedBoard(t *testing.T, dir, id string, per int) *model.Board {
	t.Helper()
	const long, wide = 300, 60
	img := image.NewRGBA(image.Rect(0, 0, long*per+40, wide*per+20))
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			v := uint8(20)
			if 2*(y-10)/per%2 == 0 {
				v = 220
			}
			img.SetRGBA(x, y, color.RGBA{v, v, v, 255})
		}
	}
	var w bytes.Buffer
	if err := png.Encode(&w, img); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, id+".png"), w.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	at := func(x, y int) geom.Point { return geom.Pt(float64(20+x*per), float64(10+y*per)) }
	b := model.NewBoard(id, "walnut-black", long, wide, 25)
	b.Faces[0] = model.Face{Photo: id + ".png", Known: true, Corners: &[4]geom.Point{at(0, wide), at(long, wide), at(long, 0), at(0, 0)}}
	return b
}

// striped opens boards with such photographs.
func striped(t *testing.T, per int, ids ...string) (*Session, posts, func() int) {
	t.Helper()
	dir := t.TempDir()
	p := Blank()
	for _, id := range ids {
		q, err := model.Apply(p, model.AddBoard{Board: stripedBoard(t, dir, id, per)})
		if err != nil {
			t.Fatal(err)
		}
		p = q
	}
	path := filepath.Join(dir, "p.yaml")
	if err := file.Save(path, p); err != nil {
		t.Fatal(err)
	}
	q := make(posts, 1000)
	s, n := openCounted(t, path, Options{Post: func(f func()) { q <- f }})
	q.until(t, func() bool { return s.Loading() == 0 })
	for _, id := range ids {
		q.until(t, func() bool { return s.Picture(id, 1) != nil })
	}
	return s, q, func() int { return int(n.Load()) }
}

// spread is the difference between the lightest and the darkest pixel.
func spread(s *photo.Squared) int {
	lo, hi := 255, 0
	for k := 0; k < len(s.Pix.Pix); k += 4 {
		lo, hi = min(lo, int(s.Pix.Pix[k])), max(hi, int(s.Pix.Pix[k]))
	}
	return hi - lo
}

// Half a millimetre is nothing at one pixel a mm and plain at two.
func TestFacesSeenNearByAreFiner(t *testing.T) {
	s, q, opened := striped(t, 4, "A")
	plain := s.Picture("A", 1)
	if s.PictureAt("A", 1, 1) != plain || s.PictureAt("A", 1, 1.6) != plain {
		t.Fatal("something else than the picture there is is shown meanwhile")
	}
	q.until(t, func() bool { return len(s.pics.fine.making) == 0 })
	fine := s.PictureAt("A", 1, 1.6)
	if fine == plain || fine.PxPerMM != 2 || fine.Pix.Rect != image.Rect(0, 0, 600, 120) {
		t.Fatalf("near by it has %g pixels a mm: %v", fine.PxPerMM, fine.Pix.Rect)
	}
	if a, b := spread(plain), spread(fine); a > 40 || b < 150 {
		t.Errorf("stripes of half a mm differ by %d at one pixel a mm and %d at two", a, b)
	}
	if s.PictureAt("A", 1, 1) != plain {
		t.Error("farther off the fine picture is drawn")
	}
	n := opened()
	s.PictureAt("A", 1, 3)
	if opened() != n || len(s.pics.fine.making) != 0 {
		t.Error("it is made again")
	}
	// Not seen so for a while it is let go.
	now := time.Now().Add(2 * leftFine)
	s.pics.fine.memory.now = func() time.Time { return now }
	if s.PictureAt("A", 1, 1) != plain || s.pics.fine.memory.used != 0 {
		t.Errorf("%d bytes are held of what is not seen", s.pics.fine.memory.used)
	}
}

func TestAPhotographThatIsNotFineIsNotReadAgain(t *testing.T) {
	s, q, opened := striped(t, 1, "A")
	n := opened()
	for range 3 {
		if s.PictureAt("A", 1, 4) != s.Picture("A", 1) {
			t.Error("another picture is shown")
		}
	}
	if opened() != n || len(s.pics.fine.making) != 0 || len(q) != 0 {
		t.Error("a photograph of one pixel a mm is squared to two")
	}
}

// 600 x 120 pixels with their halves take 384000 bytes: of three, two fit a
// million.
func TestFinePicturesAreBounded(t *testing.T) {
	ids := []string{"A", "B", "C"}
	s, q, opened := striped(t, 2, ids...)
	s.pics.fine.memory.most = 1_000_000
	frame := func() (n int) {
		for _, id := range ids {
			pic := s.PictureAt(id, 1, 2)
			if pic == nil {
				t.Fatalf("nothing to draw of %s", id)
			}
			if pic.PxPerMM == 2 {
				n++
			}
		}
		return n
	}
	for range 4 {
		frame()
		q.until(t, func() bool { return len(s.pics.fine.making) == 0 })
	}
	n := opened()
	if got := frame(); got != 2 || s.pics.fine.memory.used > 1_000_000 || opened() != n {
		t.Errorf("%d are fine, %d bytes; want 2", got, s.pics.fine.memory.used)
	}
	// A board too large for the memory stays as it is.
	s.pics.fine.memory.most = 100_000
	s.pics.fine.memory.dropUnseen(-time.Second)
	if got := frame(); got != 0 || len(s.pics.fine.making) != 0 {
		t.Errorf("%d are fine, %d are made; want none", got, len(s.pics.fine.making))
	}
}

// The photograph went away meanwhile: the picture there is stays, and it is
// tried once.
func TestAFinePictureThatCannotBeReadIsGoneWithout(t *testing.T) {
	s, q, _ := striped(t, 2, "A")
	plain := s.Picture("A", 1)
	if err := os.Remove(filepath.Join(string(s.pics.from.(counted).Folder), "A.png")); err != nil {
		t.Fatal(err)
	}
	s.PictureAt("A", 1, 2)
	q.until(t, func() bool { return len(s.pics.fine.making) == 0 })
	if s.PictureAt("A", 1, 2) != plain || len(s.pics.fine.making) != 0 || len(s.PhotoTrouble()) != 0 {
		t.Errorf("shown %v, trouble %q", s.PictureAt("A", 1, 2) == plain, s.PhotoTrouble())
	}
}
