package ui

import (
	"context"

	"heartside/app/session"
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

// keepEdit keeps an arrangement under a name, nil what lies there now.
func keepEdit(panel, name string, lay model.Edit) model.Edit {
	keep := model.Keep{Panel: panel, Name: name}
	if set, ok := lay.(model.SetStrips); ok {
		keep.Strips = set.Strips
	}
	return keep
}
