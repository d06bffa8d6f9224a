package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"heartside/app/scene"
	"heartside/layout/geom"
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
		&Action{ID: "new", Label: "New project", Group: groupFile, Keys: []Chord{ctrl(fyne.KeyN)}, Hint: "Begin with no boards and no panels.", Do: w.newProject},
		&Action{ID: "open", Label: "Open…", Short: "Open", Icon: theme.FolderOpenIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyO)}, Hint: "Open a project file.", Do: w.openAsk},
		&Action{ID: "save", Label: "Save", Icon: theme.DocumentSaveIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyS)}, Hint: "Write the project to its file.", Do: w.save},
		&Action{ID: "save-as", Label: "Save as…", Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyS)}, Hint: "Write the project to another file.", Do: func() { w.saveAs(nil) }},
		&Action{ID: "demo", Label: "Open the demo", Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyD)}, Hint: "A hall console of six black-walnut boards.", Do: w.demoAsk},
		&Action{ID: "project", Label: "Project settings…", Group: groupFile, Keys: []Chord{ctrlShift(fyne.KeyP)}, Hint: "Name, units, allowances, machines and limits.", Do: w.projectAsk},
		&Action{ID: "quit", Label: "Quit", Group: groupFile, Keys: []Chord{ctrl(fyne.KeyQ)}, Hint: "Close the window; unsaved changes are asked about.", Do: w.close},
		&Action{ID: "undo", Label: "Undo", Icon: theme.ContentUndoIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyZ)}, Hint: "Take the last change back.",
			Can: func() bool { return w.ses.CanUndo() || w.nudge.strip != "" }, Do: w.undo},
		&Action{ID: "redo", Label: "Redo", Icon: theme.ContentRedoIcon(), Group: groupFile, Keys: []Chord{ctrl(fyne.KeyY), ctrlShift(fyne.KeyZ)}, Hint: "Make the change taken back again.",
			Can: w.ses.CanRedo, Do: func() { w.nudge.settle(); w.ses.Redo() }},
		&Action{ID: "keys", Label: "Keys", Group: groupView, Keys: []Chord{plain(fyne.KeyF1)}, Hint: "The list of keys.", Do: w.keysShow},
		&Action{ID: "explain", Label: "How are the readings meant?", Group: groupView, Keys: []Chord{plain(fyne.KeyF7)}, Hint: "What the figures in the column say and what they rest on.", Do: w.explainShow},
		&Action{ID: "about", Label: "About Heartside", Group: groupView, Keys: []Chord{shifted(fyne.KeyF1)}, Hint: "What it is, and what its numbers rest on.", Do: w.aboutShow},
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
		&Action{ID: "roll", Label: "Roll over", Short: "Roll", Icon: icon("roll"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyR)}, Hint: "Show the strip's other face.", Can: w.hasStrip, Do: w.rollOver},
		&Action{ID: "turn", Label: "Turn end for end", Short: "Turn", Icon: icon("turn"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyT)}, Hint: "The same face, the marked end at the other side.", Can: w.hasStrip, Do: w.turnEnd},
		&Action{ID: "swap", Label: "Swap with the next", Short: "Swap", Icon: icon("swap"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyS)}, Hint: "Let the strip and the one behind it change places.", Can: w.hasNext, Do: w.swapNext},
		&Action{ID: "forward", Label: "Move one place to the front", Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyDown)}, Hint: "One place nearer to the front edge.", Can: w.hasStrip, Do: func() { w.reorder(-1) }},
		&Action{ID: "backward", Label: "Move one place to the back", Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyUp)}, Hint: "One place nearer to the back edge.", Can: w.hasStrip, Do: func() { w.reorder(1) }},
		&Action{ID: "place", Label: "Lay on the board in hand", Short: "Lay", Icon: icon("place"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyReturn), plain(fyne.KeyEnter)}, Hint: "Lay the empty place on the board in hand where it fits and shows least unwanted wood.", Can: w.canPlace, Do: w.layOnBoard},
		&Action{ID: "lift", Label: "Lift off its board", Short: "Lift", Icon: icon("lift"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyDelete)}, Hint: "Leave an empty place in the panel.", Can: w.hasPlaced, Do: w.lift},
		&Action{ID: "pin", Label: "Pin", Icon: icon("pin"), Group: groupStrip, Keys: []Chord{plain(fyne.KeyP)}, Hint: "Hold the strip where it is.", Can: w.hasPlaced, On: w.isPinned, Do: w.pin},
		&Action{ID: "size", Label: "Size of the strip…", Group: groupStrip, Keys: []Chord{plain(fyne.KeyF4)}, Hint: "Length, width and angle in figures.", Can: w.hasStrip, Do: w.stripAsk},
		&Action{ID: "planed", Label: "Widths after planing…", Group: groupStrip, Keys: []Chord{plain(fyne.KeyW)}, Hint: "Type in the sapwood widths found on the planed strip; only this strip is judged again.", Can: w.hasPlaced, Do: w.planedAsk},
		&Action{ID: "remove-strip", Label: "Take the strip out of the panel", Group: groupStrip, Keys: []Chord{shifted(fyne.KeyDelete)}, Hint: "The panel becomes narrower by it.", Can: w.hasStrip, Do: w.removeStrip},
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
		verb := "Move "
		if i == 2 {
			verb = "Shift "
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
		{"left", "left on its board", fyne.KeyLeft, geom.Pt(-1, 0)},
		{"right", "right on its board", fyne.KeyRight, geom.Pt(1, 0)},
		{"up", "up on its board", fyne.KeyUp, geom.Pt(0, 1)},
		{"down", "down on its board", fyne.KeyDown, geom.Pt(0, -1)},
	} {
		w.acts.add(
			&Action{ID: "move-" + m.id, Label: "Move a little " + m.label, Long: w.moveName(0, m.label), Group: groupStrip, Keys: []Chord{plain(m.key)}, Do: func() { w.nudge.move(w.seenUp(m.by.Mul(w.steps()[0]))) }},
			&Action{ID: "move-" + m.id + "-10", Label: "Move further " + m.label, Long: w.moveName(1, m.label), Group: groupStrip, Keys: []Chord{shifted(m.key)}, Do: func() { w.nudge.move(w.seenUp(m.by.Mul(w.steps()[1]))) }},
		)
	}
	w.acts.add(
		&Action{ID: "shift-left", Label: "Shift left in the panel", Long: w.moveName(2, "left in the panel"), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyLeft)}, Can: w.hasStrip, Do: func() { w.shift(-w.steps()[2]) }},
		&Action{ID: "shift-right", Label: "Shift right in the panel", Long: w.moveName(2, "right in the panel"), Group: groupStrip, Keys: []Chord{ctrl(fyne.KeyRight)}, Can: w.hasStrip, Do: func() { w.shift(w.steps()[2]) }},
		&Action{ID: "angle-less", Label: "Turn 0.5° clockwise on its board", Group: groupStrip, Keys: []Chord{plain(fyne.KeyComma)}, Can: w.hasPlaced, Do: func() { w.angle(-0.5) }},
		&Action{ID: "angle-more", Label: "Turn 0.5° anticlockwise on its board", Group: groupStrip, Keys: []Chord{plain(fyne.KeyPeriod)}, Can: w.hasPlaced, Do: func() { w.angle(0.5) }},
		&Action{ID: "next-strip", Label: "Next strip towards the back", Group: groupPanel, Keys: []Chord{plain(fyne.KeyRightBracket), plain(fyne.KeyPageUp)}, Do: func() { w.cycleStrip(1) }},
		&Action{ID: "prev-strip", Label: "Next strip towards the front", Group: groupPanel, Keys: []Chord{plain(fyne.KeyLeftBracket), plain(fyne.KeyPageDown)}, Do: func() { w.cycleStrip(-1) }},
		&Action{ID: "next-panel", Label: "Next panel", Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyPageDown)}, Do: func() { w.cyclePanel(1) }},
		&Action{ID: "prev-panel", Label: "Panel before", Group: groupPanel, Keys: []Chord{ctrl(fyne.KeyPageUp)}, Do: func() { w.cyclePanel(-1) }},
		&Action{ID: "next-board", Label: "Next board in hand", Group: groupBoard, Keys: []Chord{plain(fyne.KeyN)}, Do: func() { w.cycleBoard(1) }},
		&Action{ID: "prev-board", Label: "Board before in hand", Group: groupBoard, Keys: []Chord{shifted(fyne.KeyN)}, Do: func() { w.cycleBoard(-1) }},
		&Action{ID: "drop", Label: "Let go", Group: groupPanel, Keys: []Chord{plain(fyne.KeyEscape)}, Hint: "Drops a gesture, then the zone tool, then the strip in hand.", Do: w.letGo},
		&Action{ID: "menu", Label: "Menu for what is in hand", Group: groupView, Keys: []Chord{shifted(fyne.KeyF10)}, Do: w.menuInHand},
	)
}

