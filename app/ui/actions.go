package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"heartside/app/scene"
	"heartside/layout/geom"
	"heartside/model/say"
	"heartside/model/unit"
)

// Groups of the list of keys.
const (
	groupFile  = "File"
	groupStrip = "Strip in hand"
	groupPanel = "Panel"
	groupBoard = "Boards"
	groupZones = "Zones of a face"
	groupView  = "View"
)

// addActions lists all that the window offers.
func (w *Window) addActions() {
	w.addFileActions()
	w.addStripActions()
	w.addMoveActions()
	w.addThingActions()
	w.addZoneActions()
	w.addViewActions()
	w.addRackActions()
	w.addPhoneActions()
	w.addArrangeActions()
	w.addMatchActions()
	w.addJobActions()
	w.addKeepTrimActions()
	w.addBenchActions()
	w.addSheetActions()
	w.addPlaningActions()
	w.addYardActions()
	w.addLeftActions()
	w.addRecordActions()
	w.addExampleActions()
	w.addHintActions()
	w.addHelpActions()
	w.onPanels()
}

// act does an action by its id.
func (w *Window) act(id string) bool {
	a := w.acts.byID[id]
	return a != nil && w.do(a)
}

// do does an action; what was said of the act before it goes.
func (w *Window) do(a *Action) bool {
	w.unsay()
	return a.run()
}

func (w *Window) addFileActions() {
	w.acts.add(
		&Action{ID: "new", Label: say.T("New project"), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyN)}, Hint: say.T("Begin with no boards and no panels."), Do: w.newProject},
		&Action{ID: "open", Label: say.T("Open…"), Short: say.T("Open"), Icon: theme.FolderOpenIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyO)}, Hint: say.T("Open a project file."), Do: w.openAsk},
		&Action{ID: "save", Label: say.T("Save"), Icon: theme.DocumentSaveIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyS)}, Hint: say.T("Write the project to its file."), Do: w.save},
		&Action{ID: "save-as", Label: say.T("Save as…"), Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyS)}, Hint: say.T("Write the project to another file."), Do: func() { w.saveAs(nil) }},
		&Action{ID: "demo", Label: say.T("Open the demo"), Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyD)}, Hint: say.T("A hall console of six black-walnut boards."), Do: w.demoAsk},
		&Action{ID: "project", Label: say.T("Project settings…"), Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyP)}, Hint: say.T("Name, units, allowances, machines and limits."), Do: w.projectAsk},
		&Action{ID: "quit", Label: say.T("Quit"), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyQ)}, Hint: say.T("Close the window; unsaved changes are asked about."), Do: w.close},
		&Action{ID: "undo", Label: say.T("Undo"), Icon: theme.ContentUndoIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyZ)}, Hint: say.T("Take the last change back."),
			Can: func() bool { return w.ses.CanUndo() || w.nudge.strip != "" }, Do: w.undo},
		&Action{ID: "redo", Label: say.T("Redo"), Icon: theme.ContentRedoIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyY), ctrlShift(fyne.KeyZ)}, Hint: say.T("Make the change taken back again."),
			Can: w.ses.CanRedo, Do: func() { w.nudge.settle(); w.ses.Redo() }},
		&Action{ID: "keys", Label: say.T("Keys"), Group: groupView, Keys: []Chord{plain(fyne.KeyF1)}, Hint: say.T("The list of keys."), Do: w.keysShow},
		&Action{ID: "explain", Label: say.T("How are the readings meant?"), Group: groupView, Keys: []Chord{plain(fyne.KeyF7)}, Hint: say.T("What the figures in the column say and what they rest on."), Do: w.explainShow},
		&Action{ID: "about", Label: say.T("About Heartside"), Group: groupView, Keys: []Chord{shifted(fyne.KeyF1)}, Hint: say.T("What it is, and what its numbers rest on."), Do: w.aboutShow},
	)
}

func (w *Window) undo() {
	if w.surf.state.Busy() {
		return // the gesture is dropped with Escape, not half undone
	}
	w.nudge.settle()
	w.ses.Undo()
}

