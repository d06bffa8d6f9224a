package ui

import (
	"context"

	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/model"
	"heartside/model/say"
)

// savedFace is the draft as the project has it.
type savedFace struct {
	lie  faceLie
	mask *photo.Mask
}

// unsaved reports whether there is something that the project has not.
func (p *facePage) unsaved() bool {
	if !p.corners.lie.same(p.saved.lie) || p.corners.lie.waney != p.corners.used.waney {
		return true
	}
	k := p.zones.work
	return k != nil && (k.now.mask != p.saved.mask || k.busy())
}

// looksRight takes the face as it is into the project as one change, and goes
// on to the next one to look at.
func (p *facePage) looksRight() {
	p.keep(func() {
		b, face, ok := p.w.faceAfter(p.board, p.face)
		if !ok {
			p.stop()
			p.w.turnTo(p.from)
			p.w.say(say.F("Board %s, face %s is checked. No face is left to look at.", p.board, itoa(p.face)))
			return
		}
		p.w.openFace(b, face)
		p.w.say(say.F("Board %s, face %s is checked. This is the next one to look at.", p.board, itoa(p.face)))
	})
}

// keep takes the face as it is into the project; then follows.
func (p *facePage) keep(then func()) {
	if p.making != "" {
		if !p.keepAsFound(then) {
			p.w.say(say.F("The face is not ready yet: %s", p.making))
		}
		return
	}
	if !p.corners.lie.same(p.corners.used) || p.corners.lie.waney != p.corners.used.waney || p.zones.work == nil {
		p.corners.use(func() { p.keep(then) })
		return
	}
	z := p.zones
	z.drop()
	var drawn struct {
		zones []model.Zone
		base  model.ZoneKind
		tones []model.Tone
		mask  *photo.Mask
		ring  geom.Polygon
		sure  float64
	}
	sq := z.sq
	z.waits = append(z.waits, faceMark{})
	z.work.do(faceJob{
		act: func(ctx context.Context, ed faceEditor) (err error) {
			drawn.mask = ed.Mask()
			if r := ed.Result(); r != nil {
				drawn.sure = min(max(r.Confidence, 0), 1)
			}
			if drawn.ring, err = outlineOf(ed); err != nil {
				return err
			}
			drawn.zones, drawn.base, err = intake.ZonesOf(intake.WithHoles(drawn.mask, drawn.ring))
			drawn.tones = intake.TonesOf(ctx, sq, drawn.mask)
			return err
		},
		then: func() {
			b := p.w.ses.Committed().Board(p.board)
			if b == nil {
				return
			}
			f := b.Faces[p.face-1]
			// What was not touched keeps its zones to the point.
			if drawn.mask != p.saved.mask || f.Open() || f.Split == nil && !byHand(&f) {
				f.Zones, f.Base, f.Outline = drawn.zones, drawn.base, drawn.ring
				f.Split = nil
			}
			if f.Split == nil {
				f.Split = &model.Split{Sure: drawn.sure}
			}
			f.Split = &model.Split{By: model.SplitChecked, Sure: f.Split.Sure}
			v := p.corners.used.view()
			f.Corners, f.Bow, f.Known = &v.Corners, v.Bow, true
			if drawn.tones != nil {
				f.Tones = drawn.tones
			}
			p.base = f
			p.saved = savedFace{p.corners.lie, drawn.mask}
			if p.w.commit(model.SetFace{Board: p.board, Face: p.face, Value: f}) && then != nil {
				then()
			}
		},
	})
	p.show()
}

// keepAsFound accepts what the program found while the face is still being
// made ready to be changed.
func (p *facePage) keepAsFound(then func()) bool {
	b := p.w.ses.Committed().Board(p.board)
	if b == nil || p.unsaved() {
		return false
	}
	f := b.Faces[p.face-1]
	if f.Split == nil || f.Split.By != model.SplitFound {
		return false
	}
	f.Split = &model.Split{By: model.SplitChecked, Sure: f.Split.Sure}
	if p.w.commit(model.SetFace{Board: p.board, Face: p.face, Value: f}) && then != nil {
		then()
	}
	return true
}

// leave asks about what is not kept yet, then goes on elsewhere.
func (p *facePage) leave(then func()) {
	p.settle(say.T("Drop"), func() { p.stop(); then() })
}

