package model

// historyCap is how many changes can be undone; a working day's worth.
const historyCap = 500

// History is a project and the way it came about. The zero value is not
// usable; NewHistory makes one. It belongs to one goroutine; the projects it
// hands out may be read by any.
type History struct {
	past   []change // oldest first
	future []change // what was undone, next to redo last
	now    *Project
	saved  *Project
}

// change is a step that can be taken back.
type change struct {
	label  string
	before *Project
	after  *Project
}

// NewHistory starts a history at p, which counts as saved.
func NewHistory(p *Project) *History { return &History{now: p, saved: p} }

// Current returns the project as it stands.
func (h *History) Current() *Project { return h.now }

// Before returns the project before the last change, nil where there is none.
func (h *History) Before() *Project {
	if len(h.past) == 0 {
		return nil
	}
	return h.past[len(h.past)-1].before
}

// Commit applies e as one change. An edit that changes nothing makes no entry
// and leaves what was undone redoable; on an error nothing happens.
func (h *History) Commit(e Edit) error {
	p, err := Apply(h.now, e)
	if err != nil || p == h.now {
		return err
	}
	h.past = append(h.past, change{e.Label(), h.now, p})
	if over := len(h.past) - historyCap; over > 0 {
		h.past = append([]change(nil), h.past[over:]...)
	}
	h.future = nil
	h.now = p
	return nil
}

// Undo takes the last change back and reports whether there was one.
func (h *History) Undo() bool {
	if len(h.past) == 0 {
		return false
	}
	c := h.past[len(h.past)-1]
	h.past = h.past[:len(h.past)-1]
	h.future = append(h.future, c)
	h.now = c.before
	return true
}

// Redo makes the last change that was undone again and reports whether there
// was one.
func (h *History) Redo() bool {
	if len(h.future) == 0 {
		return false
	}
	c := h.future[len(h.future)-1]
	h.future = h.future[:len(h.future)-1]
	h.past = append(h.past, c)
	h.now = c.after
	return true
}

// CanUndo reports whether there is a change to take back.
func (h *History) CanUndo() bool { return len(h.past) > 0 }

// CanRedo reports whether there is a change to make again.
func (h *History) CanRedo() bool { return len(h.future) > 0 }

// UndoLabel returns the label of the change that Undo takes back, "" for none.
func (h *History) UndoLabel() string {
	if len(h.past) == 0 {
		return ""
	}
	return h.past[len(h.past)-1].label
}

// RedoLabel returns the label of the change that Redo makes again, "" for
// none.
func (h *History) RedoLabel() string {
	if len(h.future) == 0 {
		return ""
	}
	return h.future[len(h.future)-1].label
}

// MarkSaved says that the project as it stands is on disk.
func (h *History) MarkSaved() { h.saved = h.now }

// Dirty reports whether the project differs from the one on disk. Undoing
// back to what was saved makes it clean again.
func (h *History) Dirty() bool { return h.now != h.saved }

// Retell puts what f gives in the place of every state, without an entry of its
// own: the same projects told differently, as with pictures named from another
// folder. f must give the same for the same state.
func (h *History) Retell(f func(*Project) *Project) {
	for _, list := range [...][]change{h.past, h.future} {
		for i := range list {
			list[i].before, list[i].after = f(list[i].before), f(list[i].after)
		}
	}
	h.now = f(h.now)
	if h.saved != nil {
		h.saved = f(h.saved)
	}
}

// State is a project, and the name of the change that led to it.
type State struct {
	Label   string // "" not known
	Project *Project
}

// Recent returns the project as it stands, last, and at most n states before
// it that can be gone back to, oldest first.
func (h *History) Recent(n int) []State {
	past := h.past[max(len(h.past)-n, 0):]
	out := make([]State, 0, len(past)+1)
	label := ""
	for _, c := range past {
		out = append(out, State{label, c.before})
		label = c.label
	}
	return append(out, State{label, h.now})
}

// Saved returns the project that is on disk, nil where none is known to be.
func (h *History) Saved() *Project { return h.saved }

// ResumeHistory goes on where the states end, of which there is at least one.
// Saved is the one that is on disk, nil for none: the project then counts as
// not saved.
func ResumeHistory(states []State, saved *Project) *History {
	last := len(states) - 1
	h := &History{now: states[last].Project, saved: saved}
	for i, s := range states[:last] {
		h.past = append(h.past, change{states[i+1].Label, s.Project, states[i+1].Project})
	}
	return h
}

// Amend is Retell for what the file does not hold: what was saved stays what
// was saved, so that a state that f changes counts as not saved.
func (h *History) Amend(f func(*Project) *Project) {
	saved := h.saved
	h.Retell(f)
	h.saved = saved
}

// States returns every state that can be reached, each once.
func (h *History) States() []*Project {
	out := []*Project{h.now}
	for i := len(h.past) - 1; i >= 0; i-- {
		out = append(out, h.past[i].before)
	}
	for i := len(h.future) - 1; i >= 0; i-- {
		out = append(out, h.future[i].after)
	}
	return out
}

// Depth returns how many changes can be taken back, and made again.
func (h *History) Depth() (undo, redo int) { return len(h.past), len(h.future) }
