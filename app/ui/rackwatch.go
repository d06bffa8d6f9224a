package ui

import (
	"heartside/app/intake"
	"heartside/model/say"
)

// readWatch follows the reading of photographs as one batch: from the first
// that begins while nothing was read to the last that ends.
type readWatch struct {
	batch     map[intake.Place]bool
	done, all int
	share     float64
	busy      bool
}

// follow counts anew what the session knows.
func (r *readWatch) follow(w *Window) {
	_, left := w.ses.ReadingShare()
	if left == 0 {
		r.busy, r.batch = false, nil
		w.status.reading("")
		return
	}
	if r.batch == nil {
		r.batch = map[intake.Place]bool{}
	}
	r.busy = true
	r.done, r.all, r.share = 0, 0, 0
	for _, b := range w.ses.Committed().Boards {
		for _, part := range []intake.Part{intake.Face1, intake.Face2} {
			p := intake.Place{Board: b.ID, Part: part}
			n, ok := w.ses.News(p)
			if !ok {
				continue
			}
			if !n.Step.Ended() {
				r.batch[p] = true
			}
			if r.batch[p] {
				r.all++
				r.share += n.Step.Progress()
				if n.Step.Ended() {
					r.done++
				}
			}
		}
	}
	r.share /= float64(max(r.all, 1))
	text := ""
	if w.page == nil {
		text = say.F("%s  %s stops it, %s shows it.", r.text(), w.acts.byID["stop-reading"].keyNames(), w.acts.byID["rack"].keyNames())
	}
	w.status.reading(text)
}

// text says how far the reading is.
func (r *readWatch) text() string {
	if !r.busy {
		return ""
	}
	return say.F("Reading photographs: %d of %d.", r.done, r.all)
}
