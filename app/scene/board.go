package scene

import (
	"math"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model/say"
)

// buildBoard lists what is drawn of the board in hand.
func (s *Scene) buildBoard() {
	if s.hand == nil {
		s.add("no board", s.drawNoBoard)
		return
	}
	s.add("face 1", s.inBoard(func(c render.Canvas) { s.drawHandFace(c, 1) }))
	s.add("face 2", s.inBoard(func(c render.Canvas) { s.drawHandFace(c, 2) }))
	s.add("edge", s.inBoard(s.drawMarkedEdge))
	g := &s.in.Grain
	if g.Read[0] != nil || g.Read[1] != nil {
		s.add("grain as read", s.inBoard(s.drawGrainRead)) // under all that is written there
	}
	lined := len(g.Lines[0])+len(g.Lines[1]) > 0
	ticks := s.ticks()
	letter, size := s.letter(ticks)
	taken := []geom.Rect{s.letterRect(letter, size)}
	for i := range ticks {
		taken = append(taken, ticks[i].chip)
	}
	s.add("tick lines", s.inBoard(func(c render.Canvas) { s.drawTickLines(c, ticks) }))
	if s.spoiled(s.hand) {
		s.add("crossed out", s.inBoard(s.drawCrossed))
	}
	if lined && !g.On {
		s.add("grain lines", s.inBoard(s.drawGrainLines))
	}
	for _, l := range s.laid() {
		s.add("laid "+l.Panel+"/"+l.Strip.ID, s.inBoard(func(c render.Canvas) { s.drawLaid(c, l, taken) }))
	}
	s.add("chalk", s.inBoard(func(c render.Canvas) { s.drawLetter(c, letter, size) }))
	s.add("ticks", s.inBoard(func(c render.Canvas) { s.drawTicks(c, ticks) }))
	if lined && g.On {
		s.add("grain lines", s.inBoard(s.drawGrainLines))
	}
	s.add("zone in hand", s.inBoard(s.drawPickedZone))
	s.add("sketch", s.inBoard(s.drawSketch))
	s.add("told", s.inBoard(s.drawTold))
	s.add("ruler", s.drawRuler)
	s.add("board names", s.drawBoardNames)
	s.add("board depth", s.drawBoardDepth)
}

func (s *Scene) inBoard(draw func(render.Canvas)) func(render.Canvas) {
	return func(c render.Canvas) {
		c.Push(render.Box(s.areas.body))
		draw(c)
		c.Pop()
	}
}

func (s *Scene) drawNoBoard(c render.Canvas) {
	words := say.T("No board in hand. Pick one from the lanes, or enter the first.")
	if len(s.in.Boards.All) == 0 {
		words = say.T("No boards yet. Enter one with a tape or from its photographs.")
	}
	s.sentence(c, s.areas.board, words)
}

// handRing is the outline of a face of the board in hand, units.
func (s *Scene) handRing(f int) geom.Polygon {
	o := s.hand.Faces[f-1].Outline
	if o == nil {
		o = geom.R(0, 0, s.hand.Length, s.hand.Width).Polygon()
	}
	return s.faceUnits(f).ApplyTo(o)
}

func (s *Scene) drawHandFace(c render.Canvas, f int) {
	to := s.faceUnits(f)
	ring := s.handRing(f)
	s.drawFace(c, s.hand, f, to, render.Ring(ring))
	s.drawZones(c, zonesOf(s.hand, f, to), ring)
	t := &s.in.Look.Theme
	c.Stroke(render.Ring(ring), render.Pen{Width: 1.2, Color: t.Edge})
	s.drawGone(c, f)
	if s.in.Hover.Part == BoardFace && s.in.Hover.Face == f && s.in.Sketch.Carried != "" {
		c.Stroke(render.Ring(ring), render.Pen{Width: 2.5, Color: t.Accent})
	}
}

