package command

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"heartside/app/intake"
	"heartside/app/picture"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model/unit"
)

// zonesJSON is what zones --json prints.
type zonesJSON struct {
	Corners          [4][2]float64 `json:"corners"`
	Confidence       float64       `json:"confidence"`
	CornerConfidence [4]float64    `json:"corner_confidence"`
	SplitConfidence  float64       `json:"split_confidence"`
	Sure             bool          `json:"sure"`
	Bow              float64       `json:"bow"`
	ResidualMM       float64       `json:"residual_mm"`
	LightShare       float64       `json:"light_share"`
	LightShareRange  [2]float64    `json:"light_share_range"`
	Doubts           []string      `json:"doubts"`
}

// zones squares a photograph of a face, splits it and writes the mask.
func zones(args []string, out io.Writer) (int, error) {
	o, err := parse(args, "photograph", "o size corners", "json")
	if err != nil {
		return Failed, err
	}
	to := o.flags["o"]
	if to == "" {
		return Failed, errors.New("no file to write: give -o MASK.png")
	}
	if ext := filepath.Ext(to); !strings.EqualFold(ext, ".png") {
		return Failed, fmt.Errorf("a mask is a PNG picture: give -o %s.png", strings.TrimSuffix(to, ext))
	}
	ask, err := asked(o.flags["size"], o.flags["corners"])
	if err != nil {
		return Failed, err
	}
	r, err := picture.Open(o.project)
	if err != nil {
		return Failed, fmt.Errorf("%s: %w", o.project, err)
	}
	ctx := context.Background()
	img, _, err := picture.Decode(ctx, r, picture.Limits{})
	r.Close()
	if err != nil {
		return Failed, fmt.Errorf("%s: %w", filepath.Base(o.project), err)
	}
	s, err := intake.Look(ctx, img, ask, func(intake.Step) {})
	if err != nil {
		return Failed, fmt.Errorf("%s: %w", filepath.Base(o.project), err)
	}
	if err := writeMask(to, s.Split.Mask); err != nil {
		return Failed, err
	}
	v := zonesOf(s)
	if o.flags["json"] != "" {
		e := json.NewEncoder(out)
		e.SetIndent("", "  ")
		return Done, e.Encode(v)
	}
	return Done, v.print(out, to)
}

// asked reads the size of the board and its corners.
func asked(size, corners string) (a intake.Ask, err error) {
	if size == "" {
		return a, errors.New("the size of the board is wanted: give --size LENGTHxWIDTH, mm unless a unit is written")
	}
	length, width, ok := strings.Cut(strings.ReplaceAll(strings.ToLower(size), "×", "x"), "x")
	if !ok {
		return a, fmt.Errorf("--size %s: write LENGTHxWIDTH, as in 2400x210", size)
	}
	for _, v := range []struct {
		name, text string
		to         *float64
	}{{"length", length, &a.Length}, {"width", width, &a.Width}} {
		if *v.to, err = unit.Parse(strings.TrimSpace(v.text), unit.MM); err != nil {
			return a, fmt.Errorf("--size, %s: %w", v.name, err)
		}
		if !(*v.to > 0) || *v.to > mostSize {
			return a, fmt.Errorf("--size, %s: %s is no size of a board; give more than 0 and at most %d mm", v.name, v.text, mostSize)
		}
	}
	if corners == "" {
		return a, nil
	}
	words := strings.Split(corners, ",")
	if len(words) != 8 {
		return a, fmt.Errorf("--corners: %d figures where there are 8: x,y of the corners at (0, 0), (length, 0), (length, width) and (0, width)", len(words))
	}
	a.Corners = new([4]geom.Point)
	for i, w := range words {
		v, err := strconv.ParseFloat(strings.TrimSpace(w), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return a, fmt.Errorf("--corners: “%s” is no figure", w)
		}
		if c := &a.Corners[i/2]; i%2 == 0 {
			c.X = v
		} else {
			c.Y = v
		}
	}
	return a, nil
}

// mostSize bounds boards, mm.
const mostSize = 20000

// writeMask writes the labels of a mask as the grey values of a PNG.
func writeMask(path string, m *photo.Mask) (err error) {
	img := image.NewGray(image.Rect(0, 0, m.W, m.H))
	for k, l := range m.Pix {
		img.Pix[k] = uint8(l)
	}
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, errors.Unwrap(err))
	}
	defer func() {
		if e := f.Close(); err == nil && e != nil {
			err = fmt.Errorf("%s cannot be written: %w", path, e)
		}
	}()
	return png.Encode(f, img)
}

func zonesOf(s *intake.Seen) zonesJSON {
	v := zonesJSON{
		Confidence: round(s.Sure(), 3), SplitConfidence: round(s.Split.Confidence, 3), Sure: s.Sure() >= intake.SureEnough,
		Bow: round(s.View.Bow, 6), ResidualMM: round(s.Residual, 3),
		LightShare: round(s.Split.SapShare, 4), LightShareRange: [2]float64{round(s.Split.SapLow, 4), round(s.Split.SapHigh, 4)},
		Doubts: s.Doubts(),
	}
	if v.Doubts == nil {
		v.Doubts = []string{}
	}
	for i, c := range s.View.Corners {
		v.Corners[i] = [2]float64{round(c.X, 2), round(c.Y, 2)}
		v.CornerConfidence[i] = round(s.Confidence[i], 3)
	}
	return v
}

// print tells it in words.
func (v zonesJSON) print(out io.Writer, to string) error {
	w := lines{out: out}
	w.printf("corners, pixels from the top left:")
	for i, c := range v.Corners {
		w.printf(" %.1f,%.1f (%s sure)", c[0], c[1], share(v.CornerConfidence[i]))
	}
	w.printf("\nedges lie within %.2f mm of straight, lens bow %.4f\n", v.ResidualMM, v.Bow)
	w.printf("light %s of the face (%s to %s), %s sure\n", share(v.LightShare), share(v.LightShareRange[0]), share(v.LightShareRange[1]), share(v.Confidence))
	if !v.Sure {
		w.printf("not sure: look at the picture before you trust this\n")
	}
	for _, d := range v.Doubts {
		w.printf("  ! %s\n", d)
	}
	w.printf("%s\n", to)
	return w.err
}
