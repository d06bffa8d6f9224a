package session

import "heartside/model"

func stripByID(p *model.Project, panel, id string) (model.Strip, bool) {
	m := p.Panel(panel)
	if m == nil || id == "" {
		return model.Strip{}, false
	}
	return m.Strip(id)
}

// NextEmpty returns the place of a panel to be laid next: the one in hand where
// it is empty, else the first from the front that no board has been cut for.
func (s *Session) NextEmpty(panel string) (id string, ok bool) {
	m := s.Project().Panel(panel)
	if m == nil {
		return "", false
	}
	if st, ok := m.Strip(s.sel.Strip); ok && s.sel.Panel == panel && st.Empty() {
		return st.ID, true
	}
	for _, st := range m.Strips {
		if st.Empty() {
			return st.ID, true
		}
	}
	return "", false
}
