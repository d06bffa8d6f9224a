package session

import (
	"math"
	"slices"
	"time"

	"heartside/layout/cost"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
	"heartside/model/unit"
)

// UsualWaste is the share of what is bought that is taken to be lost where the
// maker has no jobs of their own. Common practice, no source.
const UsualWaste = 0.30

// PastJob is how much wood a job took. Areas are of faces, mm2; planing is in
// neither, it stands apart.
type PastJob struct {
	Name     string
	Done     time.Time
	Species  string  // "" of several
	Finished float64 // length by width of what was made
	Bought   float64 // of the boards it was cut from, whole
	Thick    float64 // finished over bought thickness, weighted by face
}

// Waste is the share of the bought face that is lost.
func (j *PastJob) Waste() float64 { return 1 - j.Finished/j.Bought }

// CutBoards returns the boards that something is cut from: those a job takes.
func (s *Session) CutBoards() []string {
	used := map[string]bool{}
	p := s.Project()
	for _, n := range p.Panels {
		for _, st := range n.Strips {
			used[st.Board] = true
		}
	}
	for _, n := range p.Parts {
		for _, k := range n.Places {
			used[k.Board] = true
		}
	}
	var out []string
	for _, b := range p.Boards {
		if used[b.ID] {
			out = append(out, b.ID)
		}
	}
	return out
}

// finishedSizes are all panels and parts of a project.
func finishedSizes(p *model.Project) []cost.Size {
	var out []cost.Size
	for _, n := range p.Panels {
		out = append(out, cost.Size{Length: n.Length, Width: n.Width, Thickness: n.Thickness})
	}
	for _, n := range p.Parts {
		if n.Kind != model.TestPiece {
			out = append(out, cost.Size{Length: n.Length * float64(n.Count), Width: n.Width, Thickness: n.Thickness})
		}
	}
	return out
}

// madeSizes are panels and parts as far as their strips and cuttings lie on some
// boards: a panel of which half is from them stands with half its length.
func madeSizes(p *model.Project, boards []string) []cost.Size {
	var out []cost.Size
	add := func(l, w, t, share float64) {
		if share > 0 {
			out = append(out, cost.Size{Length: l * share, Width: w, Thickness: t})
		}
	}
	for _, n := range p.Panels {
		own, all := 0.0, 0.0
		for _, st := range n.Strips {
			all += st.L * st.W
			if slices.Contains(boards, st.Board) {
				own += st.L * st.W
			}
		}
		if all > 0 {
			add(n.Length, n.Width, n.Thickness, own/all)
		}
	}
	for _, n := range p.Parts {
		own := 0
		for _, k := range n.Places {
			if slices.Contains(boards, k.Board) {
				own++
			}
		}
		if n.Kind != model.TestPiece {
			add(n.Length*float64(n.Count), n.Width, n.Thickness, float64(own)/float64(max(n.Count, len(n.Places))))
		}
	}
	return out
}

// ThisJob returns what the project took of some boards, and what is made of them:
// what lies on a board is taken to be made.
func (s *Session) ThisJob(boards []string, now time.Time) (PastJob, error) {
	p := s.Project()
	j := PastJob{Name: p.Name, Done: now}
	var bought []cost.Size
	for i, id := range boards {
		b := p.Board(id)
		if b == nil {
			return j, say.Errorf("there is no board %s", id)
		}
		bought = append(bought, cost.Size{Length: b.Length, Width: b.Width, Thickness: b.Thickness})
		switch {
		case i == 0:
			j.Species = b.Species
		case j.Species != b.Species:
			j.Species = ""
		}
	}
	made := madeSizes(p, boards)
	switch {
	case len(bought) == 0:
		return j, say.Error("tick the boards that this job took")
	case len(made) == 0:
		return j, say.Error("nothing lies on these boards, so nothing is made of them")
	}
	y, err := cost.YieldOf(bought, made)
	if err != nil {
		return j, say.Errorf("more is made than these boards give (%w): tick all boards that the job took", err)
	}
	for _, z := range made {
		j.Finished += z.Face()
	}
	for _, z := range bought {
		j.Bought += z.Face()
	}
	j.Thick = y.Thickness
	return j, nil
}

