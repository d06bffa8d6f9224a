package session

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"heartside/layout/colour"
	"heartside/model"
	"heartside/model/file"
)

// counted is a folder that counts what is opened.
type counted struct {
	Folder
	opened *atomic.Int32
}

func (c counted) Open(name string) (io.ReadCloser, error) {
	c.opened.Add(1)
	return c.Folder.Open(name)
}

// openCounted opens the project at path and tells how many pictures were
// opened for it.
func openCounted(t *testing.T, path string, opt Options) (*Session, *atomic.Int32) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	s := New(Blank(), opt)
	t.Cleanup(s.Close)
	n := &atomic.Int32{}
	if err := s.OpenFrom(text, "p.yaml", counted{Folder(filepath.Dir(path)), n}); err != nil {
		t.Fatal(err)
	}
	return s, n
}

func sameField(a, b *colour.Field) bool {
	if a.NX != b.NX || a.NY != b.NY || a.Step != b.Step {
		return false
	}
	for i := range a.Coded {
		if a.Coded[i] != b.Coded[i] {
			return false
		}
	}
	return true
}

func TestShelfOutlivesTheSession(t *testing.T) {
	dir, cache := t.TempDir(), t.TempDir()
	photograph(t, filepath.Join(dir, "A.png"), lampOf(1, 1, 0.8), ground)
	b := drawnBoard("A")
	// Finer than the file has it.
	b.Faces[0].Corners[0].X += 1e-5
	b.Faces[0].Zones[0].Polygon[2].Y += 1. / 3000
	b.Faces[0].White = &[3]float64{1. / 3, 1. / 3, 1. / 3}
	p, err := model.Apply(Blank(), model.AddBoard{Board: b})
	if err != nil {
		t.Fatal(err)
	}
	first := New(p, Options{Cache: cache})
	defer first.Close()
	path := filepath.Join(dir, "p.yaml")
	if err := file.Save(path, p); err != nil {
		t.Fatal(err)
	}
	// Read under its name from the folder, with the values not rounded.
	first.from, first.pics.from = Folder(dir), Folder(dir)
	clear(first.pics.shots)
	first.pics.want(p)
	was := first.Board("A").Faces[0]
	if was.Heart == nil {
		t.Fatal(first.PhotoTrouble())
	}
	s, n := openCounted(t, path, Options{Cache: cache})
	f := s.Board("A").Faces[0]
	if n.Load() != 0 {
		t.Errorf("%d pictures opened, want none", n.Load())
	}
	if !sameField(f.Field, was.Field) || *f.Heart != *was.Heart || *f.Sap != *was.Sap {
		t.Error("the colours are other than before")
	}
	if !bytes.Equal(s.Small("A", 1).Pix.Pix, first.Small("A", 1).Pix.Pix) {
		t.Error("the small picture is another")
	}
	if !bytes.Equal(s.Picture("A", 1).Pix.Pix, first.Picture("A", 1).Pix.Pix) || !bytes.Equal(s.Untouched("A", 1).Pix.Pix, first.Untouched("A", 1).Pix.Pix) || n.Load() != 0 {
		t.Errorf("the picture is another, or %d were opened", n.Load())
	}
	// Other zones: from the squared picture, not from the photograph.
	c := *s.Committed().Board("A")
	c.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: rect(0, 0, drawnLong, 60)}}
	if err := s.Commit(model.SetBoard{Board: &c}); err != nil {
		t.Fatal(err)
	}
	if n.Load() != 0 || s.Board("A").Faces[0].Field == f.Field {
		t.Errorf("new zones: %d opened", n.Load())
	}
	// A changed photograph is read anew.
	photograph(t, filepath.Join(dir, "A.png"), lampOf(0.5, 0.5, 0.5), ground)
	later := time.Now().Add(time.Hour)
	if err := os.Chtimes(filepath.Join(dir, "A.png"), later, later); err != nil {
		t.Fatal(err)
	}
	s, n = openCounted(t, path, Options{Cache: cache})
	if n.Load() != 1 || sameField(s.Board("A").Faces[0].Field, was.Field) {
		t.Errorf("a changed photograph: %d opened", n.Load())
	}
	// What is damaged is made again.
	kept, err := filepath.Glob(filepath.Join(cache, "*", "*.kept"))
	if err != nil || len(kept) < 2 {
		t.Fatal(kept, err)
	}
	for _, name := range kept {
		if err := os.WriteFile(name, []byte("HSK1 not a picture at all"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, n = openCounted(t, path, Options{Cache: cache})
	if n.Load() != 1 || s.Board("A").Faces[0].Heart == nil || len(s.PhotoTrouble()) > 0 {
		t.Errorf("a damaged cache: %d opened, %q", n.Load(), s.PhotoTrouble())
	}
	// A photograph that is gone is told, whatever is kept of it.
	if err := os.Remove(filepath.Join(dir, "A.png")); err != nil {
		t.Fatal(err)
	}
	s, _ = openCounted(t, path, Options{Cache: cache})
	if bad := s.PhotoTrouble(); len(bad) != 1 || !strings.Contains(bad[0], "not found") || s.Picture("A", 1) != nil || s.Small("A", 1) != nil {
		t.Errorf("a photograph that is gone: %q", bad)
	}
}

func TestShelfThatCannotBeWritten(t *testing.T) {
	dir := t.TempDir()
	photograph(t, filepath.Join(dir, "A.png"), lampOf(1, 1, 1), ground)
	path := drawnProject(t, dir, drawnBoard("A"))
	s, n := openCounted(t, path, Options{Cache: filepath.Join(dir, "A.png")})
	if s.Picture("A", 1) == nil || s.Board("A").Faces[0].Field == nil || len(s.PhotoTrouble()) > 0 {
		t.Errorf("not shown: %q", s.PhotoTrouble())
	}
	if n.Load() != 1 {
		t.Errorf("opened %d times, want once", n.Load())
	}
}

// What a decoder says of a file is told as it says it.
func TestPictureTroubleIsInTheDecodersWords(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "A.png"), []byte("%PDF-1.4 and so on"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A")), Options{})
	if bad := s.PhotoTrouble(); len(bad) != 1 || !strings.HasPrefix(bad[0], "board A, face 1: A.png: this is a PDF") || !strings.Contains(bad[0], ";") {
		t.Errorf("told %q", bad)
	}
}

// Three pictures of 720 kB with their halves, and room for two.
func TestShelfLetsGoAndReads(t *testing.T) {
	dir := t.TempDir()
	var boards []*model.Board
	for _, id := range []string{"A", "B", "C"} {
		photograph(t, filepath.Join(dir, id+".png"), lampOf(1, 1, 1), ground)
		boards = append(boards, drawnBoard(id))
	}
	path := drawnProject(t, dir, boards...)
	const room = 1_500_000
	s, _ := openCounted(t, path, Options{Memory: room, Cache: t.TempDir()})
	for range 2 {
		for _, b := range boards {
			if s.Picture(b.ID, 1) == nil || s.Small(b.ID, 1) == nil {
				t.Fatalf("%s is not there", b.ID)
			}
			if m := s.pics.shelf.memory; m.used > room || len(m.got) != 2 {
				t.Errorf("%d bytes of %d pictures held", m.used, len(m.got))
			}
		}
	}
}

// posts is a session's goroutine in a test.
type posts chan func()

func (p posts) until(t *testing.T, ok func() bool) {
	t.Helper()
	for !ok() {
		select {
		case f := <-p:
			f()
		case <-t.Context().Done():
			t.Fatal("nothing comes")
		}
	}
}

func TestPicturesComeInTheBackground(t *testing.T) {
	dir := t.TempDir()
	ids := []string{"A", "B", "C", "D"}
	var boards []*model.Board
	for _, id := range ids {
		photograph(t, filepath.Join(dir, id+".png"), lampOf(1, 1, 1), ground)
		boards = append(boards, drawnBoard(id))
	}
	path := drawnProject(t, dir, boards...)
	p := make(posts, 1000)
	s, _ := openCounted(t, path, Options{Post: func(f func()) { p <- f }, Memory: 1_500_000, Cache: t.TempDir()})
	changes := 0
	s.OnChange(func() { changes++ })
	if s.Picture("A", 1) != nil || s.Small("A", 1) != nil || s.Loading() != 4 {
		t.Fatalf("there at once, or %d being read", s.Loading())
	}
	p.until(t, func() bool { return s.Loading() == 0 })
	if changes == 0 || changes > 8 {
		t.Errorf("%d changes told for four pictures", changes)
	}
	// All at full size at once do not fit: two come, two stay small, and that
	// is the end of it.
	frame := func() (n int) {
		for _, id := range ids {
			if s.Picture(id, 1) != nil {
				n++
			}
			if s.PictureAt(id, 1, 1) == nil {
				t.Fatalf("nothing to draw of %s", id)
			}
		}
		return n
	}
	for range 6 {
		frame()
		p.until(t, func() bool { return len(s.pics.plain.making) == 0 })
	}
	for len(p) > 0 {
		(<-p)()
	}
	missing := ""
	for _, id := range ids {
		if s.Picture(id, 1) == nil {
			missing = id
		}
	}
	if n := frame(); n != 2 || len(s.pics.plain.making) > 0 {
		t.Errorf("%d pictures at full size, %d being read; want 2 and 0", n, len(s.pics.plain.making))
	}
	// One comes when the others were not seen for a while.
	now := time.Now().Add(2 * onScreen)
	s.pics.shelf.memory.now = func() time.Time { return now }
	p.until(t, func() bool { return s.Picture(missing, 1) != nil })
}

// While the look of new zones is made the one before stays; what was asked for
// and is no longer wanted is not made.
func TestPictureDoesNotFlicker(t *testing.T) {
	dir := t.TempDir()
	photograph(t, filepath.Join(dir, "A.png"), lampOf(1, 1, 1), ground)
	path := drawnProject(t, dir, drawnBoard("A"))
	p := make(posts, 1000)
	s, n := openCounted(t, path, Options{Post: func(f func()) { p <- f }})
	p.until(t, func() bool { return s.Loading() == 0 && s.Picture("A", 1) != nil })
	first, field := s.Picture("A", 1), s.Board("A").Faces[0].Field
	set := func(wide float64) model.SetBoard {
		c := *s.Committed().Board("A")
		c.Faces[0].Zones = []model.Zone{{Kind: model.Sap, Polygon: rect(0, 0, drawnLong, wide)}}
		return model.SetBoard{Board: &c}
	}
	for wide := 41.0; wide < 45; wide++ {
		if err := s.Preview(set(wide)); err != nil {
			t.Fatal(err)
		}
		if s.Picture("A", 1) != first || s.Board("A").Faces[0].Field != field || s.Loading() != 0 {
			t.Fatal("a gesture makes looks of its own")
		}
	}
	for wide := 50.0; wide < 60; wide++ {
		if err := s.Commit(set(wide)); err != nil {
			t.Fatal(err)
		}
		if s.Picture("A", 1) == nil || s.Board("A").Faces[0].Field == nil {
			t.Fatal("the picture goes while another is made")
		}
	}
	if s.Loading() > abreast+1 {
		t.Errorf("%d looks are being made", s.Loading())
	}
	p.until(t, func() bool {
		if s.Picture("A", 1) == nil {
			t.Fatal("the picture goes while another comes")
		}
		return s.Loading() == 0
	})
	if s.Board("A").Faces[0].Field == field || s.Picture("A", 1) == first {
		t.Error("the look of the new zones did not come")
	}
	if n.Load() != 1 {
		t.Errorf("the photograph was opened %d times", n.Load())
	}
	for range 10 {
		if err := s.Commit(set(float64(60 + s.Loading()))); err != nil {
			t.Fatal(err)
		}
	}
	s.Close() // with work under way: the race detector looks on
}

func TestShelfLookAsText(t *testing.T) {
	dir := t.TempDir()
	photograph(t, filepath.Join(dir, "A.png"), lampOf(1, 1, 1), ground)
	b := drawnBoard("A")
	k, _ := keyOfPicture(b, 0)
	sq, err := readPicture(t.Context(), Folder(dir), &k, picturePx)
	if err != nil {
		t.Fatal(err)
	}
	spec := specOf(b, 0)
	l := spec.see(sq, 0.125, "a note")
	l.field.Coded[7] = colour.Lab{L: math.NaN()}.Code()
	l.sap = nil
	text := l.text()
	got, ok := parseLook(text, drawnLong, drawnWide)
	if !ok || got.left != 0.125 || got.note != "a note" || got.sap != nil || *got.heart != *l.heart || got.field.Coded[7].Known() {
		t.Fatalf("%v: %+v", ok, got)
	}
	for i, c := range l.field.Coded {
		if got.field.Coded[i] != c {
			t.Fatalf("cell %d is %v, was %v", i, got.field.Coded[i], c)
		}
	}
	for n := range 200 {
		if _, ok := parseLook(text[:len(text)*n/200], drawnLong, drawnWide); ok {
			t.Errorf("cut short to %d of 200 parts it was read", n)
		}
	}
	if _, ok := parseLook(text, drawnLong, drawnWide+20); ok {
		t.Error("read as of a wider board")
	}
}

// The corners of an unread face give no picture, and nothing is asked of disk.
func TestPictureOfNoCorners(t *testing.T) {
	b := drawnBoard("A")
	b.Faces[0].Corners = nil
	dir := t.TempDir()
	s := openDrawn(t, drawnProject(t, dir, b), Options{Cache: dir})
	if bad := s.PhotoTrouble(); len(bad) != 1 || !strings.Contains(bad[0], "no corners") {
		t.Errorf("told %q", bad)
	}
	if s.Picture("A", 1) != nil || s.Untouched("A", 1) != nil || s.Small("A", 1) != nil || s.PictureAt("A", 1, 1) != nil || s.Picture("A", 3) != nil || s.Picture("Z", 1) != nil {
		t.Error("a picture of nothing")
	}
}
