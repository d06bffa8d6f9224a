package intake

import (
	"context"
	"io"
	"sync"

	"heartside/app/picture"
	"heartside/layout/photo"
	"heartside/layout/photo/light"
	"heartside/model"
	"heartside/model/say"
)

// OpenFunc opens a picture by the name the project knows it by.
type OpenFunc func(name string) (io.ReadCloser, error)

// Reader returns a ReadFunc that opens pictures with open.
func Reader(open OpenFunc) ReadFunc {
	return func(ctx context.Context, j Job, tell func(Step)) (*Reading, error) {
		tell(Opening)
		r, err := open(j.Name)
		if err != nil {
			return nil, err
		}
		img, info, err := picture.Decode(ctx, r, picture.Limits{})
		r.Close()
		if err != nil {
			return nil, err
		}
		s, err := Look(ctx, img, Ask{Length: j.Length, Width: j.Width, Corners: j.Corners, Waney: j.Waney, Focal35: info.Focal35}, tell)
		if err != nil {
			return nil, err
		}
		tell(Tracing)
		return s.reading(ctx)
	}
}

// reading draws the zones of what was seen.
func (s *Seen) reading(ctx context.Context) (*Reading, error) {
	out := &Reading{View: s.View, Confidence: s.Confidence, Residual: s.Residual, SapShare: s.Split.SapShare}
	var tones sync.WaitGroup
	tones.Go(func() { out.Tones = TonesOf(ctx, s.Squared, s.Split.Mask) })
	var err error
	out.Zones, out.Base, err = ZonesOf(s.Split.Mask)
	tones.Wait()
	if err != nil {
		return nil, err
	}
	out.Split = model.Split{By: model.SplitFound, Sure: s.Sure()}
	out.Doubts = s.Doubts()
	if s.Waney != nil {
		out.Outline, out.Width = s.Waney.Ring, s.Waney.Width
	}
	return out, nil
}

// Sure is how sure the whole is, 0 to 1: no surer than where the board lies.
func (s *Seen) Sure() float64 { return min(s.Whole, s.Split.Confidence) }

// SureEnough is how sure a reading must be to be taken without a look. An
// engineering choice with no published source.
const SureEnough = 0.5

// unsureCorner is the confidence under which a corner wants a look.
const unsureCorner = 0.5

// Doubts say what the maker should look at, corners first.
func (s *Seen) Doubts() []string {
	var out []string
	n := 0
	for _, c := range s.Confidence {
		if c < unsureCorner {
			n++
		}
	}
	switch {
	case s.Waney != nil:
		out = append(out, s.Waney.Doubts()...)
	case n > 0:
		out = append(out, say.F("%d of 4 corners unsure: look where they lie", n))
	}
	for _, d := range s.Split.Doubts {
		out = append(out, d.String())
	}
	return out
}

// TonesOf measures the colours of the zones of a squared face; none where ctx
// ends.
func TonesOf(ctx context.Context, s *photo.Squared, m *photo.Mask) []model.Tone {
	seen, err := light.ZoneColours(ctx, s, m)
	if err != nil {
		return nil
	}
	var out []model.Tone
	for _, l := range [...]photo.Label{photo.Heart, photo.Sap, photo.Flaw} {
		if c := seen[l]; c.Known {
			out = append(out, model.Tone{Kind: kinds[l], Mean: c.Mean, Spread: c.FromDE})
		}
	}
	return out
}
