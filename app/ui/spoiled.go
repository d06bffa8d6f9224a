package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// handSpoiled reports whether nothing more is cut from the board in hand.
func (w *Window) handSpoiled() bool { b := w.board(); return b != nil && b.Spoiled }

// spoil says that nothing more is cut from the board in hand, or that it is
// sound after all.
func (w *Window) spoil() {
	b := w.board()
	if !w.commit(model.SpoilBoard{ID: b.ID, Spoiled: !b.Spoiled}) {
		return
	}
	if b.Spoiled {
		w.say(say.F("Board %s is sound again.", b.ID))
		return
	}
	n := 0
	for _, p := range model.Problems(w.ses.Committed()) {
		if p.Rule == model.RuleSpoiled && p.Board == b.ID {
			n++
		}
	}
	text := say.F("Board %s is spoiled: nothing more is cut from it. ", b.ID)
	if n > 0 {
		text += say.F("%s still to come from it. ", say.Count(n, say.T("piece was"), say.T("pieces were")))
	}
	w.say(say.F("%s%s takes that back.", text, w.acts.byID["undo"].keyNames()))
}

// spoiledWords says why nothing is laid on a board.
func spoiledWords(board string) string {
	return say.F("Board %s is spoiled: nothing more is cut from it. Take another board in hand.", board)
}

// spoiledIDs lists the boards that are crossed out.
func spoiledIDs(p *model.Project) []string {
	var out []string
	for _, b := range p.Boards {
		if b.Spoiled {
			out = append(out, b.ID)
		}
	}
	return out
}

// mendAsk seeks the least change that replaces what lies on spoiled boards, and
// asks before it is made.
func (w *Window) mendAsk() {
	m, err := w.ses.Mend()
	if err != nil {
		w.fail(say.T("Nothing is replaced"), err)
		return
	}
	w.background(say.T("Looking for wood to replace what is lost…"), func() func() {
		got, err := m.Run(w.work)
		return func() {
			if err != nil {
				w.fail(say.T("Nothing is replaced"), err)
				return
			}
			w.mendShow(got)
		}
	})
}

// mendShow tells what would be replaced by what.
func (w *Window) mendShow(got session.Mended) {
	body := container.NewVBox()
	for _, text := range got.Changes {
		body.Add(wrapped(sentence(text)+".", widget.MediumImportance))
	}
	if len(got.Missing) > 0 {
		body.Add(bold(say.T("Nothing is left for")))
		for _, text := range got.Missing {
			body.Add(wrapped("⚠ "+sentence(text)+".", widget.WarningImportance))
		}
	}
	q := question{title: say.T("Replace what is lost"), body: body, plain: true, size: fyne.NewSize(560, 320)}
	if got.Edit != nil {
		q.yes = say.F("Replace %s", say.Count(len(got.Changes), say.T("piece"), say.T("pieces")))
		q.do = func() error { return w.ses.Commit(got.Edit) }
	}
	w.ask(q)
	w.trace.line("mend changes=%d missing=%d", len(got.Changes), len(got.Missing))
}
