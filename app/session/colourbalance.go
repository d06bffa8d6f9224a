package session

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo/light"
	"heartside/model"
	"heartside/model/say"
)

// CardReference names what all photographs have in common whose colours were
// balanced by a card or a sheet of known lightness.
const CardReference = "card"

// groundReference begins the names of grounds that photographs share.
const groundReference = "ground-"

// Balanced is what a white balance came to.
type Balanced struct {
	Reference string
	Done      []intake.Place // in one entry of the history
	Left      []string       // which photographs were left out, and why
}

// BalanceByBackground makes the ground that the boards lie on the same colour
// in the photographs of faces, nil for all that have corners, and so makes
// their colours comparable. It works in the background and calls done on the
// session's goroutine; a photograph that cannot be used is left out, but where
// grounds are clearly not one it changes nothing and says whose differ. It
// stops when ctx ends; done is not called once another project is on screen.
func (s *Session) BalanceByBackground(ctx context.Context, places []intake.Place, done func(Balanced, error)) {
	if places == nil {
		places = s.photographed()
	}
	o := s.facings(places)
	name := groundName(s.Committed(), places)
	s.balance(ctx, say.T("Balance colours by the background"), name, done, func(ctx context.Context) ([]gain, []string, error) {
		var refs []light.BackgroundSample
		var gains []gain
		var left []string
		for _, p := range o {
			sample, err := p.ground(ctx)
			if ctx.Err() != nil {
				return nil, nil, ctx.Err()
			}
			if err != nil {
				left = append(left, fmt.Sprintf("%v: %s", p.place, trouble(p.key.name, err)))
				continue
			}
			refs, gains = append(refs, sample), append(gains, gain{facing: p})
		}
		if len(refs) < 2 {
			return nil, left, errors.New(strings.Join(append([]string{say.T("the background balances two photographs or more: give them their corners, or use a grey card")}, left...), "; "))
		}
		balances, err := light.Shared(refs)
		if err != nil {
			return nil, left, oddOnes(gains, refs, err)
		}
		for i, b := range balances {
			gains[i].white = &[3]float64{b.R, b.G, b.B}
		}
		return gains, left, nil
	})
}

// BalanceByCard makes a grey card or a white sheet neutral in the photograph
// of a face, and gives the same balance to others that were photographed in
// the same light, all as one change. ring is the card's outline in pixels of
// the picture, lightness its CIELAB L (light.GreyCard, light.WhitePaper). It
// works in the background and calls done on the session's goroutine.
func (s *Session) BalanceByCard(ctx context.Context, at intake.Place, ring geom.Polygon, lightness float64, others []intake.Place, done func(Balanced, error)) {
	o := s.facings([]intake.Place{at})
	rest := s.facings(others)
	s.balance(ctx, say.T("Balance colours by a card"), CardReference, done, func(ctx context.Context) ([]gain, []string, error) {
		if len(o) == 0 {
			return nil, nil, say.Errorf("%v has no photograph with corners to balance", at)
		}
		img, err := o[0].decode(ctx)
		if err != nil {
			return nil, nil, errors.New(trouble(o[0].key.name, err))
		}
		b, err := light.Card(img, ring, lightness)
		if err != nil {
			return nil, nil, err
		}
		white := &[3]float64{b.R, b.G, b.B}
		gains := []gain{{facing: o[0], white: white}}
		for _, p := range rest {
			if p.place != at {
				gains = append(gains, gain{facing: p, white: white})
			}
		}
		return gains, nil, nil
	})
}

// oddOnes says which boards lie on another ground than the photograph that is
// most like all others; err where none stands out.
func oddOnes(gains []gain, refs []light.BackgroundSample, err error) error {
	mid, least := 0, math.Inf(1)
	for i, r := range refs {
		sum := 0.0
		for _, o := range refs {
			sum += math.Hypot(r.RG-o.RG, r.BG-o.BG)
		}
		if sum < least {
			mid, least = i, sum
		}
	}
	var odd []string
	for i, r := range refs {
		if _, e := light.Shared([]light.BackgroundSample{refs[mid], refs[mid], r}); e != nil {
			odd = append(odd, gains[i].place.String())
		}
	}
	if len(odd) == 0 {
		return err
	}
	return say.Errorf("the ground in the photographs of %s is another than in the others: leave these out, photograph all boards on one ground, or use a grey card", strings.Join(odd, "; "))
}

// groundName names the ground that the faces at places share as no other face
// names its own.
func groundName(p *model.Project, places []intake.Place) string {
	in := map[intake.Place]bool{}
	for _, at := range places {
		in[at] = true
	}
	taken := map[string]bool{}
	for _, b := range p.Boards {
		for i := range b.Faces {
			if !in[intake.Place{Board: b.ID, Part: intake.Part(i + 1)}] {
				taken[b.Faces[i].Reference] = true
			}
		}
	}
	for n := 1; ; n++ {
		if name := fmt.Sprintf("%s%d", groundReference, n); !taken[name] {
			return name
		}
	}
}
