package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/say"
)

// cutEndAsk takes off an end of the board in hand: what no longer fits is told
// before, what can be done about it after.
func (w *Window) cutEndAsk() {
	b := w.board()
	ends := []int{0, 1}
	end := choice(w, ends, func(e int) string { return sentence(model.EndName(e)) }, 0)
	shown := func(e int) string {
		if b.Cut[e] == 0 {
			return ""
		}
		return w.ses.Len(b.Cut[e])
	}
	off := w.newField(shown(0), w.ses.Len(60))
	told := wrapped("", widget.MediumImportance)
	tell := func() { told.SetText(w.cutWords(b, chosen(end, ends), off)) }
	end.changed = func() {
		off.SetText(shown(chosen(end, ends)))
		tell()
	}
	off.follow(tell)
	tell()
	body := container.NewVBox(pairs(named(say.T("Which end")), end, named(say.T("Cut off in all")), off),
		wrapped(say.T("Measured from where that end was when the board was entered. Nothing moves: zones, photographs and strips stay where they are on the wood, and what is cut off is gone. 0 puts it back."), widget.LowImportance), told)
	w.ask(question{title: say.F("Cut off an end of board %s", b.ID), body: body, yes: say.T("Cut off"), focus: off, tall: true, size: fyne.NewSize(560, 330),
		do: func() error {
			e := chosen(end, ends)
			mm, err := off.kept(say.T("cut off in all"), b.Cut[e])
			if err != nil {
				return err
			}
			gone := w.ses.CutMisfits(b.ID, e, mm)
			if err := w.ses.Commit(model.CutEnd{Board: b.ID, End: e, Off: mm}); err != nil {
				return err
			}
			w.trace.line("cut board=%s end=%d off=%.1f misfits=%d", b.ID, e, mm, len(gone))
			if len(gone) > 0 {
				w.post(func() { w.cutDone(b.ID, e, mm, gone) })
				return nil
			}
			w.post(func() { w.say(w.cutSaid(b.ID, e, mm)) })
			return nil
		}})
}

// cutSaid is what is said once it is done.
func (w *Window) cutSaid(board string, end int, mm float64) string {
	text := say.F("%s is cut off %s of board %s.", w.ses.Len(mm), model.EndName(end), board)
	if mm == 0 {
		return say.F("Nothing is cut off %s of board %s any more.", model.EndName(end), board)
	}
	if end == 0 {
		text += say.T(" Chalk its letter on the new end.")
	}
	return text
}

// cutWords tells what would no longer fit, as it is typed.
func (w *Window) cutWords(b *model.Board, end int, off *field) string {
	if strings.TrimSpace(off.Text) == "" {
		return say.T("Type how much is cut off.")
	}
	mm, err := off.kept(say.T("cut off in all"), b.Cut[end])
	if err != nil {
		return ""
	}
	if _, err := model.Apply(w.ses.Committed(), model.CutEnd{Board: b.ID, End: end, Off: mm}); err != nil {
		return "⚠ " + sentence(say.Err(err)) + "."
	}
	list := w.ses.CutMisfits(b.ID, end, mm)
	if len(list) == 0 {
		return say.T("✓ All that is planned on this board still fits.")
	}
	lines := []string{"⚠ " + say.Count(len(list), say.T("piece no longer fits:"), say.T("pieces no longer fit:"))}
	for _, m := range list {
		lines = append(lines, m.Text+".")
	}
	return strings.Join(lines, "\n")
}

// cutDone tells what no longer fits, and what can be done.
func (w *Window) cutDone(board string, end int, mm float64, list []session.Misfit) {
	body := container.NewVBox(wrapped(w.cutSaid(board, end, mm), widget.MediumImportance), bold(sentence(say.Count(len(list), say.T("piece no longer fits"), say.T("pieces no longer fit")))))
	panels := false
	for _, m := range list {
		body.Add(wrapped("⚠ "+m.Text+".", widget.WarningImportance))
		panels = panels || m.Panel != ""
	}
	body.Add(bold(say.T("What can be done")))
	body.Add(wrapped(say.T("The least change that works: sliding it along its board, else a spare, else another place or board. You see it before it is made."), widget.MediumImportance))
	if panels {
		body.Add(wrapped(say.F("Or one at a time: each panel's warnings have their own fixes, %s goes through them and %s makes the first.",
			w.acts.byID["next-warning"].keyNames(), w.acts.byID["apply-fix"].keyNames()), widget.LowImportance))
	}
	w.ask(question{title: say.F("Board %s is shorter now", board), body: body, plain: true, size: fyne.NewSize(600, 420),
		yes: say.T("Propose the least change"), no: say.T("Later"),
		do: func() error { w.post(w.mendAsk); return nil }})
}

// overCut reports whether something still to be sawn lies on wood that is gone.
func (w *Window) overCut() bool { return w.ses.OverCut() }
