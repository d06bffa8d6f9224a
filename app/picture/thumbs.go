package picture

import (
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"sync"
)

// Longest is the longer side of a thumbnail, pixels.
const Longest = 512

// Thumbs makes thumbnails of photographs and keeps them in a store. Several
// goroutines may ask at once; at most two photographs are decoded at a time,
// each once however many ask for it.
type Thumbs struct {
	store *Store // nil: nothing is kept
	lim   Limits
	gate  chan struct{}

	mu   sync.Mutex
	busy map[string]chan struct{} // closed when that one is done
}

// NewThumbs returns thumbnails kept in a store; with a nil store they are made
// anew each time.
func NewThumbs(store *Store, lim Limits) *Thumbs {
	return &Thumbs{store: store, lim: lim, gate: make(chan struct{}, 2), busy: map[string]chan struct{}{}}
}

// Key returns a key for a file as it is: its path, size and time of change. A
// changed file has another one.
func Key(path string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", unreadable(err)
	}
	fi, err := os.Stat(abs)
	if err != nil {
		return "", unreadable(err)
	}
	if err := plain(fi); err != nil {
		return "", err
	}
	return fmt.Sprintf("%s|%d|%d", filepath.Clean(abs), fi.Size(), fi.ModTime().UnixNano()), nil
}

// Of returns the thumbnail of the photograph at a path: upright, in sRGB, its
// longer side at most Longest. Errors are those of Open and Decode.
func (t *Thumbs) Of(ctx context.Context, path string) (*image.RGBA, error) {
	key, err := Key(path)
	if err != nil {
		return nil, err
	}
	key = fmt.Sprintf("thumb %d|%s", Longest, key)
	done, err := t.turn(ctx, key)
	if err != nil {
		return nil, err
	}
	defer done()
	if t.store != nil {
		if img, ok := t.store.GetImage(key); ok {
			return img, nil
		}
	}
	select {
	case t.gate <- struct{}{}:
		defer func() { <-t.gate }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	f, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, _, err := DecodeReduced(ctx, f, Longest, t.lim)
	if err != nil {
		return nil, err
	}
	if t.store != nil {
		_ = t.store.PutImage(key, img, JPEG) // a thumbnail not kept is made again
	}
	return img, nil
}

// turn waits until nobody else works on a key. The function it returns ends
// the turn.
func (t *Thumbs) turn(ctx context.Context, key string) (func(), error) {
	for {
		t.mu.Lock()
		other, taken := t.busy[key]
		if !taken {
			mine := make(chan struct{})
			t.busy[key] = mine
			t.mu.Unlock()
			return func() {
				t.mu.Lock()
				delete(t.busy, key)
				t.mu.Unlock()
				close(mine)
			}, nil
		}
		t.mu.Unlock()
		select {
		case <-other:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
}
