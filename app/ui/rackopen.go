package ui

import (
	"path/filepath"

	"heartside/app/session"
	"heartside/model/say"
)

// openFace opens a face of a board to be looked at and corrected.
func (w *Window) openFace(board string, face int) {
	b := w.ses.Project().Board(board)
	if b == nil || face < 1 || face > 2 {
		return
	}
	f := &b.Faces[face-1]
	if f.Photo == "" {
		w.say(say.F("Board %s, face %s has no photograph.", board, itoa(face)))
		return
	}
	sel := w.ses.Selected()
	w.ses.Select(session.Selection{Panel: sel.Panel, Strip: sel.Strip, Board: board, Face: face, Zone: -1})
	w.showFace(board, face, realMeans())
}

// photoPath is where a picture of the project lies.
func (w *Window) photoPath(name string) string {
	path := filepath.FromSlash(name)
	if p := w.ses.Path(); p != "" && !filepath.IsAbs(path) {
		return filepath.Join(filepath.Dir(p), path)
	}
	return path
}
