package session

import (
	"context"
	"sync/atomic"

	"heartside/app/intake"
	"heartside/layout/face"
	"heartside/model"
)

// Options of a Session.
type Options struct {
	// Post runs f on the session's own goroutine, soon. Nil runs nothing in
	// the background: pictures and fixes are then made at once, in the call
	// that needs them.
	Post func(f func())
	// Cache is the folder where squared photographs are kept from one start to
	// the next, see CacheDir; "" keeps none.
	Cache string
	// Memory is how many bytes of pictures at full size are held; 0 for a
	// default that suits a large screen.
	Memory int64
	// Read reads a photograph; nil for intake.Reader on the project's pictures.
	Read intake.ReadFunc
}

// Session is one project being edited.
type Session struct {
	opt      Options
	hist     *model.History
	preview  *model.Project
	sel      Selection
	path     string // "" not saved yet
	disk     onDisk
	from     Source // where pictures are read
	pics     *pictures
	viewer   *viewer
	readers  map[string]*panelReader
	before   map[string]*panelReader
	sets     map[string]*setReader // by name
	levels   map[string]*gapBook   // by name of a set
	fitted   fitted
	fixes    fixBook
	behaved  behaved
	grain    *grainBook
	taken    takeIn
	agree    agreements
	notices  []string
	onChange []func()
	onDepth  func()
	looking  atomic.Bool // a call of onDepth is on its way
	facts    planingFacts
	work     context.Context
	stop     context.CancelFunc
}

// New returns a session editing p, which has no file yet.
func New(p *model.Project, opt Options) *Session {
	s := &Session{opt: opt}
	s.begin(p, "", nil)
	return s
}

// begin puts p on screen with an empty history.
func (s *Session) begin(p *model.Project, path string, from Source) {
	if s.stop != nil {
		s.stop()
	}
	s.work, s.stop = context.WithCancel(context.Background())
	p = model.Marked(p)
	s.hist = model.NewHistory(p)
	s.preview, s.path, s.from, s.notices = nil, path, from, nil
	s.disk = onDisk{}
	s.viewer = newViewer(newDepths(s.deepened(s.work)))
	s.readers, s.before, s.sets = map[string]*panelReader{}, map[string]*panelReader{}, map[string]*setReader{}
	s.levels = map[string]*gapBook{}
	s.fixes, s.grain = fixBook{}, &grainBook{}
	s.behaved = behaved{}
	s.agree = agreements{got: map[*model.Board]*Agreement{}}
	s.taken = takeIn{news: map[intake.Place]intake.News{}}
	s.pics = newPictures(s)
	s.sel = Selection{Zone: -1}
	s.pics.want(p)
	s.findFixes()
	s.changed()
}

// Close stops work in the background.
func (s *Session) Close() { s.stop() }

// OnChange adds a function called after every change of project, preview,
// selection, fixes or pictures.
func (s *Session) OnChange(f func()) { s.onChange = append(s.onChange, f) }

func (s *Session) changed() {
	for _, f := range s.onChange {
		f()
	}
}

// Project returns what is on screen: the preview while a gesture runs, else
// the project as last committed.
func (s *Session) Project() *model.Project {
	if s.preview != nil {
		return s.preview
	}
	return s.hist.Current()
}

// Committed returns the project without any preview.
func (s *Session) Committed() *model.Project { return s.hist.Current() }

// Before returns the project before the last change, nil when there is none.
func (s *Session) Before() *model.Project { return s.hist.Before() }

// Previewing reports whether a gesture is under way.
func (s *Session) Previewing() bool { return s.preview != nil }

// Preview shows the committed project with e applied, without history. A
// refused edit leaves the last preview standing.
func (s *Session) Preview(e model.Edit) error {
	p, err := model.Apply(s.hist.Current(), e)
	if err != nil {
		return err
	}
	if s.preview == nil {
		s.hold(true)
	}
	s.preview = p
	s.changed()
	return nil
}

// Cancel drops the preview.
func (s *Session) Cancel() {
	if s.preview == nil {
		return
	}
	s.preview = nil
	s.hold(false)
	s.changed()
}

// Commit makes e part of the project as one entry of the history and drops
// the preview. A refused edit changes nothing but drops the preview too.
func (s *Session) Commit(e model.Edit) error {
	if s.preview != nil {
		s.preview = nil
		s.hold(false)
	}
	err := s.hist.Commit(e)
	if err == nil {
		s.renew()
	}
	s.changed()
	return err
}

// Undo goes one entry back; false where there is none.
func (s *Session) Undo() bool { return s.step(s.hist.Undo) }

// Redo goes one entry forward; false where there is none.
func (s *Session) Redo() bool { return s.step(s.hist.Redo) }

func (s *Session) step(move func() bool) bool {
	if s.preview != nil {
		s.preview = nil
		s.hold(false)
	}
	ok := move()
	if ok {
		s.renew()
	}
	s.changed()
	return ok
}

// renew starts what a new committed project needs.
func (s *Session) renew() {
	s.pics.want(s.hist.Current())
	s.findFixes()
}

// CanUndo reports whether there is an entry to go back to.
func (s *Session) CanUndo() bool { return s.hist.CanUndo() }

// CanRedo reports whether there is an entry to go forward to.
func (s *Session) CanRedo() bool { return s.hist.CanRedo() }

// UndoLabel names what Undo would take back, "" for nothing.
func (s *Session) UndoLabel() string { return s.hist.UndoLabel() }

// RedoLabel names what Redo would do again, "" for nothing.
func (s *Session) RedoLabel() string { return s.hist.RedoLabel() }

// Dirty reports whether the project differs from its file.
func (s *Session) Dirty() bool { return s.hist.Dirty() }

// Panel returns a panel as it is on screen, nil where there is none. It is
// not to be changed.
func (s *Session) Panel(id string) *face.Panel { return s.view().panels[id] }

// Board returns a board as the readings see it, nil where there is none.
func (s *Session) Board(id string) *face.Board { return s.view().boards[id] }

// Spares returns the strips that lie in no panel.
func (s *Session) Spares() []face.Strip { return s.view().spares }

// BeforePanel returns a panel as it was before the last change.
func (s *Session) BeforePanel(id string) *face.Panel {
	p := s.hist.Before()
	if p == nil {
		return nil
	}
	return s.viewer.of(p, s.pics.fields).panels[id]
}

func (s *Session) view() *view { return s.viewer.of(s.Project(), s.pics.fields) }

// Blank returns a project with nothing in it and the usual allowances.
func Blank() *model.Project { return model.NewProject() }
