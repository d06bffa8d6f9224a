package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/wood"
	"heartside/model"
	"heartside/model/say"
)

// agreeCard says whether the two faces of a board belong together, shows the
// end they imply, and offers what follows from it.
type agreeCard struct {
	w     *Window
	board string
	face  int
	box   *fyne.Container
	say   *widget.Label
	log   *widget.Label
	end   *endDrawing
	turn  *widget.Button
	take  *widget.Button
}

func newAgreeCard(w *Window) *agreeCard {
	a := &agreeCard{w: w, end: newEndDrawing(w)}
	a.say, a.log = wrapped("", widget.MediumImportance), wrapped("", widget.LowImportance)
	a.turn = widget.NewButton("", a.turnFace)
	a.take = widget.NewButton(say.T("Keep this pith and bark side"), a.keepLog)
	a.box = container.New(stackLayout{}, snug(bold(say.T("Both faces"))), snug(a.say), a.turn, a.end, snug(a.log), a.take)
	return a
}

// show brings the card up to date and reports whether its size may have
// changed; face is the one in hand.
func (a *agreeCard) show(board string, face int) (changed bool) {
	a.board, a.face = board, face
	b := a.w.ses.Committed().Board(board)
	got, ok := a.w.ses.Agreement(board)
	setShown(a.end, ok && got.Log.Seen)
	setShown(a.log, ok && got.Log.Seen)
	setShown(a.take, ok && got.Log.Bark != wood.BarkUnknown && b != nil && len(b.Pith) == 0)
	setShown(a.turn, ok && turnable(got.Fit))
	text := say.T("Told once both faces are split.")
	if ok {
		text = fitWords(got.Fit)
		a.turn.SetText(say.F("Turn face %s end for end", itoa(face)))
		if e, err := got.Log.End(0); err == nil && got.Log.Seen {
			a.end.show(e, b.Species)
		}
		a.log.SetText(logWords(a.w.ses, b, got.Log))
	}
	if a.say.Text != text {
		a.say.SetText(text)
		return true
	}
	return false
}

// turnable reports whether half a turn of one photograph may mend the fit.
func turnable(f *wood.Fit) bool {
	return f.Verdict == wood.LooksTurned || f.Verdict == wood.LooksWrong
}

// fitWords says whether the faces go together.
func fitWords(f *wood.Fit) string {
	switch f.Verdict {
	case wood.Fits:
		return say.T("✓ They fit one log.")
	case wood.LooksTurned:
		return say.T("⚠ This looks rolled end over end: turn it?")
	case wood.LooksMirrored:
		return say.T("⚠ One of the photographs looks like a mirror image. Photograph that face again without mirroring.")
	case wood.LooksWrong:
		return say.T("⚠ The faces do not fit as they lie: one was rolled end over end, or its photograph is a mirror image. Turn it, and see whether they fit then.")
	}
	return say.F("○ Cannot tell: %s. See that the marked end lies at the left on both.", say.Of(f.Why))
}

// logWords tells where the pith is thought to lie.
func logWords(s *session.Session, b *model.Board, l *wood.Log) string {
	span := func(i wood.Interval) string {
		return say.F("%s to %s", s.Len(math.Round(i.Lo)), s.Len(math.Round(i.Hi)))
	}
	text := say.F("Seen from the marked end. Pith %s from the marked edge, %s; heartwood radius %s.",
		span(l.Across), depthWords(s, b, l.Depth), span(l.HeartRadius))
	switch l.Bark {
	case wood.BarkFace1:
		text += say.T(" Face 1 is the bark side.")
	case wood.BarkFace2:
		text += say.T(" Face 2 is the bark side.")
	}
	return text
}

// depthWords says how deep the pith lies, in the words of the bench.
func depthWords(s *session.Session, b *model.Board, d wood.Interval) string {
	lo, hi := math.Round(d.Lo), math.Round(d.Hi)
	switch {
	case hi < 0:
		return say.F("%s to %s above face 1", s.Len(-hi), s.Len(-lo))
	case lo > b.Thickness:
		return say.F("%s to %s below face 2", s.Len(lo-b.Thickness), s.Len(hi-b.Thickness))
	}
	return say.F("from %s%s to %s%s", s.Len(math.Abs(lo)), side(lo), s.Len(math.Abs(hi)), side(hi))
}

func side(d float64) string {
	if d < 0 {
		return say.T(" above face 1")
	}
	return say.T(" below face 1")
}

// turnFace turns the face in hand.
func (a *agreeCard) turnFace() {
	e, err := a.w.ses.TurnFace(a.board, a.face)
	if err != nil {
		a.w.fail(say.T("The face cannot be turned"), err)
		return
	}
	a.w.commit(e)
}

// keepLog keeps what the faces tell of the log.
func (a *agreeCard) keepLog() {
	e, err := a.w.ses.TakeLog(a.board)
	if err != nil {
		a.w.fail(say.T("The pith cannot be kept"), err)
		return
	}
	a.w.commit(e)
}
