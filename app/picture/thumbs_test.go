package picture

import (
	"context"
	"errors"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

// photo writes a grey photograph and returns its path.
func photo(t *testing.T, dir string, w, h int, v uint8) string {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = v
	}
	f, err := os.Create(filepath.Join(dir, "p.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(f, m, nil); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return f.Name()
}

func TestThumbIsKeptUntilTheFileChanges(t *testing.T) {
	dir, kept := t.TempDir(), filepath.Join(t.TempDir(), "kept")
	path := photo(t, dir, 1200, 800, 100)
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	thumbs := NewThumbs(NewStore(kept, 1<<20), Limits{})
	m, err := thumbs.Of(context.Background(), path)
	if err != nil || m.Rect != image.Rect(0, 0, 512, 341) {
		t.Fatalf("%v, %v", m, err)
	}
	if after, err := os.ReadFile(path); err != nil || string(after) != string(before) {
		t.Errorf("the photograph changed: %v", err)
	}
	// What is kept is used: put another picture in its place, and see it.
	key, err := Key(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := thumbs.store.PutImage("thumb 512|"+key, image.NewGray(image.Rect(0, 0, 5, 5)), PNG); err != nil {
		t.Fatal(err)
	}
	if m, err = thumbs.Of(context.Background(), path); err != nil || m.Rect.Dx() != 5 {
		t.Errorf("made anew: %v, %v", m.Rect, err)
	}
	photo(t, dir, 600, 800, 200)
	at := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	if err := os.Chtimes(path, at, at); err != nil {
		t.Fatal(err)
	}
	if m, err = thumbs.Of(context.Background(), path); err != nil || m.Rect != image.Rect(0, 0, 384, 512) || !near(rgbAt(m, 9, 9), [3]int{200, 200, 200}, 2) {
		t.Errorf("after a change: %v, %v", m.Rect, err)
	}
}

func TestThumbsWithoutAPlaceToKeepThem(t *testing.T) {
	path := photo(t, t.TempDir(), 30, 20, 50)
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, s := range []*Store{nil, NewStore(filepath.Join(file, "x"), 1<<20)} {
		if m, err := NewThumbs(s, Limits{}).Of(context.Background(), path); err != nil || m.Rect.Dx() != 30 {
			t.Errorf("%v", err)
		}
	}
}

func TestThumbsAskedAtOnce(t *testing.T) {
	path := photo(t, t.TempDir(), 900, 600, 80)
	thumbs := NewThumbs(NewStore(t.TempDir(), 1<<20), Limits{})
	var wg sync.WaitGroup
	for range 8 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			if m, err := thumbs.Of(context.Background(), path); err != nil || m.Rect.Dx() != 512 {
				t.Errorf("%v", err)
			}
		}()
	}
	wg.Wait()
	if len(thumbs.busy) != 0 || len(thumbs.gate) != 0 {
		t.Error("turns are left over")
	}
}

func TestThumbsWaitNoLongerThanAsked(t *testing.T) {
	path := photo(t, t.TempDir(), 90, 60, 80)
	thumbs := NewThumbs(nil, Limits{})
	thumbs.gate <- struct{}{}
	thumbs.gate <- struct{}{} // two others decode
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := thumbs.Of(ctx, path); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	key, err := Key(path)
	if err != nil {
		t.Fatal(err)
	}
	done, err := thumbs.turn(context.Background(), key)
	if err != nil {
		t.Fatal(err)
	}
	defer done()
	if _, err := thumbs.turn(ctx, key); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestThumbOfWhatIsNone(t *testing.T) {
	thumbs := NewThumbs(nil, Limits{})
	var e *Error
	for _, path := range []string{t.TempDir(), filepath.Join(t.TempDir(), "none.jpg"), "thumbs_test.go"} {
		if _, err := thumbs.Of(context.Background(), path); !errors.As(err, &e) {
			t.Errorf("%s: %v", path, err)
		}
	}
}
