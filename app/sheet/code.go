package sheet

import (
	"encoding/base32"
	"fmt"
	"hash/fnv"

	"heartside/layout/geom"
	"heartside/model"
)

// codeLetters leaves out what is mistaken for something else in handwriting.
const codeLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"

// Code is a short name of what a project's sheet says of its wood: five
// letters that are alike on two sheets only where boards, zones, panels, strips,
// solid parts and sets are, but for one chance in some thirty million.
func Code(p *model.Project) string {
	h := fnv.New32a()
	ring := func(g geom.Polygon) {
		for _, q := range g {
			fmt.Fprint(h, q.X, " ", q.Y, " ")
		}
		fmt.Fprintln(h)
	}
	for _, b := range p.Boards {
		fmt.Fprintln(h, "board", b.ID, b.Species, b.Length, b.Width, b.Thickness, b.Bark, b.Planes)
		for _, f := range b.Faces {
			fmt.Fprintln(h, f.Base, len(f.Zones))
			ring(f.Outline)
			for _, z := range f.Zones {
				fmt.Fprintln(h, z.Kind)
				ring(z.Polygon)
			}
		}
	}
	list := func(name string, strips []model.Strip) {
		for _, s := range strips {
			fmt.Fprintln(h, name, s.ID, s.Board, s.X, s.Y, s.L, s.W, s.Angle, s.Up, s.Turned, s.Shift)
		}
	}
	for _, m := range p.Panels {
		fmt.Fprintln(h, "panel", m.ID, m.Role, m.Length, m.Width, m.Thickness, m.Shape)
		ring(m.Points)
		list(m.ID, m.Strips)
	}
	list("spare", p.Spares)
	for _, n := range p.Parts {
		fmt.Fprintln(h, "part", n.ID, n.Kind, n.Count, n.Length, n.Width, n.Thickness, n.Wanted)
		for _, k := range n.Places {
			fmt.Fprintln(h, n.ID, k.Board, k.X, k.Y, k.L, k.W, k.Angle)
		}
	}
	for _, s := range p.Sets {
		fmt.Fprintln(h, "set", s.Name, s.Panels, s.Gap, s.Way, s.Match)
	}
	a := p.Allowances
	fmt.Fprintln(h, a.Kerf, a.Rest, a.Joint, a.Ends, a.AfterGlue)
	return base32.NewEncoding(codeLetters).EncodeToString(h.Sum(nil))[:5]
}
