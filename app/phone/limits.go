package phone

import (
	"fmt"
	"time"

	"heartside/model/say"
)

// Limits bound what a phone may send. Zero fields take the values of
// DefaultLimits; all are engineering choices.
type Limits struct {
	Picture int64         // bytes of one picture
	Count   int           // pictures in all
	Total   int64         // bytes in all, refused ones too
	Abreast int           // uploads at the same time
	Open    int           // connections at the same time; others wait
	Idle    time.Duration // without an upload, then it ends
	Stall   time.Duration // without a byte in an upload
	Upload  time.Duration // one upload
	Drain   int64         // bytes of a refused upload read to its end, see drain
	Drained time.Duration // and for how long
}

// DefaultLimits returns the limits that hold where none are given.
func DefaultLimits() Limits {
	return Limits{Picture: 60 << 20, Count: 100, Total: 2 << 30, Abreast: 2, Open: 16,
		Idle: 10 * time.Minute, Stall: 30 * time.Second, Upload: 15 * time.Minute,
		Drain: 120 << 20, Drained: 30 * time.Second}
}

func (l Limits) filled() Limits {
	d := DefaultLimits()
	l.Picture, l.Count, l.Total = or(l.Picture, d.Picture), or(l.Count, d.Count), or(l.Total, d.Total)
	l.Abreast, l.Open = or(l.Abreast, d.Abreast), or(l.Open, d.Open)
	l.Idle, l.Stall, l.Upload = or(l.Idle, d.Idle), or(l.Stall, d.Stall), or(l.Upload, d.Upload)
	l.Drain, l.Drained = or(l.Drain, d.Drain), or(l.Drained, d.Drained)
	return l
}

// or is what was given, or what stands for it where nothing was.
func or[T int | int64 | time.Duration](given, other T) T {
	if given > 0 {
		return given
	}
	return other
}

// IdleWords say how long a page stays open that nothing is sent to.
func (l Limits) IdleWords() string { return span(l.filled().Idle) }

// size says bytes in words.
func size(n int64) string {
	switch {
	case n >= 1<<30 && n%(1<<30) == 0:
		return fmt.Sprintf("%d GB", n>>30)
	case n >= 1<<20:
		return fmt.Sprintf("%d MB", n>>20)
	}
	return say.F("%d bytes", n)
}

// span says a time in words, in whole minutes where it has one.
func span(d time.Duration) string {
	switch n := int(d.Round(time.Minute).Minutes()); {
	case d < time.Minute:
		return d.Round(time.Second).String()
	case n == 1:
		return say.T("1 minute")
	default:
		return say.F("%d minutes", n)
	}
}