// settle asks about what is not kept yet; then follows with it in the project
// or, by the way called without, not.
func (p *facePage) settle(without string, then func()) {
	if !p.unsaved() {
		then()
		return
	}
	p.w.ask(question{title: say.T("Keep what you changed?"), yes: say.T("Keep"), other: without, no: say.T("Go on"), plain: true,
		body: wrapped(say.F("Face %s of board %s was changed. Keep takes it into the project as one change; “%s” leaves the project as it was; Go on stays here.", itoa(p.face), p.board, without), widget.MediumImportance),
		do: func() error {
			p.w.post(func() { p.keep(then) })
			return nil
		},
		also: then})
}

// origin implements drafted.
func (p *facePage) origin() page { return p.from }

// back implements page: Escape drops what is under way, then the tool, then
// leaves.
func (p *facePage) back() (page, bool) {
	if p.step == stepCorners && (p.corners.tape.back() || p.corners.pic.letGo()) {
		return nil, true
	}
	if p.step == stepZones {
		if p.zones.drop() {
			return nil, true
		}
		if p.zones.hand.mode != modeNone {
			p.zones.take(modeNone)
			return nil, true
		}
	}
	p.leave(func() { p.w.turnTo(p.from) })
	return nil, true
}

// faceAfter is the next face to look at after one, round the end; not that
// one itself.
func (w *Window) faceAfter(board string, face int) (string, int, bool) {
	boards := w.ses.Project().Boards
	n, from := 2*len(boards), 0
	for i, b := range boards {
		if b.ID == board {
			from = 2*i + face - 1
		}
	}
	for k := 1; k < n; k++ {
		i := (from + k) % n
		if b, f := boards[i/2], i%2+1; faceState(w.ses, b, f).kind == cellLook {
			return b.ID, f, true
		}
	}
	return "", 0, false
}

// guardFaces has undo and redo work inside the page of a face, and makes what
// would leave the page ask first. It is done once a window.
func (w *Window) guardFaces() {
	const done = "face-guard"
	if w.acts.byID[done] != nil {
		return
	}
	w.acts.byID[done] = &Action{ID: done}
	here := func() *facePage { p, _ := w.page.(*facePage); return p }
	for id, of := range map[string]struct {
		can func(*facePage) bool
		do  func(*facePage)
	}{"undo": {(*facePage).canUndo, (*facePage).undo}, "redo": {(*facePage).canRedo, (*facePage).redo}} {
		a := w.acts.byID[id]
		can, was := a.Can, a.Do
		a.Can = func() bool {
			if p := here(); p != nil {
				return of.can(p)
			}
			return can == nil || can()
		}
		a.Do = func() {
			if p := here(); p != nil {
				of.do(p)
				return
			}
			was()
		}
	}
	for id, stays := range map[string]bool{"rack": false, "rack-photos": false, "new": false, "open": false, "demo": false, "quit": false, "save": true, "save-as": true, "sheet": true} {
		a := w.acts.byID[id]
		if a == nil {
			continue
		}
		was := a.Do
		a.Do = func() {
			switch p := here(); {
			case p == nil || !p.unsaved():
				was()
			case stays:
				p.settle(say.T("Leave it out"), was)
			default:
				p.leave(func() {
					w.turnTo(p.from)
					was()
				})
			}
		}
	}
	w.win.SetCloseIntercept(func() {
		if p := here(); p != nil && w.asks == nil && p.unsaved() {
			p.leave(func() {
				w.turnTo(p.from)
				w.close()
			})
			return
		}
		w.close()
	})
}

// canUndo and canRedo tell whether the page has an act to take back, or to do
// again.
func (p *facePage) canUndo() bool {
	if p.step == stepCorners {
		return len(p.corners.past) > 0 || p.corners.pic.walking || p.corners.canUndoSize()
	}
	k := p.zones.work
	return k != nil && (k.now.touched || k.busy() || len(p.zones.hand.points) > 0)
}

func (p *facePage) canRedo() bool {
	if p.step == stepCorners {
		return len(p.corners.ahead) > 0 || p.corners.canRedoSize()
	}
	k := p.zones.work
	return k != nil && k.now.canRedo
}

func (p *facePage) undo() {
	if p.step == stepCorners {
		p.corners.pic.settle()
		p.corners.undo()
		return
	}
	p.zones.undo()
}

func (p *facePage) redo() {
	if p.step == stepCorners {
		p.corners.redo()
		return
	}
	p.zones.redo()
}
