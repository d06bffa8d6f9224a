package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/photo"
	"heartside/layout/photo/split"
	"heartside/model/say"
)

// faceAdvice offers, in one press each, what ends a doubt of the program: that
// a face of one colour is all heartwood or all sapwood, and that what it
// cannot tell is called so.
type faceAdvice struct {
	p     *facePage
	box   *fyne.Container
	one   *fyne.Container // of one colour: which?
	vague *fyne.Container // stretches that cannot be told
	text  *widget.Label
	laid  string
}

func newFaceAdvice(p *facePage) *faceAdvice {
	a := &faceAdvice{p: p, text: wrapped("", widget.WarningImportance)}
	z := p.zones
	a.one = container.New(stackLayout{}, snug(wrapped(say.T("⚠ One colour all over. What is it?"), widget.WarningImportance)),
		flow([]fyne.CanvasObject{p.button(say.T("All heartwood (Shift+H)"), func() { z.all(photo.Heart) }), p.button(say.T("All sapwood (Shift+S)"), func() { z.all(photo.Sap) })}))
	a.vague = container.New(stackLayout{}, snug(a.text), flow([]fyne.CanvasObject{p.button(say.T("Mark as not sure (Shift+U)"), z.unsure)}))
	a.box = container.New(stackLayout{}, a.one, a.vague)
	a.one.Hide()
	a.vague.Hide()
	return a
}

// show brings the offers up to date and reports whether there are others.
func (a *faceAdvice) show() bool {
	z := a.p.zones
	one, text := false, ""
	if z.work != nil && z.work.now.result != nil {
		one = slices.Contains(z.work.now.result.Doubts, split.OneColour)
	}
	if z.doubted() {
		text = vagueWords(z.work.now.doubted, z.work.now.result)
	}
	k := fmt.Sprint(one, text)
	if k == a.laid {
		return false
	}
	a.laid = k
	setShown(a.one, one)
	setShown(a.vague, text != "")
	if text != "" {
		a.text.SetText(text)
	}
	setShown(a.box, one || text != "")
	return true
}

// vagueWords say how much of a face the program cannot tell.
func vagueWords(share float64, r *split.Result) string {
	if share > 0.95 {
		return say.T("⚠ Heartwood and sapwood cannot be told on this face, as on rough or steamed wood. Call it “not sure” until it is planed?")
	}
	where := say.T("in the dashed frame")
	if r != nil && len(r.Suggest) > 1 {
		where = say.T("in the dashed frames")
	}
	return say.F("⚠ What is heartwood and what is sapwood cannot be told %s, %s of the face. Call that “not sure” until it is planed?", where, whole(share))
}
