package keep

import (
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"heartside/model"
	"heartside/model/disk"
	"heartside/model/file"
	"heartside/model/say"
)

// How long after a change the journal is written, engineering choices: soon
// enough that hardly a gesture is lost, seldom enough that a held key does not
// keep the disk busy.
const (
	pause   = 700 * time.Millisecond // of calm
	longest = 4 * time.Second        // though there is no calm
	again   = 15 * time.Second       // after it could not be written
)

// HistoryKept is how many states before the one on screen a Work should hold:
// what differs between them is little.
const HistoryKept = 50

// Options of a Keeper.
type Options struct {
	Disk    disk.Disk
	State   string // the user's state folder, "" none
	Machine Machine
	Now     func() time.Time
	// After returns a channel that is sent to after a time; nil for time.After.
	After func(time.Duration) <-chan time.Time
	// Told is called in the background after the journal was written or removed,
	// and when that failed.
	Told func(Report)
}

// Report says what became of the work.
type Report struct {
	Path string    // of the journal, "" where there is none
	When time.Time // it was written
	Err  error     // a *Error: the work on screen could not be kept
}

// Error says why the work could not be kept, and where that was tried.
type Error struct {
	Path string
	Err  error
}

// Error implements error.
func (e *Error) Error() string {
	return say.F("what is on screen could not be kept in %s: %v; %s", filepath.Dir(e.Path), file.Cause(e.Err), file.Hint(e.Err))
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// Keeper keeps the work of one window. Its methods return at once but for
// Flush and Close.
type Keeper struct {
	opt   Options
	token string
	wake  chan struct{}
	flush chan chan error
	quit  chan struct{}
	ended chan struct{}

	mu      sync.Mutex
	want    *Work
	number  int // of want
	adopted map[string]int

	// Of the goroutine alone.
	done    int    // number of the work that was dealt with
	journal string // "" none
	texts   map[*model.Project][]byte
}

// New starts a keeper; Close ends it.
func New(opt Options) *Keeper {
	if opt.After == nil {
		opt.After = time.After
	}
	if opt.Told == nil {
		opt.Told = func(Report) {}
	}
	k := &Keeper{
		opt: opt, wake: make(chan struct{}, 1), flush: make(chan chan error), quit: make(chan struct{}), ended: make(chan struct{}),
		token: fmt.Sprintf("%d-%x", opt.Machine.Self.PID, opt.Now().UnixNano()), adopted: map[string]int{},
	}
	go k.run()
	return k
}

// Hold says what is on screen.
func (k *Keeper) Hold(w Work) {
	k.mu.Lock()
	k.want = &w
	k.number++
	k.mu.Unlock()
	k.rouse()
}

// Adopt says that the journal at path, of a program that ended, is what Hold
// was given last: it goes as soon as that is kept.
func (k *Keeper) Adopt(path string) {
	k.mu.Lock()
	k.adopted[path] = k.number
	k.mu.Unlock()
	k.rouse()
}

func (k *Keeper) rouse() {
	select {
	case k.wake <- struct{}{}:
	default:
	}
}

// Flush writes what is still to be written, and returns when that is done.
func (k *Keeper) Flush() error {
	c := make(chan error, 1)
	select {
	case k.flush <- c:
		return <-c
	case <-k.ended:
		return nil
	}
}

// Close keeps what is on screen where it is not saved, and ends the keeper.
func (k *Keeper) Close() error {
	err := k.Flush()
	select {
	case <-k.quit:
	default:
		close(k.quit)
	}
	<-k.ended
	return err
}

func (k *Keeper) run() {
	defer close(k.ended)
	var retry <-chan time.Time
	for {
		var err error
		select {
		case <-k.wake:
			if c := k.calm(); c != nil {
				err = k.write()
				c <- err
			} else {
				err = k.write()
			}
		case <-retry:
			err = k.write()
		case c := <-k.flush:
			err = k.write()
			c <- err
		case <-k.quit:
			return
		}
		retry = nil
		if err != nil {
			retry = k.opt.After(again)
		}
	}
}

// calm waits until nothing has changed for a while, or a Flush is asked for,
// which it returns.
func (k *Keeper) calm() chan error {
	if _, w, _ := k.newest(); w == nil || w.Clean() {
		return nil
	}
	quiet, last := k.opt.After(pause), k.opt.After(longest)
	for {
		select {
		case <-k.wake:
			if _, w, _ := k.newest(); w == nil || w.Clean() {
				return nil
			}
			quiet = k.opt.After(pause)
		case <-quiet:
			return nil
		case <-last:
			return nil
		case c := <-k.flush:
			return c
		case <-k.quit:
			return nil
		}
	}
}

func (k *Keeper) newest() (number int, w *Work, adopted []string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	for path, from := range k.adopted {
		if from <= k.number {
			adopted = append(adopted, path)
		}
	}
	return k.number, k.want, adopted
}

// write brings the journal up to what is wanted.
func (k *Keeper) write() error {
	number, w, adopted := k.newest()
	if w == nil || number == k.done && len(adopted) == 0 {
		return nil
	}
	if number != k.done {
		if w.Clean() {
			k.clear()
			k.opt.Told(Report{})
		} else {
			when := k.opt.Now()
			if err := k.put(w, when); err != nil {
				k.opt.Told(Report{Path: k.journal, Err: err})
				return err
			}
			k.opt.Told(Report{Path: k.journal, When: when})
		}
		k.done = number
	}
	for _, path := range adopted {
		k.opt.Disk.Remove(path)
		k.mu.Lock()
		delete(k.adopted, path)
		k.mu.Unlock()
	}
	return nil
}

// put writes the journal beside the project, or else in the state folder.
func (k *Keeper) put(w *Work, when time.Time) error {
	data := encode(w, k.opt.Machine.Self, when, k.text(w))
	var first *Error
	for _, path := range k.places(w.Path) {
		if d := filepath.Dir(path); d == k.opt.State {
			k.opt.Disk.MkdirAll(d, 0o700)
		}
		if err := disk.Replace(k.opt.Disk, path, data, disk.Mode{Perm: 0o600}); err != nil {
			if first == nil {
				first = &Error{path, err}
			}
			continue
		}
		if k.journal != path {
			k.clear()
			k.journal = path
		}
		return nil
	}
	if first == nil {
		return &Error{"", errNowhere}
	}
	return first
}

var errNowhere = say.Later("there is no folder for it: set HOME, or save the project")

// places are where the journal of a project may be, the best first.
func (k *Keeper) places(project string) []string {
	var out []string
	if project != "" {
		out = append(out, beside(project, k.token))
	}
	if k.opt.State != "" {
		out = append(out, inState(k.opt.State, project, k.token))
	}
	return out
}

// clear removes the journal.
func (k *Keeper) clear() {
	if k.journal != "" {
		k.opt.Disk.Remove(k.journal)
		k.journal = ""
	}
}

// text returns a function that tells projects as text and remembers those of
// w: a state is told once.
func (k *Keeper) text(w *Work) func(*model.Project) []byte {
	known := make(map[*model.Project][]byte, len(w.States))
	for _, s := range w.States {
		known[s.Project] = k.texts[s.Project]
	}
	k.texts = known
	return func(p *model.Project) []byte {
		if known[p] == nil {
			known[p] = file.Exact(p)
		}
		return known[p]
	}
}
