package session

import (
	"math"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/layout/wood"
	"heartside/model"
	"heartside/model/say"
)

// Agreement is what the two faces of a board tell together.
type Agreement struct {
	Fit *wood.Fit // whether the second face goes with the first
	Log *wood.Log // pith and heart radius
}

// agreements keeps what was found by board. Boards are known by their pointer.
type agreements struct {
	got map[*model.Board]*Agreement // nil while it is being found
}

// Agreement returns what the two faces of a board tell together; ok is false
// where one of them is not known, and while it is being found in the
// background, after which the session has changed.
func (s *Session) Agreement(board string) (a Agreement, ok bool) {
	b := s.Committed().Board(board)
	if b == nil || !looked(&b.Faces[0]) || !looked(&b.Faces[1]) {
		return a, false
	}
	got, begun := s.agree.got[b]
	if !begun {
		s.findAgreement(b)
		got = s.agree.got[b]
	}
	if got == nil {
		return a, false
	}
	return *got, true
}

// findAgreement compares the faces of a board.
func (s *Session) findAgreement(b *model.Board) {
	s.dropAgreements()
	s.agree.got[b] = nil
	f := facesOf(b)
	ctx := s.work
	find := func() *Agreement {
		fit, err := wood.Compare(ctx, f)
		if err != nil {
			return nil
		}
		log, err := wood.Read(ctx, f)
		if err != nil {
			return nil
		}
		return &Agreement{fit, log}
	}
	if s.opt.Post == nil {
		s.agree.got[b] = find()
		return
	}
	go func() {
		a := find()
		s.opt.Post(func() {
			if _, wanted := s.agree.got[b]; a != nil && wanted && ctx.Err() == nil {
				s.agree.got[b] = a
				s.changed()
			}
		})
	}()
}

// dropAgreements forgets boards that are no longer there.
func (s *Session) dropAgreements() {
	for b := range s.agree.got {
		if s.Committed().Board(b.ID) != b {
			delete(s.agree.got, b)
		}
	}
}

// facesOf gives the zones of a board's faces to those who read the log.
func facesOf(b *model.Board) wood.Faces {
	out := wood.Faces{Length: b.Length, Width: b.Width, Thickness: b.Thickness}
	for i := range b.Faces {
		f := &b.Faces[i]
		var zones []wood.Zone
		for _, z := range f.Zones {
			zones = append(zones, wood.Zone{Kind: intake.LabelOf(z.Kind), Polygon: z.Polygon})
		}
		out.Side[i] = wood.FromZones(b.Length, b.Width, intake.LabelOf(f.Base), f.Outline, zones)
	}
	return out
}

// TurnFace is the edit that lays a face's photograph and zones the other way
// round: half a turn in the picture's plane. It mends a board that was rolled
// end over end instead of about its long axis.
func (s *Session) TurnFace(board string, face int) (model.Edit, error) {
	b := s.Committed().Board(board)
	if b == nil || face < 1 || face > 2 {
		return nil, say.Errorf("there is no face %d of a board %s", face, board)
	}
	c := *b
	c.Faces[face-1] = b.Faces[face-1].Turned(b.Length, b.Width)
	return model.SetBoards{Boards: []*model.Board{&c}, Verb: say.F("Turn face %d of board %s", face, board)}, nil
}

// TakeLog is the edit that keeps what the faces tell of the log: the pith, the
// radius of the heartwood and the bark side, as far as they are told.
func (s *Session) TakeLog(board string) (model.Edit, error) {
	a, ok := s.Agreement(board)
	b := s.Committed().Board(board)
	if !ok || b == nil {
		return nil, say.Errorf("the faces of board %s are not both known yet", board)
	}
	if !a.Log.Seen {
		return nil, say.Errorf("no border of the heartwood shows on board %s: the pith stays unknown", board)
	}
	whole := func(v float64) float64 { return math.Round(v) }
	c := *b
	c.Pith = []model.Pith{{Across: whole(a.Log.Across.Best), Depth: whole(a.Log.Depth.Best)}}
	c.Heart = whole(a.Log.HeartRadius.Best)
	// Where no face stands out, what the maker said of the bark side stays as
	// far as it goes with the pith.
	switch c.Bark = model.Bark(a.Log.Bark); {
	case c.Bark != model.BarkUnknown:
	case c.Pith[0].Depth > b.Thickness/2 && b.Bark != model.BarkFace2, c.Pith[0].Depth < b.Thickness/2 && b.Bark != model.BarkFace1:
		c.Bark = b.Bark
	}
	return model.SetBoards{Boards: []*model.Board{&c}, Verb: say.F("Take the pith of board %s from its faces", board)}, nil
}

// EndBorders returns where the sap lines of both faces of a board meet its end,
// 0 the marked one and 1 the other, as points of that section: across from the
// marked edge and depth below face 1, mm. Faces nobody looked at give none.
func (s *Session) EndBorders(board string, end int) []geom.Point {
	b := s.Project().Board(board)
	if b == nil {
		return nil
	}
	f := facesOf(b)
	for i := range f.Side {
		if !looked(&b.Faces[i]) {
			f.Side[i] = nil
		}
	}
	return f.EndBorders(end == 1)
}
