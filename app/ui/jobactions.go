package ui

import (
	"fyne.io/fyne/v2"

	"heartside/model/say"
)

// addJobActions lists what concerns the whole job: sets of panels, solid parts
// and boards that are lost.
func (w *Window) addJobActions() {
	w.acts.add(
		&Action{ID: "plan", Label: say.T("Strips and parts from the boards…"), Group: groupPanel, Keys: []Chord{shifted(fyne.KeyF5)}, Hint: say.T("Several plans of where strips and solid parts come from: which boards, where, how wide."), Can: w.canPlan, Do: w.planAsk},
		&Action{ID: "sets", Label: say.T("Panels seen together…"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyJ)}, Hint: say.T("Doors and drawer fronts that are judged and arranged as one face."), Can: w.hasPanel, Do: w.setsAsk},
		&Action{ID: "parts", Label: say.T("Solid parts…"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyL)}, Hint: say.T("Legs, rails and breadboard ends from the same boards."), Do: w.partsAsk},
		&Action{ID: "cut-part", Label: say.T("Cut a part from the board in hand…"), Group: groupBoard, Keys: []Chord{ctrl(fyne.KeyK)}, Hint: say.T("Lays a leg, a rail or the like where there is room on the board."), Can: w.hasBoard, Do: w.cutPart},
		&Action{ID: "cuttings", Label: say.T("Parts on the board in hand…"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyK)}, Hint: say.T("Move the cuttings of solid parts, or take them off the board."), Can: w.hasBoard, Do: w.cuttingsAsk},
		&Action{ID: "spoiled", Label: say.T("Spoiled (nothing more is cut from it)"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyX)}, Hint: say.T("The board in hand split or is rotten; again: it is sound after all."), Can: w.hasBoard, On: w.handSpoiled, Do: w.spoil},
		&Action{ID: "cut-end", Label: say.T("Cut off an end of the board…"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyC)}, Hint: say.T("For a check or a split: what no longer fits is told before it is done."), Can: w.hasBoard, Do: w.cutEndAsk},
		&Action{ID: "behave", Label: say.T("How the wood will behave"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyH)}, Hint: say.T("Width through the year, gaps and slots, cup, planing, ageing, and how each is worked out."), Can: w.hasPanel, Do: w.behaveShow},
		&Action{ID: "fitting", Label: say.T("How it is built in…"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyF)}, Hint: say.T("Slots, groove or breadboard ends, the line that stays, bevels and round-overs."), Can: w.hasPanel, Do: w.fittingAsk},
		&Action{ID: "joined", Label: say.T("Panels joined to each other…"), Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyF)}, Hint: say.T("Which panels are fixed to each other, and where: whether they move alike."), Can: w.hasPanel, Do: w.joinedAsk},
		&Action{ID: "mend", Label: say.T("Replace what is lost…"), Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyJ)}, Hint: say.T("The least change for what was to come from spoiled boards and from ends that were cut off."), Can: func() bool { return len(spoiledIDs(w.ses.Project())) > 0 || w.overCut() }, Do: w.mendAsk},
	)
}