// drawMarkedEdge draws the edge between the faces: what each face shows at
// its border meets in the middle.
func (s *Scene) drawMarkedEdge(c render.Canvas) {
	b := s.hand
	const n = 48
	for f := 1; f <= 2; f++ {
		y, v0, v1 := 0.5, 0.0, b.Thickness/2
		if f == 2 {
			y, v0, v1 = b.Width-0.5, -b.Thickness/2, 0
		}
		from, kind := 0.0, kindAt(b, f, geom.Pt(b.Length*0.5/n, y))
		for i := 1; i <= n; i++ {
			k := face.Blank
			if i < n {
				k = kindAt(b, f, geom.Pt(b.Length*(float64(i)+0.5)/n, y))
			}
			if k == kind && i < n {
				continue
			}
			if kind != face.Blank {
				r := s.board.rect(geom.R(from, v0, b.Length*float64(i)/n, v1))
				c.Fill(render.Box(r), flatColour(b, &b.Faces[f-1], kind))
				if s.in.Look.Hatch && kind == face.Sap {
					c.Hatch(render.Box(r), render.Hatch{Angle: 45, Spacing: 9 * s.text, Origin: r.Min, Pen: render.Pen{Width: 0.9, Color: rgba(0x2B2118, 0x78)}})
				}
			}
			from, kind = b.Length*float64(i)/n, k
		}
	}
	begin, end := b.Left()
	r := s.board.rect(geom.R(begin, -b.Thickness/2, end, b.Thickness/2))
	c.Fill(render.Box(r), rgba(0x000000, 0x24))
	c.Stroke(render.Box(r), render.Pen{Width: 1, Color: s.in.Look.Theme.Edge})
	seen := r.Intersect(s.areas.body)
	if size := math.Min(s.size(10.5), r.H()*0.72); size >= 9 && !seen.Empty() {
		s.plaque(c, geom.Pt(seen.Centre().X, r.Centre().Y), say.T("marked edge"), render.Style{Size: size})
		return
	}
	st := render.Style{Size: s.size(10.5), Color: s.in.Look.Theme.Quiet}
	at := geom.Pt(r.Max.X+6*s.text, r.Centre().Y+st.Size*0.36)
	if at.X+s.width(say.T("marked edge"), st) < s.areas.board.Max.X {
		c.Text(at, say.T("marked edge"), st)
	}
}

// letter returns where the board's letter is chalked, its baseline's start,
// and how large: where it stands on the wood, on face 1 at the marked end, at
// the corner of the marked edge; beside the sap width told there.
func (s *Scene) letter(ticks []tick) (geom.Point, float64) {
	k := math.Min(s.size(26), 0.45*s.hand.Width*s.board.zoom)
	at := s.faceUnits(1).Apply(geom.Pt(s.hand.Cut[0], 0))
	at = at.Add(geom.Pt(k*0.35, -k*0.3))
	for range 2 { // beside one number, and beside the one that stood there
		for i := range ticks {
			if c := ticks[i].chip; !c.Inset(-2).Intersect(s.letterRect(at, k)).Empty() {
				at.X = math.Max(at.X, c.Max.X+k*0.25)
			}
		}
	}
	return at, k
}

func (s *Scene) letterRect(at geom.Point, k float64) geom.Rect {
	w := s.width(s.hand.ID, render.Style{Size: k, Bold: true})
	return geom.R(at.X-k*0.1, at.Y-k, at.X+w+k*0.1, at.Y+k*0.1)
}

func (s *Scene) drawLetter(c render.Canvas, at geom.Point, k float64) {
	if k >= 8 {
		s.chalk(c, at, s.hand.ID, render.Style{Size: k, Bold: true, Turn: 6})
	}
}

