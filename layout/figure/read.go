package figure

import (
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Kind is the figure of a strip.
type Kind string

// Figures.
const (
	Unknown  Kind = ""
	Straight Kind = "straight" // along the strip
	Slanting Kind = "slanting" // all one way, at an angle
	Arched   Kind = "arched"   // the arches of a flat-sawn board, or half of them
)

// Figure is how the grain of a strip looks as it lies: u to the right along it,
// v away from its front edge.
type Figure struct {
	Kind      Kind
	Angle     float64    // mean direction over the strip, degrees from u
	Edges     [2]float64 // the same along its front and its rear edge
	Coherence float64    // mean over the strip, 0 to 1

	// Of arches: the v of their axis, beyond the strip where they are cut off;
	// the mean directions in front of it and behind it; whether they point to
	// the right (1) or to the left (-1).
	Axis   float64
	Arms   [2]float64
	Points int
	// Cut: the axis lies beyond, or too near, the front or the rear edge: the
	// arch is cut off there.
	Cut [2]bool
}

// Limits say what is called what. What is 0 has its default.
type Limits struct {
	Straight  float64 // degrees up to which grain is straight; default 3, about 1 in 20
	Arm       float64 // degrees by which each arm of an arch slants at least; default 1.5
	Agree     float64 // share of the wood on either side of an axis that slants its side's way; default 0.67
	Coherence float64 // mean under which nothing is said; default 0.25
	Inside    float64 // how far inside the edges an axis has to lie, share of the strip's width; default 0.15
	Beyond    float64 // how far outside it still makes half an arch of the strip, likewise; default 0.5
}

func (l Limits) filled() Limits {
	for _, f := range [...]struct {
		v  *float64
		by float64
	}{{&l.Straight, 3}, {&l.Arm, 1.5}, {&l.Agree, 0.67}, {&l.Coherence, 0.25}, {&l.Inside, 0.15}, {&l.Beyond, 0.5}} {
		if !(*f.v > 0) {
			*f.v = f.by
		}
	}
	return l
}

// Places read on a strip, mm apart, how many at most, and how wide its edges
// are taken to be.
const (
	everyU, everyV        = 20.0, 8.0
	mostAlong, mostAcross = 400, 200
	edgeWide              = 25.0
)

// steep is from which angle what runs across the board is taken for saw marks
// and not for grain, degrees. Only the tips of arches stand as steep.
const steep = 65.0

// line is what lies along a strip at v.
type line struct {
	v        float64
	places   float64
	slant    float64 // how much more slants upwards to the right than downwards; saw marks square to that are neither
	weight   float64 // summed coherence of what is no saw mark
	sum      vector
	up, down float64 // weight of what slants upwards to the right, and downwards
}

// Read returns the figure of a strip as it lies, from the maps of its board's
// faces (nil where not known). The axis of arches is sought over the whole
// width of the board beside the strip. There is one: a face with two hearts
// beside each other, or with knots all over, is read wrongly.
func Read(s *face.Strip, maps [2]*Map, l Limits) Figure {
	m := maps[s.UpFace()-1]
	if s.Board == nil || m == nil || !(s.L > 0) || !(s.W > 0) || s.L > most || s.W > most {
		return Figure{}
	}
	l = l.filled()
	lines := linesOf(s, m)
	var own vector
	var edges [2]vector
	sum, n := 0.0, 0.0
	wide := min(edgeWide, s.W/2)
	for _, q := range lines {
		if q.v < 0 || q.v > s.W {
			continue
		}
		own.plus(q.sum)
		sum += q.weight
		n += q.places
		if q.v < wide {
			edges[0].plus(q.sum)
		}
		if q.v > s.W-wide {
			edges[1].plus(q.sum)
		}
	}
	if n == 0 {
		return Figure{}
	}
	f := Figure{Coherence: sum / n}
	if f.Coherence < l.Coherence {
		return f
	}
	f.Angle, f.Edges = own.angle(), [2]float64{edges[0].angle(), edges[1].angle()}
	switch {
	case f.arch(lines, s.W, l):
	case math.Abs(f.Angle) > l.Straight:
		f.Kind = Slanting
	default:
		f.Kind = Straight
	}
	return f
}

func (v *vector) plus(w vector) { v.c, v.s = v.c+w.c, v.s+w.s }

// linesOf reads the board along the strip, over the board's whole width.
func linesOf(s *face.Strip, m *Map) []line {
	to := s.PlaceToFace(s.UpFace())
	back, ok := to.Inverse()
	if !ok {
		return nil
	}
	board := back.ApplyTo(geom.R(0, 0, m.Length, m.Width).Polygon()).Bounds()
	low, high := min(0, board.Min.Y), max(s.W, board.Max.Y)
	du := max(everyU, s.L/mostAlong)
	dv := max(everyV, (high-low)/mostAcross)
	nu := max(1, int(s.L/du))
	// Whole steps from the strip's own middle line, so that turned it is read at
	// the same places.
	first, last := int(math.Ceil((low-s.W/2)/dv-0.5)), int(math.Floor((high-s.W/2)/dv+0.5))
	var out []line
	for k := first; k < last; k++ {
		q := line{v: s.W/2 + (float64(k)+0.5)*dv}
		for i := range nu {
			p := to.Apply(geom.Pt((float64(i)+0.5)*s.L/float64(nu), q.v))
			if !geom.R(0, 0, m.Length, m.Width).Contains(p) {
				continue
			}
			c := m.At(p)
			c.Angle = turned(c.Angle, back)
			q.places++
			var d vector
			d.add(c, 1)
			q.slant += d.s
			if math.Abs(c.Angle) > steep {
				continue
			}
			q.weight += c.Coherence
			q.sum.plus(d)
			if c.Angle > 0 {
				q.up += c.Coherence
			} else {
				q.down += c.Coherence
			}
		}
		if q.places > 0 {
			out = append(out, q)
		}
	}
	return out
}

// turned returns the direction of a line after a map, in degrees.
func turned(angle float64, m geom.Affine) float64 {
	sin, cos := math.Sincos(angle * math.Pi / 180)
	return within(math.Atan2(m.D*cos+m.E*sin, m.A*cos+m.B*sin) * 180 / math.Pi)
}

// arch finds out whether the strip shows arches, and fills in what is known of
// them. Their axis is where the slant changes its sign: where what slants one
// way in front of it and the other way behind is most (the greatest cumulative
// sum; Page 1954). Arches point to the right where the grain rises to the right
// in front of the axis and falls behind it.
func (f *Figure) arch(lines []line, width float64, l Limits) bool {
	total := 0.0
	for _, q := range lines {
		total += q.slant
	}
	best, at, before := 0.0, -1, 0.0
	for k := range lines[:len(lines)-1] {
		before += lines[k].slant
		if d := math.Abs(before - (total - before)); d > best {
			best, at = d, k
		}
	}
	if at < 0 {
		return false
	}
	var arms [2]vector
	var rises, falls [2]float64
	for k, q := range lines {
		side := 0
		if k > at {
			side = 1
		}
		arms[side].plus(q.sum)
		rises[side] += q.up
		falls[side] += q.down
	}
	a, b := arms[0].angle(), arms[1].angle()
	if a*b >= 0 || min(math.Abs(a), math.Abs(b)) < l.Arm {
		return false
	}
	if a < 0 {
		rises, falls = falls, rises
	}
	if rises[0] < l.Agree*(rises[0]+falls[0]) || falls[1] < l.Agree*(rises[1]+falls[1]) {
		return false
	}
	// Between the two lines where the slant is nothing.
	p, q := lines[at], lines[at+1]
	axis := (p.v + q.v) / 2
	if p.slant*q.slant < 0 {
		axis = p.v + (q.v-p.v)*p.slant/(p.slant-q.slant)
	}
	if axis < -l.Beyond*width || axis > (1+l.Beyond)*width {
		return false
	}
	f.Kind, f.Axis, f.Arms, f.Points = Arched, axis, [2]float64{a, b}, 1
	if a < 0 {
		f.Points = -1
	}
	f.Cut = [2]bool{axis < l.Inside*width, axis > (1-l.Inside)*width}
	return true
}
