package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// lane is a board shown folded up: its face 1, small, at the scale all lanes
// share.
type lane struct {
	board *face.Board
	cell  geom.Rect   // units
	to    geom.Affine // face-1 mm to units
	box   geom.Rect   // of the wood, units
}

// leastRow and mostRow bound the height of a lane, and laneColumn is the least
// width of a column, units at ordinary text.
const leastRow, mostRow, laneColumn = 25.0, 38.0, 430.0

// laneShape returns columns and rows for the boards not in hand.
func (s *Scene) laneShape(w float64) (cols, rows int) {
	n := 0
	for _, b := range s.in.Boards.All {
		if b.ID != s.in.Boards.InHand {
			n++
		}
	}
	if n == 0 {
		return 1, 0
	}
	cols = int(math.Max(1, math.Floor(w/(laneColumn*s.text))))
	cols = min(cols, n, 4)
	return cols, (n + cols - 1) / cols
}

// laneSpace returns the height of a lane and of all that is seen of the lanes:
// what they need, or as many whole rows as a good third of the lower half
// holds.
func (s *Scene) laneSpace(w, lower float64) (row, height float64) {
	_, rows := s.laneShape(w)
	if rows == 0 {
		return 0, 0
	}
	row = math.Min(math.Max(0.26*lower/float64(rows), leastRow*s.text), mostRow*s.text)
	shown := math.Max(1, math.Floor((0.36*lower-10*s.text)/row))
	return row, math.Round(math.Min(float64(rows), shown)*row + 10*s.text)
}

// holdLanes keeps a scroll of the lanes inside what there is.
func (s *Scene) holdLanes(v float64) float64 {
	_, rows := s.laneShape(s.areas.lanes.W())
	most := float64(rows)*s.laneRow + 10*s.text - s.areas.lanes.H()
	return math.Max(0, math.Min(v, most))
}

func (s *Scene) buildLanes() {
	area, k := s.areas.lanes, s.text
	if area.Empty() {
		return
	}
	cols, _ := s.laneShape(area.W())
	cellW, cellH := (area.W()-16*k)/float64(cols), s.laneRow
	var long, wide float64
	for _, b := range s.in.Boards.All {
		if b.ID != s.in.Boards.InHand {
			long, wide = math.Max(long, b.Length), math.Max(wide, b.Width)
		}
	}
	info := s.laneInfoWidth()
	letter := s.laneLetterWidth()
	room := math.Max(cellW-letter-info-18*k, 20)
	scale := math.Min(room/math.Max(long, 1), (cellH-6*k)/math.Max(wide, 1))
	scroll := s.holdLanes(s.in.Views.Lanes)
	if _, rows := s.laneShape(area.W()); float64(rows)*s.laneRow+10*k > area.H()+1 {
		s.add("lane bar", s.drawLaneBar)
	}
	i := 0
	for _, b := range s.in.Boards.All {
		if b.ID == s.in.Boards.InHand {
			continue
		}
		row, col := i/cols, i%cols
		i++
		x, y := area.Min.X+8*k+float64(col)*cellW, area.Min.Y+5*k+float64(row)*cellH-scroll
		l := lane{board: b, cell: geom.R(x, y, x+cellW-6*k, y+cellH)}
		left, mid := x+letter+6*k, y+cellH/2
		l.box = geom.R(left, mid-b.Width*scale/2, left+b.Length*scale, mid+b.Width*scale/2)
		l.to = geom.Affine{A: scale, C: left, E: -scale, F: l.box.Max.Y}
		s.lanes = append(s.lanes, l)
		if !l.cell.Intersect(area).Empty() {
			s.add("lane "+b.ID, func(c render.Canvas) { s.drawLane(c, &l, l.box.Max.X+9*k) })
		}
	}
}

