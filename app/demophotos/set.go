package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"

	"heartside/layout/geom"
	"heartside/layout/grain/snapshot"
	"heartside/layout/photo"
)

// setOptions says what set of photographs to write.
type setOptions struct {
	folder string
	boards int
	seed   uint64
	level  int     // 0: from 1 to 4 by turns, every eighth 5
	mp     float64 // million pixels of a photograph of a face
}

// faceTruth is what the JSON tells of a photograph of a face.
type faceTruth struct {
	Photo   string        `json:"photo"`
	Mask    string        `json:"mask"`
	Corners [4][2]float64 `json:"corners"`
	Sap     float64       `json:"sap_share"`
	K1      float64       `json:"lens_k1"`
	Bow     float64       `json:"bow"`
	Ground  string        `json:"ground"`
	Beside  string        `json:"beside"`
	Tilt    float64       `json:"tilt"`
	Quality int           `json:"jpeg"`
}

type pithTruth struct {
	X      float64 `json:"x"`
	Across float64 `json:"across"`
	Depth  float64 `json:"depth"`
	Heart  float64 `json:"heart_radius"`
	Wood   float64 `json:"wood_radius"`
}

type endTruth struct {
	Photo   string             `json:"photo"`
	Corners [4][2]float64      `json:"corners"`
	Bow     float64            `json:"bow"`
	Pith    map[string]float64 `json:"pith"`
	Heart   map[string]float64 `json:"heart_radius"`
}

type boardTruth struct {
	Name      string               `json:"name"`
	Wood      string               `json:"wood"`
	Case      string               `json:"case"`
	Level     int                  `json:"level"`
	Cut       string               `json:"cut"`
	Length    float64              `json:"length"`
	Width     float64              `json:"width"`
	Thickness float64              `json:"thickness"`
	Faces     map[string]faceTruth `json:"faces"`
	Pith      []pithTruth          `json:"pith"`
	Ends      map[string]endTruth  `json:"ends"`
}

// writeSet writes photographs of modelled boards with the truth about them.
func writeSet(ctx context.Context, o setOptions) error {
	if o.boards < 1 || o.level < 0 || o.level > 5 || !(o.mp > 0.05) || o.mp > 30 {
		return fmt.Errorf("a set of %d boards of level %d at %g million pixels: want one board or more, level 0 to 5, up to 30 million", o.boards, o.level, o.mp)
	}
	if err := os.MkdirAll(o.folder, 0o777); err != nil {
		return fmt.Errorf("set: %w", err)
	}
	for i := range o.boards {
		level := o.level
		if level == 0 {
			level = 1 + i%4
			if i%8 == 7 && i > 8 {
				level = 5
			}
		}
		if err := writeBoard(ctx, o, i, level); err != nil {
			return err
		}
	}
	return nil
}

func writeBoard(ctx context.Context, o setOptions, i, level int) error {
	seed := o.seed*10007 + uint64(i)*101
	b := snapshot.Plan(seed, level)
	t := boardTruth{
		Name: fmt.Sprintf("s%02d-%s-L%d", i+1, b.Kind.Name, level), Wood: b.Kind.Name, Case: b.Case, Level: level, Cut: b.Cut,
		Length: b.Length, Width: b.Width, Thickness: b.Thickness,
		Faces: map[string]faceTruth{}, Ends: map[string]endTruth{},
	}
	w, h := int(math.Sqrt(o.mp*1e6*4/3)+0.5), int(math.Sqrt(o.mp*1e6*3/4)+0.5)
	if i%11 == 5 { // held upright
		w, h = h, w
	}
	for f := 1; f <= 2; f++ {
		s := b.Face(f, seed+uint64(f), w, h)
		p, err := takeTo(ctx, s, o.folder, fmt.Sprintf("%s-%d.jpg", t.Name, f))
		if err != nil {
			return err
		}
		m := b.Mask(f, 1, 0)
		name := fmt.Sprintf("%s-%d-mask.png", t.Name, f)
		if err := writeMask(filepath.Join(o.folder, name), m); err != nil {
			return err
		}
		t.Faces[fmt.Sprint(f)] = faceTruth{
			Photo: fmt.Sprintf("%s-%d.jpg", t.Name, f), Mask: name, Corners: pairs(p.Corners), Sap: round(m.Shares()[photo.Sap], 4),
			K1: round(p.Bow, 5), Bow: p.Bow, Ground: s.Ground, Beside: s.Beside, Tilt: round(s.Camera.Tilt, 1), Quality: s.Quality,
		}
	}
	for _, s := range b.Stations(9) {
		t.Pith = append(t.Pith, pithTruth{round(s.X, 1), round(s.Across, 2), round(s.Depth, 2), round(s.Heart, 1), round(s.Wood, 1)})
	}
	for k, e := range [2]string{"a", "b"} {
		s := b.End(k == 1, seed+uint64(5+k), 1000, 750)
		p, err := takeTo(ctx, s, o.folder, fmt.Sprintf("%s-%s.jpg", t.Name, e))
		if err != nil {
			return err
		}
		at := b.At(float64(k) * b.Length)
		c := p.Corners // theirs go clockwise from the upper left
		t.Ends[e] = endTruth{
			Photo: fmt.Sprintf("%s-%s.jpg", t.Name, e), Corners: pairs([4]geom.Point{c[3], c[2], c[1], c[0]}), Bow: p.Bow,
			Pith:  map[string]float64{"across": round(at.Across, 2), "depth": round(at.Depth, 2)},
			Heart: map[string]float64{"mean": round(at.Heart, 1), "min": round(at.Least, 1), "max": round(at.Greatest, 1)},
		}
	}
	raw, err := json.MarshalIndent(t, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(o.folder, t.Name+".json"), append(raw, '\n'), 0o666)
}

// takeTo photographs a scene into a file.
func takeTo(ctx context.Context, s *snapshot.Scene, folder, name string) (*snapshot.Photo, error) {
	p, err := s.Take(ctx)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p.Img, &jpeg.Options{Quality: s.Quality}); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return p, os.WriteFile(filepath.Join(folder, name), b.Bytes(), 0o666)
}

// writeMask writes labels as grey values.
func writeMask(path string, m *photo.Mask) error {
	img := image.NewGray(image.Rect(0, 0, m.W, m.H))
	for i, l := range m.Pix {
		img.Pix[i] = uint8(l)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return fmt.Errorf("mask: %w", err)
	}
	return os.WriteFile(path, b.Bytes(), 0o666)
}

func pairs(c [4]geom.Point) (out [4][2]float64) {
	for i, p := range c {
		out[i] = [2]float64{round(p.X, 2), round(p.Y, 2)}
	}
	return out
}

func round(v float64, places int) float64 {
	k := math.Pow(10, float64(places))
	return math.Round(v*k) / k
}
