//go:build !race

package boardset

import (
	"context"
	"path/filepath"
	"testing"

	"heartside/app/intake"
	"heartside/layout/layouttest"
	"heartside/layout/wood"
)

func sample(t *testing.T) string {
	t.Helper()
	return filepath.Join(layouttest.Root(t), "testdata", "boards")
}

// What the reading of photographs must reach, by level. Engineering goals: no
// published bench of sawn boards with truth was found.
func TestGates(t *testing.T) {
	rows := measureAll(t, sample(t))
	levels := Levels(rows, intake.SureEnough)
	t.Log("\n" + Table(levels))
	near, faces := 0, 0
	for _, l := range levels {
		iou, mended := 0.96, 0.97
		switch l.Level {
		case 4:
			iou, mended = 0.75, 0.90
		case 5:
			continue // reported, not judged
		}
		if l.IoU[1] < iou || l.IoU[1+Corrections] < mended {
			t.Errorf("level %d: overlap %.3f without a stroke and %.3f after %d, want %.2f and %.2f", l.Level, l.IoU[1], l.IoU[1+Corrections], Corrections, iou, mended)
		}
		if l.BareRight < l.Bare {
			t.Errorf("level %d: of %d faces without sapwood %d are called so", l.Level, l.Bare, l.BareRight)
		}
		if l.WorstDrop > 0.02 {
			t.Errorf("level %d: a stroke made a face worse by %.3f", l.Level, l.WorstDrop)
		}
		if l.Level <= 3 {
			near += l.Within(3)
			faces += l.Faces
			if l.ShareError[0] > 2 || l.ShareError[1] > 2 {
				t.Errorf("level %d: the share of sapwood is off by %.1f points with found and %.1f with true corners", l.Level, l.ShareError[0], l.ShareError[1])
			}
			if l.IoU[0] < iou {
				t.Errorf("level %d: overlap %.3f with the corners found", l.Level, l.IoU[0])
			}
		}
	}
	if near*10 < faces*9 {
		t.Errorf("levels 1 to 3: of %d faces %d have their corners within 3 mm", faces, near)
	}
	// Where the split fails it must not be sure of itself.
	for _, r := range rows {
		if r.Sure >= 0.9 && !r.Bare() && r.Found.IoU < 0.5 {
			t.Errorf("%s face %s: overlap %.2f, and %.2f sure", r.Board, r.Number, r.Found.IoU, r.Sure)
		}
	}
}

// A second face laid another way than it was is told, or the answer is that it
// cannot be told. Which faces tell is printed.
func TestSecondFaceLaidWrong(t *testing.T) {
	ctx := context.Background()
	boards, err := Read(sample(t))
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for i := range boards {
		b := &boards[i]
		if b.Level > 4 {
			continue
		}
		m, err := b.Masks(ctx)
		if err != nil {
			t.Fatal(err)
		}
		for k, w := range Ways() {
			l, fit, err := b.Log(ctx, m, w)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s, ends %v, edges %v: %s (%s)", b.Name, w.Ends, w.Edges, fit.Verdict, fit.Why)
			if k == 0 {
				if fit.Verdict != wood.Fits && fit.Verdict != wood.CannotTell {
					t.Errorf("%s: faces as they lie are called %s", b.Name, fit.Verdict)
				}
				for _, p := range b.Pith {
					if !l.Across.Holds(p.Across) || !l.Depth.Holds(p.Depth) || !l.HeartRadius.Holds(p.HeartRadius) {
						t.Errorf("%s at %g: the pith at %g, %g with a radius of %g lies outside %v, %v, %v", b.Name, p.X, p.Across, p.Depth, p.HeartRadius, l.Across, l.Depth, l.HeartRadius)
					}
				}
				continue
			}
			if fit.Verdict == wood.Fits {
				t.Errorf("%s: ends %v, edges %v turned, and they are said to fit", b.Name, w.Ends, w.Edges)
			}
			if fit.Verdict != wood.CannotTell {
				told++
			}
		}
	}
	if told < 15 {
		t.Errorf("%d faces laid wrong are told", told)
	}
}
