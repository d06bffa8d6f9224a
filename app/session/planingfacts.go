package session

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/depth"
	"heartside/model/say"
)

// StripPlaning is what planing does to a strip of a panel.
type StripPlaning struct {
	Strip, Number, Board string
	Up                   int
	Show                 string // the side that shows
	Stock                Stock
	Sawn, Finished       float64 // light share of the strip on the show face
	Move                 float64 // the most the sap line moves across the show face, mm
	Note                 depth.Note
	Known                bool // it is known below its faces
	Pending              bool // being worked out
}

// planingFacts keep those of panels looked at.
type planingFacts struct {
	came int
	by   map[*face.Panel][]StripPlaning
}

// StripPlanings tells what planing does to the strips of a panel that lie on
// boards, front to back.
func (s *Session) StripPlanings(panel string) []StripPlaning {
	p := s.Panel(panel)
	if p == nil {
		return nil
	}
	f := &s.facts
	if f.by == nil || f.came != s.viewer.came || len(f.by) > 64 {
		*f = planingFacts{came: s.viewer.came, by: map[*face.Panel][]StripPlaning{}}
	}
	if got, ok := f.by[p]; ok {
		return got
	}
	got := s.stripPlanings(p)
	f.by[p] = got
	return got
}

func (s *Session) stripPlanings(p *face.Panel) []StripPlaning {
	sawn := *p
	sawn.ToPlane = 1
	var reader face.Reader
	before := reader.Read(&sawn)
	after := s.Reading(p.ID)
	var out []StripPlaning
	for i := range p.Strips {
		st := &p.Strips[i]
		if st.Board == nil {
			continue
		}
		k := StripPlaning{Strip: st.ID, Number: s.Number(p.ID, st.ID), Board: st.Board.ID, Up: st.UpFace(),
			Show: say.Of(st.Board.SideName(st.UpFace())), Stock: stockOf(st, p.Thickness, s.Project().Allowances.AfterGlue),
			Sawn: before.Strips[i].Light.Value, Finished: after.Strips[i].Light.Value}
		if st.Planed != nil { // what was measured is no sawn face
			bare := *p
			bare.ToPlane, bare.Strips = 1, append([]face.Strip(nil), p.Strips...)
			bare.Strips[i].Planed = nil
			k.Sawn = face.ReadFull(&bare).Strips[i].Light.Value
		}
		if d := deepOf(st.Board); d != nil {
			if got := d.belowFaces.at(k.Stock.Taken()); got != nil {
				k.Known, k.Note = true, got.notes[k.Up-1]
				k.Move = sapMoves(p, i, &got.faces[k.Up-1])
			} else {
				k.Pending = !d.belowFaces.hopeless()
			}
		}
		out = append(out, k)
	}
	return out
}

// moveStep is how far apart sections are compared along a strip, mm.
const moveStep = 5.0

// sapMoves is the most the sap line moves across the board, mm, from the sawn
// face that shows of strip i to that face as planed, within the panel. In each
// section the sapwood that begins at either edge of the strip is compared; what
// lies apart from the edges is not.
func sapMoves(p *face.Panel, i int, planed *face.BoardFace) float64 {
	st := &p.Strips[i]
	up := st.UpFace()
	left, y := p.Left(i), p.StripY(i)
	r := geom.R(math.Max(0, -left), math.Max(0, -y), math.Min(st.L, p.Length-left), math.Min(st.W, p.Width-y))
	if r.Empty() {
		return 0
	}
	region := geom.Polygon(st.PlaceToFace(up).ApplyTo(r.Polygon())).ClipRect(geom.R(0, 0, st.Board.Length, st.Board.Width))
	a, b := sapFromEdges(&st.Board.Faces[up-1], region), sapFromEdges(planed, region)
	most := 0.0
	for x := range a {
		if a[x][2] == 0 || b[x][2] == 0 {
			continue // no heartwood: no line to move
		}
		for e := range 2 {
			most = math.Max(most, math.Abs(a[x][e]-b[x][e]))
		}
	}
	return most
}

// sapFromEdges returns how wide the sapwood is along the lower and the upper
// edge of a region of a face, and what lies between, section by section.
func sapFromEdges(f *face.BoardFace, region geom.Polygon) [][3]float64 {
	box := region.Bounds()
	n := int(box.W() / moveStep)
	if n < 1 {
		return nil
	}
	var layers []geom.Layer
	for _, z := range f.Zones {
		if z.Kind == face.Heart || z.Kind == face.Sap { // a knot in the line does not move it
			layers = append(layers, geom.Layer{Label: int(z.Kind), Polygon: z.Polygon})
		}
	}
	type run struct{ lo, hi float64 }
	sap, wood := make([][]run, n), make([]run, n)
	for k := range wood {
		wood[k] = run{math.Inf(1), math.Inf(-1)}
	}
	at := func(k int) float64 { return box.Min.X + (float64(k)+0.5)*box.W()/float64(n) }
	for _, t := range geom.Decompose(nil, region, int(f.Base), layers) {
		from := max(0, int((t.X0-box.Min.X)/box.W()*float64(n)-0.5))
		for k := from; k < n && at(k) <= t.X1; k++ {
			if at(k) < t.X0 || !(t.X1 > t.X0) {
				continue
			}
			part := (at(k) - t.X0) / (t.X1 - t.X0)
			lo, hi := t.Lo0+part*(t.Lo1-t.Lo0), t.Hi0+part*(t.Hi1-t.Hi0)
			wood[k].lo, wood[k].hi = math.Min(wood[k].lo, lo), math.Max(wood[k].hi, hi)
			if face.Kind(t.Label) == face.Sap {
				sap[k] = append(sap[k], run{lo, hi})
			}
		}
	}
	out := make([][3]float64, n)
	const touch = 1e-6
	for k := range out {
		lo, hi := wood[k].lo, wood[k].hi
		if !(hi > lo) {
			continue
		}
		for again := true; again; { // runs follow one another in no order
			again = false
			for _, r := range sap[k] {
				if r.lo <= lo+touch && r.hi > lo+touch {
					lo, again = r.hi, true
				}
				if r.hi >= hi-touch && r.lo < hi-touch {
					hi, again = r.lo, true
				}
			}
		}
		out[k] = [3]float64{lo - wood[k].lo, wood[k].hi - hi, math.Max(0, hi-lo)}
	}
	return out
}