func (w *Window) addStripActions() {
	w.acts.add(
		&Action{ID: "roll", Label: say.T("Roll over"), Short: say.T("Roll"), Icon: icon("roll"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyR)}, Hint: say.T("Show the strip's other face."), Can: w.hasStrip, Do: w.rollOver},
		&Action{ID: "turn", Label: say.T("Turn end for end"), Short: say.T("Turn"), Icon: icon("turn"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyT)}, Hint: say.T("The same face, the marked end at the other side."), Can: w.hasStrip, Do: w.turnEnd},
		&Action{ID: "swap", Label: say.T("Swap with the next"), Short: say.T("Swap"), Icon: icon("swap"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyS)}, Hint: say.T("Let the strip and the one behind it change places."), Can: w.hasNext, Do: w.swapNext},
		&Action{ID: "forward", Label: say.T("Move one place to the front"), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyDown)}, Hint: say.T("One place nearer to the front edge."), Can: w.hasStrip, Do: func() { w.reorder(-1) }},
		&Action{ID: "backward", Label: say.T("Move one place to the back"), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyUp)}, Hint: say.T("One place nearer to the back edge."), Can: w.hasStrip, Do: func() { w.reorder(1) }},
		&Action{ID: "place", Label: say.T("Lay on the board in hand"), Short: say.T("Lay"), Icon: icon("place"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyReturn), plain(fyne.KeyEnter)}, Hint: say.T("Lay the empty place on the board in hand where it fits and shows least unwanted wood."), Can: w.canPlace, Do: w.layOnBoard},
		&Action{ID: "lift", Label: say.T("Lift off its board"), Short: say.T("Lift"), Icon: icon("lift"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyDelete)}, Hint: say.T("Leave an empty place in the panel."), Can: w.hasPlaced, Do: w.lift},
		&Action{ID: "pin", Label: say.T("Pin"), Icon: icon("pin"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyP)}, Hint: say.T("Hold the strip where it is."), Can: w.hasPlaced, On: w.isPinned, Do: w.pin},
		&Action{ID: "size", Label: say.T("Size of the strip…"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyF4)}, Hint: say.T("Length, width and angle in figures."), Can: w.hasStrip, Do: w.stripAsk},
		&Action{ID: "planed", Label: say.T("Widths after planing…"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyW)}, Hint: say.T("Type in the sapwood widths found on the planed strip; only this strip is judged again."), Can: w.hasPlaced, Do: w.planedAsk},
		&Action{ID: "remove-strip", Label: say.T("Take the strip out of the panel"), Group: groupStrip, Keys: []Chord{shifted(fyne.KeyDelete)}, Hint: say.T("The panel becomes narrower by it."), Can: w.hasStrip, Do: w.removeStrip},
	)
}

// steps are how far keys move a strip, mm: a little, further, and along the
// panel. Inch projects move by what an inch rule shows.
func (w *Window) steps() [3]float64 {
	if w.ses.Units() == unit.Inch {
		return [3]float64{unit.InchMM / 16, unit.InchMM / 2, unit.InchMM / 4}
	}
	return [3]float64{1, 10, 5}
}

// moveName names a move by key in the project's units.
func (w *Window) moveName(i int, where string) func() string {
	return func() string {
		verb := say.T("Move ")
		if i == 2 {
			verb = say.T("Shift ")
		}
		return verb + w.ses.Len(w.steps()[i]) + " " + where
	}
}

