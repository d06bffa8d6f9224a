package session

import (
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/catalog"
)

// ellipseSides makes an ellipse of 2 m miss its true outline by less than
// 0.02 mm.
const ellipseSides = 720

// lookedAt is what the pictures of a board gave, by face.
type lookedAt [2]sight

// boardOf makes the value the readings see from a board of the project.
func boardOf(p *model.Project, b *model.Board, fields lookedAt) *face.Board {
	sp := catalog.Find(b.Species)
	fb := &face.Board{
		ID: b.ID, Species: b.Species,
		Length: b.Length, Width: b.Width, Thickness: b.Thickness,
		Planes: planesOf(b.Planes), BarkFace: barkFace(b), Moisture: b.Moisture,
		AssumedHeart: sp.HeartSwatch(), AssumedSap: sp.SapSwatch(),
		Ageing: ageingOf(p, b.Species),
	}
	for i := range fb.Faces {
		fb.Faces[i] = faceOf(&b.Faces[i])
	}
	for i := range fb.Faces {
		switch f := &fb.Faces[i]; {
		case looked(&b.Faces[i]):
		case looked(&b.Faces[1-i]):
			*f = throughFace(fb, 1-i)
		default:
			f.Guessed = true // nothing was said of either face: as the file's defaults have it
		}
	}
	for i := range fb.Faces {
		l := fields[i].look
		if l == nil {
			continue
		}
		f := &fb.Faces[i]
		f.Field = l.field
		if fields[i].own && looked(&b.Faces[i]) {
			f.Heart, f.Sap = l.heart, l.sap
		} else {
			f.Heart, f.Sap = face.MeanColours(f)
		}
	}
	applyMeasured(p, b.Species, fb)
	return fb
}

// looked reports whether the zones of a face are known: a photograph that is
// still to be split says nothing of them.
func looked(f *model.Face) bool { return f.Known && !f.Open() }

// faceOf copies a face without its picture.
func faceOf(f *model.Face) face.BoardFace {
	out := face.BoardFace{Base: KindOf(f.Base), Outline: f.Outline, Reference: f.Reference}
	if len(f.Outline) == 0 {
		out.Outline = nil
	}
	for _, z := range f.Zones {
		out.Zones = append(out.Zones, face.Zone{Kind: KindOf(z.Kind), Polygon: z.Polygon})
	}
	return out
}

// throughFace is a face nobody has looked at, taken straight through the
// board from face index k.
func throughFace(b *face.Board, k int) face.BoardFace {
	src, m := b.Faces[k], b.Other()
	out := face.BoardFace{Base: src.Base, Guessed: true}
	if src.Outline != nil {
		out.Outline = m.ApplyTo(src.Outline)
	}
	for _, z := range src.Zones {
		out.Zones = append(out.Zones, face.Zone{Kind: z.Kind, Polygon: m.ApplyTo(z.Polygon)})
	}
	return out
}

// applyMeasured lets colours the maker measured today stand for those of the
// species' illustration.
func applyMeasured(p *model.Project, species string, b *face.Board) {
	for _, c := range p.Colours {
		if c.Species != species || c.Years != 0 {
			continue
		}
		for i := range b.Faces {
			f := &b.Faces[i]
			if f.Heart == nil {
				f.Heart = c.Heart
			}
			if f.Sap == nil {
				f.Sap = c.Sap
			}
		}
	}
}

func ageingOf(p *model.Project, species string) *face.Ageing {
	var a face.Ageing
	for _, c := range p.Colours {
		if c.Species != species || c.Years <= 0 {
			continue
		}
		if c.Heart != nil {
			a.Heart = append(a.Heart, face.AgedColour{Years: c.Years, Lab: *c.Heart})
		}
		if c.Sap != nil {
			a.Sap = append(a.Sap, face.AgedColour{Years: c.Years, Lab: *c.Sap})
		}
	}
	if a.Heart == nil && a.Sap == nil {
		return nil
	}
	return &a
}

// KindOf returns the kind that the readings give a zone.
func KindOf(k model.ZoneKind) face.Kind {
	switch k {
	case model.Sap:
		return face.Sap
	case model.Flaw:
		return face.Flaw
	case model.Unseen:
		return face.Unseen
	}
	return face.Heart
}

