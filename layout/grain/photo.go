package grain

import (
	"image"
	"math"

	"heartside/layout/geom"
)

// Camera says how a drawn board is photographed.
type Camera struct {
	Width, Height int     // of the picture, pixels
	Tilt          float64 // from straight down towards the front edge, degrees, under 60
	Turn          float64 // of the board under it, degrees anticlockwise
	Light         float64 // how much the light falls off to the right, 0 to 1
	Warmth        float64 // of the light: 0 neutral, 0.1 like a lamp, negative like shade
}

// Photograph is a drawn board as a camera sees it.
type Photograph struct {
	Img *image.RGBA
	// Corners of the face in pixels, its own (0, 0), (length, 0),
	// (length, width), (0, width), the first pixel's centre at (0.5, 0.5).
	Corners [4]geom.Point
	// Card is the middle of the grey patch of the card beside the board; its
	// white patch lies to the left of it and its dark one to the right.
	Card geom.Point
}

// The card's patches, sRGB: white, middle grey (18 % of the light), dark.
const (
	cardWhite, cardGrey, cardDark = 240, 119, 52
	cardW, cardH                  = 120.0, 60.0 // mm
)

// bench is the colour of what the board lies on.
func bench() tone { return tone{148, 145, 140} }

// Photo draws the board lying on a neutral bench, seen in slight perspective
// under a fall of light, with a grey card in front of it.
func Photo(s Spec, c Camera) Photograph {
	c.Width, c.Height = max(c.Width, 16), max(c.Height, 16)
	v := newViewer(&s, &c)
	out := Photograph{Img: image.NewRGBA(image.Rect(0, 0, c.Width, c.Height))}
	for i, p := range [4]geom.Point{{X: 0, Y: 0}, {X: s.Length, Y: 0}, {X: s.Length, Y: s.Width}, {X: 0, Y: s.Width}} {
		out.Corners[i] = v.project(p.X-s.Length/2, p.Y-s.Width/2, 0)
	}
	out.Card = v.project(v.card.Centre().X, v.card.Centre().Y, -s.Thickness)
	for j := 0; j < c.Height; j++ {
		for i := 0; i < c.Width; i++ {
			var t tone
			for k := 0; k < 4; k++ {
				u := v.see(float64(i)+0.25+0.5*float64(k%2), float64(j)+0.25+0.5*float64(k/2))
				for n := range t {
					t[n] += u[n] / 4
				}
			}
			t = v.lit(t, float64(i), float64(j))
			o := out.Img.PixOffset(i, j)
			px := out.Img.Pix[o : o+4]
			px[0], px[1], px[2], px[3] = byteOf(t[0]), byteOf(t[1]), byteOf(t[2]), 255
		}
	}
	return out
}

// viewer is a pinhole camera over the board. The face lies in the plane z = 0
// with its middle at the origin, the bench a thickness below.
type viewer struct {
	s                  *Spec
	c                  *Camera
	face               *image.RGBA
	pos                [3]float64
	right, down, ahead [3]float64
	focal              float64 // pixels
	card               geom.Rect
	n                  noise
}

