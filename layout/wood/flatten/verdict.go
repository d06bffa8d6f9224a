package flatten

import (
	"fmt"
	"math"
)

// Verdict says whether a blank cleans up.
type Verdict string

// Verdicts.
const (
	CleansUp Verdict = "cleans-up" // even when every part of the shape counts in full
	Likely   Verdict = "likely"    // if the blank has just the shape told
	WillNot  Verdict = "will-not"
)

// Wanted is what a blank must give.
type Wanted struct {
	Thickness float64 // finished
	Width     float64 // straight; 0 where it does not matter
}

// Options are the maker's allowances and limits.
type Options struct {
	Skim      float64 // off each face, UsualSkim
	Kerf      float64 // lost at each cut
	Narrowest float64 // strips are ripped no narrower than this
	Shortest  float64 // pieces are cut no shorter than this
}

// Way is something that would save the wood.
type Way string

// Ways.
const (
	RipFirst     Way = "rip-first"     // into Pieces strips, flatten, glue again
	CutShorter   Way = "cut-shorter"   // first, to Length
	ThinnerPanel Way = "thinner-panel" // of Thickness
	Narrower     Way = "narrower"      // what is left is Width wide, straight
)

// Remedy is a way with what it gives.
type Remedy struct {
	Way    Way
	Pieces int // RipFirst: strips, each a blank of Left
	// Thickness is that of the panel the way surely gives; Length and Width
	// are those of each piece as sawn.
	Thickness, Length, Width float64
	Verdict                  Verdict
	Left                     *Left
}

// Answer says whether a blank will clean up.
type Answer struct {
	Left    *Left
	Verdict Verdict
	// Short is how much thickness is missing, sure and likely; ShortWidth how
	// much width. 0 where none is.
	ShortSure, ShortLikely, ShortWidth float64
	// Remedies are given where the blank does not surely clean up.
	Remedies []Remedy
}

// most strips one would rip a blank into to save it; an engineering choice.
const mostStrips = 6

// Will says whether a blank, length by width, cleans up, and what would save
// it where it does not.
func Will(b Board, length, width float64, want Wanted, o Options) (*Answer, error) {
	if !(want.Thickness > 0) || !(want.Width >= 0) || math.IsInf(want.Thickness, 0) || math.IsInf(want.Width, 0) {
		return nil, fmt.Errorf("%g mm thick and %g mm wide wanted: the thickness must be above 0, the width 0 or more", want.Thickness, want.Width)
	}
	for _, v := range []float64{o.Kerf, o.Narrowest, o.Shortest} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("a kerf or a limit of %g mm: want 0 or more", v)
		}
	}
	left, err := Of(b, length, width, o.Skim)
	if err != nil {
		return nil, err
	}
	a := &Answer{Left: left, Verdict: judge(left, want, 1),
		ShortSure:   math.Max(0, want.Thickness-left.Sure),
		ShortLikely: math.Max(0, want.Thickness-left.Likely),
		ShortWidth:  math.Max(0, want.Width-left.Straight),
	}
	if a.Verdict == CleansUp {
		return a, nil
	}
	if r, ok := rip(b, left, want, o, a.Verdict); ok {
		a.Remedies = append(a.Remedies, r)
	}
	if r, ok := shorter(b, left, want, o); ok {
		a.Remedies = append(a.Remedies, r)
	}
	if a.ShortSure > slack && left.Sure > 0 && a.ShortWidth <= slack {
		a.Remedies = append(a.Remedies, Remedy{ThinnerPanel, 1, left.Sure, length, width, CleansUp, left})
	}
	if a.ShortWidth > slack && left.Straight > 0 && a.ShortSure <= slack {
		a.Remedies = append(a.Remedies, Remedy{Narrower, 1, want.Thickness, length, left.Straight, CleansUp, left})
	}
	return a, nil
}

const slack = 1e-9 // mm, for rounding

// judge weighs what is left of each of so many pieces glued side by side.
func judge(l *Left, want Wanted, pieces int) Verdict {
	switch {
	case l.Straight*float64(pieces) < want.Width-slack || l.Likely < want.Thickness-slack:
		return WillNot
	case l.Sure < want.Thickness-slack:
		return Likely
	}
	return CleansUp
}

// Rip returns what is left of each of so many strips ripped from the blank
// before flattening; kerfs are lost between them.
func Rip(b Board, length, width float64, strips int, kerf, skim float64) (*Left, error) {
	if strips < 1 || !(kerf >= 0) {
		return nil, fmt.Errorf("%d strips with a kerf of %g mm: want one strip or more and no kerf below 0", strips, kerf)
	}
	if width > b.Width {
		return nil, fmt.Errorf("a blank %g mm wide from a board of %g mm: it does not fit", width, b.Width)
	}
	return Of(b, length, (width-kerf*float64(strips-1))/float64(strips), skim)
}

// rip returns the fewest strips that surely clean up, else that likely do
// where the blank whole will not.
func rip(b Board, whole *Left, want Wanted, o Options, now Verdict) (Remedy, bool) {
	var best Remedy
	for n := 2; n <= mostStrips; n++ {
		l, err := Rip(b, whole.Length, whole.Width, n, o.Kerf, o.Skim)
		if err != nil || l.Straight < o.Narrowest {
			break
		}
		v := judge(l, want, n)
		r := Remedy{RipFirst, n, l.Sure, l.Length, l.Width, v, l}
		if v == CleansUp {
			return r, true
		}
		if v == Likely && now == WillNot && best.Left == nil {
			best = r
		}
	}
	return best, best.Left != nil
}

// shorter returns the longest piece, to the full mm, that surely cleans up.
// Of a shorter piece never less is left.
func shorter(b Board, whole *Left, want Wanted, o Options) (Remedy, bool) {
	left := func(length float64) *Left {
		l, err := Of(b, length, whole.Width, o.Skim)
		if err != nil || judge(l, want, 1) != CleansUp {
			return nil
		}
		return l
	}
	lo, hi := math.Max(math.Ceil(o.Shortest), 1), math.Ceil(whole.Length)
	if lo >= whole.Length || left(lo) == nil {
		return Remedy{}, false
	}
	for hi-lo > 1 {
		if mid := math.Floor((lo + hi) / 2); left(mid) != nil {
			lo = mid
		} else {
			hi = mid
		}
	}
	l := left(lo)
	return Remedy{CutShorter, 1, l.Sure, lo, whole.Width, CleansUp, l}, true
}
