package session

import (
	"sort"
	"strings"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// Note is one warning in words.
type Note struct {
	Kind       face.WarningKind
	Title      string // one line
	Text       string // what, where, why
	Strips     []string
	Boards     []string
	Side       face.Side
	Place      geom.Rect
	Assumed    bool
	Under      []string // milder things said of the same place
	Fixes      []Fix
	FixesKnown bool // false while they are being sought
	Severe     bool
	Warning    face.Warning
}

// Fix is a change that ends a warning, tried for real.
type Fix struct {
	Text  string // what to do
	After string // the readings it would give
	Cost  string // free, re-joint, re-cut or costs wood
	Kind  string
	// Strips are the ids concerned.
	Strips   []string
	Readings After
	Edit     model.Edit
}

// After is what the panel's show face would read with a fix made.
type After struct {
	Light, Unwanted, Coverage float64 // shares 0 to 1
	LoneStreaks               int
}

// Apply makes a fix part of the project.
func (s *Session) Apply(f Fix) error { return s.Commit(f.Edit) }

// Notes returns the warnings of a panel in words, worst first, one a streak.
func (s *Session) Notes(panel string) []Note {
	p := s.Panel(panel)
	if p == nil {
		return nil
	}
	warnings := s.warnings(panel)
	w := s.words(panel)
	out := make([]Note, 0, len(warnings))
	for i := range warnings {
		x := &warnings[i]
		n := Note{
			Kind: x.Kind, Strips: x.Strips, Boards: x.Boards, Side: x.Side, Place: x.Place,
			Assumed: x.Assumed, Severe: severe(x.Kind), Warning: *x,
		}
		n.Title, n.Text = w.say(x)
		for k := range x.Under {
			title, _ := w.say(&x.Under[k])
			n.Under = append(n.Under, title)
		}
		if set, ok := seenWith(s.Project(), panel); ok && x.Side == face.Show && lookKind(x.Kind) {
			n.Text = strings.TrimSpace(n.Text + " " + say.F("Judged as one face with %s.", others(set, panel)))
		}
		n.Fixes, n.FixesKnown = s.fixesFor(p, w, x)
		out = append(out, n)
	}
	return out
}

// warnings joins what the readings and the cutting rules say of a panel. A
// panel with nothing placed is not judged.
func (s *Session) warnings(panel string) []face.Warning {
	r := s.Reading(panel)
	if r == nil || r.Placed == 0 {
		return nil
	}
	own := append(s.view().spoiledFor(s.Panel(panel)), allWarnings(panel, r, s.fit())...)
	own = append(own, s.behaviourWarnings(panel)...)
	byWeight(own)
	return s.asSeen(panel, own)
}

// severe reports whether a warning says that the plan cannot be carried out
// as it stands, or that the face will look like a mistake.
func severe(k face.WarningKind) bool {
	switch k {
	case face.LoneStreak, face.OutsideBoard, face.PartsOverlap, face.PanelTooSmall,
		face.OverLimit, face.FlawOnShow, face.UnderMachineLimit, BoardSpoiled, WillNotCleanUp, MovesApart:
		return true
	}
	return false
}

// allWarnings joins the readings' warnings with those of the cutting rules
// that name the panel, worst first.
func allWarnings(panel string, r *face.Reading, fit []cutting.Finding) []face.Warning {
	out := append([]face.Warning(nil), r.Warnings...)
	for i := range fit {
		if fit[i].Panel == panel {
			out = append(out, fit[i].Warning)
		}
	}
	byWeight(out)
	return out
}

// byWeight sorts worst first, ties kept in the order they came.
func byWeight(w []face.Warning) {
	sort.SliceStable(w, func(i, j int) bool { return w[i].Weight > w[j].Weight })
}
