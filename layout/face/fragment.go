package face

import (
	"math"

	"heartside/layout/geom"
)

// fragment is unwanted wood of one strip that holds together, with the flaws
// it holds together through. One without area is a flaw that touches no
// unwanted wood in its own strip but may across a joint.
type fragment struct {
	box          geom.Rect
	area, moment float64
	maxWidth     float64
	pieces       run    // in order
	wooded       run    // stretches of u where it has wood
	joint        [2]run // stretches within gapAcross of the front and the back edge of the strip
	edge         [2]run // likewise of the panel's front and back edge
	first        int32  // number of its first 1 mm column
	columns      run    // mean width in each 1 mm column
	firstTen     int32  // number of its first 10 mm column
	tens         run    // least and greatest v in each 10 mm column
	own, near    tint   // its colour, and that of wanted wood near it in its strip
}

// fragments are the fragments of one face of a strip.
type fragments struct {
	frags     []fragment
	order     []int32 // pieces, fragment by fragment
	stretches []interval
	columns   []float32
	tens      [][2]float32
}

func (f *fragments) reset() {
	f.frags, f.order, f.stretches = f.frags[:0], f.order[:0], f.stretches[:0]
	f.columns, f.tens = f.columns[:0], f.tens[:0]
}

func (f *fragments) list(r run) []interval { return f.stretches[r.from:r.to] }

// flaw is a flaw of one face of a strip, with a bit for each side of the
// panel that it reaches.
type flaw struct {
	box   geom.Rect
	area  float64
	sides uint8
}

func (f *faceData) noFragments() {
	for range f.pieces {
		f.owner = append(f.owner, -1)
	}
}

// findFlaws gathers the pieces of flaw that touch.
func (f *faceData) findFlaws(w *work) {
	w.nodes = w.nodes[:0]
	for i := range f.pieces {
		if Kind(f.pieces[i].Label) == Flaw {
			w.nodes = append(w.nodes, int32(i))
		}
	}
	w.flawed.reset(len(f.pieces))
	link(f.pieces, w.nodes, w.flawed, func(_, _ Kind) (float64, float64) { return touching, touching })
	for _, i := range w.nodes {
		t := &f.pieces[i]
		if w.flawed.root(i) != i {
			continue
		}
		fl := flaw{box: t.Bounds()}
		for _, k := range w.nodes {
			if w.flawed.root(k) == i {
				fl.area += f.pieces[k].Area()
				fl.box = fl.box.Union(f.pieces[k].Bounds())
			}
		}
		f.flaws = append(f.flaws, fl)
	}
}

// link joins the nodes, given in the order of X0, that lie near one another.
func link(pieces []geom.Trapezoid, nodes []int32, j joins, gaps func(a, b Kind) (gx, gy float64)) {
	for n, i := range nodes {
		a := &pieces[i]
		for _, k := range nodes[n+1:] {
			b := &pieces[k]
			if b.X0 > a.X1+gapAlong {
				break
			}
			gx, gy := gaps(Kind(a.Label), Kind(b.Label))
			if near(a, b, gx, gy) {
				j.join(i, k)
			}
		}
	}
}

// findFragments gathers the pieces of unwanted wood and of flaw that hold
// together.
func (f *faceData) findFragments(w *work, unwanted Kind) {
	w.nodes = w.nodes[:0]
	for i := range f.pieces {
		if k := Kind(f.pieces[i].Label); k == Flaw || k == unwanted {
			w.nodes = append(w.nodes, int32(i))
		}
	}
	w.joined.reset(len(f.pieces))
	link(f.pieces, w.nodes, w.joined, func(a, b Kind) (float64, float64) {
		if a == unwanted && b == unwanted {
			return gapAlong, gapAcross
		}
		return touching, touching
	})
	f.noFragments()
	w.count = w.count[:0]
	for _, i := range w.nodes {
		root := w.joined.root(i)
		if root == i {
			f.owner[i] = int32(len(f.frags))
			f.frags = append(f.frags, fragment{})
			w.count = append(w.count, 0)
		}
		f.owner[i] = f.owner[root]
		w.count[f.owner[i]]++
	}
	var at int32
	for k := range f.frags {
		f.frags[k].pieces = run{at, at}
		at += w.count[k]
	}
	for range w.nodes {
		f.order = append(f.order, 0)
	}
	for _, i := range w.nodes {
		fr := &f.frags[f.owner[i]]
		f.order[fr.pieces.to] = i
		fr.pieces.to++
		t := &f.pieces[i]
		if Kind(t.Label) == unwanted {
			fr.area += t.Area()
			fr.moment += momentOf(t)
			fr.box = fr.box.Union(t.Bounds())
		}
	}
}

// measure finds what each fragment touches and how wide it is along its way.
func (f *faceData) measure(key *stripKey, fin *finished) {
	for k := range f.frags {
		fr := &f.frags[k]
		if fr.area <= 0 {
			continue
		}
		fr.wooded = f.stretch(fr, func(t *geom.Trapezoid) interval { return interval{t.X0, t.X1} })
		for e := range fr.joint {
			line := float64(e) * key.w
			if (e == 0 && fr.box.Min.Y <= gapAcross) || (e == 1 && fr.box.Max.Y >= key.w-gapAcross) {
				fr.joint[e] = f.stretch(fr, func(t *geom.Trapezoid) interval { return within(t, e, line) })
			}
			fr.edge[e] = f.edgeOf(fr, key, fin, e)
		}
		f.measureColumns(fr)
	}
}

