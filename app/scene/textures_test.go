package scene

import (
	"image"
	"testing"

	"heartside/layout/face"
	"heartside/layout/photo"
)

func TestTexturesComeWhenTheyAreReady(t *testing.T) {
	var jobs []func()
	ready := 0
	ts := NewTextures(func(job func()) { jobs = append(jobs, job) }, func() { ready++ })
	b := board("A", 800, 100)
	if ts.Get(b, 1, nil, 0.4) != nil {
		t.Error("a texture before it was made")
	}
	ts.Get(b, 1, nil, 0.4)
	if len(jobs) != 1 {
		t.Fatalf("%d jobs for one texture", len(jobs))
	}
	jobs[0]()
	img := ts.Get(b, 1, nil, 0.4)
	// The least power of two that is not coarser: half a pixel a mm.
	if img == nil || img.Rect != image.Rect(0, 0, 400, 50) || ready != 1 {
		t.Fatalf("texture %v after %d calls", img, ready)
	}
	// A finer one is asked for; the one at hand shows meanwhile.
	if got := ts.Get(b, 1, nil, 1.6); got != img || len(jobs) != 2 {
		t.Error("the coarse texture does not stand in for the fine one")
	}
	// A board changed: its old picture shows until the new one is there.
	c := *b
	c.Faces[0].Zones = []face.Zone{taper(&c, false, 10, 10, 10)}
	if got := ts.Get(&c, 1, nil, 0.4); got != img || len(jobs) != 3 {
		t.Error("the old picture does not stand in for the new one")
	}
	jobs[2]()
	if got := ts.Get(&c, 1, nil, 0.4); got == img || got == nil {
		t.Error("the new picture was not taken")
	}
	if ts.Get(b, 2, nil, 0.4) != nil {
		t.Error("face 2 shows face 1's picture")
	}
}

func TestTexturesForgetTheOldest(t *testing.T) {
	ts := NewTextures(nil, nil)
	made := 0
	ts.build = func(k Texture) *image.RGBA {
		made++
		return image.NewRGBA(image.Rect(0, 0, 4096, 4096))
	}
	first := board("B0", 4096, 4096)
	ts.Get(first, 1, nil, 1)
	for i := 0; i < 8; i++ { // of 16 million pixels each
		ts.Get(board("C", 1, 1), 1, nil, 1)
		if ts.used > mostPixels {
			t.Fatalf("%d pixels are kept", ts.used)
		}
	}
	n := made
	ts.Get(first, 1, nil, 1)
	if made != n+1 {
		t.Error("the oldest was not forgotten")
	}
	ts.Forget(func(b *face.Board) bool { return b == first })
	for k := range ts.got {
		if k.Board != first && ts.last[shownKey{k.Board.ID, k.Face}].key != k {
			t.Error("a board no longer held has a texture")
		}
	}
}

func TestScalesOfTextures(t *testing.T) {
	for asked, want := range map[float64]float64{0: 0.0625, 0.01: 0.0625, 0.25: 0.25, 0.3: 0.5, 0.52: 0.5, 0.9: 1, 1.9: 2, 40: 2} {
		if got := scaleFor(asked); got != want {
			t.Errorf("for %v: %v, want %v", asked, got, want)
		}
	}
}

// A photograph of 4 million pixels is kept with each of its textures, however
// small: 40 of a sixteenth are held as 40 photographs would be.
func TestTexturesCountPhotographsWhole(t *testing.T) {
	ts := NewTextures(nil, nil)
	for range 40 {
		pic := &photo.Squared{Pix: image.NewRGBA(image.Rect(0, 0, 2048, 2048)), PxPerMM: 1, Length: 2048, Width: 2048}
		ts.Get(board("B", 2048, 2048), 1, pic, 0.25)
		whole := 0
		for k, h := range ts.got {
			if h.img != nil {
				whole += len(k.Picture.Pix.Pix) / 4
			}
		}
		if whole > mostPixels {
			t.Fatalf("photographs of %d pixels are held", whole)
		}
	}
}
