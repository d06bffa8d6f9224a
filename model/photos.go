package model

// RenamePhotos returns a function that tells a project with its pictures named
// otherwise. What names no picture keeps its pointer, and a board or project
// met before gives the same one again, so that states of a history go on
// sharing what they share.
func RenamePhotos(name func(string) string) func(*Project) *Project {
	boards, projects := map[*Board]*Board{}, map[*Project]*Project{}
	board := func(b *Board) *Board {
		if c, ok := boards[b]; ok {
			return c
		}
		c := *b
		for i := range c.Faces {
			c.Faces[i].Photo = renamed(b.Faces[i].Photo, name)
		}
		for i := range c.Ends {
			c.Ends[i].Photo = renamed(b.Ends[i].Photo, name)
		}
		out := b
		if c.Faces[0].Photo != b.Faces[0].Photo || c.Faces[1].Photo != b.Faces[1].Photo || c.Ends != b.Ends {
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
		for i, b := range p.Boards {
			c := board(b)
			if c == b {
				continue
			}
			if out == p {
				q := *p
				q.Boards = append([]*Board(nil), p.Boards...)
				out = &q
			}
			out.Boards[i] = c
		}
		projects[p] = out
		return out
	}
}

func renamed(photo string, name func(string) string) string {
	if photo == "" {
		return ""
	}
	return name(photo)
}

// Photos returns the names of the pictures of a project, board by board.
func (p *Project) Photos() []string {
	var out []string
	for _, b := range p.Boards {
		for _, name := range [...]string{b.Faces[0].Photo, b.Faces[1].Photo, b.Ends[0].Photo, b.Ends[1].Photo} {
			if name != "" {
				out = append(out, name)
			}
		}
	}
	return out
}