// stretch gathers an interval from each piece of unwanted wood of a fragment.
func (f *faceData) stretch(fr *fragment, of func(*geom.Trapezoid) interval) run {
	start := len(f.stretches)
	for _, i := range f.order[fr.pieces.from:fr.pieces.to] {
		if t := &f.pieces[i]; Kind(t.Label) != Flaw {
			f.stretches = addInterval(f.stretches, start, of(t))
		}
	}
	return run{int32(start), int32(len(f.stretches))}
}

// within returns where t comes within gapAcross of the line, from above for
// the front (e = 0) and from below for the back edge.
func within(t *geom.Trapezoid, e int, line float64) interval {
	s0, s1 := 0.0, 1.0
	if e == 0 {
		s0, s1 = under(t.Lo0-line-gapAcross, t.Lo1-line-gapAcross, s0, s1)
	} else {
		s0, s1 = under(line-gapAcross-t.Hi0, line-gapAcross-t.Hi1, s0, s1)
	}
	w := t.X1 - t.X0
	return interval{t.X0 + s0*w, t.X0 + s1*w}
}

// edgeOf finds where a fragment lies along the panel's own front or back edge.
// A shaped outline is followed in steps of 5 mm at most.
func (f *faceData) edgeOf(fr *fragment, key *stripKey, fin *finished, e int) run {
	if !fin.shaped {
		line := key.clip.Min.Y
		side := Front
		if e == 1 {
			line, side = key.clip.Max.Y, Rear
		}
		if key.reach&(1<<side) == 0 || (e == 0 && fr.box.Min.Y > line+gapAcross) || (e == 1 && fr.box.Max.Y < line-gapAcross) {
			return run{}
		}
		return f.stretch(fr, func(t *geom.Trapezoid) interval { return within(t, e, line) })
	}
	const step = 5.0
	start := len(f.stretches)
	for _, i := range f.order[fr.pieces.from:fr.pieces.to] {
		t := &f.pieces[i]
		if Kind(t.Label) == Flaw {
			continue
		}
		n := max(1, math.Ceil((t.X1-t.X0)/step))
		d := (t.X1 - t.X0) / n
		for i := 0.0; i < n; i++ {
			x := t.X0 + i*d
			lo, hi := columnOf(t, x+d/2)
			y0, y1, ok := fin.column(key.left + x + d/2)
			if ok && ((e == 0 && lo+key.at <= y0+gapAcross) || (e == 1 && hi+key.at >= y1-gapAcross)) {
				f.stretches = addInterval(f.stretches, start, interval{x, x + d})
			}
		}
	}
	return run{int32(start), int32(len(f.stretches))}
}

// measureColumns fills the widths of a fragment by columns of 1 mm and its
// reach across by columns of 10 mm.
func (f *faceData) measureColumns(fr *fragment) {
	fr.first, fr.firstTen = int32(math.Floor(fr.box.Min.X)), int32(math.Floor(fr.box.Min.X/cellSize))
	n, tens := int32(math.Ceil(fr.box.Max.X))-fr.first, int32(math.Ceil(fr.box.Max.X/cellSize))-fr.firstTen
	fr.columns = run{int32(len(f.columns)), int32(len(f.columns)) + n}
	fr.tens = run{int32(len(f.tens)), int32(len(f.tens)) + tens}
	for range n {
		f.columns = append(f.columns, 0)
	}
	for range tens {
		f.tens = append(f.tens, [2]float32{math.MaxFloat32, -math.MaxFloat32})
	}
	columns, ten := f.columns[fr.columns.from:], f.tens[fr.tens.from:]
	for _, i := range f.order[fr.pieces.from:fr.pieces.to] {
		t := &f.pieces[i]
		if Kind(t.Label) == Flaw {
			continue
		}
		eachColumn(t, 1, func(c int, x0, x1, lo0, lo1, hi0, hi1 float64) {
			columns[c-int(fr.first)] += float32((x1 - x0) * ((hi0 - lo0) + (hi1 - lo1)) / 2)
		})
		eachColumn(t, cellSize, func(c int, x0, x1, lo0, lo1, hi0, hi1 float64) {
			v := &ten[c-int(fr.firstTen)]
			v[0], v[1] = min(v[0], float32(min(lo0, lo1))), max(v[1], float32(max(hi0, hi1)))
		})
	}
	for _, v := range columns[:n] {
		fr.maxWidth = max(fr.maxWidth, float64(v))
	}
	if l := sumIntervals(f.list(fr.wooded)); l > 0 {
		fr.maxWidth = max(fr.maxWidth, fr.area/l)
	}
}

// eachColumn cuts t into columns of the given width, numbered from u = 0.
func eachColumn(t *geom.Trapezoid, width float64, f func(c int, x0, x1, lo0, lo1, hi0, hi1 float64)) {
	c := int(math.Floor(t.X0 / width))
	k := 1 / (t.X1 - t.X0)
	slo, shi := (t.Lo1-t.Lo0)*k, (t.Hi1-t.Hi0)*k
	x0, lo0, hi0 := t.X0, t.Lo0, t.Hi0
	for x0 < t.X1 {
		x1 := min(float64(c+1)*width, t.X1)
		lo1, hi1 := t.Lo0+(x1-t.X0)*slo, t.Hi0+(x1-t.X0)*shi
		if x1 > x0 {
			f(c, x0, x1, lo0, lo1, hi0, hi1)
		}
		x0, lo0, hi0 = x1, lo1, hi1
		c++
	}
}
