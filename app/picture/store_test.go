package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

func files(t *testing.T, dir string) (n int, size int64) {
	t.Helper()
	es, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range es {
		fi, err := e.Info()
		if err != nil {
			t.Fatal(err)
		}
		n, size = n+1, size+fi.Size()
	}
	return n, size
}

func TestStoreGivesBackWhatItTook(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "yet")
	s := NewStore(dir, 1<<20)
	if _, ok := s.Get("a"); ok {
		t.Error("found before it was put")
	}
	for _, v := range []string{"one", "", "another"} {
		if err := s.Put("a", []byte(v)); err != nil {
			t.Fatal(err)
		}
		if got, ok := NewStore(dir, 1<<20).Get("a"); !ok || string(got) != v {
			t.Errorf("got %q, %v, want %q", got, ok, v)
		}
	}
	if n, _ := files(t, dir); n != 1 {
		t.Errorf("%d files for one key", n)
	}
}

func TestStoreForgetsTheOldest(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "letter.txt")
	if err := os.WriteFile(other, bytes.Repeat([]byte("x"), 5000), 0o600); err != nil {
		t.Fatal(err)
	}
	left, young := filepath.Join(dir, "1"+newEnding), filepath.Join(dir, "2"+newEnding)
	for _, p := range []string{left, young} {
		if err := os.WriteFile(p, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if long := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC); os.Chtimes(left, long, long) != nil {
		t.Fatal("no time can be set")
	}
	s := NewStore(dir, 10_000)
	day := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 9 {
		key := fmt.Sprint(i)
		if err := s.Put(key, make([]byte, 992)); err != nil { // 1000 with its head
			t.Fatal(err)
		}
		at := day.AddDate(0, 0, i)
		if err := os.Chtimes(s.path(key), at, at); err != nil {
			t.Fatal(err)
		}
	}
	// 0 is used and so becomes the newest; then it is too much.
	if _, ok := s.Get("0"); !ok {
		t.Fatal("0 is gone")
	}
	if err := s.Put("large", make([]byte, 1992)); err != nil {
		t.Fatal(err)
	}
	// 11000 of 10000: down to 9000, so 1 and 2 go.
	for key, want := range map[string]bool{"0": true, "1": false, "2": false, "3": true, "8": true, "large": true} {
		if _, ok := s.Get(key); ok != want {
			t.Errorf("%s: there is %v, want %v", key, ok, want)
		}
	}
	for _, p := range []string{other, young} {
		if _, err := os.Stat(p); err != nil {
			t.Errorf("not the store's to remove: %v", err)
		}
	}
	if _, err := os.Stat(left); err == nil {
		t.Error("what was left behind is still there")
	}
	if s.Put("huge", make([]byte, 10_000)) == nil {
		t.Error("more than all is taken")
	}
}

func TestStoreDoesNotTrustItsFiles(t *testing.T) {
	dir := t.TempDir()
	s := NewStore(dir, 1<<20)
	if err := s.Put("a", []byte("some thing")); err != nil {
		t.Fatal(err)
	}
	p, err := os.ReadFile(s.path("a"))
	if err != nil {
		t.Fatal(err)
	}
	for n := range p {
		bad := bytes.Clone(p)
		bad[n] ^= 0x10
		for _, v := range [][]byte{bad, p[:n]} {
			if err := os.WriteFile(s.path("a"), v, 0o600); err != nil {
				t.Fatal(err)
			}
			if got, ok := s.Get("a"); ok {
				t.Fatalf("damaged at %d it gives %q", n, got)
			}
		}
	}
}

func TestStoreWithoutAFolder(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s := NewStore(filepath.Join(file, "below"), 1<<20)
	if s.Put("a", []byte("x")) == nil {
		t.Error("kept below a file")
	}
	if _, ok := s.Get("a"); ok {
		t.Error("found below a file")
	}
	// One that vanishes is made again.
	dir := filepath.Join(t.TempDir(), "d")
	s = NewStore(dir, 1<<20)
	for range 2 {
		if err := s.Put("a", []byte("x")); err != nil {
			t.Error(err)
		}
		if err := os.RemoveAll(dir); err != nil {
			t.Fatal(err)
		}
	}
}

func TestStoreKeepsPictures(t *testing.T) {
	s := NewStore(t.TempDir(), 1<<20)
	m := image.NewRGBA(image.Rect(2, 3, 35, 24))
	for y := 3; y < 24; y++ {
		for x := 2; x < 35; x++ {
			m.Set(x, y, color.RGBA{uint8(120 + x), uint8(90 + y), 60, 255})
		}
	}
	for c, within := range map[Coding]int{Plain: 0, PNG: 0, JPEG: 8} {
		if err := s.PutImage("k", m, c); err != nil {
			t.Fatal(err)
		}
		got, ok := s.GetImage("k")
		if !ok || got.Rect != image.Rect(0, 0, 33, 21) {
			t.Fatalf("coding %d: %v, %v", c, got, ok)
		}
		for y := range 21 {
			for x := range 33 {
				if a, b := rgbAt(got, x, y), rgbAt(m, x+2, y+3); !near(a, b, within) {
					t.Fatalf("coding %d: at (%d, %d) is %v, want %v", c, x, y, a, b)
				}
			}
		}
	}
	if s.PutImage("none", nil, Plain) == nil || s.PutImage("none", image.NewGray(image.Rectangle{}), PNG) == nil {
		t.Error("an empty picture is kept")
	}
	for _, bad := range []string{"", "nonsense", plainMark, plainMark + "\xff\xff\xff\xff\xff\xff\xff\xff", plainMark + "\x00\x00\x00\x00\x00\x00\x00\x00"} {
		if err := s.Put("bad", []byte(bad)); err != nil {
			t.Fatal(err)
		}
		if _, ok := s.GetImage("bad"); ok {
			t.Errorf("%q is a picture", bad)
		}
	}
}

func TestStoreFromManySides(t *testing.T) {
	dir := t.TempDir()
	a, b := NewStore(dir, 4000), NewStore(dir, 4000)
	var wg sync.WaitGroup
	for g := range 4 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			s := []*Store{a, b}[g%2]
			for i := range 60 {
				key := fmt.Sprint(i % 12)
				want := bytes.Repeat([]byte(key), 300)
				if got, ok := s.Get(key); ok && !bytes.Equal(got, want) {
					t.Errorf("%s: got something else", key)
				}
				if err := s.Put(key, want); err != nil {
					t.Errorf("%s: %v", key, err)
				}
			}
		}()
	}
	wg.Wait()
	// Each side counts for itself, so both together hold twice at most.
	if _, size := files(t, dir); size > 8000 {
		t.Errorf("%d bytes are kept", size)
	}
}
