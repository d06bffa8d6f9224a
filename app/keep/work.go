package keep

import (
	"reflect"
	"time"

	"heartside/model"
	"heartside/model/file"
	"heartside/model/say"
)

// Work is what is to be kept: the project on screen and what belongs to it.
// The projects in it are never changed, so it may be read by any goroutine.
type Work struct {
	Path     string        // of the project's file, whole; "" not saved yet
	Folder   string        // from which its photographs are named, "" whole paths
	Source   string        // where the photographs come from otherwise, "" from the folder
	States   []model.State // oldest first; the last is on screen
	Saved    int           // which of the states is on disk, -1 none
	Base     file.Print    // of the project's file as it was opened or saved
	LookOnly bool
	Panel    string // on screen
	Board    string // in hand
}

// Project returns what is on screen.
func (w *Work) Project() *model.Project { return w.States[len(w.States)-1].Project }

// Clean reports whether nothing of it can be lost.
func (w *Work) Clean() bool { return len(w.States) == 0 || w.Saved == len(w.States)-1 }

// Journal is what was kept of a window.
type Journal struct {
	Work
	Owner Owner
	When  time.Time
	File  string // where the journal is
}

// Name returns what the work is called.
func (j *Journal) Name() string {
	if name := j.Project().Name; name != "" {
		return name
	}
	return say.T("Unnamed project")
}

// share lets the states of a journal share boards and panels that are equal,
// as states of a history do.
func share(states []model.State) {
	for i := len(states) - 2; i >= 0; i-- {
		from, to := states[i+1].Project, states[i].Project
		for k, b := range to.Boards {
			if f := from.Board(b.ID); f != nil && reflect.DeepEqual(f, b) {
				to.Boards[k] = f
			}
		}
		for k, n := range to.Panels {
			if f := from.Panel(n.ID); f != nil && reflect.DeepEqual(f, n) {
				to.Panels[k] = f
			}
		}
	}
}