func (w *Window) addThingActions() {
	w.acts.add(
		&Action{ID: "new-board", Label: "New board…", Group: groupBoard, Icon: icon("board"), Keys: []Chord{ctrl(fyne.KeyB)}, Hint: "Give it a letter, chalk it, enter it with a tape.", Do: w.newBoardAsk},
		&Action{ID: "edit-board", Label: "Board in hand…", Group: groupBoard, Keys: []Chord{plain(fyne.KeyF2)}, Hint: "Size, species and sapwood widths.", Can: w.hasBoard, Do: w.editBoardAsk},
		&Action{ID: "photo", Label: "Photograph of a face…", Group: groupBoard, Keys: []Chord{plain(fyne.KeyF6)}, Hint: "Choose a picture and click its four corners.", Can: w.hasBoard, Do: w.photoAsk},
		&Action{ID: "remove-board", Label: "Remove the board in hand", Group: groupBoard, Keys: []Chord{ctrlShift(fyne.KeyB)}, Hint: "Its strips become empty places.", Can: w.hasBoard, Do: w.removeBoard},
		&Action{ID: "new-panel", Label: "New panel…", Group: groupPanel, Icon: icon("panel"), Keys: []Chord{ctrl(fyne.KeyT)}, Hint: "Finished size, role and look; a first list of strips is proposed.", Do: w.newPanelAsk},
		&Action{ID: "edit-panel", Label: "Panel on screen…", Group: groupPanel, Keys: []Chord{plain(fyne.KeyF3)}, Hint: "Role, size, look and limits.", Can: w.hasPanel, Do: w.editPanelAsk},
		&Action{ID: "propose", Label: "Propose strips…", Group: groupPanel, Keys: []Chord{plain(fyne.KeyF5)}, Hint: "How many strips of which width, from the boards there are.", Can: w.hasPanel, Do: func() { w.proposeAsk(w.panel().ID) }},
		&Action{ID: "fill", Label: "Lay all empty places", Group: groupPanel, Keys: []Chord{shifted(fyne.KeyReturn)}, Hint: "Each where it fits and shows least unwanted wood.", Can: w.hasEmpty, Do: w.fillPanel},
		&Action{ID: "add-strip", Label: "Add an empty place", Group: groupPanel, Keys: []Chord{plain(fyne.KeyInsert)}, Hint: "One more strip, at the back.", Can: w.hasPanel, Do: w.addPlace},
		&Action{ID: "remove-panel", Label: "Remove the panel on screen", Group: groupPanel, Keys: []Chord{ctrlShift(fyne.KeyT)}, Hint: "What has been sawn for it stays among the spares.", Can: w.hasPanel, Do: w.removePanel},
	)
}