func (w *Window) addMoveActions() {
	for _, m := range []struct {
		id, label string
		key       fyne.KeyName
		by        geom.Point
	}{
		{"left", say.T("left on its board"), fyne.KeyLeft, geom.Pt(-1, 0)},
		{"right", say.T("right on its board"), fyne.KeyRight, geom.Pt(1, 0)},
		{"up", say.T("up on its board"), fyne.KeyUp, geom.Pt(0, 1)},
		{"down", say.T("down on its board"), fyne.KeyDown, geom.Pt(0, -1)},
	} {
		w.acts.add(
			&Action{ID: "move-" + m.id, Label: say.F("Move a little %s", m.label), Long: w.moveName(0, m.label), Group: groupStrip, Keys: []Chord{plain(m.key)}, Do: func() { w.nudge.move(w.seenUp(m.by.Mul(w.steps()[0]))) }},
			&Action{ID: "move-" + m.id + "-10", Label: say.F("Move further %s", m.label), Long: w.moveName(1, m.label), Group: groupStrip, Keys: []Chord{shifted(m.key)}, Do: func() { w.nudge.move(w.seenUp(m.by.Mul(w.steps()[1]))) }},
		)
	}
	w.acts.add(
		&Action{ID: "shift-left", Label: say.T("Shift left in the panel"), Long: w.moveName(2, say.T("left in the panel")), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyLeft)}, Can: w.hasStrip, Do: func() { w.shift(-w.steps()[2]) }},
		&Action{ID: "shift-right", Label: say.T("Shift right in the panel"), Long: w.moveName(2, say.T("right in the panel")), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyRight)}, Can: w.hasStrip, Do: func() { w.shift(w.steps()[2]) }},
		&Action{ID: "angle-less", Label: say.T("Turn 0.5° clockwise on its board"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyComma)}, Can: w.hasPlaced, Do: func() { w.angle(-0.5) }},
		&Action{ID: "angle-more", Label: say.T("Turn 0.5° anticlockwise on its board"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyPeriod)}, Can: w.hasPlaced, Do: func() { w.angle(0.5) }},
		&Action{ID: "next-strip", Label: say.T("Next strip towards the back"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyRightBracket), plain(fyne.KeyPageUp)}, Do: func() { w.cycleStrip(1) }},
		&Action{ID: "prev-strip", Label: say.T("Next strip towards the front"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyLeftBracket), plain(fyne.KeyPageDown)}, Do: func() { w.cycleStrip(-1) }},
		&Action{ID: "next-panel", Label: say.T("Next panel"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyPageDown)}, Do: func() { w.cyclePanel(1) }},
		&Action{ID: "prev-panel", Label: say.T("Panel before"), Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyPageUp)}, Do: func() { w.cyclePanel(-1) }},
		&Action{ID: "next-board", Label: say.T("Next board in hand"), Group: groupBoard, Keys: []Chord{plain(fyne.KeyN)}, Do: func() { w.cycleBoard(1) }},
		&Action{ID: "prev-board", Label: say.T("Board before in hand"), Group: groupBoard, Keys: []Chord{shifted(fyne.KeyN)}, Do: func() { w.cycleBoard(-1) }},
		&Action{ID: "drop", Label: say.T("Let go"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyEscape)}, Hint: say.T("Drops a gesture, then the zone tool, then the strip in hand."), Do: w.letGo},
		&Action{ID: "menu", Label: say.T("Menu for what is in hand"), Group: groupView, Keys: []Chord{shifted(fyne.KeyF10)}, Do: w.menuInHand},
	)
}

func (w *Window) addThingActions() {
	w.acts.add(
		&Action{ID: "new-board", Label: say.T("New board…"), Group: groupBoard, Icon: icon("board"), Keys: []Chord{ctrl(fyne.KeyB)}, Hint: say.T("Give it a letter, chalk it, enter it with a tape."), Do: w.newBoardAsk},
		&Action{ID: "edit-board", Label: say.T("Board in hand…"), Group: groupBoard, Keys: []Chord{plain(fyne.KeyF2)}, Hint: say.T("Size, species and sapwood widths."), Can: w.hasBoard, Do: w.editBoardAsk},
		&Action{ID: "photo", Label: say.T("Photograph of a face…"), Group: groupBoard, Keys: []Chord{plain(fyne.KeyF6)}, Hint: say.T("Choose a picture and click its four corners."), Can: w.hasBoard, Do: w.photoAsk},
		&Action{ID: "remove-board", Label: say.T("Remove the board in hand"), Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyB)}, Hint: say.T("Its strips become empty places."), Can: w.hasBoard, Do: w.removeBoard},
		&Action{ID: "new-panel", Label: say.T("New panel…"), Group: groupPanel, Icon: icon("panel"), Keys: []Chord{ctrl(fyne.KeyT)}, Hint: say.T("Finished size, role and look; a first list of strips is proposed."), Do: w.newPanelAsk},
		&Action{ID: "edit-panel", Label: say.T("Panel on screen…"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyF3)}, Hint: say.T("Role, size, look and limits."), Can: w.hasPanel, Do: w.editPanelAsk},
		&Action{ID: "propose", Label: say.T("Propose strips…"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyF5)}, Hint: say.T("How many strips of which width, from the boards there are."), Can: w.hasPanel, Do: func() { w.proposeAsk(w.panel().ID) }},
		&Action{ID: "fill", Label: say.T("Lay all empty places"), Group: groupPanel, Keys: []Chord{shifted(fyne.KeyReturn)}, Hint: say.T("Each where it fits and shows least unwanted wood."), Can: w.hasEmpty, Do: w.fillPanel},
		&Action{ID: "add-strip", Label: say.T("Add an empty place"), Group: groupPanel, Keys: []Chord{plain(fyne.KeyInsert)}, Hint: say.T("One more strip, at the back."), Can: w.hasPanel, Do: w.addPlace},
		&Action{ID: "remove-panel", Label: say.T("Remove the panel on screen"), Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyT)}, Hint: say.T("What has been sawn for it stays among the spares."), Can: w.hasPanel, Do: w.removePanel},
	)
}

