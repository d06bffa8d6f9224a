package match

import (
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Step is how far apart widths are read along a joint, mm.
const Step = 10.0

// hair keeps what is read at an end or edge on the wood, mm.
const hair = 1e-3

// piece is a stretch of one kind across a strip, in its own t.
type piece struct {
	from, to float64
	kind     face.Kind
}

// columnsOf reads what lies across a strip on a face of its board at the places
// s, which rise, also beyond its ends.
func columnsOf(strip *face.Strip, f int, s []float64) [][]piece {
	if len(s) == 0 {
		return nil
	}
	region := geom.R(s[0]-1, 0, s[len(s)-1]+1, strip.W)
	return columnsIn(layersOf(strip, f, region), region, s)
}

// columnsIn reads what lies upwards across a region at the places x, which
// rise.
func columnsIn(layers []geom.Layer, region geom.Rect, x []float64) [][]piece {
	out := make([][]piece, len(x))
	k := 0
	pieces := geom.Decompose(nil, region.Polygon(), int(face.Blank), layers)
	for i := range pieces {
		p := &pieces[i]
		for k > 0 && x[k-1] >= p.X0 {
			k--
		}
		for k < len(x) && x[k] < p.X0 {
			k++
		}
		for ; k < len(x) && x[k] < p.X1; k++ {
			q := (x[k] - p.X0) / (p.X1 - p.X0)
			out[k] = append(out[k], piece{p.Lo0 + q*(p.Lo1-p.Lo0), p.Hi0 + q*(p.Hi1-p.Hi0), face.Kind(p.Label)})
		}
	}
	for k := range out {
		slices.SortFunc(out[k], func(a, b piece) int {
			switch {
			case a.from < b.from:
				return -1
			case a.from > b.from:
				return 1
			}
			return 0
		})
	}
	return out
}

// layersOf returns the zones of a face in the strip's own coordinates, with
// blank beyond the board and its outline. What was measured on the planed face
// takes the place of the board's zones on the side it was measured.
func layersOf(s *face.Strip, f int, box geom.Rect) []geom.Layer {
	var layers []geom.Layer
	add := func(k face.Kind, p geom.Polygon) {
		if len(p) >= 3 {
			layers = append(layers, geom.Layer{Label: int(k), Polygon: p})
		}
	}
	if s.Planed != nil && f == s.UpFace() {
		own := geom.R(0, 0, s.L, s.W).Polygon()
		add(s.Planed.Base, own)
		for _, z := range s.Planed.Zones {
			add(z.Kind, z.Polygon)
		}
		add(face.Blank, around(box, own))
		return layers
	}
	m := s.ToBoard()
	if f == 2 {
		m = m.Then(s.Board.Other())
	}
	back, ok := m.Inverse()
	if !ok {
		return nil
	}
	bf := &s.Board.Faces[f-1]
	rect := geom.R(0, 0, s.Board.Length, s.Board.Width).Polygon()
	outline := bf.Outline
	if len(outline) < 3 {
		outline = rect
	}
	add(bf.Base, back.ApplyTo(outline))
	for _, z := range bf.Zones {
		add(z.Kind, back.ApplyTo(z.Polygon))
	}
	add(face.Blank, around(box, back.ApplyTo(outline)))
	add(face.Blank, around(box, back.ApplyTo(rect)))
	return layers
}

// around returns what lies within box and outside a ring, as one ring: the way
// from one to the other is gone there and back.
func around(box geom.Rect, ring geom.Polygon) geom.Polygon {
	out := box.Union(ring.Bounds()).Inset(-1).Polygon()
	out = append(out, out[0])
	out = append(out, ring...)
	return append(out, ring[0])
}

// track holds how wide the unwanted wood lies against both edges of a strip,
// on one face of its board, along all that it may slide over.
type track struct {
	from   float64 // s of the first width
	width  [2][]float64
	unseen [2][]bool // wood not seen yet lies there
	widest [2]float64
}

// trackOf reads the widths of a strip that may slide from lo to hi.
func trackOf(s *face.Strip, f int, lo, hi float64, unwanted face.Kind) track {
	from, to := min(lo, 0), s.L+max(hi, 0)
	n := int(math.Ceil((to-from)/Step-1e-9)) + 1
	at := make([]float64, n)
	for k := range at {
		at[k] = min(max(from+Step*float64(k), from+hair), to-hair)
	}
	columns := columnsOf(s, f, at)
	t := track{from: from}
	for e := range t.width {
		t.width[e], t.unseen[e] = make([]float64, n), make([]bool, n)
		hidden := make([]bool, n)
		for k, c := range columns {
			t.width[e][k], hidden[k], t.unseen[e][k] = against(c, Edge(e), s.W, unwanted)
			t.widest[e] = max(t.widest[e], t.width[e][k])
		}
		bridge(t.width[e], hidden)
	}
	return t
}

// against returns how wide the unwanted wood of a column lies against an edge.
// A flaw does not end it where more lies behind; where a flaw is the last that
// is met, how far the wood would reach is hidden.
func against(column []piece, e Edge, width float64, unwanted face.Kind) (w float64, hidden, unseen bool) {
	reach := 0.0
	for i := range column {
		p := column[i]
		if e == Far {
			p = column[len(column)-1-i]
			p.from, p.to = width-p.to, width-p.from
		}
		if p.to-p.from < 1e-9 {
			continue
		}
		if p.from > reach+0.01 || (p.kind != unwanted && p.kind != face.Flaw) {
			return w, hidden, p.kind == face.Unseen && p.from <= reach+0.01
		}
		reach, hidden = p.to, p.kind == face.Flaw
		if p.kind == unwanted {
			w = p.to
		}
	}
	return w, hidden, false
}

// bridge draws the widths straight on over what flaws hide.
func bridge(w []float64, hidden []bool) {
	last := -1 // last place that is known
	for k := 0; k <= len(w); k++ {
		if k < len(w) && hidden[k] {
			continue
		}
		for i := last + 1; i < k; i++ {
			switch {
			case last >= 0 && k < len(w):
				w[i] = w[last] + (w[k]-w[last])*float64(i-last)/float64(k-last)
			case last >= 0:
				w[i] = w[last]
			case k < len(w):
				w[i] = w[k]
			}
		}
		last = k
	}
}

// at returns the width against an edge at s, between two places in proportion.
func (t *track) at(e Edge, s float64) float64 {
	w := t.width[e]
	p := (s - t.from) / Step
	i := int(p)
	switch {
	case !(p > 0):
		return w[0]
	case i >= len(w)-1:
		return w[len(w)-1]
	}
	return w[i] + (p-float64(i))*(w[i+1]-w[i])
}

// unseenAt reports whether wood not seen yet lies at an edge at s.
func (t *track) unseenAt(e Edge, s float64) bool {
	k := int(math.Round((s - t.from) / Step))
	return t.unseen[e][min(max(k, 0), len(t.width[e])-1)]
}
