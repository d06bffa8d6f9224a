package wood

import (
	"context"
	"math"
)

// Interval is a best guess between bounds that hold the truth nearly always.
type Interval struct{ Lo, Best, Hi float64 }

// Holds reports whether v lies within the bounds.
func (i Interval) Holds(v float64) bool { return v >= i.Lo && v <= i.Hi }

// Bark says which face lay nearer the bark.
type Bark string

// Bark sides. BarkNone is quarter-sawn: neither face.
const (
	BarkUnknown Bark = ""
	BarkFace1   Bark = "1"
	BarkFace2   Bark = "2"
	BarkNone    Bark = "none"
)

// Log is what the two faces of a board tell of its log.
type Log struct {
	// Across and Depth hold the pith over the whole length, mm.
	Across, Depth Interval
	// HeartRadius is the mean radius of the heartwood, mm.
	HeartRadius Interval
	// Bark is the side with the most behind it, BarkUnknown where nothing
	// stands out; Sure is how likely it is, 0 to 1.
	Bark Bark
	Sure float64
	// Seen is false where no edge of the heartwood shows on either face: the
	// bounds then come from the board's size alone.
	Seen bool

	width, thick float64
	points       []corner
	ls           [2][]line
}

const (
	tails    = 0.005 // chance left outside each bound
	sureBark = 0.75  // chance from which a bark side is named
	// The pith wanders along a log; what is found is its mean. Engineering
	// choices.
	wander      = 6.0 // mm
	wanderPerMM = 0.006
	quarter     = 0.5 // depth against across, pith to the middle: under it a board is quarter-sawn; rings stand at 60 degrees or more, common practice
)

// Read weighs what both faces show. The bounds allow for heartwood that is not
// round and a pith that wanders. It stops early when ctx ends.
func Read(ctx context.Context, f Faces) (*Log, error) {
	if err := f.Check(); err != nil {
		return nil, err
	}
	ls := [2][]line{lines(f.Side[0], f.Width, 0), lines(f.Side[1], f.Width, 1)}
	e := gather(f, ls)
	g, err := e.weigh(ctx)
	if err != nil {
		return nil, err
	}
	l := &Log{width: f.Width, thick: f.Thickness, points: e.seen, ls: ls, Seen: len(e.seen) > 0}
	across, depth := make([]float64, g.na), make([]float64, g.nd)
	side := map[Bark]float64{}
	for j := range depth {
		for i := range across {
			w := g.at[j*g.na+i]
			across[i] += w
			depth[j] += w
			dz := g.d0 + float64(j)*cell - f.Thickness/2
			dy := g.a0 + float64(i)*cell - f.Width/2
			switch {
			case math.Abs(dz) < quarter*math.Abs(dy):
				side[BarkNone] += w
			case dz > 0:
				side[BarkFace1] += w
			default:
				side[BarkFace2] += w
			}
		}
	}
	most := wander + wanderPerMM*f.Length
	l.Across = bounds(across, g.all).scale(func(u float64) float64 { return g.a0 + (u-0.5)*cell }).grow(most)
	l.Depth = bounds(depth, g.all).scale(func(u float64) float64 { return g.d0 + (u-0.5)*cell }).grow(most)
	l.HeartRadius = bounds(g.radius, g.all).scale(func(u float64) float64 { return math.Exp(lnRadius(0) + (u-0.5)*(lnRadius(1)-lnRadius(0))) })
	for _, b := range []Bark{BarkFace1, BarkFace2, BarkNone} {
		if p := side[b] / g.all; p > l.Sure {
			l.Bark, l.Sure = b, p
		}
	}
	if l.Sure < sureBark || !l.Seen {
		l.Bark = BarkUnknown
	}
	return l, nil
}

// bounds returns the quantiles of weights, counted in cells from the first
// one's near side.
func bounds(w []float64, all float64) Interval {
	at := func(share float64) float64 {
		left := share * all
		for i, v := range w {
			if left <= v && v > 0 {
				return float64(i) + left/v
			}
			left -= v
		}
		return float64(len(w))
	}
	return Interval{at(tails), at(0.5), at(1 - tails)}
}

func (i Interval) scale(f func(float64) float64) Interval {
	return Interval{f(i.Lo), f(i.Best), f(i.Hi)}
}

func (i Interval) grow(by float64) Interval { return Interval{i.Lo - by, i.Best, i.Hi + by} }
