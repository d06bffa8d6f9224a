package seen

import (
	"errors"
	"image"
	"image/color"
	"math"

	"heartside/layout/geom"
)

// Eye is where a panel is looked at from, mm: Along its length from the left
// end, Across it from the front edge, Out before its face. Upright panels stand
// with their left end up; others lie, or hang with their back edge up.
type Eye struct {
	Along, Across, Out float64
	Upright            bool
}

// Where one looks from. A seated eye is about 1.2 m above the floor, a table
// top 0.74 m, an arm's length from its edge; a standing one 1.6 m. Engineering
// choices near the usual figures, from memory.
const (
	seatedOver   = 460.0 // of the eye over the top
	seatedBefore = 350.0 // of its front edge
	standingFar  = 1500.0
	standingHigh = 1600.0
	standingSide = 700.0
)

// Seated is the eye of one who sits at the middle of the front edge of a top
// of that length, mm.
func Seated(length float64) Eye {
	return Eye{Along: length / 2, Across: -seatedBefore, Out: seatedOver}
}

// Standing is the eye of one who passes an upright panel of that length, mm,
// that stands on the floor.
func Standing(length float64) Eye {
	return Eye{Along: length - standingHigh, Across: -standingSide, Out: standingFar, Upright: true}
}

// From draws a panel of length by width mm as seen by an eye, in a picture of
// w by h pixels, as large as fits. The picture of the panel has its back edge
// at the top, whether it stands or not. Straight lines stay straight: a pinhole that looks at the middle
// of the panel, with upright lines of the room upright where the eye is not
// turned (Hartley and Zisserman 2004, section 8.1).
func From(src *image.RGBA, length, width float64, e Eye, w, h int) (*image.RGBA, error) {
	out := image.NewRGBA(image.Rect(0, 0, max(w, 0), max(h, 0)))
	if w < 1 || h < 1 || src.Rect.Empty() {
		return out, nil
	}
	to, err := project(length, width, e)
	if err != nil {
		return nil, err
	}
	// As large as fits, in the middle.
	b := geom.Polygon(to[:]).Bounds()
	k := math.Min(float64(w)/b.W(), float64(h)/b.H())
	dx, dy := (float64(w)-k*b.W())/2, (float64(h)-k*b.H())/2
	for i, p := range to {
		to[i] = geom.Pt(dx+k*(p.X-b.Min.X), dy+k*(b.Max.Y-p.Y))
	}
	sw, sh := float64(src.Rect.Dx()), float64(src.Rect.Dy())
	m, err := geom.QuadToQuad(to, [4]geom.Point{{X: 0, Y: sh}, {X: sw, Y: sh}, {X: sw, Y: 0}, {X: 0, Y: 0}})
	if err != nil {
		return nil, err
	}
	for y := range h {
		for x := range w {
			out.SetRGBA(x, y, sampled(src, m, float64(x), float64(y)))
		}
	}
	return out, nil
}

// project gives the corners of a panel, from (0, 0) round, as an eye sees
// them: on a plane at distance 1 before it, x to the right, y up.
func project(length, width float64, e Eye) ([4]geom.Point, error) {
	var to [4]geom.Point
	if !(length > 0) || !(width > 0) {
		return to, errors.New("a panel without length or width cannot be looked at: give its size")
	}
	if !(e.Out > 0) {
		return to, errors.New("the eye lies in the panel or behind it: look from before its face")
	}
	gaze := vec{length/2 - e.Along, width/2 - e.Across, -e.Out}.unit()
	// Up in the room is out of a panel that lies, and towards the left end of
	// one that stands.
	right := gaze.cross(vec{0, 0, 1}).unit()
	switch {
	case e.Upright:
		if right = gaze.cross(vec{-1, 0, 0}).unit(); math.Abs(gaze[0]) > 0.999 {
			right = vec{0, 1, 0}
		}
	case math.Abs(gaze[2]) > 0.999:
		right = vec{1, 0, 0}
	}
	up := right.cross(gaze)
	for i, c := range [4]vec{{0, 0, 0}, {length, 0, 0}, {length, width, 0}, {0, width, 0}} {
		d := vec{c[0] - e.Along, c[1] - e.Across, c[2] - e.Out}
		z := d.dot(gaze)
		if z < 1 {
			return to, errors.New("part of the panel lies behind the eye: look from farther off")
		}
		to[i] = geom.Pt(d.dot(right)/z, d.dot(up)/z)
	}
	return to, nil
}

// fine is how many samples a pixel takes along each side; a far edge is seen
// much smaller than it is.
const fine = 3

// sampled is the mean of a picture over a pixel of another.
func sampled(src *image.RGBA, m geom.Homography, x, y float64) color.RGBA {
	var sum [4]int
	for j := range fine {
		for i := range fine {
			p := m.Apply(geom.Pt(x+(float64(i)+0.5)/fine, y+(float64(j)+0.5)/fine))
			if p.X < 0 || p.Y < 0 || p.X >= float64(src.Rect.Dx()) || p.Y >= float64(src.Rect.Dy()) {
				continue
			}
			o := src.PixOffset(src.Rect.Min.X+int(p.X), src.Rect.Min.Y+int(p.Y))
			for k := range sum {
				sum[k] += int(src.Pix[o+k])
			}
		}
	}
	const n = fine * fine
	return color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), uint8(sum[3] / n)}
}

type vec [3]float64

func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func (a vec) unit() vec {
	l := math.Sqrt(a.dot(a))
	if l == 0 {
		return a
	}
	return vec{a[0] / l, a[1] / l, a[2] / l}
}
