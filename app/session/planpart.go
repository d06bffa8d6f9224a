package session

import (
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/stock"
	"heartside/model"
)

// PartToPlan is what of a solid part can be planned.
type PartToPlan struct {
	ID      string
	Missing int // pieces that lie on no board that is sound
	Lie     int // pieces that lie on boards and are not sawn yet: they can be planned again
	Layers  int // that each is glued up of, 1 where boards are thick enough
}

// PartsToPlan lists the solid parts that something can be planned of.
func (s *Session) PartsToPlan() []PartToPlan {
	v := s.view()
	var out []PartToPlan
	for _, n := range v.project.Parts {
		if n.Kind == model.TestPiece {
			continue // it lies where it holds both woods
		}
		x := PartToPlan{ID: n.ID, Layers: layersOf(n, v.sound())}
		stays := 0
		for _, k := range n.Places {
			switch {
			case k.Cut():
				stays++
			case !v.onSpoiled(k):
				x.Lie++
			}
		}
		x.Missing = max(0, n.Count*x.Layers-stays-x.Lie)
		if x.Missing+x.Lie > 0 {
			out = append(out, x)
		}
	}
	return out
}

func (v *view) onSpoiled(k model.PartPlace) bool {
	b := v.project.Board(k.Board)
	return b == nil || b.Spoiled
}

// layersOf returns of how many layers a part is glued up: as few as the
// thickest boards allow, 1 where one is thick enough or how thick they are is
// not known.
func layersOf(n model.Part, boards []*face.Board) int {
	thickest := 0.0
	for _, b := range boards {
		if !(b.Thickness > 0) {
			return 1
		}
		thickest = math.Max(thickest, b.Thickness)
	}
	if thickest == 0 || thickest >= n.Thickness {
		return 1
	}
	return int(math.Ceil(n.Thickness/thickest - 1e-9))
}

// partJob is what becomes of a part that is planned.
type partJob struct {
	part   model.Part
	stay   []model.PartPlace
	layers int
}

// part takes a part into the plan as far as it is wished for; what stays is
// taken from the boards.
func (q *Planning) part(v *view, n model.Part, wish PlanWish) {
	again := slices.Contains(wish.Again, n.ID)
	job := partJob{part: n, layers: layersOf(n, v.sound())}
	wished := again || slices.Contains(wish.Parts, n.ID)
	stays := 0
	for i, k := range n.Places {
		if !k.Cut() && wished && (again || v.onSpoiled(k)) {
			continue
		}
		stays++
		job.stay = append(job.stay, k)
		for _, c := range v.cuttings {
			if c.ID == CuttingID(n.ID, i) && c.Board != nil {
				q.supply.Taken = append(q.supply.Taken, c)
			}
		}
	}
	need := n.Count*job.layers - stays
	if !wished || need < 1 {
		return
	}
	d := stock.Demand{ID: n.ID, Length: n.Length, Width: n.Width, Thickness: n.Thickness / float64(job.layers), Count: need,
		Wanted: wantedOf(n.Wanted), Most: [2]float64{1, 1}, BothShow: n.Kind == model.Leg}
	d.Boards = q.ofSpecies(lieOn(n.Places, func(k model.PartPlace) string { return k.Board }), wish.Species)
	if n.Wanted == model.WantDefault {
		d.Wanted = q.boardsWant(d.Boards)
	}
	q.demands = append(q.demands, d)
	q.parts[n.ID] = job
}

// places are all of a part after a plan: those that stay, then the new ones.
func (j *partJob) places(strips []face.Strip) []model.PartPlace {
	out := slices.Clone(j.stay)
	for i := range strips {
		s := &strips[i]
		out = append(out, model.PartPlace{Board: s.Board.ID, X: s.X, Y: s.Y, L: s.L, W: s.W, Angle: s.Angle, Stage: model.Planned})
	}
	return out
}
