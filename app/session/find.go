package session

import "heartside/model"

func boardByID(p *model.Project, id string) *model.Board {
	for _, b := range p.Boards {
		if b.ID == id {
			return b
		}
	}
	return nil
}

func panelByID(p *model.Project, id string) *model.Panel {
	for _, m := range p.Panels {
		if m.ID == id {
			return m
		}
	}
	return nil
}

func stripByID(p *model.Project, panel, id string) (model.Strip, bool) {
	m := panelByID(p, panel)
	if m == nil || id == "" {
		return model.Strip{}, false
	}
	for _, s := range m.Strips {
		if s.ID == id {
			return s, true
		}
	}
	return model.Strip{}, false
}

// NextEmpty returns the first place of a panel, from the front, that no board
// has been cut for.
func (s *Session) NextEmpty(panel string) (id string, ok bool) {
	m := panelByID(s.Project(), panel)
	if m == nil {
		return "", false
	}
	for _, st := range m.Strips {
		if st.Board == "" {
			return st.ID, true
		}
	}
	return "", false
}
