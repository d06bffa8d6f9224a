package split

import (
	"context"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Result is a face split. It is not changed once made.
type Result struct {
	// Mask has 1 cell a mm: Heart, Sap, Flaw; Outside where there is no
	// picture; Unseen only where the maker said so.
	Mask *photo.Mask
	// Sure says how sure each cell of about 4 x 1 mm is, 0 to 1.
	Sure Sureness
	// Confidence in the whole, 0 to 1: under 1/2 is "not sure".
	Confidence float64
	// SapShare is the sapwood's share of heart, sap and flaw, 0 to 1, between
	// SapLow and SapHigh where unsure cells are all taken one way.
	SapShare, SapLow, SapHigh float64
	// Present tells whether there is any sapwood, Presence how likely that is
	// by the picture alone, 0 to 1.
	Present  bool
	Presence float64
	// Doubts say what makes the answer unsure.
	Doubts []Reason
	// Suggest holds the stretches of the face, mm, that had better be called
	// not sure; the mask still holds the best answer there.
	Suggest []geom.Rect

	field   []float64 // 1 sapwood to -1 heartwood a cell
	told    bool      // the maker said what the whole face is
	assumed bool      // from one stroke
	guess   *guess
	lines   *lines
	v       verdict
	margin  float64 // of the score over the next other answer
	light   float64 // spread of the light along the board, log
	rough   float64 // spread of colour within a wood, log
}

// Sureness is a grid over the face, row 0 at the top as seen.
type Sureness struct {
	NX, NY int
	P      []float32
}

// finish refines a guess and draws the result. With sure there is sapwood
// whatever the picture says of it.
func (f *Face) finish(ctx context.Context, q *guess, marks []uint8, strokes []Stroke, sure bool) (*Result, error) {
	fine, l, v := f.refine(q, marks)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	r := &Result{guess: fine, lines: l, v: v, margin: q.margin}
	r.Presence = presence(v) * (1 - lightAlone(v)*(1-soft(q.margin, twoAnswers, .1)))
	r.Present = sure || r.Presence >= .5
	t, c := f.target(fine, l, marks)
	r.field = make([]float64, len(t))
	copy(r.field, t)
	f.ties.relax(t, c, r.field, roundsField)
	if !r.Present {
		for i := range r.field {
			r.field[i] = -1
		}
	}
	f.report(r, strokes)
	return r, ctx.Err()
}

// lightAlone is how far a step is one of lightness without hue, 0 to 1: it may
// be the edge of a shadow, the more so where another answer is as good.
func lightAlone(v verdict) float64 { return 1 - soft(v.hue, leastHue/2, .01) }

// presence is how likely there is sapwood at all.
func presence(v verdict) float64 {
	if v.score <= 0 {
		return 0
	}
	dark := rareWide * (math.Max(2*v.share-1, 0) - soft(v.share, mostly, .05))
	return soft(v.score-fitWeight*math.Max(v.fit, 0)-dark, noneScore, .4)
}

// report fills in the mask and the figures from the field.
func (f *Face) report(r *Result, strokes []Stroke) {
	r.Mask = f.mask(r.field)
	f.markFlaws(r.Mask)
	f.paint(r.Mask, strokes)
	r.light, r.rough = f.unevenness, 0
	if r.guess != nil {
		r.rough = math.Sqrt(r.guess.m.cov[0][0])
	}
	r.Confidence = r.confidence()
	g := f.g
	r.Sure = Sureness{NX: g.nx, NY: g.ny, P: make([]float32, len(r.field))}
	for i, v := range r.field {
		r.Sure.P[i] = float32(r.Confidence * math.Min(math.Abs(v)/.5, 1))
	}
	r.shares()
	r.Doubts = r.doubts()
	r.Suggest = f.suggest(r)
}

// confidence weighs presence, the next best answer and the contrast. The
// limits are engineering choices.
func (r *Result) confidence() float64 {
	switch {
	case r.assumed:
		return .5
	case r.told || r.guess == nil:
		return 1
	case r.Present:
		return math.Max(r.Presence, .5) * soft(r.margin, .1, .3) * soft(r.v.region, 2.8, .4) * (1 - .65*lightAlone(r.v))
	}
	// No sapwood is sure where nothing comes near, and the light is even.
	return (1 - r.Presence) * (1 - soft(r.v.region+r.v.step, 5, .5)) * (1 - .7*soft(r.light, unevenLight, .08))
}

// shares measures the sapwood.
func (r *Result) shares() {
	s := r.Mask.Shares()
	if wood := s[photo.Heart] + s[photo.Sap] + s[photo.Flaw]; wood > 0 {
		r.SapShare = s[photo.Sap] / wood
	}
	least := .3 + .7*(1-r.Confidence)
	lo, hi := 0.0, 0.0
	for _, v := range r.field {
		if v > least {
			lo++
		}
		if v > -least {
			hi++
		}
	}
	n := float64(max(len(r.field), 1))
	r.SapLow, r.SapHigh = math.Min(lo/n, r.SapShare), math.Max(hi/n, r.SapShare)
}

// suggest returns stretches along the board of 100 mm or more where most cells
// are unsure, or the whole face.
func (f *Face) suggest(r *Result) []geom.Rect {
	if r.Confidence < .4 {
		return []geom.Rect{geom.R(0, 0, f.length, f.width)}
	}
	g := f.g
	var out []geom.Rect
	from := -1
	for i := 0; i <= g.nx; i++ {
		unsure := false
		if i < g.nx {
			n := 0
			for j := range g.ny {
				if r.Sure.P[j*g.nx+i] < .4 {
					n++
				}
			}
			unsure = 2*n > g.ny
		}
		switch {
		case unsure && from < 0:
			from = i
		case !unsure && from >= 0:
			if float64(i-from)*g.dx >= 100 {
				out = append(out, geom.R(float64(from)*g.dx, 0, float64(i)*g.dx, f.width))
			}
			from = -1
		}
	}
	return out
}

// mask draws the field at 1 cell a mm.
func (f *Face) mask(field []float64) *photo.Mask {
	m := photo.NewMask(f.length, f.width, 1)
	g := f.g
	type at struct {
		a, b int
		t    float64
	}
	xs := make([]at, m.W)
	for i := range xs {
		x := (float64(i)+.5)*float64(g.nx)/float64(m.W) - .5
		a := math.Floor(x)
		xs[i] = at{min(max(int(a), 0), g.nx-1), min(max(int(a)+1, 0), g.nx-1), x - a}
	}
	for j := range m.H {
		y := (float64(j)+.5)*float64(g.ny)/float64(m.H) - .5
		b := math.Floor(y)
		r0, r1 := min(max(int(b), 0), g.ny-1)*g.nx, min(max(int(b)+1, 0), g.ny-1)*g.nx
		ty := y - b
		for i, x := range xs {
			u := field[r0+x.a]*(1-x.t) + field[r0+x.b]*x.t
			d := field[r1+x.a]*(1-x.t) + field[r1+x.b]*x.t
			l := photo.Heart
			if u*(1-ty)+d*ty > 0 {
				l = photo.Sap
			}
			if f.empty != nil && f.empty[j*m.W+i] {
				l = photo.Outside
			}
			m.Pix[j*m.W+i] = l
		}
	}
	return m
}
