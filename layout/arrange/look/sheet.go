package look

import (
	"math"

	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/figure"
)

// station is how far apart along the panel a strip is looked at, mm.
const station = 10

// row is how finely it is looked at across, mm at most.
const row = 2.5

// wayKey is all that the sheet of a strip depends on, but for the panel. Sizes
// are kept as bits, which are looked up faster and make no number differ from
// itself.
type wayKey struct {
	board  *face.Board
	planed *face.PlanedFace
	sizes  [6]uint64 // X, Y, L, W, Angle, Shift
	lies   uint64    // the face that shows, twice, and 1 where turned
}

func wayOf(s *face.Strip, wood *face.Board) wayKey {
	k := wayKey{board: wood, planed: s.Planed, lies: uint64(s.UpFace()) << 1}
	for i, v := range [...]float64{s.X, s.Y, s.L, s.W, s.Angle, s.Shift} {
		k.sizes[i] = math.Float64bits(v)
	}
	if s.Turned {
		k.lies |= 1
	}
	return k
}

// sheet is what is seen of a strip as it lies, trimmed to the panel's length:
// its unwanted wood along both long edges and across.
type sheet struct {
	id          int32
	front, rear []float32 // mm of unwanted wood from the edge in, every station; negative where there is no wood, where it is not seen yet and where nobody sees the panel
	across      []float32 // share of the length that is unwanted, by rows of one width
	row         float64   // their width, mm
	share       float64   // of the strip's face that is unwanted
	sure        float64   // the part of that which shows wherever the strip lies, less where the panel is shaped or hidden
	cells       []float32 // where the panel is shaped or hidden: across, by groups of stations
	against     [2]float64
	bare        [2]float64 // share of the front and rear edge known to have less than the least
	light       [2]float64 // and to have more
	heart       *colour.Lab
	reference   string
	board       *face.Board
	planes      int
	figure      figure.EdgeFigure
	barkUp      int // 1 bark side up, -1 down, 0 not known
}

// sheetOf looks at strip s as it lies.
func (j *Judge) sheetOf(s *face.Strip) *sheet {
	wood := s.Wood(&j.planed)
	k := wayOf(s, wood)
	if got := j.sheets[k]; got != nil {
		return got
	}
	as := *s
	as.Board = wood
	sh := j.look(&as)
	sh.id = int32(len(j.sheets))
	j.sheets[k] = sh
	return sh
}

func (j *Judge) look(s *face.Strip) *sheet {
	left := j.length/2 - s.L/2 + s.Shift // panel X of u = 0
	sound := j.sound && s.Board != nil && real(s.X, s.Y, s.L, s.W, s.Angle, s.Shift) && s.L > 0 && s.W > 0
	n, rows := j.stations, 1
	if sound {
		rows = max(int(math.Ceil(s.W/row)), 1)
	}
	sh := &sheet{front: make([]float32, n), rear: make([]float32, n), across: make([]float32, rows), row: s.W / float64(rows)}
	if !sound {
		for i := range sh.front {
			sh.front[i], sh.rear[i] = -1, -1
		}
		return sh
	}
	sh.board = s.Board.Root()
	if j.view.cut {
		sh.cells = make([]float32, len(j.view.open)/bins*rows)
	}
	up := s.UpFace()
	f := colouredFace(s.Board, up)
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
	if g, ok := j.rules.Grain[sh.board]; ok {
		sh.figure.Log, sh.figure.Order = g.Log, g.Order
		if g.Maps[0] != nil || g.Maps[1] != nil {
			sh.figure.Figure = figure.Read(s, g.Maps, figure.Limits{})
		}
	}
	z := layersOf(s)
	var area, wood, sure float64
	var edge [2]float64
	per := j.length / float64(n)
	for i := range n {
		u := (float64(i)+0.5)*per - left
		sh.front[i], sh.rear[i] = -1, -1
		if u < 0 || u > s.L { // the board goes on there, the strip does not
			continue
		}
		spans := z.at(u)
		if len(spans) == 0 {
			continue
		}
		if !j.view.shutAll(i) {
			sh.front[i] = float32(reach(spans, j.unwanted, 1))
			sh.rear[i] = float32(reach(spans, j.unwanted, -1))
		}
		light := 0.0
		edge[0] += math.Max(float64(sh.front[i]), 0)
		edge[1] += math.Max(float64(sh.rear[i]), 0)
		for _, p := range spans {
			if p.kind != face.Blank {
				wood += p.hi - p.lo
			}
			if p.kind != j.unwanted || !j.judges {
				continue
			}
			light += p.hi - p.lo
			for r := int(p.lo / sh.row); r < rows && float64(r)*sh.row < p.hi; r++ {
				a, b := math.Max(p.lo, float64(r)*sh.row), math.Min(p.hi, float64(r+1)*sh.row)
				sh.across[r] += float32((b - a) / sh.row / float64(n))
				if sh.cells != nil {
					sh.cells[j.view.group[i]*rows+r] += float32((b - a) / sh.row / float64(n))
				}
			}
		}
		area += light
		sure += math.Max(light-j.view.shut[i], 0)
	}
	if !j.judges {
		for i := range sh.front {
			sh.front[i], sh.rear[i] = min(sh.front[i], 0), min(sh.rear[i], 0)
		}
		edge = [2]float64{}
	}
	if wood > 0 {
		sh.share, sh.sure = area/wood, sure/wood
	}
	for e, list := range [2][]float32{sh.front, sh.rear} {
		if area > 0 {
			sh.against[e] = math.Min(edge[e]/area, 1)
		}
		for _, v := range list {
			switch {
			case v < 0:
			case float64(v) < j.rules.Least:
				sh.bare[e] += 1 / float64(n)
			default:
				sh.light[e] += 1 / float64(n)
			}
		}
	}
	return sh
}

// colouredFace is the face of a board that tells the colour of its wood: the
// one that shows, or the other where only that was photographed.
func colouredFace(b *face.Board, up int) *face.BoardFace {
	own, other := &b.Faces[up-1], &b.Faces[2-up]
	if own.Heart == nil && own.Sap == nil && (other.Heart != nil || other.Sap != nil) {
		return other
	}
	return own
}
