package boardset

import (
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Score says how well a split agrees with the truth. Flaws of the truth count
// neither way.
type Score struct {
	IoU      float64 // of the sapwood, intersection over union
	Accuracy float64 // share of cells that are right
	Boundary float64 // F-score of the sapwood's border within 3 mm
	Share    float64 // of sapwood found, of the face
	Truth    float64 // share of sapwood there is
}

// near is how far a border may lie off and still be right, mm.
const near = 3

// Judge compares a split with the truth. Both hold a cell a mm; got is read at
// the same places of the face where its size differs.
func Judge(got, truth *photo.Mask) Score {
	w, h := truth.W, truth.H
	sapGot, sapTrue := make([]bool, w*h), make([]bool, w*h)
	both, either, right, n, found, there := 0, 0, 0, 0, 0, 0
	for j := 0; j < h; j++ {
		for i := 0; i < w; i++ {
			l := got.At(min(i*got.W/w, got.W-1), min(j*got.H/h, got.H-1))
			g, t := l == photo.Sap, truth.At(i, j)
			k := j*w + i
			sapGot[k], sapTrue[k] = g, t == photo.Sap
			if g {
				found++
			}
			if t == photo.Sap {
				there++
			}
			if t != photo.Heart && t != photo.Sap {
				continue
			}
			n++
			s := t == photo.Sap
			if g == s {
				right++
			}
			if g && s {
				both++
			}
			if g || s {
				either++
			}
		}
	}
	out := Score{IoU: 1, Accuracy: 1, Share: float64(found) / float64(w*h), Truth: float64(there) / float64(w*h)}
	if either > 0 {
		out.IoU = float64(both) / float64(either)
	}
	if n > 0 {
		out.Accuracy = float64(right) / float64(n)
	}
	out.Boundary = boundaryScore(border(sapGot, truth), border(sapTrue, truth), w, h)
	return out
}

// border returns the cells of sapwood that touch other wood; flaws of the truth
// make no border.
func border(sap []bool, truth *photo.Mask) []bool {
	w, h := truth.W, truth.H
	out := make([]bool, w*h)
	wood := func(k int) bool { return truth.Pix[k] == photo.Heart || truth.Pix[k] == photo.Sap }
	for j := 0; j < h; j++ {
		for i := 0; i < w; i++ {
			k := j*w + i
			if !sap[k] || !wood(k) {
				continue
			}
			out[k] = i > 0 && !sap[k-1] && wood(k-1) || i < w-1 && !sap[k+1] && wood(k+1) ||
				j > 0 && !sap[k-w] && wood(k-w) || j < h-1 && !sap[k+w] && wood(k+w)
		}
	}
	return out
}

// boundaryScore is the F-score of two borders within near.
func boundaryScore(got, want []bool, w, h int) float64 {
	within := func(a, b []bool) (share float64, any bool) {
		d := distances(b, w, h)
		n, ok := 0, 0
		for k, v := range a {
			if v {
				n++
				if d[k] <= near {
					ok++
				}
			}
		}
		return float64(ok) / math.Max(float64(n), 1), n > 0
	}
	precision, some := within(got, want)
	recall, there := within(want, got)
	switch {
	case !some && !there:
		return 1
	case precision+recall == 0:
		return 0
	}
	return 2 * precision * recall / (precision + recall)
}

// CornerErrors returns how far each found corner lies from the true one, mm on
// the face.
func CornerErrors(found, truth [4]geom.Point, length, width float64) ([4]float64, error) {
	face := [4]geom.Point{{}, {X: length}, {X: length, Y: width}, {Y: width}}
	m, err := geom.QuadToQuad(truth, face)
	if err != nil {
		return [4]float64{}, err
	}
	var out [4]float64
	for i, p := range found {
		out[i] = m.Apply(p).Dist(face[i])
	}
	return out, nil
}
