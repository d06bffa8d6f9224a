package wood

import (
	"context"
	"fmt"
	"math"
)

// Verdict says whether the second face fits the first.
type Verdict string

// Verdicts. Turned: the board was rolled end over end and not about its long
// axis. Mirrored: the picture is a mirror image. Wrong: one or the other, the
// faces do not say which.
const (
	Fits          Verdict = "fits"
	LooksTurned   Verdict = "turned"
	LooksMirrored Verdict = "mirrored"
	LooksWrong    Verdict = "wrong"
	CannotTell    Verdict = "cannot-tell"
)

// Fit is how well a second face goes with the first.
type Fit struct {
	Verdict Verdict
	// Why says what spoke for the verdict, or what it would have needed.
	Why string
	// Chance of each Variant: how the second face as given must be laid to
	// fit. They sum to 1.
	Chance [4]float64
	// What each kind of evidence says: ln of the likelihood of each variant.
	Edges, Along, Knots [4]float64
}

// EdgesAgree returns the chance that the second face lies with its edges the
// right way up, whichever way its ends point.
func (fit *Fit) EdgesAgree() float64 { return fit.Chance[AsGiven] + fit.Chance[EndsSwapped] }

// Hint is more evidence about the second face, as ln of the likelihood of each
// variant, such as a comparison of pictures may give.
type Hint [4]float64

const (
	// sure is the chance from which a verdict is given; an engineering choice.
	sure = 0.95
	// mostSay caps what one kind of evidence may say: no model of wood is
	// right enough for more. ln of the odds, an engineering choice.
	mostSay = 6.0
)

// Compare says whether the second face, as given, is the other side of the
// first: the same edge of the heartwood on both must fit one log, its ups and
// downs run alike along the board, and knots go through. Where the evidence
// does not tell, neither does the verdict. It stops early when ctx ends.
func Compare(ctx context.Context, f Faces, hints ...Hint) (*Fit, error) {
	if err := f.Check(); err != nil {
		return nil, err
	}
	fit := &Fit{}
	if len(f.Side[0]) == 0 || len(f.Side[1]) == 0 {
		fit.Verdict, fit.Why = CannotTell, "both faces are needed"
		fit.Chance = [4]float64{0.25, 0.25, 0.25, 0.25}
		return fit, nil
	}
	first := lines(f.Side[0], f.Width, 0)
	var e [2]evidence
	for v := AsGiven; v <= Both; v++ {
		side := f.Side[1].Turn(v, f.Length, f.Width)
		second := lines(side, f.Width, 1)
		if v == AsGiven || v == EdgesSwapped {
			k := 0
			if v == EdgesSwapped {
				k = 1
			}
			e[k] = gather(f, [2][]line{first, second})
			g, err := e[k].weigh(ctx)
			if err != nil {
				return nil, err
			}
			fit.Edges[v] = math.Log(math.Max(g.all, 1e-300))
		}
		fit.Along[v] = alongBoth(first, second, f)
		fit.Knots[v] = knots(f.Side[0], side, f)
	}
	// Ups and downs along the board tell its ends apart, once the edges that
	// belong together are known; of the edges they are a poor witness.
	for _, p := range [2][2]Variant{{AsGiven, EndsSwapped}, {EdgesSwapped, Both}} {
		a, b := fit.Along[p[0]], fit.Along[p[1]]
		mean := math.Max(a, b) + math.Log((1+math.Exp(-math.Abs(a-b)))/2)
		fit.Along[p[0]], fit.Along[p[1]] = a-mean, b-mean
	}
	fit.Edges[EndsSwapped], fit.Edges[Both] = fit.Edges[AsGiven], fit.Edges[EdgesSwapped]
	var sum [4]float64
	for _, h := range append([]Hint{fit.Edges, fit.Along, fit.Knots}, hints...) {
		top := math.Inf(-1)
		for _, v := range h {
			top = math.Max(top, v)
		}
		for k, v := range h {
			if !math.IsNaN(v) && !math.IsInf(top, 0) {
				sum[k] += math.Max(v-top, -mostSay)
			}
		}
	}
	all, top := 0.0, math.Inf(-1)
	for _, v := range sum {
		top = math.Max(top, v)
	}
	for k, v := range sum {
		fit.Chance[k] = math.Exp(v - top)
		all += fit.Chance[k]
	}
	for k := range fit.Chance {
		fit.Chance[k] /= all
	}
	fit.judge(e[0])
	return fit, nil
}

// judge turns chances into words.
func (fit *Fit) judge(e evidence) {
	c := fit.Chance
	mirrored := c[EndsSwapped] + c[EdgesSwapped]
	switch {
	case c[AsGiven] >= sure:
		fit.Verdict, fit.Why = Fits, "both faces fit one log"
	case c[Both] >= sure:
		fit.Verdict, fit.Why = LooksTurned, "the faces fit with the second one turned end for end: the board was rolled end over end"
	case mirrored >= sure:
		fit.Verdict, fit.Why = LooksMirrored, "the faces fit with the second one as a mirror image"
	case 1-c[AsGiven] >= sure:
		fit.Verdict, fit.Why = LooksWrong, "the faces do not fit: the second one is turned end for end or a mirror image"
	default:
		fit.Verdict, fit.Why = CannotTell, fit.lack(e)
	}
}

// lack says why nothing can be told.
func (fit *Fit) lack(e evidence) string {
	on := [2]int{}
	for _, c := range e.seen {
		on[side(c.depth)]++
	}
	c := fit.Chance
	edges := math.Max(c[AsGiven]+c[EndsSwapped], c[EdgesSwapped]+c[Both])
	switch {
	case on[0]+on[1] == 0:
		return "no sapwood on either face"
	case on[0] == 0 || on[1] == 0:
		return fmt.Sprintf("no sapwood on face %d", 1+boolInt(on[0] > 0))
	case edges < sure:
		return "the sapwood does not tell the edges apart"
	}
	return "the sapwood does not tell the ends apart: it is even along the board, or goes its own way on each face"
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