// JobWords tells how much wood a past job took.
func (s *Session) JobWords(j *PastJob) string {
	wood := say.T("several woods")
	if j.Species != "" {
		wood = woodWords(j.Species)
	}
	text := say.F("%s, %s: %s finished of %s bought, %s lost", j.Name, wood, s.Area(j.Finished), s.Area(j.Bought), Percent(j.Waste()))
	if j.Thick > 0 && j.Thick < 1 {
		text += say.F("; of the thickness, apart, %s planed off", Percent(1-j.Thick))
	}
	return text
}

// WasteOf returns the share lost that past jobs stand for, weighted by what was
// bought, and in words where it comes from: jobs of the same wood, else all, else
// what is usual.
func WasteOf(jobs []PastJob, species string) (share float64, from string) {
	sum := func(of func(*PastJob) bool) (share float64, n int) {
		finished, bought := 0.0, 0.0
		for i := range jobs {
			if j := &jobs[i]; of(j) && j.Bought > 0 && j.Finished > 0 && j.Finished <= j.Bought {
				finished, bought, n = finished+j.Finished, bought+j.Bought, n+1
			}
		}
		return 1 - finished/bought, n
	}
	if share, n := sum(func(j *PastJob) bool { return species != "" && j.Species == species }); n > 0 {
		return share, say.F("your own: %s in %s", countWords(n, say.T("job"), say.T("jobs")), woodWords(species))
	}
	if share, n := sum(func(*PastJob) bool { return true }); n > 0 {
		if species == "" {
			return share, say.F("your own: %s", countWords(n, say.T("job"), say.T("jobs")))
		}
		return share, say.F("your own: %s in other woods", countWords(n, say.T("job"), say.T("jobs")))
	}
	return UsualWaste, say.T("no jobs of your own are kept yet; common practice, no source")
}

// MainSpecies is the wood that most of the boards' face is of, "" without boards.
func (s *Session) MainSpecies() string {
	sum, best := map[string]float64{}, ""
	for _, b := range s.Project().Boards {
		sum[b.Species] += b.Length * b.Width
		if best == "" || sum[b.Species] > sum[best] {
			best = b.Species
		}
	}
	return best
}

// ToBuy tells how much wood to buy for all panels and parts where a share of what
// is bought is lost, and what adding that share to the need would give instead.
func (s *Session) ToBuy(waste float64) ([]string, error) {
	need := 0.0
	for _, z := range finishedSizes(s.Project()) {
		need += z.Face()
	}
	if need == 0 {
		return []string{say.T("There are no panels and no parts yet: nothing is needed.")}, nil
	}
	buy, err := cost.ToBuy(need, waste)
	if err != nil {
		return nil, say.Errorf("lost of what is bought: %w", err)
	}
	add, err := cost.AddOn(waste)
	if err != nil {
		return nil, err
	}
	covers, err := cost.WasteOf(waste)
	if err != nil {
		return nil, err
	}
	lead := say.F("Buy %s for %s of finished face: need / (1 − waste).", s.withVolume(buy), s.Area(need))
	if waste == 0 {
		return []string{lead}, nil
	}
	return []string{lead, say.F("With %s lost, buy %.0f for 100: that is adding %s. Adding %s gives %s and covers only %s lost.",
		Percent(waste), 100/(1-waste), Percent(add), Percent(waste), s.Area(need*(1+waste)), Percent(covers))}, nil
}

// withVolume prints an area of face with the volume that it is at the mean
// thickness of the boards, where there are any.
func (s *Session) withVolume(area float64) string {
	face, volume := 0.0, 0.0
	for _, b := range s.Project().Boards {
		face += b.Length * b.Width
		volume += b.Length * b.Width * b.Thickness
	}
	if face == 0 || math.IsInf(area, 0) {
		return s.Area(area)
	}
	thick := volume / face
	return say.F("%s, at %s thick %s", s.Area(area), s.Len(thick), unit.FormatVolume(area*thick, s.Units()))
}

func woodWords(id string) string { return speciesName(catalog.Find(id), id) }