// drawBoardNames writes the board's letter and size, and which side is which.
func (s *Scene) drawBoardNames(c render.Canvas) {
	b, t, k := s.hand, &s.in.Look.Theme, s.text
	head := render.Style{Size: s.size(14), Bold: true, Color: t.Ink}
	at := geom.Pt(s.areas.board.Min.X+12*k, s.areas.board.Min.Y+19*k)
	title := s.fit(say.F("Board %s", b.ID), head, s.areas.board.W()/2)
	c.Text(at, title, head)
	at.X += s.width(title, head) + 12*k
	head.Bold, head.Size, head.Color = false, s.size(12), t.Quiet
	if s.spoiled(b) {
		fault := render.Style{Size: s.size(14), Bold: true, Color: t.Fault}
		c.Text(at, spoiledWord(), fault)
		at.X += s.width(spoiledWord(), fault) + 12*k
	}
	parts := []string{s.in.Words.Short(b.Length) + " × " + s.in.Words.Short(b.Width) + " × " + s.in.Words.Len(b.Thickness)}
	if v := s.goneWords(b.Cut); v != "" {
		parts = append(parts, v)
	}
	for f := 1; f <= 2; f++ {
		if v := s.lightWords(b, f); v != "" {
			parts = append(parts, s.in.Words.Side(b, f)+" "+v)
		}
	}
	if b.Species != "" {
		parts = append(parts, s.in.Words.Wood(b.Species))
	}
	words := ""
	for i, p := range parts {
		longer := words + p
		if i > 0 {
			longer = words + "   ·   " + p
		}
		if s.width(longer, head) > s.areas.board.Max.X-s.badgeRoom()-at.X-8*k {
			break
		}
		words = longer
	}
	c.Text(at, words, head)
	for f := 1; f <= 2; f++ {
		s.drawSide(c, f)
	}
}

// lightWords tells the light share of a face: a range where part of it has not
// been seen.
func (s *Scene) lightWords(b *face.Board, f int) string {
	v, unseen, ok := s.in.Look.Textures.light(b, f)
	switch {
	case !ok:
		return ""
	case b.Faces[f-1].Guessed:
		return say.T("not looked at")
	case unseen > 0.95:
		return say.T("not seen yet")
	case unseen > 0.02:
		return say.F("%s to %s light", s.in.Words.Share(v), s.in.Words.Share(v+unseen))
	}
	return say.F("%s light", s.in.Words.Share(v))
}

// drawSide names a side of the board in hand beside it: upright where there is
// room, else level.
func (s *Scene) drawSide(c render.Canvas, f int) {
	b, k := s.hand, s.text
	st := render.Style{Size: s.size(11.5), Color: s.in.Look.Theme.Quiet, Align: render.Middle, Turn: 90}
	area := s.areas.body
	edge := s.board.px(geom.Pt(0, 0)).X
	left := math.Max(edge, area.Min.X+24*k)
	r := geom.Polygon(s.handRing(f)).Bounds().Intersect(area.Inset(2 * k))
	if r.Empty() {
		return
	}
	words := s.in.Words.Side(b, f)
	if s.width(words, st) <= r.H()+4*k {
		if edge < left { // the name lies on the wood
			s.plaque(c, geom.Pt(left-13*k, r.Centre().Y), words, st)
			return
		}
		c.Text(geom.Pt(left-10*k, r.Centre().Y), words, st)
		return
	}
	if r.H() < st.Size { // the names of both faces would lie on one another
		return
	}
	st.Turn, st.Align = 0, render.Right
	if s.width(words, st) < left-area.Min.X-14*k {
		c.Text(geom.Pt(left-8*k, r.Centre().Y+st.Size*0.36), words, st)
		return
	}
	// Beyond the other end, where it does not meet the name of the edge.
	end := s.board.px(geom.Pt(b.Length, 0))
	st.Align = render.Left
	if gap := math.Abs(end.Y - r.Centre().Y); gap > 1.25*st.Size && end.X+s.width(words, st)+8*k < area.Max.X {
		c.Text(geom.Pt(end.X+6*k, r.Centre().Y+st.Size*0.36), words, st)
	}
}
