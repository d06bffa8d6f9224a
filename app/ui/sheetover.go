package ui

// draft is the page under the sheet where its work is not kept yet, nil
// otherwise.
func (p *sheetPage) draft() drafted {
	if d, ok := p.from.(drafted); ok && d.unsaved() {
		return d
	}
	return nil
}

// unsaved implements drafted for the page under the sheet.
func (p *sheetPage) unsaved() bool { return p.draft() != nil }

// leave implements drafted: the page under the sheet asks.
func (p *sheetPage) leave(then func()) {
	d := p.draft()
	if d == nil {
		then()
		return
	}
	p.w.turnTo(p.from)
	d.leave(then)
}

// origin implements drafted.
func (p *sheetPage) origin() page {
	if d, ok := p.from.(drafted); ok {
		return d.origin()
	}
	return p.from
}

// guardSheet makes what would lose a draft under the sheet go back to it first,
// where it is asked about.
func (w *Window) guardSheet() {
	w.win.SetCloseIntercept(func() {
		if w.asks != nil {
			w.close()
			return
		}
		w.act("quit")
	})
	const done = "sheet-guard" // the actions are guarded once a window
	if w.acts.byID[done] != nil {
		return
	}
	w.acts.byID[done] = &Action{ID: done}
	for _, id := range []string{"rack", "rack-photos", "new", "open", "demo", "quit"} {
		a := w.acts.byID[id]
		if a == nil {
			continue
		}
		was := a.Do
		a.Do = func() {
			if p := w.sheetUp(); p != nil && p.draft() != nil {
				w.turnTo(p.from)
				a.Do()
				return
			}
			was()
		}
	}
}
