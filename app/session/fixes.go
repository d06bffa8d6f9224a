package session

import (
	"context"
	"slices"

	"heartside/layout/arrange"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// fixBook holds the fixes found for the panels of the committed project.
type fixBook struct {
	of   map[*face.Panel][]arrange.Fixed
	from *view // what they were sought in
	stop context.CancelFunc
}

// findFixes seeks fixes for every panel of the committed project, the one on
// screen first, and drops what was sought for another.
func (s *Session) findFixes() {
	if s.fixes.stop != nil {
		s.fixes.stop()
	}
	v := s.viewer.of(s.hist.Current(), s.pics.fields)
	ctx, stop := context.WithCancel(s.work)
	old := s.fixes
	s.fixes = fixBook{of: map[*face.Panel][]arrange.Fixed{}, from: v, stop: stop}
	shown := s.Selected().Panel
	var todo []*face.Panel
	for _, m := range v.project.Panels {
		p := v.panels[m.ID]
		// What the others take from the boards bears on every fix, so an
		// unchanged panel keeps its fixes only where it is the only one.
		if got, ok := old.of[p]; ok && len(v.panels) == 1 && v.offersAs(old.from) {
			s.fixes.of[p] = got
			continue
		}
		if m.ID == shown {
			todo = append([]*face.Panel{p}, todo...)
		} else {
			todo = append(todo, p)
		}
	}
	opt := arrange.Options{Allowances: AllowancesOf(v.project.Allowances), Machines: machinesOf(v.project), AfterGlue: v.project.Allowances.AfterGlue}
	if s.opt.Post == nil {
		for _, p := range todo {
			s.fixes.of[p] = fixesOf(ctx, v, p, opt)
		}
		return
	}
	go func() {
		for _, p := range todo {
			got := fixesOf(ctx, v, p, opt)
			if ctx.Err() != nil {
				return
			}
			s.opt.Post(func() {
				if ctx.Err() == nil {
					s.fixes.of[p] = got
					s.changed()
				}
			})
		}
	}()
}

// offersAs reports whether two views offer the same wood beside that of the
// panels.
func (v *view) offersAs(w *view) bool {
	return w != nil && slices.Equal(v.beside(), w.beside()) && slices.Equal(v.sound(), w.sound()) &&
		v.project.Allowances == w.project.Allowances && v.project.Machines == w.project.Machines
}

// fixesOf finds the fixes of one panel of a view.
func fixesOf(ctx context.Context, v *view, p *face.Panel, opt arrange.Options) []arrange.Fixed {
	for _, m := range v.project.Panels {
		if m.ID != p.ID {
			opt.Others = append(opt.Others, v.panels[m.ID].Strips...)
		}
	}
	opt.Others = append(opt.Others, v.cuttings...)
	opt.Boards = v.sound()
	list := arrange.All(ctx, nil, p, v.usable(), opt)
	for i := range list {
		list[i].Fixes = slices.DeleteFunc(list[i].Fixes, func(f arrange.Fix) bool { return v.cutsSpoiled(p, &f) })
	}
	return list
}

// cutsSpoiled reports whether a fix cuts a strip of p out of a spoiled board
// otherwise than it is planned.
func (v *view) cutsSpoiled(p *face.Panel, f *arrange.Fix) bool {
	for i := range f.Panel {
		now := &f.Panel[i]
		if !v.lost(now) {
			continue
		}
		same := func(was face.Strip) bool {
			return was.ID == now.ID && was.Board != nil && was.Board.ID == now.Board.ID && was.X == now.X && was.Y == now.Y &&
				was.L == now.L && was.W == now.W && was.Angle == now.Angle
		}
		if !slices.ContainsFunc(p.Strips, same) {
			return true
		}
	}
	return false
}

// fixesFor returns the fixes found for a warning of a panel; false while they
// are still being sought.
func (s *Session) fixesFor(p *face.Panel, w words, x *face.Warning) ([]Fix, bool) {
	list, ok := s.fixes.of[p]
	if !ok {
		return nil, false
	}
	for i := range list {
		if !sameWarning(&list[i].Warning, x) {
			continue
		}
		var out []Fix
		for k := range list[i].Fixes {
			f := &list[i].Fixes[k]
			text := w.fix(x, f)
			if said(out, text) {
				continue // the same to a maker, apart by less than is shown
			}
			out = append(out, Fix{
				Text: text, After: w.after(f), Cost: costWords(f.Cost), Kind: string(f.Kind), Strips: f.Strips,
				Readings: After(f.After),
				Edit:     fixEdit(s.hist.Current(), p.ID, f, text),
			})
		}
		return out, true
	}
	return nil, true
}

// said reports whether one of the fixes asks for the same in words.
func said(list []Fix, text string) bool {
	for i := range list {
		if list[i].Text == text {
			return true
		}
	}
	return false
}

// sameWarning reports whether two readings of a panel mean the same warning.
func sameWarning(a, b *face.Warning) bool {
	if a.Kind != b.Kind || a.Side != b.Side || a.Place != b.Place || a.Why != b.Why || len(a.Strips) != len(b.Strips) {
		return false
	}
	for i := range a.Strips {
		if a.Strips[i] != b.Strips[i] {
			return false
		}
	}
	return true
}

// fixEdit is the change of the project that a fix means.
func fixEdit(p *model.Project, panel string, f *arrange.Fix, verb string) model.Edit {
	known := map[string]model.Strip{}
	for _, st := range p.Spares {
		known[st.ID] = st
	}
	if m := p.Panel(panel); m != nil {
		for _, st := range m.Strips {
			known[st.ID] = st
		}
	}
	e := model.SetStrips{Panel: panel, Strips: laid(known, f.Panel), Verb: say.Upper(verb)}
	if f.Spares != nil {
		e.Spares = laid(known, f.Spares)
		for _, st := range p.Spares { // those that were not offered stay
			if b := p.Board(st.Board); b != nil && b.Spoiled && !st.Cut() {
				e.Spares = append(e.Spares, st)
			}
		}
	}
	return e
}

// laid gives strips of the project the places of those of a fix.
func laid(known map[string]model.Strip, list []face.Strip) []model.Strip {
	out := make([]model.Strip, 0, len(list))
	for i := range list {
		f := &list[i]
		st := known[f.ID]
		st.Board = ""
		if f.Board != nil {
			st.Board = f.Board.ID
		}
		st.X, st.Y, st.L, st.W, st.Angle = f.X, f.Y, f.L, f.W, f.Angle
		st.Up, st.Turned, st.Shift = f.Up, f.Turned, f.Shift
		if f.Off.Set && (st.Off == nil || *st.Off != f.Off.Face) {
			off := f.Off.Face
			st.Off = &off
		}
		out = append(out, st)
	}
	return out
}

// costWords says what a fix costs.
func costWords(c arrange.Cost) string {
	switch c {
	case arrange.Free:
		return say.In("cost", "free")
	case arrange.ReJoint:
		return say.T("re-joint")
	case arrange.ReCut:
		return say.T("re-cut")
	}
	return say.T("costs wood")
}
