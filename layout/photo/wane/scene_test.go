package wane

import (
	"image"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// scene draws a waney board on ground, with a small drawing of its own: the
// edges are sums of waves known in closed form.
type scene struct {
	length, width float64 // of the rectangle about the board, mm
	seed          uint32
	taper         float64 // of the width lost from one end to the other
	waves         float64 // of the edges, mm
	heart, sap    [3]float64
	sapWide       float64 // mm along both edges
	ground        func(s *scene, x, y float64) [3]float64
	bark          float64 // dark strip along the edges, mm
	shadow        float64 // of the board on the ground below it, mm
	uneven        float64 // fall of light along the board, as a share
}

// noise is value noise of the lattice, -1 to 1.
func noise(seed uint32, x, y float64) float64 {
	at := func(i, j int) float64 {
		h := seed*0x9E3779B1 ^ uint32(i)*0x85EBCA6B ^ uint32(j)*0xC2B2AE35
		h ^= h >> 15
		h *= 0x2C1B3C6D
		h ^= h >> 12
		h *= 0x297A2D39
		h ^= h >> 15
		return float64(h)/math.MaxUint32*2 - 1
	}
	i, j := math.Floor(x), math.Floor(y)
	u, v := x-i, y-j
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	a, b := at(int(i), int(j)), at(int(i)+1, int(j))
	c, d := at(int(i), int(j)+1), at(int(i)+1, int(j)+1)
	return (a+(b-a)*u)*(1-v) + (c+(d-c)*u)*v
}

// wave is a smooth wandering line, about -1 to 1, with bumps.
func (s *scene) wave(n uint32, x float64) float64 {
	p := float64(s.seed%97)*0.7 + float64(n)*2.1
	return 0.5*math.Sin(x/410+p) + 0.3*math.Sin(x/170+1.7*p) + 0.13*math.Sin(x/71+2.9*p) + 0.07*math.Sin(x/23+0.3*p)
}

// edges are the true edges at x, mm of the rectangle.
func (s *scene) edges(x float64) (low, high float64) {
	room := s.waves
	half := s.width/2 - room
	half *= 1 - s.taper*x/s.length
	mid := s.width / 2
	return mid - half + room*s.wave(1, x), mid + half + room*s.wave(2, x)
}

func mixed(a, b [3]float64, t float64) [3]float64 {
	t = math.Min(math.Max(t, 0), 1)
	for k := range a {
		a[k] += (b[k] - a[k]) * t
	}
	return a
}

func lit(c [3]float64, f float64) [3]float64 { return [3]float64{c[0] * f, c[1] * f, c[2] * f} }

// at is the colour of the scene at a place, sRGB 0 to 255.
func (s *scene) at(x, y float64) [3]float64 {
	low, high := s.edges(x)
	light := 1 - s.uneven*x/s.length
	if x >= 0 && x <= s.length && y >= low && y <= high {
		in := math.Min(y-low, high-y)
		c := mixed(s.sap, s.heart, (in-s.sapWide-4*noise(s.seed+5, x/90, 0))/2)
		g := 0.05*noise(s.seed, x/160, y/3) + 0.06*noise(s.seed+1, x/300, y/14) + 0.03*noise(s.seed+2, x/4, y/1.5)
		if s.bark > 0 {
			c = mixed([3]float64{58, 44, 36}, c, (in-s.bark*(0.6+0.4*noise(s.seed+9, x/35, 0)))/1.5)
		}
		return lit(c, light*(1+g))
	}
	c := s.ground(s, x, y)
	if s.shadow > 0 && x >= 0 && x <= s.length && y < low {
		c = lit(c, 1-0.6*math.Exp(-math.Pow((low-y)/s.shadow, 2)))
	}
	return lit(c, light)
}

func concrete(s *scene, x, y float64) [3]float64 {
	g := 1 + 0.05*noise(s.seed+20, x/3, y/3) + 0.06*noise(s.seed+21, x/40, y/40)
	return lit([3]float64{150, 148, 143}, g)
}

// floor is a floor of boards of dark wood, laid across.
func floor(s *scene, x, y float64) [3]float64 {
	u, v := 0.3*x+0.954*y, 0.954*x-0.3*y
	n := math.Floor(v / 120)
	g := 1 + 0.16*noise(s.seed+30, n*7.3, 0.5) + 0.07*noise(s.seed+31, u/150, v/3) + 0.05*noise(s.seed+32, u/40, v/18)
	if v-120*n < 2 {
		g *= 0.45
	}
	return lit([3]float64{92, 66, 48}, g)
}

func cloth(s *scene, x, y float64) [3]float64 {
	g := 1 + 0.12*math.Sin(x*1.9)*math.Sin(y*1.9) + 0.05*noise(s.seed+40, x/50, y/50)
	return lit([3]float64{72, 84, 108}, g)
}

// bench is a bench of pale wood, its grain nearly along.
func bench(s *scene, x, y float64) [3]float64 {
	u, v := x+0.2*y, y-0.2*x
	g := 1 + 0.05*noise(s.seed+50, u/200, v/4) + 0.04*noise(s.seed+51, u/70, v/25) + 0.03*noise(s.seed+52, x/2, y/2)
	return lit([3]float64{196, 168, 128}, g)
}

func grass(s *scene, x, y float64) [3]float64 {
	g := 1 + 0.3*noise(s.seed+60, x/4, y/4) + 0.2*noise(s.seed+61, x/14, y/14)
	return lit([3]float64{84, 108, 52}, g)
}

var (
	walnut = [3]float64{112, 80, 60}
	oak    = [3]float64{172, 138, 96}
	pale   = [3]float64{206, 180, 142} // sapwood
)

func colourOf(c [3]float64) [4]uint8 {
	var out [4]uint8
	for k, v := range c {
		out[k] = uint8(math.Min(math.Max(v, 0), 255))
	}
	out[3] = 255
	return out
}

// flat is the scene squared, 1 pixel a mm, with margin mm about the rectangle.
func (s *scene) flat(margin float64) (*photo.Squared, geom.Rect) {
	w, h := int(s.length+2*margin), int(s.width+2*margin)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for j := range h {
		for i := range w {
			var sum [3]float64
			for k := range 4 {
				c := s.at(float64(i)-margin+0.25+0.5*float64(k%2), s.width+margin-float64(j)-0.25-0.5*float64(k/2))
				for n := range sum {
					sum[n] += c[n] / 4
				}
			}
			c := colourOf(sum)
			copy(img.Pix[img.PixOffset(i, j):], c[:])
		}
	}
	return &photo.Squared{Pix: img, PxPerMM: 1, Length: float64(w), Width: float64(h)}, geom.R(margin, margin, margin+s.length, margin+s.width)
}

// photograph is the scene seen by a pinhole: corners are where the rectangle's
// corners lie in the picture.
func (s *scene) photograph(w, h int, corners [4]geom.Point) *image.RGBA {
	m, err := geom.QuadToQuad(corners, [4]geom.Point{{}, {X: s.length}, {X: s.length, Y: s.width}, {Y: s.width}})
	if err != nil {
		panic(err)
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for j := range h {
		for i := range w {
			var sum [3]float64
			for k := range 4 {
				p := m.Apply(geom.Pt(float64(i)+0.25+0.5*float64(k%2), float64(j)+0.25+0.5*float64(k/2)))
				c := s.at(p.X, p.Y)
				for n := range sum {
					sum[n] += c[n] / 4
				}
			}
			c := colourOf(sum)
			copy(img.Pix[img.PixOffset(i, j):], c[:])
		}
	}
	return img
}

// across is where a ring crosses x, lowest and highest.
func across(ring geom.Polygon, x float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.X-x)*(b.X-x) > 0 || a.X == b.X {
			continue
		}
		y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		low, high = math.Min(low, y), math.Max(high, y)
	}
	return low, high
}