// drawLaneBar shows how far the lanes are scrolled.
func (s *Scene) drawLaneBar(c render.Canvas) {
	t, a, k := &s.in.Look.Theme, s.areas.lanes, s.text
	_, rows := s.laneShape(a.W())
	all := float64(rows)*s.laneRow + 10*k
	track := geom.R(a.Max.X-8*k, a.Min.Y+4*k, a.Max.X-3*k, a.Max.Y-4*k)
	c.Fill(render.RoundBox(track, 2.5*k), faint(t.Line, 0.6))
	part := track.H() / all
	y := track.Min.Y + s.holdLanes(s.in.Views.Lanes)*part
	c.Fill(render.RoundBox(geom.R(track.Min.X, y, track.Max.X, y+a.H()*part), 2.5*k), t.Quiet)
}

func (s *Scene) laneStyle() render.Style {
	return render.Style{Size: s.size(11), Color: s.in.Look.Theme.Quiet}
}

// laneInfo is what is written beside a lane: size, and the light share of
// either face.
func (s *Scene) laneInfo(b *face.Board) string {
	words := s.in.Words.Short(b.Length) + " × " + s.in.Words.Len(b.Width)
	if s.spoiled(b) {
		return words + " · " + spoiledWord()
	}
	one, dark1, ok1 := s.in.Look.Textures.light(b, 1)
	two, dark2, ok2 := s.in.Look.Textures.light(b, 2)
	share := func(f int, v, unseen float64) string {
		if unseen > 0.02 || b.Faces[f-1].Guessed {
			return "?"
		}
		return s.in.Words.Share(v)
	}
	if ok1 && ok2 {
		words += say.F(" · %s / %s light", share(1, one, dark1), share(2, two, dark2))
	}
	return words
}

func (s *Scene) laneInfoWidth() float64 {
	w := 0.0
	for _, b := range s.in.Boards.All {
		if b.ID != s.in.Boards.InHand {
			w = math.Max(w, s.width(s.laneInfo(b), s.laneStyle()))
		}
	}
	return w
}

func (s *Scene) laneLetterWidth() float64 {
	w := 0.0
	for _, b := range s.in.Boards.All {
		w = math.Max(w, s.width(b.ID, render.Style{Size: s.size(13), Bold: true}))
	}
	return math.Min(w, 70*s.text)
}

func (s *Scene) drawLane(c render.Canvas, l *lane, infoX float64) {
	t, b := &s.in.Look.Theme, l.board
	c.Push(render.Box(s.areas.lanes))
	defer c.Pop()
	hovered := s.in.Hover.Part == Lane && s.in.Hover.Board == b.ID
	if hovered {
		c.Fill(render.RoundBox(l.cell.Inset(1), 5*s.text), faint(t.Accent, 0.16))
		c.Stroke(render.RoundBox(l.cell.Inset(1), 5*s.text), render.Pen{Width: 1.5, Color: t.Accent})
	}
	y := l.cell.Centre().Y
	st := render.Style{Size: s.size(13), Bold: true, Color: t.Ink}
	c.Text(geom.Pt(l.cell.Min.X+3*s.text, y+st.Size*0.36), s.fit(b.ID, st, 70*s.text), st)
	ring := render.Ring(l.to.ApplyTo(b.OutlineOf(1)))
	s.drawFace(c, b, 1, l.to, ring)
	c.Stroke(ring, render.Pen{Width: 1, Color: t.Edge})
	if s.spoiled(b) {
		s.cross(c, ring, l.box.Min, 0.5)
	}
	for _, k := range s.in.Boards.Laid {
		if k.Strip == nil || k.Strip.Board == nil || k.Strip.Board.ID != b.ID {
			continue
		}
		q := k.Strip.ToBoard().Then(l.to).ApplyTo(geom.R(0, 0, k.Strip.L, k.Strip.W).Polygon())
		c.Fill(render.Ring(q), faint(t.Chip, 0.25))
		s.onWood(c, render.Ring(q), 0.9, nil)
	}
	style := s.laneStyle()
	c.Text(geom.Pt(infoX, y+style.Size*0.36), s.laneInfo(b), style)
}
