package face

import (
	"strconv"

	"heartside/layout/geom"
)

// readFace reads one side from its strips.
func (r *Reader) readFace(p *Panel, side Side) {
	f := r.side(side)
	var area [kinds]float64
	for i, st := range r.strips {
		if st == nil {
			continue
		}
		fd := &st.faces[side]
		for k, a := range fd.area {
			area[k] += a
		}
		for _, fl := range fd.flaws {
			f.Flaws = append(f.Flaws, Flawed{i, r.asSeen(p, side, r.inPanel(i, fl.box)), fl.area})
		}
	}
	f.Area = area[Heart] + area[Sap] + area[Flaw] + area[Unseen]
	f.Light = shareOf(area[Sap], area[Heart]+area[Flaw], area[Unseen])
	if unwanted, ok := p.Wanted.Unwanted(); ok {
		f.Unwanted = shareOf(area[unwanted], area[p.Wanted.Wood()]+area[Flaw], area[Unseen])
	}
	if f.Area > 0 {
		f.UnseenPart = area[Unseen] / f.Area
	}
	r.split[side] = r.isSplit(side)
	f.Contrast = r.contrastOf(side, r.split[side])
	if !r.uncovered {
		f.Coverage = r.cover(side, r.split[side])
	}
	f.Balance = r.balanceOf(side, p.Width)
	f.Specks = r.group(p, side)
	r.judgeBands(p, side)
	if side == Back {
		f.Balance = -f.Balance
	}
}

func (r *Reader) side(side Side) *Face {
	if side == Back {
		return &r.reading.Back
	}
	return &r.reading.Show
}

// inPanel moves a rectangle of strip i to panel coordinates of the show face.
func (r *Reader) inPanel(i int, b geom.Rect) geom.Rect {
	d := geom.Pt(r.lefts[i], r.ys[i])
	return geom.Rect{Min: b.Min.Add(d), Max: b.Max.Add(d)}
}

// asSeen returns a rectangle of the show face as seen on the given side.
func (r *Reader) asSeen(p *Panel, side Side, b geom.Rect) geom.Rect {
	if side == Back {
		b.Min.Y, b.Max.Y = p.Width-b.Max.Y, p.Width-b.Min.Y
	}
	return b
}

// judgeBands names the bands of a face, finds their excuses and the lone
// streaks among them.
func (r *Reader) judgeBands(p *Panel, side Side) {
	g := &r.groups[side]
	f := r.side(side)
	limits := r.limits(p)
	for i := range g.bands {
		b := &g.bands[i]
		b.ID = r.store.bandID(side, i)
		if f.Area > 0 {
			b.Share = b.Area / f.Area
		}
		k := r.tight(SliverKind, side, b.place)
		b.Sliver = b.MeanWidth < sliverWidth/k && b.MaxWidth < sliverPeak/k && b.Length > sliverLength*k
	}
	seen := side == Show || p.BothShow
	for i := range g.bands {
		b := &g.bands[i]
		k := r.tight(LoneStreak, side, b.place)
		b.Excuse = r.excuse(p, g, i, bar(k))
		stands := b.Unknown || b.Contrast >= limits.Contrast*k
		b.Later = stands && !b.Unknown && b.Today < limits.Contrast
		others := f.Unwanted.Lo - b.Share // what is not seen yet counts for nothing
		b.Lone = seen && !b.Sliver && b.Excuse == NoExcuse && stands && others < limits.Streak/k
		b.Later = b.Later && b.Lone
	}
}

// limits returns the panel's limits, the default ones where it has none.
func (r *Reader) limits(p *Panel) Limits {
	if p.Limits == (Limits{}) {
		return DefaultLimits
	}
	out := p.Limits
	if out.Fresh == 0 {
		out.Fresh = DefaultLimits.Fresh
	}
	if out.More == 0 {
		out.More = DefaultLimits.More
	}
	if out.Turns == 0 {
		out.Turns = DefaultLimits.Turns
	}
	return out
}

// publish puts the judged bands of a side in the reading, as seen there.
func (r *Reader) publish(p *Panel, side Side) {
	f := r.side(side)
	for i := range r.groups[side].bands {
		b := &r.groups[side].bands[i]
		out := b.Band
		out.Place, out.CentreY = r.asSeen(p, side, b.place), b.centre
		if side == Back {
			out.CentreY = p.Width - b.centre
		}
		f.Bands = append(f.Bands, out)
	}
}

// readNarrows sums the edges and ends over the strips.
func (r *Reader) readNarrows() {
	unwanted, judged := r.wanted.Unwanted()
	for k, n := range [4]*Narrow{&r.reading.Edges[0], &r.reading.Edges[1], &r.reading.Ends[0], &r.reading.Ends[1]} {
		var sum narrowPart
		for _, st := range r.strips {
			if st == nil {
				continue
			}
			part := &st.narrow[k]
			sum.sap += part.sap
			sum.heart += part.heart
			sum.unseen += part.unseen
			n.Flaws += st.flawsAt(n.Side, nil)
		}
		n.Light = shareOf(sum.sap, sum.heart, sum.unseen)
		switch {
		case judged && unwanted == Sap:
			n.Unwanted = n.Light
		case judged:
			n.Unwanted = shareOf(sum.heart, sum.sap, sum.unseen)
		}
	}
}

// flawsAt counts the flaws of a strip that reach a side, and calls f for each;
// one that shows at the same place on both faces counts once.
func (st *stripData) flawsAt(side Side, f func(fl *flaw)) int {
	n := 0
	for k := range st.faces {
		for i := range st.faces[k].flaws {
			fl := &st.faces[k].flaws[i]
			if fl.sides&(1<<side) == 0 || (k == int(Back) && st.flawOver(side, fl)) {
				continue
			}
			n++
			if f != nil {
				f(fl)
			}
		}
	}
	return n
}

// flawOver reports whether a flaw of the show face lies over fl at a side.
func (st *stripData) flawOver(side Side, fl *flaw) bool {
	for i := range st.faces[Show].flaws {
		o := &st.faces[Show].flaws[i]
		if o.sides&(1<<side) != 0 && !o.box.Intersect(fl.box).Empty() {
			return true
		}
	}
	return false
}

// store holds what a reading refers to.
type store struct {
	names []string
	ints  []int
	under []Warning
	ids   [2][]string
}

func (s *store) reset() { s.names, s.ints, s.under = s.names[:0], s.ints[:0], s.under[:0] }

// bandID returns the name of band i of a side, counted front to back.
func (s *store) bandID(side Side, i int) string {
	word := "show-"
	if side == Back {
		word = "back-"
	}
	for len(s.ids[side]) <= i {
		s.ids[side] = append(s.ids[side], word+strconv.Itoa(len(s.ids[side])+1))
	}
	return s.ids[side][i]
}

// stripsOf lists the strips of nodes, which come in strip order.
func (s *store) stripsOf(nodes []bandNode) []int {
	from := len(s.ints)
	for i, n := range nodes {
		if i == 0 || n.strip != nodes[i-1].strip {
			s.ints = append(s.ints, int(n.strip))
		}
	}
	return s.ints[from:len(s.ints):len(s.ints)]
}

// list keeps a few names.
func (s *store) list(names ...string) []string {
	from := len(s.names)
	s.names = append(s.names, names...)
	return s.names[from:len(s.names):len(s.names)]
}
