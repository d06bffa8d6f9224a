package stock

import (
	"math"

	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
)

// flawSlice is how finely a slanted flaw is taken in steps along the board, mm.
const flawSlice = 50.0

// site is a board at one angle: its table and its rooms while nothing more is
// laid on it.
type site struct {
	*Table
	rooms  []geom.Rect // for strips as glued
	usable float64     // of the blanks' wood, mm2
}

// lot is a board of the supply with its sites, the straight one first.
type lot struct {
	Stock
	sites  []site
	opened bool // something of it was taken before
	plain  bool // one wood all over, square, nothing taken
	class  int  // lots of one class are alike; -1: unlike any other
	base   float64
}

// problem is a supply as the search sees it.
type problem struct {
	supply      *Supply
	opt         Options
	obj         Objective
	jobs        []job
	lots        []lot
	long, wide  float64    // least room kept
	offcut      [2]float64 // blank size from which a rest is of use
	along, over float64    // what blanks take between strips
	ends, edge  float64    // what a blank has over a strip
	snipe       bool       // strips keep out of what thicknessing may spoil
}

// open makes the sites of a board.
func (p *problem) open(k Stock) (lot, error) {
	b := k.Board
	out := lot{Stock: k, class: -1}
	var taken []face.Strip
	for _, s := range p.supply.Taken {
		if s.Board != nil && s.Board.ID == b.ID {
			taken = append(taken, s)
			out.opened = true
		}
	}
	out.plain = !out.opened && len(b.Faces[0].Zones)+len(b.Faces[1].Zones) == 0 &&
		len(b.Faces[0].Outline) < 3 && len(b.Faces[1].Outline) < 3
	angles := []float64{0}
	if !p.opt.Straight && (p.obj == BestLook || len(b.Faces[0].Outline) >= 3 || len(b.Faces[1].Outline) >= 3) {
		angles = Angles(b)
	}
	for _, angle := range angles {
		t, err := p.supply.tables.table(b, angle, p.opt.Cell)
		if err != nil {
			return out, err
		}
		s := site{Table: t, rooms: p.roomsOf(&t.frame, taken)}
		s.usable = p.usable(s.rooms)
		if angle == 0 || len(s.rooms) > 0 {
			out.sites = append(out.sites, s)
		}
	}
	out.base = out.sites[0].usable
	return out, nil
}

// roomsOf returns where strips as glued may lie in a frame: their blanks within
// the board and clear of what is taken, themselves clear of flaws.
func (p *problem) roomsOf(f *frame, taken []face.Strip) []geom.Rect {
	inFrame := make([]face.Strip, len(taken))
	for i, s := range taken {
		inFrame[i] = f.into(s)
	}
	var rooms []geom.Rect
	for _, r := range cutting.Free(f.turned, inFrame, p.supply.Allowances) {
		if r = grow(r, -p.ends, -p.edge); r.W() >= p.long-tiny && r.H() >= p.wide-tiny {
			rooms = append(rooms, r)
		}
	}
	rooms = thin(rooms)
	for _, box := range flawBoxes(f.turned, p.supply.Allowances.FlawMargin) {
		rooms = carve(rooms, box, p.long, p.wide)
	}
	begin, end := f.board.Left()
	if n := p.supply.Allowances.Snipe; p.snipe && n > p.ends && end-begin-2*n >= p.long {
		from, to := f.turned.Left()
		for _, x := range [...]float64{from, to} {
			rooms = carve(rooms, geom.R(x-n, -1, x+n, f.turned.Width+1), p.long, p.wide)
		}
	}
	return thin(rooms)
}

// flawBoxes returns rectangles round the flaws of both faces, in face-1
// coordinates, wider by margin all round.
func flawBoxes(b *face.Board, margin float64) []geom.Rect {
	var out []geom.Rect
	for f := range b.Faces {
		if f == 1 && b.Faces[f].Guessed {
			continue
		}
		for _, z := range b.Faces[f].Zones {
			if z.Kind != face.Flaw || len(z.Polygon) < 3 {
				continue
			}
			ring := z.Polygon
			if f == 1 {
				ring = b.Other().ApplyTo(ring)
			}
			box := ring.Bounds()
			n := math.Max(1, math.Min(20, math.Round(box.W()/flawSlice)))
			for k := range int(n) {
				cut := geom.R(box.Min.X+box.W()*float64(k)/n, box.Min.Y, box.Min.X+box.W()*float64(k+1)/n, box.Max.Y)
				if piece := ring.ClipRect(cut); len(piece) >= 3 {
					out = append(out, grow(piece.Bounds(), margin, margin))
				}
			}
		}
	}
	return out
}