func (w *Window) addViewActions() {
	w.acts.add(
		&Action{ID: "hatch", Label: say.T("Hatch the zones"), Short: say.T("Hatch"), Icon: icon("hatch"), Group: groupView, Keys: []Chord{plain(fyne.KeyH)}, Hint: say.T("Lines over sapwood, flaws and what is not seen."), On: func() bool { return w.surf.show.hatch }, Do: w.toggleHatch},
		&Action{ID: "before", Label: say.T("Before and after"), Short: say.T("Before"), Icon: icon("compare"), Group: groupView, Keys: []Chord{plain(fyne.KeyB)}, Hint: say.T("The panel before the last change beside the panel now."), On: func() bool { return w.surf.show.before }, Do: w.toggleBefore},
		&Action{ID: "zoom-in", Label: say.T("Zoom in"), Group: groupView, Keys: []Chord{plain(fyne.KeyPlus)}, Do: func() { w.surf.zoom(1.25) }},
		&Action{ID: "zoom-out", Label: say.T("Zoom out"), Group: groupView, Keys: []Chord{plain(fyne.KeyMinus)}, Do: func() { w.surf.zoom(1 / 1.25) }},
		&Action{ID: "fit", Label: say.T("Fit"), Icon: icon("fit"), Group: groupView, Keys: []Chord{plain(fyne.Key0)}, Hint: say.T("Show all of the panel and of the board."), Do: w.surfFit},
		&Action{ID: "true", Label: say.T("True size"), Group: groupView, Keys: []Chord{plain(fyne.Key1)}, Hint: say.T("A millimetre of wood is about a millimetre on screen."), Do: func() { w.surf.trueSize() }},
		&Action{ID: "split-less", Label: say.T("More room for the boards"), Group: groupView, Keys: []Chord{plain(fyne.Key8)}, Do: func() { w.surf.split(-0.05) }},
		&Action{ID: "split-more", Label: say.T("More room for the panel"), Group: groupView, Keys: []Chord{plain(fyne.Key9)}, Do: func() { w.surf.split(0.05) }},
		&Action{ID: "next-warning", Label: say.T("Point at the next warning"), Group: groupView, Keys: []Chord{plain(fyne.KeyF8)}, Hint: say.T("Lights its place up."), Do: func() { w.column.cycle(1) }},
		&Action{ID: "apply-fix", Label: say.T("Do the first fix of that warning"), Group: groupView, Keys: []Chord{plain(fyne.KeyF9)}, Do: func() { w.column.firstFix() }},
		&Action{ID: "text-more", Label: say.T("Larger text"), Group: groupView, Keys: []Chord{ctrl(fyne.KeyEqual), ctrl(fyne.KeyPlus)}, Do: func() { w.textStep(1) }},
		&Action{ID: "text-less", Label: say.T("Smaller text"), Group: groupView, Keys: []Chord{ctrl(fyne.KeyMinus)}, Do: func() { w.textStep(-1) }},
	)
}

// zoomAt is where the keys zoom: at the cursor of the keys, else under the
// pointer where it is over an area that zooms, else in the middle of the panel.
func (s *surface) zoomAt() geom.Point {
	sc := s.scene()
	if k := &s.show.sketch; s.show.grain && k.Cursor != nil {
		if at, ok := sc.FacePoint(k.Board, k.Face, *k.Cursor); ok {
			return at
		}
	}
	switch sc.AreaAt(s.pointer.at) {
	case scene.PanelArea, scene.BoardArea:
		return s.pointer.at
	}
	return sc.AreaRect(scene.PanelArea).Centre()
}

func (s *surface) zoom(by float64) {
	s.views = s.scene().Zoomed(s.zoomAt(), by)
	s.stale()
}

func (s *surface) trueSize() {
	sc := s.scene()
	s.views = sc.TrueSize(sc.AreaAt(s.zoomAt()), s.unitsPerMM())
	s.stale()
}

func (s *surface) split(by float64) {
	v := s.views.Split
	if v == 0 {
		v = 0.5
	}
	s.views.Split = min(max(v+by, 0.25), 0.75)
	s.stale()
}

func (w *Window) surfFit() {
	w.surf.views = scene.Views{Split: w.surf.views.Split}
	w.surf.stale()
}
