package scene

import (
	"image"
	"math"
	"sync"

	"heartside/layout/face"
	"heartside/layout/photo"
)

// Texture names the picture of a board's face at a scale. Boards are known by
// their pointer, as everywhere.
type Texture struct {
	Board   *face.Board
	Face    int // 1 or 2
	PxPerMM float64
	Picture *photo.Squared // nil: the wood is drawn
}

// Textures keeps pictures of faces. Those not there yet are asked for, and
// the nearest one at hand is shown meanwhile. It is safe for use by several
// goroutines.
type Textures struct {
	build func(Texture) *image.RGBA
	start func(job func())
	ready func()

	mu     sync.Mutex
	got    map[Texture]*held
	last   map[shownKey]*held  // the latest of a face, whatever board value it came from
	lights map[Texture]lightOf // light shares, by board and face
	used   int                 // pixels held
	tick   int
}

type shownKey struct {
	id   string
	face int
}

type held struct {
	key  Texture
	img  *image.RGBA // nil: being made
	tick int
}

// NewTextures returns an empty store. start runs a job in the background, nil
// makes pictures in the call that asks; ready, where not nil, is called after
// each job, on its goroutine.
func NewTextures(start func(job func()), ready func()) *Textures {
	return &Textures{build: Wood, start: start, ready: ready, got: map[Texture]*held{}, last: map[shownKey]*held{}, lights: map[Texture]lightOf{}}
}

// Scales of textures are powers of two between these, pixels a mm.
const (
	leastScale = 0.0625
	mostScale  = 2
)

// mostPixels bounds what is kept: more than the largest screens show at once,
// at a scale up to twice theirs.
const mostPixels = 40 << 20

// pixels returns how many pixels are kept for h: a photograph is kept whole,
// whatever the scale.
func (h *held) pixels() int {
	n := len(h.img.Pix) / 4
	if p := h.key.Picture; p != nil && p.Pix != nil {
		n = max(n, len(p.Pix.Pix)/4)
	}
	return n
}

// scaleFor returns the scale a face is drawn from: the least power of two
// that is not coarser than asked.
func scaleFor(pxPerMM float64) float64 {
	if !(pxPerMM > leastScale) {
		return leastScale
	}
	return math.Min(math.Exp2(math.Ceil(math.Log2(pxPerMM)-0.15)), mostScale)
}

// Get returns the best picture of a face there is for drawing at a scale, and
// asks for a better one where that helps. pic is the squared photograph, nil
// where there is none. Nil is returned where there is nothing to show yet.
func (t *Textures) Get(b *face.Board, f int, pic *photo.Squared, pxPerMM float64) *image.RGBA {
	key := Texture{b, f, scaleFor(pxPerMM), pic}
	t.mu.Lock()
	t.tick++
	h, ok := t.got[key]
	if !ok {
		h = &held{key: key, tick: t.tick}
		t.got[key] = h
		t.mu.Unlock()
		t.order(h)
		t.mu.Lock()
	}
	h.tick = t.tick
	defer t.mu.Unlock()
	if h.img != nil {
		return h.img
	}
	return t.nearest(key)
}

// nearest returns the finest picture of the same face at hand.
func (t *Textures) nearest(key Texture) *image.RGBA {
	for s := float64(mostScale); s >= leastScale; s /= 2 {
		if h := t.got[Texture{key.Board, key.Face, s, key.Picture}]; h != nil && h.img != nil {
			h.tick = t.tick
			return h.img
		}
	}
	if h := t.last[shownKey{key.Board.ID, key.Face}]; h != nil {
		return h.img
	}
	return nil
}

// order has a picture made.
func (t *Textures) order(h *held) {
	job := func() {
		img := t.build(h.key)
		t.mu.Lock()
		if img == nil {
			delete(t.got, h.key)
		} else {
			h.img = img
			t.last[shownKey{h.key.Board.ID, h.key.Face}] = h
			t.used += h.pixels()
			t.drop()
		}
		t.mu.Unlock()
		if t.ready != nil {
			t.ready()
		}
	}
	if t.start == nil {
		job()
		return
	}
	t.start(job)
}

// drop forgets the pictures longest unused until the rest fits.
func (t *Textures) drop() {
	for t.used > mostPixels {
		var old *held
		for _, h := range t.got {
			if h.img != nil && (old == nil || h.tick < old.tick) {
				old = h
			}
		}
		if old == nil || old.tick == t.tick {
			return
		}
		delete(t.got, old.key)
		if k := (shownKey{old.key.Board.ID, old.key.Face}); t.last[k] == old {
			delete(t.last, k)
		}
		t.used -= old.pixels()
	}
}

// Forget drops the pictures of boards no longer held, so that their values
// can be freed. keep tells which boards stay.
func (t *Textures) Forget(keep func(*face.Board) bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	for k, h := range t.got {
		if keep(k.Board) || h.img == nil || t.last[shownKey{k.Board.ID, k.Face}] == h {
			continue
		}
		delete(t.got, k)
		t.used -= h.pixels()
	}
}

// light returns the light and the unseen share of a face, kept with the
// board's value; false where the face has no wood.
func (t *Textures) light(b *face.Board, f int) (sap, unseen float64, ok bool) {
	if t == nil {
		return lightShare(b, f)
	}
	key := Texture{Board: b, Face: f}
	t.mu.Lock()
	v, have := t.lights[key]
	t.mu.Unlock()
	if !have {
		v.share, v.unseen, v.known = lightShare(b, f)
		t.mu.Lock()
		if len(t.lights) > mostLights {
			clear(t.lights)
		}
		t.lights[key] = v
		t.mu.Unlock()
	}
	return v.share, v.unseen, v.known
}

// mostLights bounds the light shares kept.
const mostLights = 2000

type lightOf struct {
	share, unseen float64
	known         bool
}
