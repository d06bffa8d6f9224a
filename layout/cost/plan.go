package cost

import (
	"fmt"
	"math"
)

// Way is what is done about the wood that is not wanted.
type Way string

// Ways.
const (
	Keep  Way = "keep"  // it stays and is laid where it looks well
	Trim  Way = "trim"  // it is ripped off
	Clear Way = "clear" // stock without any is bought instead
)

// Plan is one way to make a job, in what it takes. Areas are of the face of
// boards, volumes the same at the thickness by which they are sold: planing is in
// neither Lost.
type Plan struct {
	Way      Way
	Finished float64 // face of the finished parts, mm2
	Missing  float64 // face of parts that it does not make, mm2
	Unwanted bool    // it shows more unwanted wood than is allowed

	Used, Lost             float64 // mm2: wood used up, and what of it is in no finished part
	UsedVolume, LostVolume float64 // mm3

	Boards, Joints int
	Cost           float64 // of the wood used up
	Priced         bool    // all of that wood has a price
	Points         float64 // against it for its look
	Judged         bool    // Points are known
}

// Whole reports whether the plan makes all of the job as it is wanted.
func (p *Plan) Whole() bool { return p.Missing <= 1 && !p.Unwanted }

// Loss returns the share of the wood used that is lost.
func (p *Plan) Loss() float64 {
	if !(p.Used > 0) {
		return 0
	}
	return p.Lost / p.Used
}

func (p *Plan) check() error {
	for _, v := range [...]float64{p.Finished, p.Missing, p.Used, p.Lost, p.UsedVolume, p.LostVolume, p.Cost, p.Points} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return fmt.Errorf("the plan to %s the wood holds %g; its figures must be numbers not under 0", p.Way, v)
		}
	}
	if p.Lost > p.Used*(1+1e-9) || p.LostVolume > p.UsedVolume*(1+1e-9) || p.Boards < 0 || p.Joints < 0 {
		return fmt.Errorf("the plan to %s the wood loses more of it than it uses, or has less than no boards or joints", p.Way)
	}
	return nil
}

// ClearStock is stock without unwanted wood, as a seller offers it.
type ClearStock struct {
	Rate      Rate    // by volume
	Thickness float64 // by which it is sold, mm
	Loss      float64 // share of its face that is lost all the same, to ends, kerfs and edges
	Board     Size    // of a usual board; no size: the boards are not counted
	Joints    int     // in the panels made of it
}

// Plan returns what clear stock takes for so much finished face, mm2.
func (c ClearStock) Plan(finished float64) (Plan, error) {
	if !(c.Thickness > 0) || math.IsInf(c.Thickness, 0) {
		return Plan{}, fmt.Errorf("clear stock %g mm thick is none; give its thickness as sold", c.Thickness)
	}
	perArea, whole, err := c.Rate.ByArea(c.Thickness)
	if err != nil {
		return Plan{}, err
	}
	if whole > 0 || c.Rate.Per == PerBoard {
		return Plan{}, fmt.Errorf("clear stock sold by the board has no price for an area; give its price by volume")
	}
	used, err := ToBuy(finished, c.Loss)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Way: Clear, Finished: finished, Used: used, Lost: used - finished, Joints: c.Joints,
		UsedVolume: used * c.Thickness, LostVolume: (used - finished) * c.Thickness,
		Cost: used * perArea, Priced: c.Rate.Amount > 0}
	if face := c.Board.Face(); face > 0 {
		p.Boards = int(math.Ceil(used/face - 1e-9))
	}
	return p, nil
}

// EvenRate returns the price at which clear stock would cost as much as a plan
// that makes the same: above it the plan is the cheaper one.
func (c ClearStock) EvenRate(p Plan) (Rate, error) {
	if err := p.check(); err != nil {
		return Rate{}, err
	}
	unit, ok := c.Rate.Per.Volume()
	clear, err := c.Plan(p.Finished)
	switch {
	case err != nil:
		return Rate{}, err
	case !ok || clear.UsedVolume == 0:
		return Rate{}, fmt.Errorf("a plan that finishes nothing is even with no price")
	}
	return Rate{p.Cost / clear.UsedVolume * unit, c.Rate.Per}, nil
}

// Row is a plan held against the first of a comparison: what it takes more, under
// 0 less.
type Row struct {
	Plan
	MoreUsed, MoreLost             float64 // mm2
	MoreUsedVolume, MoreLostVolume float64 // mm3
	MoreBoards, MoreJoints         int
	MoreCost                       float64 // 0 where one of the two is not priced
	MorePoints                     float64 // 0 where one of the two is not judged

	// Spared is the wood kept out of the bin: how much less is lost than by the
	// plan of the comparison that loses most; mm2 and mm3.
	Spared, SparedVolume float64

	// Beaten is the plan, counted from 0, that is as good in everything that is
	// known of both and better in something; -1 where none is. Plans that are not
	// whole beat none.
	Beaten int
}

// Compare holds plans for one job side by side, in their order. They must finish
// the same face, less what they lack. Which is best is the maker's to say: no one
// figure is made of wood, money, joints and looks.
func Compare(plans []Plan) ([]Row, error) {
	var out []Row
	var most, mostVolume float64
	for i := range plans {
		p := &plans[i]
		if err := p.check(); err != nil {
			return nil, err
		}
		if a, b := plans[0].Finished+plans[0].Missing, p.Finished+p.Missing; math.Abs(a-b) > 1e-6*math.Max(a, b)+1 {
			return nil, fmt.Errorf("plan %d is for %.4g m2 of finished parts, the first for %.4g; compare plans for the same", i+1, b/1e6, a/1e6)
		}
		most, mostVolume = math.Max(most, p.Lost), math.Max(mostVolume, p.LostVolume)
	}
	for i := range plans {
		p, q := plans[i], plans[0]
		r := Row{Plan: p, MoreUsed: p.Used - q.Used, MoreLost: p.Lost - q.Lost,
			MoreUsedVolume: p.UsedVolume - q.UsedVolume, MoreLostVolume: p.LostVolume - q.LostVolume,
			MoreBoards: p.Boards - q.Boards, MoreJoints: p.Joints - q.Joints,
			Spared: most - p.Lost, SparedVolume: mostVolume - p.LostVolume, Beaten: -1}
		if p.Priced && q.Priced {
			r.MoreCost = p.Cost - q.Cost
		}
		if p.Judged && q.Judged {
			r.MorePoints = p.Points - q.Points
		}
		for k := range plans {
			if k != i && plans[k].beats(&p) {
				r.Beaten = k
				break
			}
		}
		out = append(out, r)
	}
	return out, nil
}

// beats reports whether p is as good as q in everything that is known of both,
// and better in something.
func (p *Plan) beats(q *Plan) bool {
	if !p.Whole() || p.Priced != q.Priced || p.Judged != q.Judged {
		return false
	}
	a := []float64{p.Used, p.Lost, float64(p.Boards), float64(p.Joints), p.Cost, p.Points}
	b := []float64{q.Used, q.Lost, float64(q.Boards), float64(q.Joints), q.Cost, q.Points}
	better := !q.Whole()
	for i := range a {
		tol := 1e-9 * math.Max(1, math.Max(a[i], b[i]))
		if a[i] > b[i]+tol {
			return false
		}
		better = better || a[i] < b[i]-tol
	}
	return better
}