func newViewer(s *Spec, c *Camera) *viewer {
	st, kt := math.Sincos(math.Min(math.Max(c.Tilt, 0), 60) * math.Pi / 180)
	sr, kr := math.Sincos(-c.Turn * math.Pi / 180)
	dist := 1.7 * s.Length
	turn := func(x, y, z float64) [3]float64 { return [3]float64{kr*x - sr*y, sr*x + kr*y, z} }
	v := &viewer{s: s, c: c,
		pos:   turn(0, -dist*st, dist*kt),
		right: turn(1, 0, 0), ahead: turn(0, st, -kt), down: turn(0, -kt, -st),
		focal: 0.88 * float64(c.Width) / s.Length * dist,
		n:     noise{mixBits(s.Seed + 991)},
	}
	x, y := -s.Length*0.5+60, -s.Width/2-34-cardH
	v.card = geom.R(x, y, x+cardW, y+cardH)
	d := *s
	d.PxPerMM = math.Min(1.3*0.88*float64(c.Width)/s.Length, 4)
	v.face = Draw(d)
	return v
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// project returns the pixel place of a point of space.
func (v *viewer) project(x, y, z float64) geom.Point {
	d := [3]float64{x - v.pos[0], y - v.pos[1], z - v.pos[2]}
	k := v.focal / dot(d, v.ahead)
	return geom.Pt(float64(v.c.Width)/2+k*dot(d, v.right), float64(v.c.Height)/2+k*dot(d, v.down))
}

// see returns the colour met by the ray through a pixel place.
func (v *viewer) see(px, py float64) tone {
	a, b := (px-float64(v.c.Width)/2)/v.focal, (py-float64(v.c.Height)/2)/v.focal
	var d [3]float64
	for i := range d {
		d[i] = v.ahead[i] + a*v.right[i] + b*v.down[i]
	}
	at := func(z float64) (float64, float64) {
		k := (z - v.pos[2]) / d[2]
		return v.pos[0] + k*d[0], v.pos[1] + k*d[1]
	}
	l, w := v.s.Length/2, v.s.Width/2
	inside := func(x, y float64) bool { return math.Abs(x) <= l && math.Abs(y) <= w }
	x, y := at(0)
	if inside(x, y) {
		if t, ok := v.wood(x+l, y+w); ok {
			return t
		}
	}
	bx, by := at(-v.s.Thickness)
	if inside(bx, by) {
		// The ray meets an edge or end on its way down.
		t, _ := v.wood(math.Min(math.Max(x+l, 1), 2*l-1), math.Min(math.Max(y+w, 1), 2*w-1))
		return t.darker(0.38 + 0.05*v.n.at2(bx/70, by*3))
	}
	return v.bench(bx, by)
}

// wood returns the colour of the face, and false outside its outline.
func (v *viewer) wood(x, y float64) (tone, bool) {
	nx, ny := v.face.Rect.Dx(), v.face.Rect.Dy()
	u, w := x/v.s.Length*float64(nx)-0.5, (1-y/v.s.Width)*float64(ny)-0.5
	i, j := math.Floor(u), math.Floor(w)
	var t tone
	var sum float64
	for k := 0; k < 4; k++ {
		a, b := i+float64(k%2), j+float64(k/2)
		weight := (1 - math.Abs(u-a)) * (1 - math.Abs(w-b))
		px := v.face.RGBAAt(min(max(int(a), 0), nx-1), min(max(int(b), 0), ny-1))
		if px.A == 0 {
			continue
		}
		c := toneOf(px)
		for n := range t {
			t[n] += weight * c[n]
		}
		sum += weight
	}
	if sum < 0.5 {
		return t, false
	}
	return tone{t[0] / sum, t[1] / sum, t[2] / sum}, true
}

// bench returns the colour of the bench, of the card on it and of the board's
// shadow.
func (v *viewer) bench(x, y float64) tone {
	t := bench()
	t = t.darker(0.03*v.n.at2(x/140, y/90) + 0.02*v.n.at2(x/3+9, y/3) + 0.015*v.n.at2(x/17, y/17))
	if v.card.Contains(geom.Pt(x, y)) {
		g := float64(cardGrey)
		switch k := (x - v.card.Min.X) / cardW; {
		case k < 1.0/3:
			g = cardWhite
		case k > 2.0/3:
			g = cardDark
		}
		t = tone{g, g, g}
	}
	dx := math.Max(math.Abs(x+4)-v.s.Length/2, 0)
	dy := math.Max(math.Abs(y+4)-v.s.Width/2, 0)
	k := 0.5 * math.Exp(-math.Hypot(dx, dy)/(0.55*v.s.Thickness+2))
	return tone{t[0] * (1 - k), t[1] * (1 - k), t[2] * (1 - k)}
}

// lit puts the fall and warmth of the light and the camera's grain on a
// pixel.
func (v *viewer) lit(t tone, i, j float64) tone {
	w, h := float64(v.c.Width), float64(v.c.Height)
	u, r := i/w-0.5, math.Hypot(i/w-0.5, (j-h/2)/w)
	k := (1 - 0.6*v.c.Light*(u+0.15)) * (1 - 0.22*r*r)
	g := 1.6 * v.n.cell(int64(i)+7, int64(j)+3)
	return tone{
		t[0]*k*(1+0.5*v.c.Warmth) + g,
		t[1]*k + g,
		t[2]*k*(1-v.c.Warmth) + g,
	}
}