func planesOf(d model.Planes) face.Planes {
	switch d {
	case model.PlanesFromMarked:
		return face.PlanesFromMarked
	case model.PlanesToMarked:
		return face.PlanesToMarked
	case model.PlanesMixed:
		return face.PlanesMixed
	}
	return face.PlanesUnknown
}

// barkFace is the bark side as the project says, else as the pith tells.
func barkFace(b *model.Board) int {
	switch b.Bark {
	case model.BarkFace1:
		return 1
	case model.BarkFace2:
		return 2
	case model.BarkNone:
		return 0
	}
	if len(b.Pith) == 0 {
		return 0
	}
	switch d := b.Pith[0].Depth; {
	case d < 0:
		return 2
	case d > b.Thickness:
		return 1
	}
	return 0
}

func wantedOf(w model.Wanted) face.Wanted {
	switch w {
	case model.WantSap:
		return face.WantSap
	case model.WantBoth:
		return face.WantBoth
	}
	return face.WantHeart
}

func stageOf(s model.Stage) face.Stage {
	switch s {
	case model.Sawn:
		return face.Sawn
	case model.Planed:
		return face.Planed
	case model.Jointed:
		return face.Jointed
	case model.Glued:
		return face.Glued
	}
	return face.Planned
}

// panelOf makes the value the readings see from a panel of the project.
func panelOf(p *model.Project, m *model.Panel, board boardFor, planed func(*model.Strip) *face.PlanedFace) *face.Panel {
	out := &face.Panel{
		ID: m.ID, Length: m.Length, Width: m.Width, Thickness: m.Thickness,
		Hidden: m.Hidden, BothShow: m.BothShow,
		Wanted:    wantedOf(model.DefaultWanted(p, m)),
		Limit:     m.UnwantedLimit,
		PanelEdge: p.Allowances.PanelEdge,
		Limits: face.Limits{Streak: p.Limits.Streak, Mix: p.Limits.Mix, Contrast: face.DefaultLimits.Contrast,
			Fresh: p.Limits.PlanedLimit(), More: p.Limits.PlanedLimit() * face.DefaultLimits.More / face.DefaultLimits.Fresh, Turns: p.Limits.TurnsLimit()},
	}
	switch m.Shape {
	case model.Ellipse:
		out.Shape = geom.Ellipse(geom.R(0, 0, m.Length, m.Width), ellipseSides)
	case model.Poly:
		out.Shape = m.Points
	}
	for e, q := range m.Profiles {
		out.Profiles[e] = profileOf(q)
	}
	out.Strips = make([]face.Strip, len(m.Strips))
	for i := range m.Strips {
		out.Strips[i] = stripOf(&m.Strips[i], board, planed)
	}
	return out
}

func profileOf(q model.Profile) face.Profile {
	if q.Kind == model.ProfileSquare {
		return face.Profile{}
	}
	return face.Profile{Round: q.Kind == model.ProfileRound, Across: q.Across, Down: q.Down}
}

func stripOf(s *model.Strip, board boardFor, planed func(*model.Strip) *face.PlanedFace) face.Strip {
	up := s.Up
	if up != 2 {
		up = 1
	}
	return face.Strip{
		ID: s.ID, Board: board(s.Board, s.Cut()),
		X: s.X, Y: s.Y, L: s.L, W: s.W, Angle: s.Angle,
		Up: up, Turned: s.Turned, Shift: s.Shift, Pinned: s.Pinned,
		Stage: stageOf(s.Stage), Planed: planed(s), Off: offOf(s.Off),
	}
}

// offOf is the stock taken from the faces as the readings have it.
func offOf(off *[2]float64) face.Off {
	if off == nil {
		return face.Off{}
	}
	return face.Off{Set: true, Face: *off}
}

// planedOf turns widths measured after planing into zones of the strip.
func planedOf(s *model.Strip) *face.PlanedFace {
	if !s.MeasuredAsShown() {
		return nil
	}
	out := &face.PlanedFace{Base: face.Heart}
	for _, z := range model.PlanedZones(*s) {
		out.Zones = append(out.Zones, face.Zone{Kind: KindOf(z.Kind), Polygon: z.Polygon})
	}
	return out
}
