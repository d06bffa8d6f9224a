package boardset

import (
	"context"
	"fmt"
	"math"
	"time"

	"heartside/app/intake"
)

// Corrections is how many strokes the simulated maker gives a face at most.
const Corrections = 3

// Row is what was measured on one face.
type Row struct {
	Board   string
	Number  string
	Level   int
	Share   float64    // true share of sapwood
	Corners [4]float64 // errors of the corners found, mm; infinite where none were
	Sure    float64    // of the whole with found corners, 0 to 1
	// With the corners found, with the true ones, and with the true ones after
	// 1 to Corrections strokes.
	Found, True Score
	Strokes     [Corrections]Score
	Sap         [2]float64 // share of sapwood found with found and with true corners
	Time        time.Duration
}

// WorstCorner returns the largest error of a corner, mm.
func (r *Row) WorstCorner() float64 {
	return max(r.Corners[0], r.Corners[1], r.Corners[2], r.Corners[3])
}

// Bare reports whether the face has hardly any sapwood, or hardly anything
// else: an overlap then says nothing.
func (r *Row) Bare() bool { return r.Share < 0.02 || r.Share > 0.98 }

// Measure reads a face of a board in every way that is judged.
func Measure(ctx context.Context, f *Face, now func() time.Time) (Row, error) {
	b := f.Board
	row := Row{Board: b.Name, Number: f.Number, Level: b.Level, Share: f.Share}
	silent := func(intake.Step) {}
	start := now()
	found, err := intake.Look(ctx, f.Img, intake.Ask{Length: b.Length, Width: b.Width}, silent)
	row.Time = now().Sub(start)
	if err != nil {
		// A board not found is the worst there is, not the end of the test.
		for i := range row.Corners {
			row.Corners[i] = math.Inf(1)
		}
	} else {
		if row.Corners, err = CornerErrors(found.View.Corners, f.Corners, b.Length, b.Width); err != nil {
			return row, err
		}
		row.Found, row.Sure = Judge(found.Split.Mask, f.Truth), found.Sure()
	}
	corners := f.Corners
	given, err := intake.Look(ctx, f.Img, intake.Ask{Length: b.Length, Width: b.Width, Corners: &corners}, silent)
	if err != nil {
		return row, fmt.Errorf("%s, face %s: %w", b.Name, f.Number, err)
	}
	row.True = Judge(given.Split.Mask, f.Truth)
	return row, row.correct(ctx, f, given)
}

// correct gives the strokes one by one.
func (r *Row) correct(ctx context.Context, f *Face, s *intake.Seen) error {
	e, err := intake.NewEditor(ctx, s.Squared, nil)
	if err != nil {
		return err
	}
	last := r.True
	for k := range r.Strokes {
		if c, ok := Correct(e.Mask(), f.Truth); ok {
			if err := e.Stroke(ctx, c.Kind, c.Points, c.Width); err != nil {
				return err
			}
			last = Judge(e.Mask(), f.Truth)
		}
		r.Strokes[k] = last
	}
	return nil
}
