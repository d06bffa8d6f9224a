package boardset

import (
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	_ "image/jpeg" // photographs
	_ "image/png"  // masks
	"os"
	"path/filepath"
	"sort"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Board is the truth about one board.
type Board struct {
	Name      string              `json:"name"`
	Level     int                 `json:"level"` // 1 easy to 5 hard
	Length    float64             `json:"length"`
	Width     float64             `json:"width"`
	Thickness float64             `json:"thickness"`
	Faces     map[string]FaceInfo `json:"faces"` // "1", "2"
	Pith      []Pith              `json:"pith"`
	Ends      map[string]EndInfo  `json:"ends"` // "a", "b"

	dir string
}

// FaceInfo is the truth about a photograph of a face.
type FaceInfo struct {
	Photo    string        `json:"photo"`
	Mask     string        `json:"mask"`
	Corners  [4][2]float64 `json:"corners"` // pixels, in the order of a face's own corners
	SapShare float64       `json:"sap_share"`
}

// Pith is where the pith truly lies at X, and the mean radii of the heartwood
// and of the wood about it, mm.
type Pith struct {
	X           float64 `json:"x"`
	Across      float64 `json:"across"`
	Depth       float64 `json:"depth"`
	HeartRadius float64 `json:"heart_radius"`
	WoodRadius  float64 `json:"wood_radius"`
}

// EndInfo is the truth about a photograph of an end: its corners from the
// other edge on the face-1 side, marked edge on the face-1 side, marked edge on
// the face-2 side, other edge on the face-2 side.
type EndInfo struct {
	Photo       string        `json:"photo"`
	Corners     [4][2]float64 `json:"corners"`
	Pith        Pith          `json:"pith"`
	HeartRadius struct {
		Mean float64 `json:"mean"`
		Min  float64 `json:"min"`
		Max  float64 `json:"max"`
	} `json:"heart_radius"`
}

// Read returns the boards of a folder by level and name. A folder without any
// is an error.
func Read(dir string) ([]Board, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil {
		return nil, err
	}
	var out []Board
	for _, name := range names {
		b, err := readBoard(name)
		if err != nil {
			return nil, err
		}
		if len(b.Faces) > 0 { // other JSON may lie in the folder
			out = append(out, b)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("%s: no board described by a .json file there", dir)
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Level != out[j].Level {
			return out[i].Level < out[j].Level
		}
		return out[i].Name < out[j].Name
	})
	return out, nil
}

func readBoard(name string) (Board, error) {
	b := Board{dir: filepath.Dir(name)}
	data, err := os.ReadFile(name)
	if err != nil {
		return b, err
	}
	if err := json.Unmarshal(data, &b); err != nil {
		return b, fmt.Errorf("%s: %w", name, err)
	}
	return b, nil
}

// Face is one face with its photograph and its truth.
type Face struct {
	Board   *Board
	Number  string // "1" or "2"
	Img     image.Image
	Corners [4]geom.Point
	Truth   *photo.Mask
	Share   float64 // of sapwood, of the whole face
}

// Face reads the photograph and the mask of a face.
func (b *Board) Face(number string) (*Face, error) {
	info, ok := b.Faces[number]
	if !ok {
		return nil, fmt.Errorf("board %s has no face %s", b.Name, number)
	}
	f := &Face{Board: b, Number: number, Corners: points(info.Corners)}
	var err error
	if f.Img, err = b.picture(info.Photo); err != nil {
		return nil, err
	}
	grey, err := b.picture(info.Mask)
	if err != nil {
		return nil, err
	}
	f.Truth = maskOf(grey, b.Length, b.Width)
	n := 0
	for _, l := range f.Truth.Pix {
		if l == photo.Sap {
			n++
		}
	}
	f.Share = float64(n) / float64(len(f.Truth.Pix))
	return f, nil
}

// End reads the photograph of an end: its corners in pixels, in the order of
// EndInfo.
func (b *Board) End(which string) (image.Image, [4]geom.Point, error) {
	info, ok := b.Ends[which]
	if !ok {
		return nil, [4]geom.Point{}, fmt.Errorf("board %s has no end %s", b.Name, which)
	}
	img, err := b.picture(info.Photo)
	return img, points(info.Corners), err
}

// FaceNumbers returns which faces there are, in order.
func (b *Board) FaceNumbers() []string {
	var out []string
	for n := range b.Faces {
		out = append(out, n)
	}
	sort.Strings(out)
	return out
}

func (b *Board) picture(name string) (image.Image, error) {
	f, err := os.Open(filepath.Join(b.dir, name))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return img, nil
}

func points(c [4][2]float64) (out [4]geom.Point) {
	for i, p := range c {
		out[i] = geom.Pt(p[0], p[1])
	}
	return out
}

// maskOf takes grey values as labels.
func maskOf(img image.Image, length, width float64) *photo.Mask {
	b := img.Bounds()
	grey := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(grey, grey.Rect, img, b.Min, draw.Src)
	m := &photo.Mask{W: b.Dx(), H: b.Dy(), Length: length, Width: width, Pix: make([]photo.Label, b.Dx()*b.Dy())}
	for j := 0; j < m.H; j++ {
		for i := 0; i < m.W; i++ {
			m.Pix[j*m.W+i] = photo.Label(min(grey.Pix[j*grey.Stride+i], uint8(photo.Unseen)))
		}
	}
	return m
}
