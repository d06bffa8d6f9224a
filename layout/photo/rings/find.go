package rings

import (
	"context"
	"fmt"
	"math"

	"heartside/layout/geom"
)

// Pith is where the pith of a section lies.
type Pith struct {
	At geom.Point // mm
	// Error is the likely distance of At from the pith, mm.
	Error float64
	// Sure is 0 to 1, of rings in the picture; clicks are taken as given.
	Sure float64
	// Found is false where neither picture nor clicks tell; Why says more.
	Found bool
	Why   string
}

// Clicks are what the maker has pointed out on an end.
type Clicks struct {
	Rings []Ring  // three or more points each
	Error float64 // mm a click; 0 is DefaultClick
}

const (
	reach  = 300.0 // mm beyond the section that the pith is sought
	coarse = 8.0   // mm
	// logReach is how far outside its section a board's pith lies, mm, one
	// spread; an engineering choice.
	logReach = 150.0
	finest   = 0.5 // mm
	// weightOfPicture turns the vote of the picture into ln of a likelihood;
	// weak votes count less. leastVote is the vote, 1 is chance, below which a
	// picture tells nothing by itself, widest the greatest Error at which a
	// pith is called found. Engineering choices.
	weightOfPicture = 220.0
	leastVote       = 1.25
	widest          = 30.0
)

// FromClicks returns the pith that clicks alone give: for three on one ring
// the middle of the circle through them, for more and for several rings the
// common middle that fits them best.
func FromClicks(c Clicks) (*Pith, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	if len(c.Rings) == 0 {
		return nil, fmt.Errorf("the pith from clicks: click three points of one ring")
	}
	at, err := c.start()
	if err != nil {
		return nil, err
	}
	if len(c.Rings) > 1 {
		at = c.common(at)
	}
	p := &Pith{At: at, Sure: 1, Found: true}
	p.Error = spread(at, c.fits)
	if p.Error > widest {
		p.Found, p.Why = false, "the arc clicked is too short to tell where its middle lies: click points farther apart, or more of them"
	}
	return p, nil
}

// Find returns the pith from the rings in the picture, and from clicks where
// there are any. It stops early when ctx ends.
func Find(ctx context.Context, e *End, c Clicks) (*Pith, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	if err := c.check(); err != nil {
		return nil, err
	}
	bs, err := e.field(ctx)
	if err != nil {
		return nil, err
	}
	if len(bs) == 0 {
		return &Pith{Why: "the picture is blank"}, nil
	}
	// A first look only tells how much the picture has to say.
	top, err := e.best(ctx, func(p geom.Point) float64 { return vote(bs, p) + e.near(p)/100 })
	if err != nil {
		return nil, err
	}
	peak := vote(bs, top)
	q := math.Max(peak-1, 0) / math.Max(peak, 1)
	weight := weightOfPicture * q
	score := func(p geom.Point) float64 {
		return c.fits(p) + e.near(p) + weight*math.Log(math.Max(vote(bs, p), 0.05))
	}
	at, err := e.best(ctx, score)
	if err != nil {
		return nil, err
	}
	p := &Pith{At: at, Error: spread(at, score)}
	p.Sure = 1 - math.Exp(-math.Max(0, peak-1)/0.4)
	p.Found = p.Error <= widest && (len(c.Rings) > 0 || peak >= leastVote)
	if !p.Found {
		p.Why = "the rings in the picture do not tell: click three points of one ring, well apart"
	}
	return p, nil
}

// near is ln of how likely a pith lies so far outside the section, before
// anything is seen: boards come from logs, which end somewhere.
func (e *End) near(p geom.Point) float64 {
	d := math.Hypot(math.Max(0, math.Max(-p.X, p.X-e.Width)), math.Max(0, math.Max(-p.Y, p.Y-e.Thickness))) / logReach
	return -d * d / 2
}

func (c Clicks) check() error {
	if !(c.Error >= 0) || math.IsInf(c.Error, 0) {
		return fmt.Errorf("the pith from clicks: an error of %g mm a click", c.Error)
	}
	for i, r := range c.Rings {
		if len(r) < 3 {
			return fmt.Errorf("the pith from clicks: ring %d has %d points, want three or more", i+1, len(r))
		}
		for _, p := range r {
			if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
				return fmt.Errorf("the pith from clicks: ring %d has a point that is no place", i+1)
			}
		}
	}
	return nil
}

// fits returns ln of the likelihood of all clicks.
func (c Clicks) fits(p geom.Point) float64 {
	click := c.Error
	if click == 0 {
		click = DefaultClick
	}
	sum := 0.0
	for _, r := range c.Rings {
		sum += r.fits(p, click)
	}
	return sum
}

// start returns the middle of the ring whose clicks reach farthest round.
func (c Clicks) start() (geom.Point, error) {
	var at geom.Point
	widest, last := -1.0, error(nil)
	for _, r := range c.Rings {
		o, err := Fit(r)
		if err != nil {
			last = err
			continue
		}
		most := 0.0
		for _, p := range r {
			most = math.Max(most, p.Dist(r[0]))
		}
		if w := most / o.Radius; w > widest {
			at, widest = o.Middle, w
		}
	}
	if widest < 0 {
		return at, last
	}
	return at, nil
}

// common returns the middle of several rings: the sum of the squares of how
// far clicks miss their own ring is least (Gauss-Newton).
func (c Clicks) common(at geom.Point) geom.Point {
	for range 50 {
		var xx, xy, yy, gx, gy float64
		for _, r := range c.Rings {
			n := float64(len(r))
			var md float64
			var mu geom.Point
			for _, p := range r {
				d := p.Sub(at)
				md += d.Len() / n
				mu = mu.Add(d.Mul(1 / math.Max(d.Len(), 1e-9) / n))
			}
			for _, p := range r {
				d := p.Sub(at)
				u := d.Mul(1 / math.Max(d.Len(), 1e-9)).Sub(mu)
				res := d.Len() - md
				xx += u.X * u.X
				xy += u.X * u.Y
				yy += u.Y * u.Y
				gx += u.X * res
				gy += u.Y * res
			}
		}
		det := xx*yy - xy*xy
		if !(det > 1e-12) {
			return at
		}
		step := geom.Pt((gx*yy-gy*xy)/det, (gy*xx-gx*xy)/det)
		at = at.Add(step)
		if step.Len() < 1e-9 {
			return at
		}
	}
	return at
}
