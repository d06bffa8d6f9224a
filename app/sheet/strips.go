package sheet

import (
	"math"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// sapRead are the sap widths along a strip's long edges, of the whole strip as
// jointed: what a rule finds on the strip in hand before the panel is trimmed.
// They lie as the strip lies in the panel, those of the face below as seen
// through the strip from above.
type sapRead struct{ front, rear, belowFront, belowRear face.Widths }

// readSap reads what was measured after planing where it was, else the zones.
func readSap(s *face.Strip) (r sapRead) {
	if s.Board == nil {
		return r
	}
	alone := *s
	alone.Shift = 0
	p := &face.Panel{
		ID: s.ID, Length: s.L, Width: s.W, Thickness: s.Board.Thickness,
		Limit: [2]float64{1, 1}, Limits: face.DefaultLimits,
		Strips: []face.Strip{alone},
	}
	var reader face.Reader
	x := reader.Read(p).Strips[0]
	return sapRead{x.Front, x.Rear, x.BackFront, x.BackRear}
}

// sawnSap reads the zones of the board alone.
func sawnSap(s *face.Strip) sapRead {
	sawn := *s
	sawn.Planed = nil
	return readSap(&sawn)
}

// gluedRect is where strip i lies in panel coordinates before trimming.
func gluedRect(p *face.Panel, i int) geom.Rect {
	x, y, s := p.Left(i), p.StripY(i), &p.Strips[i]
	return geom.R(x, y, x+s.L, y+s.W)
}

// extent holds the finished panel and every strip.
func extent(p *face.Panel) geom.Rect {
	r := p.Outline().Bounds().Union(geom.R(0, 0, p.Length, p.Width))
	for i := range p.Strips {
		r = r.Union(gluedRect(p, i))
	}
	return r
}

// blankSize is what is sawn out for a strip.
func blankSize(a model.Allowances, s *face.Strip) (l, w float64) {
	r := cutting.BlankRect(s, session.AllowancesOf(a))
	return r.W(), r.H()
}

// finishedSize is what is left of strip i within the panel's rectangle.
func finishedSize(p *face.Panel, i int) (l, w float64) {
	r := gluedRect(p, i).Intersect(geom.R(0, 0, p.Length, p.Width))
	return math.Max(r.W(), 0), math.Max(r.H(), 0)
}

// finishedWidths are the widths left of the strips after trimming, as printed:
// where they cover the panel they add up to its width, what rounding leaves
// over being borne by the outside strips.
func finishedWidths(p *face.Panel, say words) []float64 {
	out := make([]float64, len(p.Strips))
	var sum, printed float64
	for i := range p.Strips {
		_, w := finishedSize(p, i)
		out[i] = say.round(w)
		sum, printed = sum+w, printed+out[i]
	}
	if len(out) == 0 || math.Abs(sum-p.Width) > 0.01 {
		return out
	}
	first, last := 0, len(out)-1
	for first < last && out[first] == 0 {
		first++
	}
	for last > first && out[last] == 0 {
		last--
	}
	off := math.Round((say.round(p.Width) - printed) / say.step())
	half := math.Trunc(off / 2)
	out[first] += half * say.step()
	out[last] += (off - half) * say.step()
	return out
}

// region is a piece of a face with its kind.
type region struct {
	kind face.Kind
	poly geom.Polygon
}

// shownRegions are the zones of what strip i turns to a side, lowest first, in
// panel coordinates. They may reach beyond the strip.
func shownRegions(p *face.Panel, i int, side face.Side) []region {
	s := &p.Strips[i]
	if side == face.Back {
		back, ok := p.PanelToFace(i, face.Back).Inverse()
		if !ok {
			return nil
		}
		return regionsOf(s.Board, 3-s.UpFace(), back)
	}
	if s.Planed != nil {
		toStrip := geom.Translate(-p.Left(i), -p.StripY(i)).Then(s.FromPlace())
		back, ok := toStrip.Inverse()
		if !ok {
			return nil
		}
		out := []region{{s.Planed.Base, gluedRect(p, i).Polygon()}}
		for _, z := range s.Planed.Zones {
			out = append(out, region{z.Kind, back.ApplyTo(z.Polygon)})
		}
		return out
	}
	back, ok := p.PanelToFace(i, face.Show).Inverse()
	if !ok {
		return nil
	}
	return regionsOf(s.Board, s.Up, back)
}

// regionsOf are the zones of a board face, lowest first, mapped by m. The
// first is the wood itself; the others lie within it.
func regionsOf(b *face.Board, f int, m geom.Affine) []region {
	bf := &b.Faces[f-1]
	out := []region{{bf.Base, m.ApplyTo(b.OutlineOf(f))}}
	for _, z := range bf.Zones {
		out = append(out, region{z.Kind, m.ApplyTo(z.Polygon)})
	}
	return out
}

// paint marks the regions, borders of zones drawn where asked for.
func paint(k *ink, list []region, border bool) {
	if len(list) == 0 {
		return
	}
	wood := render.Ring(list[0].poly)
	k.wood(wood, list[0].kind, false)
	k.inside(wood, func() {
		for _, z := range list[1:] {
			k.wood(render.Ring(z.poly), z.kind, border)
		}
	})
}