// errors are how far a ring, drawn in a picture with margin mm about the
// rectangle, lies from the true edges of the wood, within its bark, mm.
func (s *scene) errors(ring geom.Polygon, margin float64) []float64 {
	var out []float64
	for x := 3.0; x < s.length-3; x += 2 {
		low, high := across(ring, x+margin)
		l, h := s.edges(x)
		bark := s.bark * (0.6 + 0.4*noise(s.seed+9, x/35, 0))
		l, h = l+bark, h-bark
		out = append(out, math.Abs(l-(low-margin)), math.Abs(high-margin-h))
	}
	return out
}

// camera is a pinhole above a board: it lies rolled by turn in the picture, and
// leans away by pitch about its length and by yaw about its width, radians.
type camera struct {
	w, h             int
	focal            float64 // pixels
	turn, pitch, yaw float64
	away             float64 // mm from the camera to the middle of the board
}

// corners are where a rectangle's corners lie in the picture, by rotation and
// central projection.
func (c camera) corners(length, width float64) [4]geom.Point {
	var out [4]geom.Point
	for i, p := range geom.R(-length/2, -width/2, length/2, width/2).Polygon() {
		x, y, z := p.X, -p.Y, 0.0 // pixels count downwards
		y, z = y*math.Cos(c.pitch), y*math.Sin(c.pitch)
		x, z = x*math.Cos(c.yaw)-z*math.Sin(c.yaw), x*math.Sin(c.yaw)+z*math.Cos(c.yaw)
		x, y = x*math.Cos(c.turn)-y*math.Sin(c.turn), x*math.Sin(c.turn)+y*math.Cos(c.turn)
		z += c.away
		out[i] = geom.Pt(float64(c.w)/2+c.focal*x/z, float64(c.h)/2+c.focal*y/z)
	}
	return out
}
