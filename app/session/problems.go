package session

import "heartside/model"

// Problems says what should be put right before the work is judged, though it
// may stand while the project is edited, and what is wrong with what lies in no
// panel. Strips of a panel that are to come from a spoiled board are told in its
// Notes.
func (s *Session) Problems() []string {
	var out []string
	for _, r := range model.Problems(s.Project()) {
		if r.Rule != model.RuleSpoiled {
			out = append(out, r.Error())
		}
	}
	for _, n := range s.LooseNotes() {
		out = append(out, n.Title+". "+n.Text)
	}
	return out
}
