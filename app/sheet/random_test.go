package sheet

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

// anyInput makes a project nobody would draw by hand: odd sizes, long names,
// angles, wane, empty places, strips that run off their boards.
func anyInput(r *rand.Rand, f *render.Faces) Input {
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	p := &model.Project{
		Name:       pick("", "T", "Bench", strings.Repeat("Long sideboard with flush doors ", 4), "Unbroken"+strings.Repeat("name", 30), "木のテーブル", "\u05e9\u05d5\u05dc\u05d7\u05df 12", "\u0637\u0627\u0648\u0644\u0629 A"),
		Units:      unit.System(pick("mm", "inch")),
		Allowances: model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25, PanelEdge: 5, AfterGlue: 1.5},
		Machines:   model.Machines{Flatten: 300, Thickness: 330, Shortest: 300, Narrowest: 50},
	}
	in := Input{Project: p, Faces: f, Date: pick("", "25 November 2026"), Paper: Paper(pick("a4", "letter", "a3", "tabloid"))}
	for i := range 1 + r.IntN(4) {
		b := anyBoard(r, i)
		in.Boards = append(in.Boards, b)
		p.Boards = append(p.Boards, &model.Board{ID: b.ID, Species: b.Species, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Shape: model.Shape{Crook: float64(r.IntN(3))}})
	}
	number := map[string]string{}
	for k := range 1 + r.IntN(2) {
		n := r.IntN(8)
		if r.IntN(4) == 0 {
			n = r.IntN(40)
		}
		m := &model.Panel{
			ID:   fmt.Sprintf("%s-%d", pick("top", "left-side-of-the-tall-cabinet", "p"), k),
			Role: model.Role(pick("top", "side", "door", "drawer-front", "shelf", "other")),
			// Small parts and long tops.
			Length: 60 + 2500*r.Float64()*r.Float64(), Width: 60 + 1000*r.Float64()*r.Float64(), Thickness: 6 + 30*r.Float64(),
		}
		fp := &face.Panel{ID: m.ID, Length: m.Length, Width: m.Width, Thickness: m.Thickness, Limit: [2]float64{1, 1}, Limits: face.DefaultLimits}
		for i := range n {
			s := model.Strip{ID: fmt.Sprintf("s%d.%d", k, i), L: m.Length + 60*r.Float64(), W: (m.Width + 20*r.Float64()) / float64(n), Up: 1 + r.IntN(2), Turned: r.IntN(2) == 0, Shift: 10 * (r.Float64() - 0.5)}
			var b *face.Board
			if r.IntN(5) > 0 {
				b = in.Boards[r.IntN(len(in.Boards))]
				s.Board, s.X, s.Y = b.ID, b.Length*r.Float64()*0.5, b.Width*r.Float64()*0.5
				if r.IntN(3) == 0 {
					s.Angle = 180*r.Float64() - 90
				}
			}
			number[m.ID+s.ID] = fmt.Sprintf("%s%d", pick("A", "AB", "WALNUT", "BLACKWALNUT", "木"), i+1)
			m.Strips = append(m.Strips, s)
			fp.Strips = append(fp.Strips, face.Strip{ID: s.ID, Board: b, X: s.X, Y: s.Y, L: s.L, W: s.W, Angle: s.Angle, Up: s.Up, Turned: s.Turned, Shift: s.Shift})
		}
		p.Panels = append(p.Panels, m)
		var read face.Reader
		in.Panels = append(in.Panels, Panel{Panel: fp, Reading: read.Read(fp), Notes: anyNotes(r)})
	}
	anyParts(r, &in, number)
	in.Number = func(panel, strip string) string { return number[panel+strip] }
	for i := range in.Panels {
		anyFit(r, &in, &in.Panels[i])
	}
	return in
}

// anyParts adds solid parts, also some that run off their boards.
func anyParts(r *rand.Rand, in *Input, number map[string]string) {
	for k := range r.IntN(3) {
		n := model.NewPart([]string{"leg", "long stretcher of the under-frame", "r"}[k], model.Leg, 1+r.IntN(8), 100+900*r.Float64(), 10+90*r.Float64(), 10+50*r.Float64())
		for i := range r.IntN(7) {
			b := in.Boards[r.IntN(len(in.Boards))]
			c := model.PartPlace{Board: b.ID, X: b.Length * r.Float64() * 0.8, Y: b.Width * r.Float64() * 0.8, L: n.Length, W: n.Width, Angle: float64(r.IntN(2)) * 30 * r.Float64()}
			n.Places = append(n.Places, c)
			id := session.CuttingID(n.ID, i)
			in.Solid = append(in.Solid, face.Strip{ID: id, Board: b, X: c.X, Y: c.Y, L: c.L, W: c.W, Angle: c.Angle, Up: 1})
			number[id] = fmt.Sprintf("%s %d", n.ID, i+1)
		}
		in.Project.Parts = append(in.Project.Parts, n)
	}
}

func anyNotes(r *rand.Rand) []Note {
	out := make([]Note, r.IntN(4))
	if r.IntN(8) == 0 {
		out = make([]Note, 45)
	}
	for i := range out {
		out[i] = Note{Title: "A flaw shows on the show face: strip A1, 40 mm from the front", Text: strings.Repeat("Because of what was found there. ", r.IntN(6)), Under: []string{"A milder thing"}, Strips: []string{fmt.Sprintf("s%d.%d", r.IntN(2), r.IntN(4))}, Fix: "turn it end for end"}
	}
	return out
}

func anyBoard(r *rand.Rand, i int) *face.Board {
	b := &face.Board{
		ID: string(rune('A' + i)), Species: []string{"walnut-black", "maple-sugar", "no such wood"}[r.IntN(3)],
		Length: 200 + 3000*r.Float64(), Width: 30 + 400*r.Float64(), Thickness: 8 + 60*r.Float64(),
		Planes: face.Planes(r.IntN(4)), BarkFace: r.IntN(3), Moisture: float64(r.IntN(2)) * 8.1,
	}
	for f := range b.Faces {
		bf := &b.Faces[f]
		bf.Guessed = r.IntN(4) == 0
		if r.IntN(3) == 0 {
			bf.Outline = geom.Polygon{{X: 0, Y: b.Width * 0.2 * r.Float64()}, {X: b.Length, Y: b.Width * 0.2 * r.Float64()}, {X: b.Length, Y: b.Width}, {X: b.Length / 2, Y: b.Width * 0.8}, {X: 0, Y: b.Width}}
		}
		for range r.IntN(4) {
			x, y := b.Length*r.Float64(), b.Width*r.Float64()
			bf.Zones = append(bf.Zones, face.Zone{Kind: face.Kind(r.IntN(4)), Polygon: geom.R(x, y, x+500*r.Float64()+1, y+60*r.Float64()+1).Polygon()})
		}
	}
	return b
}
