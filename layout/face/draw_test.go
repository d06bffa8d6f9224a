package face

import (
	"fmt"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// drawing is a panel drawn as it is to look, from which strips and boards are
// made in every state that gives that look.
type drawing struct {
	length, width float64
	strips        []float64 // shares of the width; nil: five equal ones
	base          Kind
	wanted        Wanted
	show          []Zone // panel coordinates of the show face
	back          []Zone // likewise, by the place of the show face above it
	over          float64
	states        int // picks the states of the strips
	ageing        *Ageing
	sap           colour.Lab // zero: far from the heartwood
}

// Invented colours of a dark heartwood and a light sapwood.
var (
	drawnHeart = colour.Lab{L: 40, A: 8, B: 12}
	drawnSap   = colour.Lab{L: 80, A: 3, B: 20}
)

// rect is a rectangle as a zone polygon.
func rect(x0, y0, x1, y1 float64) geom.Polygon { return geom.R(x0, y0, x1, y1).Polygon() }

func zones(kind Kind, polygons ...geom.Polygon) []Zone {
	var out []Zone
	for _, p := range polygons {
		out = append(out, Zone{kind, p})
	}
	return out
}

// panel builds the panel. Every strip is the whole of its own board but for a
// margin, lying in one of the four states, so that what is drawn shows.
func (d drawing) panel() *Panel {
	const margin = 30.0
	shares := d.strips
	if shares == nil {
		shares = []float64{0.2, 0.2, 0.2, 0.2, 0.2}
	}
	p := &Panel{
		ID: "drawn", Length: d.length, Width: d.width, Thickness: 20, Wanted: d.wanted,
		Limit: [2]float64{1, 1}, Limits: DefaultLimits,
	}
	for i, share := range shares {
		w := share * d.width
		if i == 0 || i == len(shares)-1 {
			w += d.over
		}
		sap := d.sap
		if sap == (colour.Lab{}) {
			sap = drawnSap
		}
		b := &Board{
			ID: fmt.Sprintf("B%d", i+1), Length: d.length + 2*d.over + 2*margin, Width: w + 2*margin, Thickness: 20,
			AssumedHeart: drawnHeart, AssumedSap: sap, Ageing: d.ageing,
		}
		b.Faces[0].Base, b.Faces[1].Base = d.base, d.base
		state := (d.states + i*d.states) % 4
		p.Strips = append(p.Strips, Strip{
			ID: fmt.Sprintf("s%d", i+1), Board: b, X: margin, Y: margin, L: d.length + 2*d.over, W: w,
			Up: 1 + state%2, Turned: state >= 2,
		})
	}
	for i := range p.Strips {
		b := p.Strips[i].Board
		for side, list := range [][]Zone{d.show, d.back} {
			f := p.Strips[i].Up
			if side == int(Back) {
				f = 3 - f
			}
			m := p.PanelToFace(i, Side(side))
			for _, z := range list {
				b.Faces[f-1].Zones = append(b.Faces[f-1].Zones, Zone{z.Kind, m.ApplyTo(z.Polygon)})
			}
		}
	}
	return p
}

// mirrored returns d reflected along X or across Y, or both (turned).
func (d drawing) mirrored(alongX, acrossY bool) drawing {
	m := geom.Identity
	if alongX {
		m.A, m.C = -1, d.length
	}
	if acrossY {
		m.E, m.F = -1, d.width
		var back []float64
		for i := len(d.strips) - 1; i >= 0; i-- {
			back = append(back, d.strips[i])
		}
		d.strips = back
	}
	turn := func(list []Zone) (out []Zone) {
		for _, z := range list {
			out = append(out, Zone{z.Kind, m.ApplyTo(z.Polygon)})
		}
		return out
	}
	d.show, d.back = turn(d.show), turn(d.back)
	return d
}

// swapped returns d with heartwood and sapwood changed over.
func (d drawing) swapped() drawing {
	d.base = Sap - d.base
	if d.wanted == WantHeart {
		d.wanted = WantSap
	} else {
		d.wanted = WantHeart
	}
	turn := func(list []Zone) (out []Zone) {
		for _, z := range list {
			if z.Kind <= Sap {
				z.Kind = Sap - z.Kind
			}
			out = append(out, z)
		}
		return out
	}
	d.show, d.back = turn(d.show), turn(d.back)
	return d
}

func count(r *Reading, kind WarningKind) int {
	n := 0
	for i := range r.Warnings {
		if r.Warnings[i].Kind == kind {
			n++
		}
	}
	return n
}

// anywhere counts warnings of a kind, those under others too.
func anywhere(list []Warning, kind WarningKind) int {
	n := 0
	for i := range list {
		if list[i].Kind == kind {
			n++
		}
		n += anywhere(list[i].Under, kind)
	}
	return n
}

func describe(r *Reading) string {
	out := fmt.Sprintf("light %.4f unwanted %.4f specks %d\n", r.Show.Light.Value, r.Show.Unwanted.Value, r.Show.Specks)
	for _, b := range r.Show.Bands {
		out += fmt.Sprintf("  %s strips %v place %.1f area %.0f len %.1f mean %.2f max %.2f front %.2f rear %.2f contrast %.1f excuse %q lone %v sliver %v hard %v\n",
			b.ID, b.Strips, b.Place, b.Area, b.Length, b.MeanWidth, b.MaxWidth, b.Front, b.Rear, b.Contrast, b.Excuse, b.Lone, b.Sliver, b.Hard)
	}
	for _, w := range r.Warnings {
		out += fmt.Sprintf("  ! %s %v %v %q %.2f/%.2f weight %.1f under %d\n", w.Kind, w.Side, w.Strips, w.Why, w.Measure, w.Limit, w.Weight, len(w.Under))
	}
	return out
}

// everyWay runs f over a drawing seen mirrored and turned, with strips in
// several states, and with the kinds changed over.
func everyWay(t *testing.T, d drawing, f func(t *testing.T, d drawing)) {
	t.Helper()
	for way := range 4 {
		for states := range 4 {
			for _, swap := range []bool{false, true} {
				if swap && states != way {
					continue
				}
				v := d.mirrored(way&1 != 0, way&2 != 0)
				v.states = states
				if swap {
					v = v.swapped()
				}
				t.Run(fmt.Sprintf("way%d states%d swap%v", way, states, swap), func(t *testing.T) { f(t, v) })
			}
		}
	}
}
