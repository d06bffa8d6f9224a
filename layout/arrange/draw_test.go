package arrange

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

var (
	allowances = cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	machines   = cutting.Machines{Flatten: 300, Thickness: 2000, Shortest: 300, Narrowest: 50}
	options    = Options{Allowances: allowances, Machines: machines}
)

// walnut is a board all of heartwood, coloured so that sap stands out: dark
// heart L 35, light sap L 70.
func walnut(id string, length, width float64) *face.Board {
	return &face.Board{
		ID: id, Length: length, Width: width, Thickness: 26,
		AssumedHeart: colour.Lab{L: 35, A: 8, B: 14}, AssumedSap: colour.Lab{L: 70, A: 4, B: 20},
	}
}

// draw lays a zone on face 1 or 2 of a board, both in face-1 coordinates.
func draw(b *face.Board, f int, kind face.Kind, x0, y0, x1, y1 float64) {
	p := geom.R(x0, y0, x1, y1).Polygon()
	if f == 2 {
		p = b.Other().ApplyTo(p)
	}
	b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, face.Zone{Kind: kind, Polygon: p})
}

// laid is a panel of 900 by 95 n - 10 from strips s1, s2, ... of 930 x 95, each
// from a board of its own that is just as large as the blank: 980 x 104, the
// strip at (25, 4.5). Nothing can be moved on them. The panel's front edge
// lies 5 into the first strip.
func laid(n int) *face.Panel {
	p := &face.Panel{
		ID: "top", Length: 900, Width: 95*float64(n) - 10, Thickness: 20, PanelEdge: 5,
		Limit: [2]float64{1, 1}, Limits: face.DefaultLimits,
	}
	for i := range n {
		p.Strips = append(p.Strips, face.Strip{
			ID: fmt.Sprint("s", i+1), Board: walnut(fmt.Sprint("B", i+1), 980, 104),
			X: 25, Y: 4.5, L: 930, W: 95, Up: 1,
		})
	}
	return p
}

// edgeSap gives strip i sap of a width along its near edge on face f.
func edgeSap(p *face.Panel, i, f int, width float64) {
	draw(p.Strips[i].Board, f, face.Sap, 0, 0, 980, 4.5+width)
}

// warned returns the warning of a kind about a strip ("" any), of the full
// reading and the cutting rules.
func warned(t *testing.T, p *face.Panel, kind face.WarningKind, strip string) face.Warning {
	t.Helper()
	for _, w := range allOf(p, nil) {
		if w.Kind == kind && (strip == "" || slices.Contains(w.Strips, strip)) {
			return w
		}
	}
	t.Fatalf("the drawing gives no %s about %q: %v", kind, strip, kindsOf(allOf(p, nil)))
	return face.Warning{}
}

// allOf reads a panel from scratch and lists every warning, also those that
// stand under others.
func allOf(p *face.Panel, spares []face.Strip) []face.Warning {
	list := slices.Clone(face.ReadFull(p).Warnings)
	for _, f := range cutting.Check([]*face.Panel{p}, spares, allowances, machines) {
		if f.Panel == p.ID {
			list = append(list, f.Warning)
		}
	}
	for i := 0; i < len(list); i++ {
		list = append(list, list[i].Under...)
	}
	return list
}

func kindsOf(list []face.Warning) []string {
	var out []string
	for _, w := range list {
		out = append(out, fmt.Sprint(w.Kind, w.Strips))
	}
	return out
}

func fixes(t *testing.T, p *face.Panel, kind face.WarningKind, strip string) []Fix {
	t.Helper()
	return Fixes(context.Background(), nil, p, nil, warned(t, p, kind, strip), options)
}

// applied returns the panel as a fix leaves it.
func applied(p *face.Panel, x Fix) *face.Panel {
	q := *p
	q.Strips = x.Panel
	return &q
}

// random is a panel of n strips with sap, knots and planing directions drawn
// at random, on boards with some room.
func random(n int, seed uint64) *face.Panel {
	rng := rand.New(rand.NewPCG(seed, 77))
	p := laid(n)
	for i := range p.Strips {
		b := walnut(fmt.Sprint("B", i+1), 1000, 130)
		p.Strips[i].Board, p.Strips[i].Y = b, 5+20*rng.Float64()
		b.Planes = face.Planes(rng.IntN(3))
		for f := 1; f <= 2; f++ {
			switch rng.IntN(4) {
			case 0:
				draw(b, f, face.Sap, 0, 0, 1000, 20+25*rng.Float64())
			case 1:
				draw(b, f, face.Sap, 0, 130-20-25*rng.Float64(), 1000, 130)
			case 2:
				x := 300 * rng.Float64()
				y := 30 + 40*rng.Float64()
				draw(b, f, face.Sap, x, y, x+500, y+15)
			}
			if rng.IntN(6) == 0 {
				x, y := 100+800*rng.Float64(), 100*rng.Float64()
				draw(b, f, face.Flaw, x, y, x+20, y+14)
			}
		}
		p.Strips[i].Up, p.Strips[i].Turned = 1+rng.IntN(2), rng.IntN(2) == 0
	}
	return p
}
