package session

import (
	"slices"
	"strconv"
	"strings"

	"heartside/layout/face"
	"heartside/model"
)

// CuttingID is the id of cutting i of a part, counted from 0, among the strips.
// No strip has such an id, and no set's face has one: a part is not called as a
// panel is.
func CuttingID(part string, i int) string { return part + "/" + strconv.Itoa(i+1) }

// CuttingOf finds the part that the cutting of an id belongs to, and which of
// its places it is; false where it is none of a part's.
func CuttingOf(p *model.Project, id string) (part model.Part, i int, ok bool) {
	name, count, ok := strings.Cut(id, "/")
	if !ok {
		return model.Part{}, 0, false
	}
	part, ok = p.Part(name)
	n, err := strconv.Atoi(count)
	if !ok || err != nil || n < 1 || n > len(part.Places) {
		return model.Part{}, 0, false
	}
	return part, n - 1, true
}

// cuttingName is what a cutting of a part is called: "leg 2", or "rail" where
// there is only one.
func cuttingName(p *model.Project, id string) (string, bool) {
	part, i, ok := CuttingOf(p, id)
	if !ok {
		return "", false
	}
	if part.Count == 1 && len(part.Places) == 1 {
		return part.ID, true
	}
	return part.ID + " " + strconv.Itoa(i+1), true
}

// Cuttings returns what is cut from boards for solid parts, each as a strip
// that lies in no panel.
func (s *Session) Cuttings() []face.Strip { return s.view().cuttings }

// cuttingsOf makes them.
func cuttingsOf(p *model.Project, board boardFor) []face.Strip {
	var out []face.Strip
	for _, part := range p.Parts {
		for i, c := range part.Places {
			out = append(out, face.Strip{ID: CuttingID(part.ID, i), Board: board(c.Board, c.Cut()),
				X: c.X, Y: c.Y, L: c.L, W: c.W, Angle: c.Angle, Up: 1, Stage: stageOf(c.Stage)})
		}
	}
	return out
}

// beside is what lies on the boards for no panel: spares, and solid parts.
func (v *view) beside() []face.Strip { return slices.Concat(v.spares, v.cuttings) }

// spoiled reports whether nothing more is cut from a board.
func (v *view) spoiled(b *face.Board) bool {
	if b == nil {
		return false
	}
	m := v.project.Board(b.ID)
	return m != nil && m.Spoiled
}

// lost reports whether a strip cannot be cut any more.
func (v *view) lost(s *face.Strip) bool { return s.Stage < face.Sawn && v.spoiled(s.Board) }

// sound lists the boards that something may be cut from.
func (v *view) sound() []*face.Board {
	var out []*face.Board
	for _, b := range v.project.Boards {
		if !b.Spoiled {
			out = append(out, v.boards[b.ID])
		}
	}
	return out
}

// usable lists the spares that there are or still can be cut.
func (v *view) usable() []face.Strip {
	var out []face.Strip
	for i := range v.spares {
		if !v.lost(&v.spares[i]) {
			out = append(out, v.spares[i])
		}
	}
	return out
}

// Sound returns the boards that something may be cut from, in the order of the
// project.
func (s *Session) Sound() []*face.Board { return s.view().sound() }
