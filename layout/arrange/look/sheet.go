package look

import (
	"math"
	"slices"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/figure"
	"heartside/layout/geom"
)

// station is how far apart along the panel a strip is looked at, mm.
const station = 10

// row is how finely it is looked at across, mm at most.
const row = 2.5

// wayKey is all that the sheet of a strip depends on.
type wayKey struct {
	board        *face.Board
	planed       *face.PlanedFace
	x, y, l, w   float64
	angle, shift float64
	up           int
	turned       bool
	length       float64 // of the panel
}

// sheet is what is seen of a strip as it lies, trimmed to the panel's length:
// its unwanted wood along both long edges and across.
type sheet struct {
	id          int32
	front, rear []float32 // mm of unwanted wood from the edge in, every station; negative where there is no wood
	across      []float32 // share of the length that is unwanted, by rows of one width
	row         float64   // their width, mm
	share       float64   // of the strip's face that is unwanted
	against     [2]float64
	bare        [2]float64 // share of the front and rear edge with less than the least
	heart       *colour.Lab
	reference   string
	board       *face.Board
	planes      int
	figure      figure.EdgeFigure
	barkUp      int // 1 bark side up, -1 down, 0 not known
}

// sheetOf looks at strip s as it lies.
func (j *Judge) sheetOf(s *face.Strip) *sheet {
	k := wayKey{s.Board, s.Planed, s.X, s.Y, s.L, s.W, s.Angle, s.Shift, s.UpFace(), s.Turned, j.length}
	if got := j.sheets[k]; got != nil {
		return got
	}
	sh := j.look(s)
	sh.id = int32(len(j.sheets))
	j.sheets[k] = sh
	return sh
}

func (j *Judge) look(s *face.Strip) *sheet {
	left := j.length/2 - s.L/2 + s.Shift // panel X of u = 0
	n := max(int(math.Round(j.length/station)), 1)
	rows := max(int(math.Ceil(s.W/row)), 1)
	sh := &sheet{front: make([]float32, n), rear: make([]float32, n), across: make([]float32, rows), row: s.W / float64(rows), board: s.Board}
	if s.Board == nil {
		for i := range sh.front {
			sh.front[i], sh.rear[i] = -1, -1
		}
		return sh
	}
	up := s.UpFace()
	f := &s.Board.Faces[up-1]
	sh.reference, sh.planes = f.Reference, s.Planing()
	if b := s.Board.BarkFace; b != 0 {
		sh.barkUp = 1
		if b != up {
			sh.barkUp = -1
		}
	}
	sh.heart = f.Heart
	if j.unwanted == face.Heart {
		sh.heart = f.Sap
	}
	if g, ok := j.rules.Grain[s.Board]; ok {
		sh.figure.Log, sh.figure.Order = g.Log, g.Order
		if g.Maps[0] != nil || g.Maps[1] != nil {
			sh.figure.Figure = figure.Read(s, g.Maps, figure.Limits{})
		}
	}
	z := layersOf(s)
	var area, wood float64
	var edge [2]float64
	per := j.length / float64(n)
	for i := range n {
		u := (float64(i)+0.5)*per - left
		spans := z.at(u)
		sh.front[i], sh.rear[i] = -1, -1
		if len(spans) == 0 {
			continue
		}
		if spans[0].kind != face.Blank && spans[0].lo <= 0.5 {
			sh.front[i] = float32(run(spans, j.unwanted, 1))
		}
		if last := spans[len(spans)-1]; last.kind != face.Blank && last.hi >= s.W-0.5 {
			sh.rear[i] = float32(run(spans, j.unwanted, -1))
		}
		edge[0] += math.Max(float64(sh.front[i]), 0)
		edge[1] += math.Max(float64(sh.rear[i]), 0)
		for _, p := range spans {
			if p.kind != face.Blank {
				wood += p.hi - p.lo
			}
			if p.kind != j.unwanted || !j.judges {
				continue
			}
			area += p.hi - p.lo
			for r := int(p.lo / sh.row); r < rows && float64(r)*sh.row < p.hi; r++ {
				a, b := math.Max(p.lo, float64(r)*sh.row), math.Min(p.hi, float64(r+1)*sh.row)
				sh.across[r] += float32((b - a) / sh.row / float64(n))
			}
		}
	}
	if !j.judges {
		for i := range sh.front {
			sh.front[i], sh.rear[i] = min(sh.front[i], 0), min(sh.rear[i], 0)
		}
		edge = [2]float64{}
	}
	if wood > 0 {
		sh.share = area / wood
	}
	for e, list := range [2][]float32{sh.front, sh.rear} {
		if area > 0 {
			sh.against[e] = math.Min(edge[e]/area, 1)
		}
		for _, v := range list {
			if float64(v) < j.rules.Least {
				sh.bare[e] += 1 / float64(n)
			}
		}
	}
	return sh
}

