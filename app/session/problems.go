package session

import "heartside/model"

// Problems says what should be put right before the work is judged, though it
// may stand while the project is edited.
func (s *Session) Problems() []string {
	var out []string
	for _, r := range model.Problems(s.Project()) {
		out = append(out, r.Error())
	}
	return out
}
