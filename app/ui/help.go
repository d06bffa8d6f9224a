package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// keysShow lists the keys, made from the actions themselves.
func (w *Window) keysShow() {
	body := container.NewVBox(wrapped(say.T("Letters, arrows and signs work while the drawing surface has the keyboard: click it, or press Tab until its border lights up."), widget.LowImportance))
	for _, group := range []string{groupStrip, groupPanel, groupBoard, groupZones, groupView, groupFile} {
		body.Add(bold(groupWords(group)))
		var rows []fyne.CanvasObject
		for _, a := range w.acts.list {
			if a.Group == group && len(a.Keys) > 0 {
				key := widget.NewLabel(a.keyNames())
				key.TextStyle.Bold = true
				rows = append(rows, key, wrapped(a.name(), widget.MediumImportance))
			}
		}
		body.Add(pairs(rows...))
	}
	body.Add(bold(say.T("At the rack of boards")))
	body.Add(wrapped(say.T("Arrows: from cell to cell. Enter: look at the face, or choose its picture. A accept, R read again, P choose a picture, D or Del remove the photograph, N next face to look at. Esc: back to the panels; photographs are read on."), widget.MediumImportance))
	body.Add(bold(say.T("Where a panel is arranged")))
	body.Add(wrapped(say.T(arrangeKeys), widget.MediumImportance))
	body.Add(bold(say.T("At the edges that match")))
	body.Add(wrapped(say.T(matchKeys), widget.MediumImportance))
	body.Add(bold(say.T("At the yard")))
	body.Add(wrapped(say.T(yardKeys), widget.MediumImportance))
	body.Add(bold(say.T("At the bench")))
	body.Add(wrapped(say.T(benchKeys), widget.MediumImportance))
	body.Add(bold(say.T("At the layout sheet")))
	body.Add(wrapped(say.T(sheetKeys), widget.MediumImportance))
	body.Add(bold(say.T("Pointer")))
	body.Add(wrapped(say.T("Wheel: zoom at the pointer. Drag with the middle or right button, or with Space: move the view. While dragging a strip: Ctrl no snapping, Shift along or across only. In the panel: up or down reorders, with Ctrl swaps; sideways slides along the board, with Shift shifts along the panel. Esc drops any gesture."), widget.MediumImportance))
	w.ask(question{title: say.T("Keys"), body: body, size: fyne.NewSize(640, 640)})
}

func (w *Window) aboutShow() {
	w.tellAll(say.T("Heartside"), say.T(`Plans panels glued up from boards with dark heartwood and light sapwood in them, and says where a lone light streak would look like a mistake.

Light shares are exact areas of the zones as entered; a tape or a photograph is as good as the hand that took it. Colours on screen and their ageing are illustrations: test on an offcut of the same board, heartwood and sapwood, through every step of the finish.

All limits of the warnings are engineering choices with no published source; they stand in the project settings. Values of the woods are shown with where they come from.

Movement, strength, sag and tipping are not judged here: local codes, standards or an engineer.`))
}

// groupWords is the heading of a group of actions.
func groupWords(group string) string {
	switch group {
	case groupFile:
		return say.T("File")
	case groupStrip:
		return say.T("Strip in hand")
	case groupPanel:
		return say.T("Panel")
	case groupBoard:
		return say.T("Boards")
	case groupZones:
		return say.T("Zones of a face")
	case groupView:
		return say.T("View")
	}
	return group
}
