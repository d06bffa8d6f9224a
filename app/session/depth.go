package session

// Depth returns how many changes can be taken back, and made again.
func (s *Session) Depth() (undo, redo int) { return s.hist.Depth() }
