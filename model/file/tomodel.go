package file

import (
	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

func (v *projectV1) project() *model.Project {
	p := &model.Project{
		Name:       v.Name,
		Units:      unit.System(v.Units),
		Currency:   v.Currency,
		Climate:    model.Climate{Now: model.Air(v.Climate.Now), Dry: model.Air(v.Climate.Dry), Wet: model.Air(v.Climate.Wet)},
		Limits:     model.Limits(v.Limits),
		Allowances: model.Allowances(v.Allowances),
		Machines:   model.Machines(v.Machines),
		Behaviour:  model.Behaviour(v.Behaviour),
		Spares:     stripsV1(v.Spares),
	}
	for i := range v.Boards {
		p.Boards = append(p.Boards, v.Boards[i].board())
	}
	for i := range v.Panels {
		p.Panels = append(p.Panels, v.Panels[i].panel())
	}
	for _, s := range v.Sets {
		p.Sets = append(p.Sets, s.set())
	}
	for i := range v.Parts {
		p.Parts = append(p.Parts, v.Parts[i].part())
	}
	for _, j := range v.Joined {
		p.Joined = append(p.Joined, model.Joined(j))
	}
	for _, k := range v.Kept {
		p.Kept = append(p.Kept, model.Kept{Panel: k.Panel, Name: k.Name, Strips: stripsV1(k.Strips)})
	}
	for _, k := range v.Printed {
		p.Printed = append(p.Printed, model.PrintedPage(k))
	}
	p.Record = recordV1(v.Record)
	p.Yard, p.Clear = v.Yard.yard(), v.Clear.clear()
	for _, c := range v.Colours {
		p.Colours = append(p.Colours, model.Colours{Species: c.Species, Years: c.Years, Heart: labV1(c.Heart), Sap: labV1(c.Sap)})
	}
	return p
}

func (v *boardV1) board() *model.Board {
	b := &model.Board{
		ID: v.ID, Species: v.Species, Length: v.Length, Width: v.Width, Thickness: v.Thickness,
		Moisture: v.Moisture, Bark: model.Bark(v.Bark), Planes: model.Planes(v.Planes),
		Shape: model.Shape(v.Shape), Wanted: model.Wanted(v.Wanted), Note: v.Note,
		Ends:  [2]model.End{v.Ends.A.end(), v.Ends.B.end()},
		Heart: v.Heart, Spoiled: v.Spoiled, Edges: model.Edges(v.Edges),
		Cut: [2]float64{v.Cut.Marked, v.Cut.Other},
	}
	if v.Edges == "sawn" {
		b.Edges = model.EdgesSawn
	}
	if v.Planes == "unknown" {
		b.Planes = model.PlanesUnknown
	}
	if v.Price != nil {
		b.Price = &model.Price{Amount: v.Price.Amount, Per: v.Price.Per}
	}
	if v.Log != nil {
		b.Log = &model.Log{Name: v.Log.Name, Order: v.Log.Order}
	}
	for _, q := range v.Pith {
		m := model.Pith{Across: q.Across, Depth: q.Depth}
		if q.X != nil {
			m.X, m.HasX = *q.X, true
		}
		b.Pith = append(b.Pith, m)
	}
	for i, f := range []*faceV1{v.Faces.One, v.Faces.Two} {
		if f != nil {
			b.Faces[i] = f.face()
		}
	}
	return b
}

func (v *faceV1) face() model.Face {
	f := model.Face{Photo: v.Photo, Reference: v.Reference, Base: model.ZoneKind(v.Base), Outline: v.Outline.polygon(), Known: !v.Unlooked}
	f.Corners, f.Bow, f.White = cornersV1(v.Corners), v.Bow, v.White
	if v.Split != nil {
		f.Split = &model.Split{By: model.SplitBy(v.Split.By), Sure: v.Split.Sure}
	}
	for _, t := range v.Tones {
		f.Tones = append(f.Tones, model.Tone{Kind: model.ZoneKind(t.Kind), Mean: *labV1(&t.Lab), Spread: t.Spread})
	}
	for _, z := range v.Zones {
		f.Zones = append(f.Zones, model.Zone{Kind: model.ZoneKind(z.Kind), Polygon: z.Polygon.polygon()})
	}
	for _, line := range v.Grain {
		f.Grain = append(f.Grain, line.polygon())
	}
	return f
}

func (v endV1) end() model.End { return model.End{Photo: v.Photo, Corners: cornersV1(v.Corners)} }

func cornersV1(v *[4]pointV1) *[4]geom.Point {
	if v == nil {
		return nil
	}
	out := new([4]geom.Point)
	for i, c := range v {
		out[i] = geom.Pt(c[0], c[1])
	}
	return out
}

func (v polygonV1) polygon() geom.Polygon {
	if len(v) == 0 {
		return nil
	}
	out := make(geom.Polygon, len(v))
	for i, q := range v {
		out[i] = geom.Pt(q[0], q[1])
	}
	return out
}

func (v *panelV1) panel() *model.Panel {
	n := &model.Panel{
		ID: v.ID, Role: model.Role(v.Role), Length: v.Length, Width: v.Width, Thickness: v.Thickness,
		Shape: model.ShapeKind(v.Shape), Points: v.Points.polygon(), BothShow: v.Show == "both",
		Look: model.Look(v.Look), Wanted: model.Wanted(v.Wanted),
		UnwantedLimit: [2]float64{v.UnwantedLimit.Face, v.UnwantedLimit.Back},
		FrontNamed:    v.FrontNamed, Strips: stripsV1(v.Strips),
	}
	n.Fitting, n.Profiles = v.Fitting.fitting(), v.Profiles.profiles()
	if v.Rings != "any" {
		n.Rings = model.Rings(v.Rings)
	}
	for _, h := range v.Hidden {
		n.Hidden = append(n.Hidden, h.polygon())
	}
	return n
}

func (v *fittingV1) fitting() *model.Fitting {
	if v == nil {
		return nil
	}
	f := &model.Fitting{Rows: v.Rows, Groove: v.Groove}
	if v.Held != "free" {
		f.Held = model.Held(v.Held)
	}
	if v.Line != "middle" {
		f.Line = model.FixedLine(v.Line)
	}
	return f
}

func (v profilesV1) profiles() (out model.Profiles) {
	for i, p := range []*profileV1{v.Front, v.Back, v.Left, v.Right} {
		if p != nil {
			out[i] = model.Profile{Kind: model.ProfileKind(p.Kind), Across: p.Across, Down: p.Down}
		}
	}
	return out
}

func stripsV1(list []stripV1) []model.Strip {
	var out []model.Strip
	for i := range list {
		v := &list[i]
		s := model.Strip{
			ID: v.ID, Board: v.Board, X: v.X, Y: v.Y, L: v.Length, W: v.Width, Angle: v.Angle,
			Up: v.Up, Turned: v.Turned, Shift: v.Shift, Pinned: v.Pinned, Mark: v.Mark, Row: v.Row, Stage: model.Stage(v.Stage),
		}
		if v.Off != nil {
			s.Off = &[2]float64{v.Off.One, v.Off.Two}
		}
		if v.Planed != nil {
			s.Planed = &model.PlanedSap{Near: v.Planed.Near, Far: v.Planed.Far, Face: v.Planed.Face}
		}
		out = append(out, s)
	}
	return out
}

func labV1(v *[3]float64) *colour.Lab {
	if v == nil {
		return nil
	}
	return &colour.Lab{L: v[0], A: v[1], B: v[2]}
}
