package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// meaning is a figure of a page, or what belongs together there, and how it is
// meant.
type meaning struct{ name, text string }

// pageMeanings are what the figures of the page that is up say; nil where the
// column or the page itself explains them.
func (w *Window) pageMeanings() (title string, list []meaning) {
	points := meaning{say.T("Points against"), say.T("Each thing that speaks against the panel for its look, such as a border along a joint or a lone streak, counts points; their sum stands here. 0 is nothing against it. How much each counts is an engineering choice with no published source; use points to compare, not as a measure.")}
	shares := meaning{say.T("Sapwood, contrast coverage, streaks alone"), say.F("The readings of the column, for the panel as it would be. %s at the panel says how those are meant.", w.acts.byID["explain"].keyNames())}
	switch w.page.(type) {
	case *arrangePage:
		return say.T("How the arrangements are judged"), []meaning{points, shares,
			{say.T("What is possible at most"), say.T("The search proves a bound that no arrangement of these strips can beat. “At most 1.2 points better is possible” is the distance to that bound, rounded up; that good an arrangement need not exist.")},
			{say.T("Arrangements read"), say.T("How many were read whole, as the column reads the panel.")}}
	case *matchPage:
		return say.T("How the matches are judged"), []meaning{shares,
			{say.T("Then and now"), say.T("The panel with the pair laid so, beside the panel as it lies now.")},
			{say.T("How well edges agree"), say.T("Where heartwood and sapwood meet the two edges is compared along the joint. Faces that nobody looked at are guessed from the other face, and it says so.")}}
	case *keepTrimPage:
		return say.T("How the three ways are compared"), []meaning{
			{say.T("Lost of it"), session.LostWords()},
			{say.T("To buy for 100 finished"), say.T("Finished face divided by the share that is not lost: with 30 % lost, 100 / 0.7 = 143 are bought, which is 43 % more. Adding 30 % would not be enough.")},
			{say.T("Clear stock"), say.T("Not planned from boards: what is needed, the loss you type, and its price.")},
			{say.T("Planed off the parts"), say.T("The volume that planing takes off the finished parts; it is counted in no other figure.")},
			{say.T("Unwanted wood shown"), say.T("The mean share on the show faces of the panels planned, read as the column reads them.")},
			points}
	case *yardPage:
		return say.T("How the choice is made"), []meaning{
			{say.T("Which to buy"), say.T("The boards that make all strips and parts of the job at least cost, with allowances and kerf. Boards in the rack count as paid while that is ticked. It says whether that is proved to be the cheapest.")},
			{say.T("What a board is worth"), say.T("What the other boards of the job would cost more without it: in money, or as wood where not every board has a price.")},
			{say.T("What is missing"), say.T("Sizes of more wood that would do, rounded to what a rule shows so that a board of those figures is enough.")},
			{say.T("Light wood on offer"), say.T("From the widths typed, or from photographs; a face that nobody measured is not known.")}}
	case *benchPage:
		return say.T("How the bench is read"), []meaning{
			{say.T("Stage"), say.T("What you say of a strip: planned, sawn, planed, jointed, glued. What is sawn is not moved by a search.")},
			{say.T("Expected widths"), say.T("Where the sap line should come out after planing: between the lines on both faces of the board, at the depth that is planed off, taken as straight through. The true line curves, so measure.")},
			{say.T("Measured widths"), say.F("Six widths, three on each edge. From then on the readings of this strip are of what was measured. “As expected” is within %s, an engineering choice.", w.ses.Len(session.Within))}}
	case *behavePage:
		return say.T("How the behaviour is meant"), []meaning{
			{say.T("Each card"), say.T("“How is this worked out?” under a card shows every step with its numbers, its formula and its source.")},
			{say.T("Ranges"), say.T("Wood differs from tree to tree and board to board. Movement is a range, and a meter in the house beats any map.")}}
	}
	return "", nil
}

// explainPage explains the figures of the page that is up, and reports whether
// there was anything to explain.
func (w *Window) explainPage() bool {
	title, list := w.pageMeanings()
	if len(list) == 0 {
		return false
	}
	body := container.New(stackLayout{})
	for _, m := range list {
		head := wrapped(m.name, widget.MediumImportance)
		head.TextStyle.Bold = true
		body.Add(snug(head))
		body.Add(line(m.text, widget.MediumImportance))
	}
	w.ask(question{title: title, body: body, size: fyne.NewSize(620, 560)})
	return true
}
