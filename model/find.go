package model

import (
	"slices"
	"strconv"
)

// Board returns the board with the id, nil where there is none.
func (p *Project) Board(id string) *Board {
	for _, b := range p.Boards {
		if b.ID == id {
			return b
		}
	}
	return nil
}

// Panel returns the panel with the id, nil where there is none.
func (p *Project) Panel(id string) *Panel {
	for _, n := range p.Panels {
		if n.ID == id {
			return n
		}
	}
	return nil
}

// StripIndex returns the place of a strip from the front, counted from 0, or
// -1 where the panel has no such strip.
func (n *Panel) StripIndex(id string) int {
	return slices.IndexFunc(n.Strips, func(s Strip) bool { return s.ID == id })
}

// Strip returns the strip with the id and whether there is one. The value is
// a copy; what its pointers lead to is not to be changed.
func (n *Panel) Strip(id string) (Strip, bool) { return findStrip(n.Strips, id) }

// StripsWidth returns the sum of the strips' widths in mm.
func (n *Panel) StripsWidth() float64 {
	var w float64
	for i := range n.Strips {
		w += n.Strips[i].W
	}
	return w
}

// Empty reports whether the strip has no board yet.
func (s Strip) Empty() bool { return s.Board == "" }

// Cut reports whether the strip has been sawn out of its board.
func (s Strip) Cut() bool { return s.Stage.cut() }

func findStrip(list []Strip, id string) (Strip, bool) {
	for _, s := range list {
		if s.ID == id {
			return s, true
		}
	}
	return Strip{}, false
}

// NextBoardID returns the first free board letter: A to Z, then AA, AB and so
// on.
func NextBoardID(p *Project) string {
	for n := 0; ; n++ {
		if id := letters(n); p.Board(id) == nil && p.Offer(id) == nil {
			return id
		}
	}
}

// letters returns A for 0, Z for 25, AA for 26.
func letters(n int) string {
	var out []byte
	for n++; n > 0; n = (n - 1) / 26 {
		out = append(out, byte('A'+(n-1)%26))
	}
	slices.Reverse(out)
	return string(out)
}

// NextStripID returns the lowest number that no strip of the project has as
// its id, in panels, spares or kept arrangements.
func NextStripID(p *Project) string { return nextStripID(p, nil) }

func nextStripID(p *Project, more []Strip) string {
	taken := map[string]bool{}
	mark := func(list []Strip) {
		for i := range list {
			taken[list[i].ID] = true
		}
	}
	for _, n := range p.Panels {
		mark(n.Strips)
	}
	for _, k := range p.Kept {
		mark(k.Strips)
	}
	mark(p.Spares)
	mark(more)
	for n := 1; ; n++ {
		if id := strconv.Itoa(n); !taken[id] {
			return id
		}
	}
}