func (w *Window) addViewActions() {
	w.acts.add(
		&Action{ID: "hatch", Label: "Hatch the zones", Short: "Hatch", Icon: icon("hatch"), Group: groupView, Keys: []Chord{plain(fyne.KeyH)}, Hint: "Lines over sapwood, flaws and what is not seen.", On: func() bool { return w.surf.show.hatch }, Do: w.toggleHatch},
		&Action{ID: "before", Label: "Before and after", Short: "Before", Icon: icon("compare"), Group: groupView, Keys: []Chord{plain(fyne.KeyB)}, Hint: "The panel before the last change beside the panel now.", On: func() bool { return w.surf.show.before }, Do: w.toggleBefore},
		&Action{ID: "zoom-in", Label: "Zoom in", Group: groupView, Keys: []Chord{plain(fyne.KeyPlus)}, Do: func() { w.surf.zoom(1.25) }},
		&Action{ID: "zoom-out", Label: "Zoom out", Group: groupView, Keys: []Chord{plain(fyne.KeyMinus)}, Do: func() { w.surf.zoom(1 / 1.25) }},
		&Action{ID: "fit", Label: "Fit", Icon: icon("fit"), Group: groupView, Keys: []Chord{plain(fyne.Key0)}, Hint: "Show all of the panel and of the board.", Do: w.surfFit},
		&Action{ID: "true", Label: "True size", Group: groupView, Keys: []Chord{plain(fyne.Key1)}, Hint: "A millimetre of wood is about a millimetre on screen.", Do: func() { w.surf.trueSize() }},
		&Action{ID: "split-less", Label: "More room for the boards", Group: groupView, Keys: []Chord{plain(fyne.Key8)}, Do: func() { w.surf.split(-0.05) }},
		&Action{ID: "split-more", Label: "More room for the panel", Group: groupView, Keys: []Chord{plain(fyne.Key9)}, Do: func() { w.surf.split(0.05) }},
		&Action{ID: "next-warning", Label: "Point at the next warning", Group: groupView, Keys: []Chord{plain(fyne.KeyF8)}, Hint: "Lights its place up.", Do: func() { w.column.cycle(1) }},
		&Action{ID: "apply-fix", Label: "Do the first fix of that warning", Group: groupView, Keys: []Chord{plain(fyne.KeyF9)}, Do: func() { w.column.firstFix() }},
		&Action{ID: "text-more", Label: "Larger text", Group: groupView, Keys: []Chord{ctrl(fyne.KeyEqual), ctrl(fyne.KeyPlus)}, Do: func() { w.textStep(1) }},
		&Action{ID: "text-less", Label: "Smaller text", Group: groupView, Keys: []Chord{ctrl(fyne.KeyMinus)}, Do: func() { w.textStep(-1) }},
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
