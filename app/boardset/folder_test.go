package boardset

import (
	"context"
	"os"
	"testing"
	"time"

	"heartside/app/intake"
)

// measureAll reads every face of a folder.
func measureAll(t *testing.T, dir string) []Row {
	t.Helper()
	boards, err := Read(dir)
	if err != nil {
		t.Fatal(err)
	}
	var rows []Row
	for i := range boards {
		for _, n := range boards[i].FaceNumbers() {
			f, err := boards[i].Face(n)
			if err != nil {
				t.Fatal(err)
			}
			row, err := Measure(context.Background(), f, time.Now)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s face %s: sap %.3f, corners %.2f mm, sure %.2f, IoU found %.3f true %.3f strokes %.3f %.3f %.3f, share %.3f %.3f",
				row.Board, n, row.Share, row.WorstCorner(), row.Sure, row.Found.IoU, row.True.IoU,
				row.Strokes[0].IoU, row.Strokes[1].IoU, row.Strokes[2].IoU, row.Found.Share, row.True.Share)
			rows = append(rows, row)
		}
	}
	return rows
}

// TestFolder judges the folder that HEARTSIDE_BOARDS names, and prints its
// table.
func TestFolder(t *testing.T) {
	dir := os.Getenv("HEARTSIDE_BOARDS")
	if dir == "" {
		t.Skip("HEARTSIDE_BOARDS names no folder of photographs with truth")
	}
	t.Log("\n" + Table(Levels(measureAll(t, dir), intake.SureEnough)))
}
