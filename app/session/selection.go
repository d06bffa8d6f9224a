package session

// Selection is what the maker has in hand. It is not part of the history.
type Selection struct {
	Panel string // the panel on screen
	Strip string // a strip of it
	Board string // the board in hand
	Face  int    // its face, 1 or 2, where a zone is selected
	Zone  int    // index of a zone of that face, -1 none
}

// Select changes what is in hand. Naming a strip that lies on a board takes
// that board in hand too, unless another is named.
func (s *Session) Select(sel Selection) {
	p := s.Project()
	if sel.Panel == "" && len(p.Panels) > 0 {
		sel.Panel = p.Panels[0].ID
	}
	if sel.Board == "" && sel.Strip != "" {
		if st, ok := stripByID(p, sel.Panel, sel.Strip); ok {
			sel.Board = st.Board
		}
	}
	if sel.Board == "" {
		sel.Board = s.sel.Board
	}
	if sel == s.sel {
		return
	}
	s.sel = sel
	s.changed()
}

// Selected returns what is in hand, with anything that no longer exists
// dropped.
func (s *Session) Selected() Selection {
	p, sel := s.Project(), s.sel
	if p.Panel(sel.Panel) == nil {
		sel.Panel, sel.Strip = "", ""
		if len(p.Panels) > 0 {
			sel.Panel = p.Panels[0].ID
		}
	}
	if _, ok := stripByID(p, sel.Panel, sel.Strip); !ok {
		sel.Strip = ""
	}
	if b := p.Board(sel.Board); b == nil {
		sel.Board, sel.Zone = "", -1
		if len(p.Boards) > 0 {
			sel.Board = p.Boards[0].ID
		}
	} else if sel.Zone >= 0 && (sel.Face < 1 || sel.Face > 2 || sel.Zone >= len(b.Faces[sel.Face-1].Zones)) {
		sel.Zone = -1
	}
	return sel
}