// usable returns the area of the blanks' wood in rooms that a rest is still of
// use for, mm2.
func (p *problem) usable(rooms []geom.Rect) float64 {
	var list []geom.Rect
	for _, r := range rooms {
		if r = grow(r, p.ends, p.edge); r.W() >= p.offcut[0]-tiny && r.H() >= p.offcut[1]-tiny {
			list = append(list, r)
		}
	}
	if len(list) == 0 {
		return 0
	}
	return union(list)
}

// setup makes the problem of a supply and demands.
func setup(s *Supply, demands []Demand, obj Objective, o Options, snipe bool) (*problem, error) {
	o = o.filled()
	jobs := make([]job, len(demands))
	for i := range demands {
		jobs[i] = jobOf(&demands[i], s, o)
	}
	return setupJobs(s, jobs, obj, o, snipe)
}

// setupJobs makes the problem of a supply and jobs whose boards are not found
// yet.
func setupJobs(s *Supply, jobs []job, obj Objective, o Options, snipe bool) (*problem, error) {
	p := &problem{jobs: jobs, supply: s, opt: o, obj: obj, snipe: snipe, offcut: o.Offcut}
	p.along, p.over = step(s.Allowances)
	p.ends, p.edge = s.Allowances.Ends, s.Allowances.Joint+s.Allowances.Rest
	p.long, p.wide = math.Inf(1), math.Inf(1)
	for _, j := range jobs {
		p.long, p.wide = math.Min(p.long, j.short), math.Min(p.wide, j.least)
	}
	// Whatever a strip can be cut from is of use.
	l, w := cutting.BlankSize(p.long, p.wide, s.Allowances)
	p.offcut[0], p.offcut[1] = math.Min(p.offcut[0], l), math.Min(p.offcut[1], w)
	p.long = math.Min(p.long, math.Max(1, p.offcut[0]-2*p.ends))
	p.wide = math.Min(p.wide, math.Max(1, p.offcut[1]-2*p.edge))
	for _, k := range s.Boards {
		l, err := p.open(k)
		if err != nil {
			return nil, err
		}
		p.lots = append(p.lots, l)
	}
	for i := range p.jobs {
		for b := range p.lots {
			if j := &p.jobs[i]; j.may(p.lots[b].Board) && p.gives(j, b) {
				j.boards = append(j.boards, b)
			}
		}
		p.jobs[i].most = math.Min(p.jobs[i].most, down(p.widest(&p.jobs[i]), o.Grid))
	}
	p.classes()
	return p, nil
}

// gives reports whether a board has room for one strip of a job.
func (p *problem) gives(j *job, b int) bool {
	if j.solid && j.width > j.most+tiny {
		return false
	}
	for i := range p.lots[b].sites {
		for _, r := range p.lots[b].sites[i].rooms {
			if r.W() >= j.short-tiny && r.H() >= j.least-tiny {
				return true
			}
		}
	}
	return false
}

// widest returns how wide a strip of a job the rooms give at most.
func (p *problem) widest(j *job) float64 {
	w := 0.0
	for _, b := range j.boards {
		for i := range p.lots[b].sites {
			for _, r := range p.lots[b].sites[i].rooms {
				if r.W() >= j.short-tiny {
					w = math.Max(w, r.H())
				}
			}
		}
	}
	return w
}

// classes finds boards that are alike: which of them is cut makes no
// difference.
func (p *problem) classes() {
	for i := range p.jobs {
		if p.jobs[i].allow != nil {
			return
		}
	}
	for i := range p.lots {
		l := &p.lots[i]
		if !l.plain {
			continue
		}
		l.class = i
		for k := range i {
			o := &p.lots[k]
			if o.class == k && o.Price == l.Price && o.Board.Length == l.Board.Length && o.Board.Width == l.Board.Width && o.Board.Thickness == l.Board.Thickness &&
				o.Board.Faces[0].Base == l.Board.Faces[0].Base && o.Board.Faces[1].Base == l.Board.Faces[1].Base {
				l.class = k
				break
			}
		}
	}
}
