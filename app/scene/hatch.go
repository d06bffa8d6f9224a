package scene

import (
	"math"
	"sort"

	"heartside/app/render"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// pattern is how a kind is marked without colour: lines aslant for sapwood,
// crossed lines for flaws, broken level lines for what has not been seen.
type pattern struct {
	kind    face.Kind
	angles  []float64
	spacing float64
	pen     render.Pen
}

func patterns(text float64) []pattern {
	w := 0.9 * math.Sqrt(text)
	return []pattern{
		{kind: face.Sap, angles: []float64{45}, spacing: 9 * text, pen: render.Pen{Width: w, Color: rgba(0x2B2118, 0x78)}},
		{kind: face.Flaw, angles: []float64{30, -30}, spacing: 5 * text, pen: render.Pen{Width: w, Color: rgba(0xFFF3E4, 0xB0)}},
		{kind: face.Unseen, angles: []float64{0}, spacing: 6 * text, pen: render.Pen{Width: 1.3 * w, Color: rgba(0x1A1510, 0x9C), Dash: []float64{3 * text, 6 * text}}},
	}
}

// zoned is a face laid out on the surface: its zones in units.
type zoned struct {
	base    face.Kind
	outline geom.Polygon // nil: everywhere
	zones   []face.Zone
	to      geom.Affine // from the zones' mm to units
}

// has reports whether a kind may show anywhere.
func (z *zoned) has(k face.Kind) bool {
	if z.base == k {
		return true
	}
	for i := range z.zones {
		if z.zones[i].Kind == k {
			return true
		}
	}
	return false
}

// hatchZones marks the kinds of a face inside mask (units). Later zones lie
// on top; each line is cut where the topmost zone changes.
func hatchZones(c render.Canvas, z zoned, mask geom.Polygon, text float64) {
	rings := make([]geom.Polygon, 0, len(z.zones)+2)
	rings = append(rings, mask)
	if z.outline != nil {
		rings = append(rings, z.to.ApplyTo(z.outline))
	}
	first := len(rings)
	for i := range z.zones {
		rings = append(rings, z.to.ApplyTo(z.zones[i].Polygon))
	}
	origin := z.to.Apply(geom.Point{})
	for _, p := range patterns(text) {
		if !z.has(p.kind) {
			continue
		}
		for _, a := range p.angles {
			if path := zoneLines(&z, rings, first, p.kind, a, p.spacing, origin); len(path) > 0 {
				c.Stroke(path, p.pen)
			}
		}
	}
}

// crossing is where a hatch line meets a ring.
type crossing struct {
	x    float64
	ring int
}

// mostLines bounds the lines of one family.
const mostLines = 4000

// zoneLines returns the lines of one family where kind k lies on top. The
// first rings must all hold a place; the others are the zones.
func zoneLines(z *zoned, rings []geom.Polygon, first int, k face.Kind, angle, spacing float64, origin geom.Point) render.Path {
	fwd := geom.Translate(-origin.X, -origin.Y).Then(geom.Rotate(angle))
	back, _ := fwd.Inverse()
	turned := make([]geom.Polygon, len(rings))
	for i := range rings {
		turned[i] = fwd.ApplyTo(rings[i])
	}
	b := turned[0].Bounds()
	if b.Empty() || b.H()/spacing > mostLines {
		return nil
	}
	var out render.Path
	var xs []crossing
	in := make([]bool, len(rings))
	for n := math.Ceil(b.Min.Y / spacing); n*spacing <= b.Max.Y; n++ {
		y := n * spacing
		xs = xs[:0]
		for i, r := range turned {
			for j, p := range r {
				q := r[(j+1)%len(r)]
				if (p.Y > y) != (q.Y > y) {
					xs = append(xs, crossing{p.X + (y-p.Y)/(q.Y-p.Y)*(q.X-p.X), i})
				}
			}
		}
		sort.Slice(xs, func(i, j int) bool {
			if xs[i].x != xs[j].x {
				return xs[i].x < xs[j].x
			}
			return xs[i].ring < xs[j].ring
		})
		clear(in)
		on, from := false, 0.0
		for _, e := range xs {
			in[e.ring] = !in[e.ring]
			if now := top(z, in, first) == k; now != on {
				if on && e.x-from > 0.5 {
					out = append(out, render.Line{Points: []geom.Point{back.Apply(geom.Pt(from, y)), back.Apply(geom.Pt(e.x, y))}})
				}
				on, from = now, e.x
			}
		}
	}
	return out
}

// top returns the kind that lies on top, given which rings hold a place.
func top(z *zoned, in []bool, first int) face.Kind {
	for _, ok := range in[:first] {
		if !ok {
			return face.Blank
		}
	}
	for i := len(z.zones) - 1; i >= 0; i-- {
		if in[first+i] {
			return z.zones[i].Kind
		}
	}
	return z.base
}
