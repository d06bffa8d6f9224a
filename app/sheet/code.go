package sheet

import (
	"encoding/base32"
	"fmt"
	"hash/fnv"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model"
)

// codeLetters leaves out what is mistaken for something else in handwriting.
const codeLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"

// Code is a short name of what a project's sheet says of its wood: four
// letters that are alike on two sheets only where boards, zones, panels, strips,
// solid parts, sets and what is taken of the air, the machines and the wood's
// behaviour are, but for one chance in a million.
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
		fmt.Fprintln(h, b.Moisture, b.Pith, b.Heart, b.Shape)
		if b.Cut != [2]float64{} {
			fmt.Fprintln(h, "cut off", b.Cut)
		}
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
			if s.Row != "" { // it is cut otherwise
				fmt.Fprintln(h, name, s.ID, "row", s.Row)
			}
			if s.Off != nil {
				fmt.Fprintln(h, name, s.ID, "off", *s.Off)
			}
			if s.Planed != nil {
				fmt.Fprintln(h, name, s.ID, "planed", *s.Planed)
			}
		}
	}
	for _, m := range p.Panels {
		fmt.Fprintln(h, "panel", m.ID, m.Role, m.Length, m.Width, m.Thickness, m.Shape)
		ring(m.Points)
		for _, g := range m.Hidden {
			ring(g)
		}
		fmt.Fprintln(h, m.BothShow, m.Wanted, m.UnwantedLimit, m.Profiles)
		if f := m.Fitting; f != nil {
			fmt.Fprintln(h, "fitting", f.Held, f.Line, f.Rows, f.Groove)
		}
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
	for _, j := range p.Joined {
		fmt.Fprintln(h, "joined", j.Panels, j.How, j.Edges)
	}
	for _, c := range p.Colours {
		fmt.Fprintln(h, "colours", c.Species, c.Years)
		for _, l := range []*colour.Lab{c.Heart, c.Sap} {
			if l != nil {
				fmt.Fprintln(h, *l)
			}
		}
	}
	fmt.Fprintln(h, p.Climate, p.Behaviour, p.Limits, p.Machines)
	a := p.Allowances
	fmt.Fprintln(h, a.Kerf, a.Rest, a.Joint, a.Ends, a.AfterGlue)
	return base32.NewEncoding(codeLetters).EncodeToString(h.Sum(nil))[:4]
}
