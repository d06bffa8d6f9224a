package main

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"testing"
)

// readTruth returns what a set's JSON tells of its first board.
func readTruth(t *testing.T, folder string) boardTruth {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil || len(names) != 1 {
		t.Fatalf("boards %v, %v", names, err)
	}
	raw, err := os.ReadFile(names[0])
	if err != nil {
		t.Fatal(err)
	}
	var b boardTruth
	if err := json.Unmarshal(raw, &b); err != nil {
		t.Fatal(err)
	}
	return b
}

func open(t *testing.T, path string) image.Image {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	img, _, err := image.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return img
}

// A set holds every file its JSON names: photographs of the size asked for,
// corners inside them, masks of a pixel a mm whose light pixels are the share
// of sap told.
func TestSetIsWhole(t *testing.T) {
	dir := t.TempDir()
	if err := writeSet(context.Background(), setOptions{folder: dir, boards: 1, seed: 3, level: 2, mp: 0.12}); err != nil {
		t.Fatal(err)
	}
	b := readTruth(t, dir)
	if b.Level != 2 || len(b.Faces) != 2 || len(b.Ends) != 2 || len(b.Pith) != 9 {
		t.Fatalf("%+v", b)
	}
	for k, f := range b.Faces {
		img := open(t, filepath.Join(dir, f.Photo))
		if r := img.Bounds(); r.Dx() != 400 || r.Dy() != 300 { // 4 : 3 of 120,000 pixels
			t.Errorf("face %s is %v", k, r)
		}
		for _, c := range f.Corners {
			if !(image.Pt(int(c[0]), int(c[1])).In(img.Bounds())) {
				t.Errorf("face %s: corner %v", k, c)
			}
		}
		mask, ok := open(t, filepath.Join(dir, f.Mask)).(*image.Gray)
		if !ok || float64(mask.Rect.Dx()) != b.Length || float64(mask.Rect.Dy()) != b.Width {
			t.Fatalf("face %s: mask %T of %g x %g", k, mask, b.Length, b.Width)
		}
		sap := float64(bytes.Count(mask.Pix, []byte{2})) / float64(len(mask.Pix))
		if d := sap - f.Sap; d > 1e-4 || d < -1e-4 {
			t.Errorf("face %s: %.4f of the mask is sap, told %.4f", k, sap, f.Sap)
		}
	}
	for k, e := range b.Ends {
		img := open(t, filepath.Join(dir, e.Photo))
		// Clockwise from the other edge on the side of face 1, upper left.
		if c := e.Corners; !(c[0][0] < c[1][0] && c[1][1] < c[2][1] && c[2][0] > c[3][0]) || img.Bounds().Dx() != 1000 {
			t.Errorf("end %s: corners %v", k, c)
		}
		if e.Heart["min"] > e.Heart["mean"] || e.Heart["mean"] > e.Heart["max"] {
			t.Errorf("end %s: heart %v", k, e.Heart)
		}
	}
}

func TestSetRefuses(t *testing.T) {
	for _, o := range []setOptions{{boards: 0, mp: 1}, {boards: 1, level: 6, mp: 1}, {boards: 1, mp: 0}} {
		o.folder = t.TempDir()
		if err := writeSet(context.Background(), o); err == nil {
			t.Errorf("%+v: no error", o)
		}
	}
}
