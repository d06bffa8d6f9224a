package intake

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"heartside/app/picture"
	"heartside/layout/layouttest"
	"heartside/model"
)

func boards(t *testing.T) OpenFunc {
	dir := filepath.Join(layouttest.Root(t), "testdata", "boards")
	return func(name string) (io.ReadCloser, error) { return os.Open(filepath.Join(dir, name)) }
}

// The truth of c11-redcedar-L1, face 1: 16.65 % sapwood, corners as told
// beside it.
func TestReaderReadsAFace(t *testing.T) {
	var steps []Step
	r, err := Reader(boards(t))(context.Background(), Job{Place: Place{"F", Face1}, Name: "c11-redcedar-L1-1.jpg", Length: 1071, Width: 194}, func(s Step) { steps = append(steps, s) })
	if err != nil {
		t.Fatal(err)
	}
	if want := []Step{Opening, Finding, Squaring, Splitting, Tracing}; !slices.Equal(steps, want) {
		t.Errorf("steps %v, want %v", steps, want)
	}
	f := r.Face(model.Face{Reference: "card"}, "f1.jpg")
	b := model.NewBoard("F", "walnut-black", 1071, 194, 36)
	b.Faces[0] = f
	p, err := model.Apply(model.NewProject(), model.AddBoard{Board: b})
	if err != nil {
		t.Fatalf("what was read breaks a rule: %v", err)
	}
	f = p.Boards[0].Faces[0]
	if f.Photo != "f1.jpg" || f.Reference != "card" || f.Split.By != model.SplitFound || f.Split.Sure < 0.5 || len(f.Tones) < 2 {
		t.Errorf("face %+v", f)
	}
	m, err := MaskOf(&f, 1071, 194)
	if err != nil {
		t.Fatal(err)
	}
	if s := m.Shares()[2]; s < 0.1565 || s > 0.1765 {
		t.Errorf("the zones hold %.4f sapwood, want 0.1665 within a point", s)
	}
	n := 0
	for _, z := range f.Zones {
		n += len(z.Polygon)
	}
	if n > 400 {
		t.Errorf("%d corners of zones are too many to edit", n)
	}
}

func TestReaderSaysWhatIsWrong(t *testing.T) {
	read := Reader(func(name string) (io.ReadCloser, error) {
		if name == "gone" {
			return nil, os.ErrNotExist
		}
		return io.NopCloser(bytes.NewReader([]byte("%PDF-1.7 no picture"))), nil
	})
	none := func(Step) {}
	if _, err := read(context.Background(), Job{Name: "gone"}, none); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a picture that is not there: %v", err)
	}
	var e *picture.Error
	if _, err := read(context.Background(), Job{Name: "x", Length: 100, Width: 50}, none); !errors.As(err, &e) {
		t.Errorf("a document: %v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Reader(boards(t))(ctx, Job{Name: "c01-walnut-L1-1.jpg", Length: 835, Width: 237}, none); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped before it began: %v", err)
	}
}

func TestDoubtsSpeakOfCorners(t *testing.T) {
	s, err := lookAt(t, "c11-redcedar-L1-1.jpg")
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Doubts()) != 0 {
		t.Errorf("doubts about an easy picture: %v", s.Doubts())
	}
	s.Confidence[2] = 0.2
	if d := s.Doubts(); len(d) != 1 || !strings.Contains(d[0], "1 of 4 corners") {
		t.Errorf("doubts %v", d)
	}
	s.Whole = 0.3
	if s.Sure() > 0.3 {
		t.Errorf("%g sure of a board that may lie elsewhere", s.Sure())
	}
}

func lookAt(t *testing.T, name string) (*Seen, error) {
	t.Helper()
	r, err := boards(t)(name)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	img, _, err := picture.Decode(context.Background(), r, picture.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return Look(context.Background(), img, Ask{Length: 1071, Width: 194}, func(Step) {})
}
