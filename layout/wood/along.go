package wood

import "math"

// Taper under anyTaper, mm a metre, is chance; sapwood that tapers on one face
// tapers the same way on the other in sameTaper of boards. Engineering choices.
const (
	anyTaper  = 4.0
	sameTaper = 0.9
)

// scales part fine ups and downs from coarse ones, m; under faint mm there is
// nothing to compare. Engineering choices.
var scales = [...]float64{0.015, 0.04, 0.12}

const faint = 0.1

// own is how often the sapwood of two faces of one board goes its own ways on
// both. An engineering choice.
const own = 0.3

// alongBoth returns ln of how much likelier the sapwood of both faces is where
// the second lies right than where they have nothing to do with each other.
func alongBoth(first, second []line, f Faces) float64 {
	say := 0.0
	for edge := range 2 {
		a, b := depths(first, f.Width, edge), depths(second, f.Width, edge)
		say += alike(a, b, f.Length)
	}
	return say
}

// sample is the depth of the sapwood at one place along an edge, mm.
type sample struct{ x, depth float64 }

func depths(ls []line, width float64, edge int) []sample {
	var out []sample
	for _, l := range ls {
		d := l.lo
		if edge == 1 {
			d = width - l.hi
		}
		if !l.bare && !math.IsNaN(d) {
			out = append(out, sample{l.x, math.Max(d, 0)})
		}
	}
	return out
}

// alike compares the depths of sapwood at one edge on both faces: the slope
// along the board, and the ups and downs about it.
func alike(a, b []sample, length float64) float64 {
	var u, v, x []float64
	for _, p := range a {
		if d, ok := depthAt(b, p.x); ok {
			u, v, x = append(u, p.depth), append(v, d), append(x, p.x/1000)
		}
	}
	if len(u) < 8 {
		return 0
	}
	su, sv := detrend(u, x), detrend(v, x)
	// Hardly any sapwood: nothing goes up and down.
	if spread(u) < thin/2 || spread(v) < thin/2 {
		return 0
	}
	// Fine and coarse ups and downs each have their say: a coarse swing that
	// one face has alone must not drown the teeth that both share.
	say, n := 0.0, effective(u, v)
	fu, fv := u, v
	for _, s := range scales {
		cu, cv := smooth(fu, x, s), smooth(fv, x, s)
		bu, bv := less(fu, cu), less(fv, cv)
		if spread(bu) > faint && spread(bv) > faint {
			say += together(correlation(bu, bv), effective(bu, bv))
		}
		fu, fv = cu, cv
	}
	// What is left is too few swings to compare; the slope speaks for them.
	// The slopes, each known as far as the ups and downs let it.
	span := length / 1000
	eu := spread(u) * math.Sqrt(12/n) / span
	ev := spread(v) * math.Sqrt(12/n) / span
	// The teeth of the right face may still go their own way.
	return math.Log(own+(1-own)*math.Exp(say)) + slopes(su, sv, eu, ev)
}

func depthAt(s []sample, x float64) (float64, bool) {
	for i, p := range s {
		if p.x >= x {
			if i == 0 {
				return p.depth, p.x-x < Step
			}
			q := s[i-1]
			if p.x-q.x > 3*Step {
				return 0, false
			}
			return q.depth + (p.depth-q.depth)*(x-q.x)/(p.x-q.x), true
		}
	}
	if n := len(s); n > 0 && x-s[n-1].x < Step {
		return s[n-1].depth, true
	}
	return 0, false
}

// detrend takes the straight line out of u and returns its slope.
func detrend(u, x []float64) float64 {
	n := float64(len(u))
	var mu, mx, xx, xu float64
	for i := range u {
		mu += u[i] / n
		mx += x[i] / n
	}
	for i := range u {
		xx += (x[i] - mx) * (x[i] - mx)
		xu += (x[i] - mx) * (u[i] - mu)
	}
	slope := 0.0
	if xx > 0 {
		slope = xu / xx
	}
	for i := range u {
		u[i] -= mu + slope*(x[i]-mx)
	}
	return slope
}

// smooth returns u averaged with Gaussian weights of the given width along x.
func smooth(u, x []float64, width float64) []float64 {
	out := make([]float64, len(u))
	for i := range u {
		var sum, all float64
		for j := range u {
			d := (x[j] - x[i]) / width
			if math.Abs(d) > 3 {
				continue
			}
			w := math.Exp(-d * d / 2)
			sum += w * u[j]
			all += w
		}
		out[i] = sum / all
	}
	return out
}

func less(u, v []float64) []float64 {
	out := make([]float64, len(u))
	for i := range u {
		out[i] = u[i] - v[i]
	}
	return out
}

func spread(u []float64) float64 {
	var s float64
	for _, v := range u {
		s += v * v
	}
	return math.Sqrt(s / float64(len(u)))
}

func correlation(u, v []float64) float64 {
	var uu, vv, uv float64
	for i := range u {
		uu += u[i] * u[i]
		vv += v[i] * v[i]
		uv += u[i] * v[i]
	}
	return uv / math.Sqrt(math.Max(uu*vv, 1e-12))
}

// effective returns how many independent samples two series are worth when
// neighbours are alike (Bartlett 1946).
func effective(u, v []float64) float64 {
	n := len(u)
	sum := 1.0
	uu, vv := spread(u), spread(v)
	for k := 1; k < n/3; k++ {
		var a, b float64
		for i := k; i < n; i++ {
			a += u[i] * u[i-k]
			b += v[i] * v[i-k]
		}
		a /= float64(n) * uu * uu
		b /= float64(n) * vv * vv
		if a <= 0 || b <= 0 {
			break
		}
		sum += 2 * a * b
	}
	return math.Max(float64(n)/sum, 3)
}

// together is ln of the Bayes factor that two series with correlation r, worth
// n samples, belong together rather than not (Jeffreys 1961, the likelihood of
// a correlation). Belonging together they correlate anywhere from 0 to 0.95,
// or at this scale not at all.
func together(r, n float64) float64 {
	r = math.Max(-0.99, math.Min(r, 0.99))
	const steps = 20
	var sum float64
	for k := range steps {
		rho := 0.95 * (float64(k) + 0.5) / steps
		sum += math.Exp(0.5*(n-1)*math.Log(1-rho*rho) - (n-1.5)*math.Log(1-rho*r))
	}
	return math.Log(0.4 + 0.6*sum/steps)
}

// slopes is the like for the taper of the sapwood on both faces, mm a metre,
// each known to within its error: on the right face it goes the same way.
func slopes(su, sv, eu, ev float64) float64 {
	up, vp := below(0, su, math.Hypot(eu, anyTaper)), below(0, sv, math.Hypot(ev, anyTaper))
	same := up*vp + (1-up)*(1-vp)
	return math.Log(2 * (sameTaper*same + (1-sameTaper)*(1-same)))
}
