package ui

import (
	"fyne.io/fyne/v2"

	"heartside/app/tool"
	"heartside/model"
	"heartside/model/say"
)

// brushSizes are the radii of the brush, mm.
func brushSizes() []float64 { return []float64{3, 6, 12, 25, 50} }

func (w *Window) addZoneActions() {
	w.addSurfaceActions()
	w.addGrainActions()
	on := func() bool { return w.surf.show.zoning }
	w.acts.add(
		&Action{ID: "zones", Label: say.T("Edit zones"), Short: say.T("Zones"), Icon: icon("zones"), Group: groupZones, Keys: []Chord{plain(fyne.KeyZ)}, Hint: say.T("Draw and change sapwood, heartwood, flaws and what is not seen on the board in hand."), Can: w.hasBoard, On: on, Do: func() { w.zoneMode(!w.surf.show.zoning) }},
		&Action{ID: "zone-sap", Label: say.T("Draw sapwood"), Short: say.T("Sapwood"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyS)}, Can: w.hasBoard, On: w.isKind(model.Sap), Do: func() { w.zoneKind(model.Sap) }},
		&Action{ID: "zone-heart", Label: say.T("Draw heartwood"), Short: say.T("Heartwood"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyH)}, Can: w.hasBoard, On: w.isKind(model.Heart), Do: func() { w.zoneKind(model.Heart) }},
		&Action{ID: "zone-flaw", Label: say.T("Draw a flaw"), Short: say.T("Flaw"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyF)}, Hint: say.T("Knot, split, wane or bark."), Can: w.hasBoard, On: w.isKind(model.Flaw), Do: func() { w.zoneKind(model.Flaw) }},
		&Action{ID: "zone-unseen", Label: say.T("Draw what is not seen yet"), Short: say.T("Unseen"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyU)}, Can: w.hasBoard, On: w.isKind(model.Unseen), Do: func() { w.zoneKind(model.Unseen) }},
		&Action{ID: "zone-polygon", Label: say.T("Corner by corner"), Short: say.T("Corners"), Icon: icon("polygon"), Group: groupZones, Keys: []Chord{plain(fyne.KeyC)}, Hint: say.T("Click the corners; drag a corner to move it, an edge to add one."), Can: on, On: func() bool { return on() && w.surf.show.brush == 0 }, Do: func() { w.zoneBrush(0) }},
		&Action{ID: "zone-brush", Label: say.T("Brush"), Icon: icon("brush"), Group: groupZones, Keys: []Chord{plain(fyne.KeyX)}, Hint: say.T("Paint a zone; the next press takes the next size."), Can: on, On: func() bool { return on() && w.surf.show.brush > 0 }, Do: w.nextBrush},
		&Action{ID: "zone-become", Label: say.T("Give the zone in hand the kind chosen"), Short: say.T("Change kind"), Group: groupZones, Keys: []Chord{plain(fyne.KeyK)}, Can: w.hasZone, Do: w.zoneBecomes},
		&Action{ID: "zone-through", Label: say.T("Take the zones through to the other face"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyT)}, Hint: say.T("The other face gets the same zones, straight through the board."), Can: w.hasFace, Do: w.zonesThrough},
	)
}

func (w *Window) isKind(k model.ZoneKind) func() bool {
	return func() bool { return w.surf.show.zoning && w.surf.show.kind == k }
}

func (w *Window) hasZone() bool { return w.surf.show.zoning && w.ses.Selected().Zone >= 0 }

func (w *Window) hasFace() bool {
	sel := w.ses.Selected()
	return w.surf.show.zoning && w.board() != nil && sel.Face >= 1
}

// zoneMode takes the zone tool in hand or puts it back.
func (w *Window) zoneMode(on bool) {
	w.nudge.settle()
	s := w.surf
	s.show.zoning, s.show.grain, s.show.sketch = on, false, tool.Sketch{}
	sel := w.ses.Selected()
	sel.Strip, sel.Zone = "", -1
	if on {
		s.state = tool.NewZones(s.show.kind, s.show.brush)
		w.say(say.T("Click a zone to take it in hand, or bare wood to begin a new one. Ctrl+click begins one on top of another zone. Esc ends."))
	} else {
		s.state = tool.Arrange{}
		w.say("")
	}
	w.ses.Select(sel)
	w.changed()
}

// retool gives the zone tool another kind or brush, with what it holds.
func (w *Window) retool() {
	s := w.surf
	z, ok := s.state.(tool.Zones)
	if !ok {
		z = tool.NewZones(s.show.kind, s.show.brush)
		if sel := w.ses.Selected(); sel.Zone >= 0 {
			z = z.Hold(sel.Board, sel.Face, sel.Zone)
		}
	}
	z.Kind, z.Brush = s.show.kind, s.show.brush
	s.state = z
	w.changed()
}

func (w *Window) zoneKind(k model.ZoneKind) {
	w.surf.show.kind = k
	if !w.surf.show.zoning {
		w.zoneMode(true)
		return
	}
	w.retool()
}

func (w *Window) zoneBrush(r float64) {
	w.surf.show.brush = r
	w.retool()
}

// nextBrush takes the brush in hand, or its next size.
func (w *Window) nextBrush() {
	sizes := brushSizes()
	next := sizes[1]
	for i, r := range sizes {
		if r == w.surf.show.brush {
			next = sizes[(i+1)%len(sizes)]
		}
	}
	w.zoneBrush(next)
	w.say(say.F("Brush of %s across. Press X again for the next size, C for corner by corner.", w.ses.Len(2*next)))
}

// zoneBecomes changes the kind of the zone in hand.
func (w *Window) zoneBecomes() {
	sel := w.ses.Selected()
	zones := append([]model.Zone(nil), w.board().Faces[sel.Face-1].Zones...)
	zones[sel.Zone].Kind = w.surf.show.kind
	w.commit(model.SetZones{Board: sel.Board, Face: sel.Face, Zones: zones, Verb: say.F("Make a zone %s", string(w.surf.show.kind))})
}

// zonesThrough copies the zones of the face in hand to the other one.
func (w *Window) zonesThrough() {
	sel := w.ses.Selected()
	b := w.board()
	m := w.ses.Board(b.ID).Other()
	f := b.Faces[sel.Face-1]
	other := b.Faces[2-sel.Face]
	other.Base, other.Known, other.Zones = f.Base, true, nil
	for _, z := range f.Zones {
		other.Zones = append(other.Zones, model.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
	}
	w.commit(model.SetFace{Board: b.ID, Face: 3 - sel.Face, Value: other})
}

func (w *Window) toggleHatch() {
	w.surf.show.hatch = !w.surf.show.hatch
	w.changed()
}

// toggleBefore shows the panel as it was beside the panel as it is.
func (w *Window) toggleBefore() {
	w.surf.show.before = !w.surf.show.before
	if w.surf.show.before && w.ses.Before() == nil {
		w.say(say.T("Nothing has been changed yet: after a change the panel before it stands at the left."))
	}
	w.changed()
}

// textStep takes the next larger or smaller text size.
func (w *Window) textStep(by int) {
	sizes := TextSizes()
	at := 0
	for i, v := range sizes {
		if v <= w.look.TextPercent() {
			at = i
		}
	}
	if at += by; at >= 0 && at < len(sizes) {
		w.restyle(w.look.look, sizes[at])
	}
}
