package phone

import (
	"slices"

	"heartside/app/intake"
)

// placeFor finds where a picture goes: to the place asked for, or, where next
// is asked for or pictures follow one another, to the next one that has none.
func (s *Server) placeFor(board string, part intake.Part) (intake.Place, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, b := range s.opt.Boards {
		if at := (intake.Place{Board: b.ID, Part: part}); b.ID == board || board == "" && !s.have[at] {
			return at, true
		}
	}
	return intake.Place{}, false
}

// after is the place that follows one: the other face of the board, then the
// faces of the boards behind it, each only where it has no picture; after an end
// the ends likewise.
func (s *Server) after(last intake.Place) (intake.Place, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	kind := []intake.Part{intake.Face1, intake.Face2}
	if last.Part.Face() == 0 {
		kind = []intake.Part{intake.EndA, intake.EndB}
	}
	from := slices.IndexFunc(s.opt.Boards, func(b Board) bool { return b.ID == last.Board })
	for _, b := range s.opt.Boards[from:] {
		for _, part := range kind {
			if at := (intake.Place{Board: b.ID, Part: part}); !s.have[at] {
				return at, true
			}
		}
	}
	return intake.Place{}, false
}

// offer has the form begin where the sender will go on: at what follows the
// last picture of a board, or at the next board and the same face as before.
func (s *Server) offer(board string, part intake.Part, last intake.Place) {
	if board != "" && last.Board != "" {
		if at, ok := s.after(last); ok {
			board, part = at.Board, at.Part
		}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.board, s.part = board, part
}
