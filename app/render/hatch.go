package render

import (
	"math"
	"sort"

	"heartside/layout/geom"
)

// mostHatch bounds the lines or dots of one hatched area.
const mostHatch = 40000

// hatchLines returns the lines of h inside p (even-odd) and inside the window
// view, as open lines. The families pass through h.Origin, so that areas
// hatched alike match where they meet.
func hatchLines(p Path, h Hatch, view geom.Rect) Path {
	out := hatchFamily(nil, p, h.Angle, h, view)
	if h.Cross {
		out = hatchFamily(out, p, h.Angle+90, h, view)
	}
	return out
}

func hatchFamily(out Path, p Path, angle float64, h Hatch, view geom.Rect) Path {
	if !(h.Spacing > 0) {
		return out
	}
	// In the turned frame the lines are level. Canvas y points down, so that
	// anticlockwise as seen is a turn by +angle there.
	fwd := geom.Translate(-h.Origin.X, -h.Origin.Y).Then(geom.Rotate(angle))
	back, _ := fwd.Inverse()
	q := p.Map(fwd)
	b := q.Bounds().Intersect(fwd.ApplyTo(view.Polygon()).Bounds())
	if b.Empty() || b.H()/h.Spacing > mostHatch {
		return out
	}
	var xs []float64
	for k := math.Ceil(b.Min.Y / h.Spacing); k*h.Spacing <= b.Max.Y; k++ {
		y := k * h.Spacing
		xs = crossings(xs[:0], q, y)
		for i := 0; i+1 < len(xs); i += 2 {
			x0, x1 := math.Max(xs[i], b.Min.X), math.Min(xs[i+1], b.Max.X)
			if x1 > x0 {
				out = append(out, Line{Points: []geom.Point{back.Apply(geom.Pt(x0, y)), back.Apply(geom.Pt(x1, y))}})
			}
		}
	}
	return out
}

// crossings returns where the level line at y enters and leaves p, sorted.
func crossings(xs []float64, p Path, y float64) []float64 {
	for _, l := range p {
		n := len(l.Points)
		for i, a := range l.Points {
			b := l.Points[(i+1)%n]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
	}
	sort.Float64s(xs)
	return xs
}

// hatchDots returns the centres of the dots of h inside p and view, every
// second row set off by half.
func hatchDots(p Path, h Hatch, view geom.Rect) []geom.Point {
	if !(h.Spacing > 0) {
		return nil
	}
	fwd := geom.Translate(-h.Origin.X, -h.Origin.Y).Then(geom.Rotate(h.Angle))
	back, _ := fwd.Inverse()
	q := p.Map(fwd)
	b := q.Bounds().Intersect(fwd.ApplyTo(view.Polygon()).Bounds())
	if b.Empty() || b.W()*b.H()/(h.Spacing*h.Spacing) > mostHatch {
		return nil
	}
	var out []geom.Point
	var xs []float64
	row := h.Spacing * math.Sqrt(3) / 2
	for k := math.Ceil(b.Min.Y / row); k*row <= b.Max.Y; k++ {
		y := k * row
		off := 0.0
		if math.Mod(k, 2) != 0 {
			off = h.Spacing / 2
		}
		xs = crossings(xs[:0], q, y)
		for i := 0; i+1 < len(xs); i += 2 {
			x1 := math.Min(xs[i+1], b.Max.X)
			for x := math.Ceil((math.Max(xs[i], b.Min.X)-off)/h.Spacing)*h.Spacing + off; x < x1; x += h.Spacing {
				out = append(out, back.Apply(geom.Pt(x, y)))
			}
		}
	}
	return out
}

// hatchAsLines draws a hatching with the strokes and fills of a canvas.
func hatchAsLines(c Canvas, p Path, h Hatch) {
	view := p.Bounds().Inset(-1)
	if !h.Dots {
		c.Stroke(hatchLines(p, h, view), h.Pen)
		return
	}
	var dots Path
	for _, at := range hatchDots(p, h, view) {
		dots = append(dots, Line{Points: dot(at, h.Pen.Width/2), Closed: true})
	}
	c.Fill(dots, h.Pen.Color)
}
