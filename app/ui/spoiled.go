package ui

import "heartside/model"

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
		w.say("Board " + b.ID + " is sound again.")
		return
	}
	n := 0
	for _, p := range model.Problems(w.ses.Committed()) {
		if p.Rule == model.RuleSpoiled && p.Board == b.ID {
			n++
		}
	}
	text := "Board " + b.ID + " is spoiled: nothing more is cut from it. "
	if n > 0 {
		text += count(n, "piece was", "pieces were") + " still to come from it. "
	}
	w.say(text + w.acts.byID["undo"].keyNames() + " takes that back.")
}

// spoiledWords says why nothing is laid on a board.
func spoiledWords(board string) string {
	return "Board " + board + " is spoiled: nothing more is cut from it. Take another board in hand."
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
