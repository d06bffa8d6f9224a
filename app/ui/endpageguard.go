package ui

import "heartside/model/say"

// guardEnds has undo and redo work inside the page of an end, and makes what
// would leave the page ask first. It is done once a window.
func (w *Window) guardEnds() {
	const done = "end-guard"
	if w.acts.byID[done] != nil {
		return
	}
	w.guardFaces()
	w.acts.byID[done] = &Action{ID: done}
	here := func() *endPage { p, _ := w.page.(*endPage); return p }
	for id, of := range map[string]struct {
		can func(*endPage) bool
		do  func(*endPage)
	}{"undo": {(*endPage).canUndo, (*endPage).undo}, "redo": {(*endPage).canRedo, (*endPage).redo}} {
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
				p.ask(say.T("Leave it out"), was)
			default:
				p.leave(func() {
					w.turnTo(p.from)
					was()
				})
			}
		}
	}
	w.win.SetCloseIntercept(func() {
		leave := func(from page) {
			w.turnTo(from)
			w.close()
		}
		switch p := w.page.(type) {
		case *endPage:
			if w.asks == nil && p.unsaved() {
				p.leave(func() { leave(p.from) })
				return
			}
		case *facePage:
			if w.asks == nil && p.unsaved() {
				p.leave(func() { leave(p.from) })
				return
			}
		}
		w.close()
	})
}
