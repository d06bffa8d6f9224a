package ui

import (
	"context"

	"heartside/app/session"
	"heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/model"
)

// searcher is a search for arrangements that is ready to run.
type searcher interface {
	Run(ctx context.Context, improved func(session.Found)) (session.Found, error)
}

// beginSearch prepares the search of the page that arranges.
func (w *Window) beginSearch(wish session.Wish) (searcher, error) {
	q, err := w.ses.Search(wish)
	if err != nil {
		return nil, err
	}
	return q, nil
}

// judged says what a panel has against it for every look. It is pure, for a
// goroutine of its own.
func judged(p *face.Panel, rings model.Rings) session.Arrangement {
	r := face.ReadFull(p)
	out := session.Arrangement{Panel: p, After: afterOf(r)}
	rules := look.DefaultRules
	switch rings {
	case model.RingsAlternate:
		rules.Rings = look.Alternate
	case model.RingsBarkUp:
		rules.Rings = look.BarkUp
	case model.RingsHeartUp:
		rules.Rings = look.HeartUp
	}
	for _, l := range looks() {
		points := look.NewJudge(p, look.Name(l), rules).Points(p, r)
		out.Looks = append(out.Looks, session.LookScore{Look: l, Points: points})
	}
	return out
}

// afterOf is what one asks first of a reading.
func afterOf(r *face.Reading) session.After {
	if r == nil {
		return session.After{}
	}
	out := session.After{Light: r.Show.Light.Value, Unwanted: r.Show.Unwanted.Value, Coverage: r.Show.Coverage}
	for i := range r.Warnings {
		if r.Warnings[i].Kind == face.LoneStreak {
			out.LoneStreaks++
		}
	}
	return out
}

// keepEdits keep an arrangement under a name. The project keeps what lies
// there, so another arrangement is laid first.
func keepEdits(panel, name string, lay model.Edit) []model.Edit {
	keep := model.Keep{Panel: panel, Name: name}
	if lay == nil {
		return []model.Edit{keep}
	}
	return []model.Edit{lay, keep}
}
