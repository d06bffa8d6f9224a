package rings

import (
	"math"
	"testing"

	"heartside/layout/geom"
)

// Two numbers with spreads 1 and 2 and nothing in common: by hand, weights 1
// and 1/4, mean (10 + 20/4) / 1.25 = 12, spread sqrt(1 / 1.25) = 0.8944. With
// equal spreads 1 and covariance 0.5 the mean is halfway, its variance
// (1 + 1 + 2 * 0.5) / 4 = 0.75.
func TestCommonMeanByHand(t *testing.T) {
	m, s := commonMean([][]float64{{1}, {0, 4}}, []float64{10, 20})
	if math.Abs(m-12) > 1e-12 || math.Abs(s-math.Sqrt(0.8)) > 1e-12 {
		t.Errorf("%g +- %g", m, s)
	}
	m, s = commonMean([][]float64{{1}, {0.5, 1}}, []float64{10, 20})
	if math.Abs(m-15) > 1e-12 || math.Abs(s-math.Sqrt(0.75)) > 1e-12 {
		t.Errorf("%g +- %g", m, s)
	}
}

func TestSwingMeanIsTheMeanOfSwing(t *testing.T) {
	const n = 3600
	sum := 0.0
	for k := range n {
		sum += swing(2*math.Pi*float64(k)/n) / n
	}
	if math.Abs(sum-swingMean()) > 1e-9 {
		t.Errorf("%g, by summing %g", swingMean(), sum)
	}
}

// An edge seen all the way round leaves little to guess, a short arc much.
func TestIntervalFollowsWhatIsSeen(t *testing.T) {
	ring := func(degrees int) (out []geom.Point) {
		for d := 0; d < degrees; d += 10 {
			sin, cos := math.Sincos(float64(d) * math.Pi / 180)
			// Out of round by 5 % twice a turn: the mean is 100.
			r := 100 + 5*math.Cos(2*float64(d)*math.Pi/180)
			out = append(out, geom.Pt(r*cos, r*sin))
		}
		return out
	}
	whole, err := HeartFromClicks(geom.Pt(0, 0), ring(360))
	if err != nil || math.Abs(whole.Mean-100) > 0.1 || whole.High-whole.Low > 4 || whole.Share < 0.95 {
		t.Errorf("whole: %+v, %v", whole, err)
	}
	part, err := HeartFromClicks(geom.Pt(0, 0), ring(40))
	if err != nil || part.Low > 100 || part.High < 100 || part.High-part.Low < 20 || math.Abs(part.Share-30.0/360) > 1e-9 {
		t.Errorf("part: %+v, %v", part, err)
	}
}

// By hand: the farthest corner of 100 x 30 from (0, 70) is (100, 0), 122.07
// away; the nearest place of it is (0, 30), 40 away. The mean may be 16 % off.
func TestHeartUnseen(t *testing.T) {
	low, high := HeartUnseen(100, 30, geom.Pt(0, 70), true)
	if math.Abs(low-122.07/1.16) > 0.01 || !math.IsInf(high, 1) {
		t.Errorf("all heart: %g to %g", low, high)
	}
	low, high = HeartUnseen(100, 30, geom.Pt(0, 70), false)
	if low != 0 || math.Abs(high-40/0.84) > 0.01 {
		t.Errorf("all sap: %g to %g", low, high)
	}
	if low, high = HeartUnseen(100, 30, geom.Pt(50, 15), false); low != 0 || high != 0 {
		t.Errorf("pith in sap: %g to %g", low, high)
	}
}

// A plain false edge beyond the true one, which is faint: points on the faces
// tell which it is; and where the picture is blank they are the edge.
func TestFacesTellTheEdge(t *testing.T) {
	pith := geom.Pt(20, 60)
	e := draw(140, 30, pith, 0, 3)
	for k := range e.Lab {
		r := e.place(k%e.NX, k/e.NX).Dist(pith)
		if r > 55 {
			e.Lab[k].L += 6
		}
		if r > 95 {
			e.Lab[k].L += 25
		}
	}
	p := &Pith{At: pith, Error: 4, Found: true}
	// 55 from the pith at depth 10: across 20 + sqrt(55^2 - 50^2) = 42.91, and
	// at depth 30: 20 + sqrt(55^2 - 30^2) = 66.10.
	faces := []geom.Point{{X: 42.91, Y: 10}, {X: 66.10, Y: 30}}
	free, err := FindHeartKnown(t.Context(), e, p, nil)
	if err != nil || math.Abs(free.Radius-95) > 2 {
		t.Errorf("without faces: %+v, %v", free, err)
	}
	h, err := FindHeartKnown(t.Context(), e, p, faces)
	if err != nil || !h.Seen || math.Abs(h.Radius-55) > 2 {
		t.Errorf("with faces: %+v, %v", h, err)
	}
	sure, err := FindHeart(t.Context(), e, pith)
	if err != nil || !(free.High-free.Low > sure.High-sure.Low) {
		t.Errorf("a pith less sure does not widen %g to %g beyond %g to %g", free.Low, free.High, sure.Low, sure.High)
	}
	blank, err := FindHeartKnown(t.Context(), draw(140, 30, pith, 0, 3), p, faces)
	if err != nil || !blank.Seen || math.Abs(blank.Radius-55) > 0.1 || len(blank.Edge) != 2 {
		t.Errorf("blank: %+v, %v", blank, err)
	}
	for name, bad := range map[string]*Pith{"none": nil, "error": {At: pith, Error: math.NaN()}} {
		if _, err := FindHeartKnown(t.Context(), e, bad, nil); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := FindHeartKnown(t.Context(), e, p, []geom.Point{{X: math.Inf(1)}}); err == nil {
		t.Error("no place is taken")
	}
}