// run is how far a kind of wood reaches from an edge in, through flaws in it.
func run(spans []span, k face.Kind, way int) float64 {
	reach, i := 0.0, 0
	if way < 0 {
		i = len(spans) - 1
	}
	for ; i >= 0 && i < len(spans) && spans[i].kind == k; i += way {
		reach += spans[i].hi - spans[i].lo
	}
	return reach
}

// span is a stretch across a strip of one kind.
type span struct {
	lo, hi float64
	kind   face.Kind
}

// layers are the zones of the face that shows, in place coordinates.
type layers struct {
	width   float64
	base    face.Kind
	outline geom.Polygon // nil: none
	zones   []face.Zone
	cuts    []float64
	spans   []span
}

func layersOf(s *face.Strip) *layers {
	up := s.UpFace()
	f := &s.Board.Faces[up-1]
	z := &layers{width: s.W, base: f.Base}
	back, ok := s.PlaceToFace(up).Inverse()
	if !ok {
		return z
	}
	z.outline = back.ApplyTo(geom.R(0, 0, s.Board.Length, s.Board.Width).Polygon())
	if f.Outline != nil {
		z.outline = back.ApplyTo(f.Outline)
	}
	zones := f.Zones
	if s.Planed != nil {
		back, _ = s.FromPlace().Inverse()
		z.base, zones = s.Planed.Base, s.Planed.Zones
	}
	for _, q := range zones {
		z.zones = append(z.zones, face.Zone{Kind: q.Kind, Polygon: back.ApplyTo(q.Polygon)})
	}
	return z
}

// at cuts the strip across at u. The list is the layers' own.
func (z *layers) at(u float64) []span {
	z.cuts = append(z.cuts[:0], 0, z.width)
	hits := func(p geom.Polygon) {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			if (a.X <= u) == (b.X <= u) {
				continue
			}
			if v := a.Y + (b.Y-a.Y)*(u-a.X)/(b.X-a.X); v > 0 && v < z.width {
				z.cuts = append(z.cuts, v)
			}
		}
	}
	hits(z.outline)
	for i := range z.zones {
		hits(z.zones[i].Polygon)
	}
	slices.Sort(z.cuts)
	z.spans = z.spans[:0]
	for i := 1; i < len(z.cuts); i++ {
		a, b := z.cuts[i-1], z.cuts[i]
		if b-a < 1e-9 {
			continue
		}
		k := z.kind(u, (a+b)/2)
		if n := len(z.spans); n > 0 && z.spans[n-1].kind == k {
			z.spans[n-1].hi = b
		} else {
			z.spans = append(z.spans, span{a, b, k})
		}
	}
	return z.spans
}

// kind is the wood at a point that lies on no border.
func (z *layers) kind(u, v float64) face.Kind {
	if !within(z.outline, u, v) {
		return face.Blank
	}
	for i := len(z.zones) - 1; i >= 0; i-- {
		if within(z.zones[i].Polygon, u, v) {
			return z.zones[i].Kind
		}
	}
	return z.base
}

// within counts the borders passed on the way out (Shimrat 1962).
func within(p geom.Polygon, u, v float64) bool {
	in := false
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a.X <= u) != (b.X <= u) && v < a.Y+(b.Y-a.Y)*(u-a.X)/(b.X-a.X) {
			in = !in
		}
	}
	return in
}
