package model

import (
	"cmp"
	"slices"

	"heartside/model/say"
)

// AddBoards puts several boards at the end of the stack.
type AddBoards struct{ Boards []*Board }

// Label implements Edit.
func (e AddBoards) Label() string {
	if len(e.Boards) == 1 {
		return say.F("Add board %s", boardID(e.Boards[0]))
	}
	return say.T("Add boards")
}

func (e AddBoards) apply(p *Project) (*Project, error) {
	for _, b := range e.Boards {
		q, err := AddBoard{b}.apply(p)
		if err != nil {
			return nil, err
		}
		p = q
	}
	return p, nil
}

// SetBoards replaces the boards that have the same ids.
type SetBoards struct {
	Boards []*Board
	Verb   string // what was done; "" for "Change boards"
}

// Label implements Edit.
func (e SetBoards) Label() string { return cmp.Or(e.Verb, say.T("Change boards")) }

func (e SetBoards) apply(p *Project) (*Project, error) {
	for _, b := range e.Boards {
		q, err := SetBoard{b}.apply(p)
		if err != nil {
			return nil, err
		}
		p = q
	}
	return p, nil
}

// Read returns a function that tells a project with a photograph read: value
// takes the place of that face where it waits to be split with the picture of
// that name; grain lines drawn meanwhile stay where it has none. Boards and projects met before give the same ones again, so that
// states of a history go on sharing what they share.
func Read(board string, face int, name string, value Face) func(*Project) *Project {
	if face < 1 || face > 2 {
		return func(p *Project) *Project { return p }
	}
	boards, projects := map[*Board]*Board{}, map[*Project]*Project{}
	read := func(b *Board) *Board {
		if c, ok := boards[b]; ok {
			return c
		}
		out := b
		if f := &b.Faces[face-1]; f.Photo == name && f.Open() {
			c := *b
			c.Faces[face-1] = cloneFace(value)
			if g := &c.Faces[face-1]; g.Grain == nil {
				g.Grain = f.Grain
			}
			out = &c
		}
		boards[b] = out
		return out
	}
	return func(p *Project) *Project {
		if q, ok := projects[p]; ok {
			return q
		}
		out := p
		if i := slices.IndexFunc(p.Boards, func(b *Board) bool { return b.ID == board }); i >= 0 {
			if c := read(p.Boards[i]); c != p.Boards[i] {
				q := *p
				q.Boards = slices.Clone(p.Boards)
				q.Boards[i] = c
				out = &q
			}
		}
		projects[p] = out
		return out
	}
}
