package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"heartside/app/scene"
	"heartside/app/tool"
	grains "heartside/layout/figure"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// addGrainActions lists what draws lines along the grain.
func (w *Window) addGrainActions() {
	w.acts.add(
		&Action{ID: "grain", Label: say.T("Draw grain lines"), Short: say.T("Grain"), Icon: icon("grain"), Group: groupZones, Keys: []Chord{shifted(fyne.KeyG)},
			Hint: say.T("Lines along the grain of the board in hand, where it is read wrong or no photograph shows it."), Can: w.hasBoard, On: func() bool { return w.surf.show.grain }, Do: func() { w.grainMode(!w.surf.show.grain) }},
		&Action{ID: "grain-read", Label: say.T("Show the grain as it is read"), Short: say.T("As read"), Icon: icon("strokes"), Group: groupZones, Keys: []Chord{plain(fyne.KeyG)},
			Hint: say.T("Short strokes the way the grain is taken to run: from the photograph, and near a grain line as that says."), Can: w.hasBoard, On: func() bool { return w.surf.show.along }, Do: w.toggleAlong},
	)
}

// grainMode takes the tool for grain lines in hand or puts it back.
func (w *Window) grainMode(on bool) {
	w.nudge.settle()
	s := w.surf
	s.show.grain, s.show.zoning, s.show.sketch = on, false, tool.Sketch{}
	sel := w.ses.Selected()
	sel.Strip, sel.Zone = "", -1
	if on {
		s.state = tool.NewGrain(sel.Board, w.grainSteps())
		w.say(say.F("Click along the grain on a face of board %s, or press an arrow for a cursor. Click a line to take it in hand. G shows the grain as it is read. Esc ends.", sel.Board))
	} else {
		s.state = tool.Arrange{}
		w.say("")
	}
	w.ses.Select(sel)
	w.changed()
}

// grainSteps are how far a key moves the cursor along the grain, mm.
func (w *Window) grainSteps() [2]float64 {
	step := w.steps()[1]
	return [2]float64{step, 10 * step}
}

// toggleAlong shows how the grain is read, or no longer.
func (w *Window) toggleAlong() {
	s := w.surf
	s.show.along = !s.show.along
	text := ""
	if b := w.board(); s.show.along && b != nil {
		switch seen, lines := w.ses.GrainPhotographed(b.ID, 1) || w.ses.GrainPhotographed(b.ID, 2), len(b.Faces[0].Grain)+len(b.Faces[1].Grain); {
		case !seen && lines == 0:
			text = say.F("No photograph of board %s shows its grain, and no line is drawn along it: there is nothing to show. Shift+G draws lines.", b.ID)
		case !seen:
			text = say.F("Strokes the way the grain runs by the lines drawn; no photograph of board %s shows it.", b.ID)
		default:
			text = say.T("Strokes the way the grain is taken to run, fainter where that is less sure. Where they are wrong, draw a line along the grain: Shift+G.")
		}
	}
	w.say(text)
	w.changed()
}

// grainTyped gives a key to the tool that draws grain lines; false where the
// window has it.
func (s *surface) grainTyped(name fyne.KeyName) bool {
	k := grainKey(name)
	if k == tool.NoKey || k == tool.Escape && !s.state.Busy() {
		return false
	}
	hand := s.w.ses.Selected().Board
	if g, ok := s.state.(tool.Grain); ok && g.Board != hand {
		s.state = tool.NewGrain(hand, s.w.grainSteps()) // another board was taken in hand
	}
	s.handle(tool.Event{Kind: tool.Typed, Key: k, At: s.pointer.at})
	return true
}

// grainKey is the key of the tool, among those the other tools leave to the
// window too.
func grainKey(name fyne.KeyName) tool.Key {
	switch name {
	case fyne.KeyLeft:
		return tool.Left
	case fyne.KeyRight:
		return tool.Right
	case fyne.KeyUp:
		return tool.Up
	case fyne.KeyDown:
		return tool.Down
	case fyne.KeyHome:
		return tool.Home
	case fyne.KeyEnd:
		return tool.End
	case fyne.KeySpace:
		return tool.Space
	}
	return toolKey(name)
}

// grainReading is which maps of the grain are being worked out.
type grainReading struct{ busy [2]bool }

// grain is what is drawn of the grain of the board in hand.
func (s *surface) grain(b *model.Board) scene.Grain {
	out := scene.Grain{On: s.show.grain, Line: -1}
	if b == nil {
		return out
	}
	for i := range b.Faces {
		out.Lines[i] = b.Faces[i].Grain
	}
	if h, ok := s.state.(interface{ Held() (string, int, int) }); ok && s.show.grain {
		if board, face, line := h.Held(); board == b.ID {
			out.Face, out.Line = face, line
		}
	}
	if !s.show.along {
		return out
	}
	for i := range out.Read {
		m, read := s.w.ses.GrainMap(b.ID, i+1)
		if m != nil {
			out.Read[i] = alongOf(m)
		}
		if read != nil && !s.reading.busy[i] {
			s.readGrain(i, read)
		}
	}
	return out
}

// readGrain works out how the grain of a face runs, beside the window.
func (s *surface) readGrain(i int, read func(context.Context)) {
	s.reading.busy[i] = true
	go func() {
		done := false
		defer func() {
			_ = recover() // what cannot be read is not shown, and not tried again
			if s.w.work.Err() == nil {
				s.w.post(func() {
					s.reading.busy[i] = !done
					s.stale()
				})
			}
		}()
		read(s.w.work)
		done = true
	}()
}

// alongOf reads a map for the drawing.
func alongOf(m *grains.Map) scene.Along {
	return func(p geom.Point) (float64, float64) {
		c := m.At(p)
		return c.Angle, c.Coherence
	}
}

// grainHint is the line for a place while grain lines are drawn.
func grainHint(w *Window, h scene.Hit) string {
	switch h.Part {
	case scene.BoardFace, scene.BoardStrip, scene.RotateHandle:
		return say.T("Click to begin a line along the grain; click a line to take it in hand, Ctrl+click begins one on top. Arrows: a cursor, Enter: the next line, G: the grain as it is read. Esc ends.")
	}
	return ""
}
