package session

import (
	"heartside/layout/face"
	"heartside/model"
)

// view is a project as the readings see it. It is made once per project value
// and never changed, so other goroutines may read it.
type view struct {
	project *model.Project
	boards  map[string]*face.Board
	whole   map[string]*face.Board // of boards with an end cut off: before it was
	panels  map[string]*face.Panel
	spares  []face.Strip
	// cuttings are those of solid parts.
	cuttings []face.Strip
	came     int // of viewer, when it was last found current
	rows     rows
}

// viewer makes views and keeps what did not change: a board or panel that
// keeps its pointer in the project keeps its pointer in the view.
type viewer struct {
	boards map[boardKey]*face.Board
	planed map[planedKey]*face.PlanedFace
	came   int // counts the pictures that came in, and boards worked out below their faces
	under  *depths
	last   [3]*view // the latest views, newest first: preview, committed, before
}

// planedKey is all that the zones measured after planing depend on.
type planedKey struct {
	planed *model.PlanedSap
	l, w   float64
}

// boardKey is all that a converted board depends on.
type boardKey struct {
	board   *model.Board
	fields  lookedAt
	colours *model.Colours // first of the list; the list is copied when it changes
	whole   bool           // with the ends that were cut off
}

func newViewer(under *depths) *viewer {
	return &viewer{boards: map[boardKey]*face.Board{}, planed: map[planedKey]*face.PlanedFace{}, under: under}
}

// of returns the view of p with the pictures' colours.
func (v *viewer) of(p *model.Project, fields func(*model.Board) lookedAt) *view {
	for i, w := range v.last {
		if w != nil && w.project == p && (w.came == v.came || w.current(v, fields)) {
			w.came = v.came
			copy(v.last[1:i+1], v.last[:i])
			v.last[0] = w
			return w
		}
	}
	w := &view{project: p, boards: map[string]*face.Board{}, whole: map[string]*face.Board{}, panels: map[string]*face.Panel{}, came: v.came}
	for _, b := range p.Boards {
		w.boards[b.ID] = v.board(p, b, fields(b), false)
		if b.Cut != [2]float64{} {
			w.whole[b.ID] = v.board(p, b, fields(b), true)
		}
	}
	board := boardFor(w.boardFor)
	w.rows = v.rowsOf(p, board)
	for _, m := range p.Panels {
		w.panels[m.ID] = v.panel(p, m, board, w.rows)
	}
	for i := range p.Spares {
		st := stripOf(&p.Spares[i], board, v.planedFace)
		st.Row = w.rows.of(&p.Spares[i])
		w.spares = append(w.spares, st)
	}
	w.cuttings = cuttingsOf(p, board)
	v.last[2], v.last[1], v.last[0] = v.last[1], v.last[0], w
	v.forget()
	return w
}

// current reports whether no picture came in since the view was made.
func (w *view) current(v *viewer, fields func(*model.Board) lookedAt) bool {
	for _, b := range w.project.Boards {
		if v.boards[keyOf(w.project, b, fields(b))] != w.boards[b.ID] {
			return false
		}
	}
	return true
}

func keyOf(p *model.Project, b *model.Board, f lookedAt) boardKey {
	k := boardKey{board: b, fields: f}
	if len(p.Colours) > 0 {
		k.colours = &p.Colours[0]
	}
	return k
}

func (v *viewer) board(p *model.Project, b *model.Board, f lookedAt, whole bool) *face.Board {
	k := keyOf(p, b, f)
	k.whole = whole
	if fb, ok := v.boards[k]; ok {
		return fb
	}
	fb := boardOf(p, b, f)
	if !whole {
		cutOff(fb, b.Cut)
	}
	if g := v.under.under(b); g != nil {
		fb.Deep = &deep{belowFaces: g, sawn: fb, made: map[[2]float64]*face.Board{}, views: map[[2]float64]*face.Board{}}
	}
	v.boards[k] = fb
	return fb
}

// panel converts m, or returns the value made before where nothing it rests
// on changed.
func (v *viewer) panel(p *model.Project, m *model.Panel, board boardFor, r rows) *face.Panel {
	fp := panelOf(p, m, board, v.planedFace)
	for i := range fp.Strips {
		fp.Strips[i].Row = r.of(&m.Strips[i])
	}
	for _, old := range v.last {
		if old == nil {
			continue
		}
		if q := old.panels[m.ID]; q != nil && samePanel(q, fp) {
			return q
		}
	}
	return fp
}

// samePanel compares by value; slices that edits share are compared by
// identity.
func samePanel(a, b *face.Panel) bool {
	if a.ID != b.ID || a.Length != b.Length || a.Width != b.Width || a.Thickness != b.Thickness ||
		a.BothShow != b.BothShow || a.Wanted != b.Wanted || a.Limit != b.Limit ||
		a.PanelEdge != b.PanelEdge || a.Limits != b.Limits || a.Profiles != b.Profiles ||
		len(a.Strips) != len(b.Strips) || len(a.Hidden) != len(b.Hidden) || len(a.Shape) != len(b.Shape) {
		return false
	}
	for i := range a.Shape {
		if a.Shape[i] != b.Shape[i] {
			return false
		}
	}
	for i := range a.Hidden {
		if len(a.Hidden[i]) != len(b.Hidden[i]) {
			return false
		}
		for k := range a.Hidden[i] {
			if a.Hidden[i][k] != b.Hidden[i][k] {
				return false
			}
		}
	}
	for i := range a.Strips {
		if a.Strips[i] != b.Strips[i] {
			return false
		}
	}
	return true
}

func (v *viewer) planedFace(s *model.Strip) *face.PlanedFace {
	if !s.MeasuredAsShown() {
		return nil
	}
	k := planedKey{s.Planed, s.L, s.W}
	if f, ok := v.planed[k]; ok {
		return f
	}
	f := planedOf(s)
	v.planed[k] = f
	return f
}

// forget drops conversions that none of the kept views holds.
func (v *viewer) forget() {
	if len(v.boards) <= 4*len(v.last[0].boards)+16 {
		return
	}
	held := map[*face.Board]bool{}
	for _, w := range v.last {
		if w == nil {
			continue
		}
		for _, b := range w.boards {
			held[b] = true
		}
		for _, b := range w.whole {
			held[b] = true
		}
	}
	kept := map[*model.Board]bool{}
	for k, b := range v.boards {
		if !held[b] {
			delete(v.boards, k)
		} else {
			kept[k.board] = true
		}
	}
	v.under.forget(func(b *model.Board) bool { return kept[b] })
	v.planed = map[planedKey]*face.PlanedFace{}
}
