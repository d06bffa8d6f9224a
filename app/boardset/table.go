package boardset

import (
	"fmt"
	"math"
	"strings"
)

// Level is what the faces of one level came to.
type Level struct {
	Level      int
	Faces      int
	Corners    []float64 // worst error a face, mm
	Judged     int       // faces with sapwood and heartwood enough to overlap
	IoU        [2 + Corrections]float64
	Accuracy   [2]float64
	Boundary   [2 + Corrections]float64
	ShareError [2]float64 // largest, points
	Bare       int        // faces without sapwood
	BareRight  int        // called so
	WorstDrop  float64    // of the overlap by one stroke
	Seconds    float64    // a face
	Unsure     int        // faces called not sure
}

// noSap is the share under which a face is said to have no sapwood.
const noSap = 0.01

// Levels sums rows up by level, easy first.
func Levels(rows []Row, sureEnough float64) []Level {
	var out []Level
	for n := 1; n <= 5; n++ {
		l := Level{Level: n}
		for i := range rows {
			if r := &rows[i]; r.Level == n {
				l.add(r, sureEnough)
			}
		}
		if l.Faces > 0 {
			l.finish()
			out = append(out, l)
		}
	}
	return out
}

func (l *Level) add(r *Row, sureEnough float64) {
	l.Faces++
	l.Corners = append(l.Corners, r.WorstCorner())
	l.Seconds += r.Time.Seconds()
	if r.Sure < sureEnough {
		l.Unsure++
	}
	for i, s := range [2]Score{r.Found, r.True} {
		l.ShareError[i] = math.Max(l.ShareError[i], 100*math.Abs(s.Share-r.Share))
	}
	if r.Share < noSap {
		l.Bare++
		if r.True.Share < noSap && r.Found.Share < noSap {
			l.BareRight++
		}
	}
	if r.Bare() {
		return
	}
	l.Judged++
	scores := append([]Score{r.Found, r.True}, r.Strokes[:]...)
	for i, s := range scores {
		l.IoU[i] += s.IoU
		l.Boundary[i] += s.Boundary
		if i < 2 {
			l.Accuracy[i] += s.Accuracy
		} else {
			l.WorstDrop = math.Max(l.WorstDrop, scores[i-1].IoU-s.IoU)
		}
	}
}

func (l *Level) finish() {
	n := float64(max(l.Judged, 1))
	for i := range l.IoU {
		l.IoU[i] /= n
		l.Boundary[i] /= n
	}
	for i := range l.Accuracy {
		l.Accuracy[i] /= n
	}
	l.Seconds /= float64(l.Faces)
}

// Within returns how many faces have all corners within mm.
func (l *Level) Within(mm float64) int {
	n := 0
	for _, c := range l.Corners {
		if c <= mm {
			n++
		}
	}
	return n
}

// Table prints the levels as Markdown.
func Table(levels []Level) string {
	var b strings.Builder
	b.WriteString("| level | faces | corners: mean of the worst, largest, mm | within 3 mm | IoU found corners | true corners | after 1, 2, 3 strokes | accuracy found, true | border F found, true, 3 strokes | share off, points, found, true | bare faces right | worst drop by a stroke | not sure | s a face |\n")
	b.WriteString("|---|---|---|---|---|---|---|---|---|---|---|---|---|---|\n")
	for _, l := range levels {
		sum, most := 0., 0.
		for _, c := range l.Corners {
			sum += math.Min(c, 999)
			most = math.Max(most, c)
		}
		fmt.Fprintf(&b, "| %d | %d (%d with both woods) | %.2f, %.1f | %d | %.3f | %.3f | %.3f %.3f %.3f | %.3f %.3f | %.3f %.3f %.3f | %.1f %.1f | %d of %d | %.3f | %d | %.2f |\n",
			l.Level, l.Faces, l.Judged, sum/float64(l.Faces), most, l.Within(3),
			l.IoU[0], l.IoU[1], l.IoU[2], l.IoU[3], l.IoU[4], l.Accuracy[0], l.Accuracy[1],
			l.Boundary[0], l.Boundary[1], l.Boundary[4], l.ShareError[0], l.ShareError[1],
			l.BareRight, l.Bare, l.WorstDrop, l.Unsure, l.Seconds)
	}
	return b.String()
}
