package wane

import (
	"context"
	"fmt"
	"image"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Framed is a waney board in a photograph, with the rectangle about it.
type Framed struct {
	View   photo.View   // the rectangle's corners, pixels, the short sides on the ends of the board
	Width  float64      // of the rectangle, mm, by the perspective
	Off    float64      // how far that may be off, as a share
	Ring   geom.Polygon // the board, mm of the rectangle: it may reach beyond the long sides
	Sure   float64      // that this is the board, 0 to 1
	Vague  [][2]float64 // stretches along the board, mm, where an edge may lie elsewhere
	Narrow float64      // how much narrower the board looks at one end, as a share
}

// Engineering choices: how much larger the rough rectangle is laid, as a share
// of the board's width; which part of a board's getting narrower in the
// picture the perspective makes, where nothing tells, and how far that may be
// off; and how well a width that is known agrees with one by perspective, the
// narrower face of a board being less wide.
const (
	loose                   = 0.08
	usualSlant, slantSpread = 0.5, 0.35
	agrees, narrower        = 0.02, 0.01
)

// Frame looks for a waney board of that length, mm, that lies alone in the
// middle of a photograph, and lays the rectangle about it. Whether a board is
// narrower at one end or the picture taken at a slant, no picture tells: the
// greatest width does, where it is known; 0 is not known. Bow of the lens is
// not looked for, as there are no straight sides to see it by.
func Frame(ctx context.Context, img image.Image, length, width float64, cam Camera) (*Framed, error) {
	if !(length > 0) || !(width >= 0) || math.IsInf(length+width, 0) {
		return nil, fmt.Errorf("finding a waney board: its length is %g mm and its width %g mm; give a length over 0", length, width)
	}
	outline, err := Region(ctx, img)
	if err != nil {
		return nil, err
	}
	view := photo.View{}
	if view.Corners, err = Around(outline); err != nil {
		return nil, err
	}
	if view, err = grown(img, view); err != nil {
		return nil, err
	}
	var out *Framed
	// Twice: the second time the rectangle lies where the first one put it.
	for range 2 {
		t, f, err := within(ctx, img, view, length, 0, cam)
		if err != nil {
			return nil, err
		}
		if out, err = t.framed(img, f, length, width, cam); err != nil {
			return nil, err
		}
		view = out.View
	}
	return out, nil
}

// Within traces a waney board in the rectangle that the maker laid about it.
// width is that of the rectangle, mm; 0: by the perspective.
func Within(ctx context.Context, img image.Image, view photo.View, length, width float64, cam Camera) (*Framed, error) {
	_, f, err := within(ctx, img, view, length, width, cam)
	return f, err
}

// mostPixels bounds the picture traced.
const mostPixels = 3e6

func within(ctx context.Context, img image.Image, view photo.View, length, width float64, cam Camera) (*tracer, *Framed, error) {
	if img == nil || img.Bounds().Empty() || !(length > 0) || !(width >= 0) || math.IsInf(length+width, 0) {
		return nil, nil, fmt.Errorf("tracing waney edges: a picture and a length over 0 are needed, not %g x %g mm", length, width)
	}
	out := &Framed{View: view, Width: width}
	var err error
	if width == 0 {
		if out.Width, out.Off, err = Width(view, img.Bounds().Dx(), img.Bounds().Dy(), length, cam); err != nil {
			return nil, nil, err
		}
	}
	s, around, err := Surround(ctx, img, view, length, out.Width, math.Min(1, math.Sqrt(mostPixels/(length*out.Width))))
	if err != nil {
		return nil, nil, err
	}
	t, f, err := trace(ctx, s, around)
	if err != nil {
		return nil, nil, err
	}
	out.Sure = f.Sure
	for _, p := range f.Ring {
		out.Ring = append(out.Ring, p.Sub(around.Min))
	}
	for _, v := range f.Vague {
		out.Vague = append(out.Vague, [2]float64{v[0] - around.Min.X, v[1] - around.Min.X})
	}
	return t, out, nil
}

// grown moves the long sides of a rough rectangle out.
func grown(img image.Image, v photo.View) (photo.View, error) {
	m, lens, err := v.FromFace(img.Bounds().Dx(), img.Bounds().Dy(), 1, 1)
	if err != nil {
		return v, err
	}
	out := photo.View{Bow: v.Bow}
	for i, c := range geom.R(0, -loose, 1, 1+loose).Polygon() {
		out.Corners[i] = lens.Bowed(m.Apply(c))
	}
	return out, nil
}

// framed lays the rectangle anew about a board that was traced in a rough one:
// the ends where board turns to ground, the sides by the shape.
func (t *tracer) framed(img image.Image, f *Framed, length, width float64, cam Camera) (*Framed, error) {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	m, lens, err := f.View.FromFace(w, h, length, f.Width)
	if err != nil {
		return nil, err
	}
	ring := make([]geom.Point, len(f.Ring))
	whole := make(geom.Polygon, len(f.Ring))
	for i, p := range f.Ring {
		ring[i], whole[i] = m.Apply(p), p.Add(t.around.Min)
	}
	s, err := shapeOf(ring)
	if err != nil {
		return nil, err
	}
	s.along = m.Apply(geom.Pt(length, f.Width/2)).Sub(m.Apply(geom.Pt(0, f.Width/2)))
	s.along = s.along.Mul(1 / s.along.Len())
	out := &Framed{Sure: f.Sure, Vague: f.Vague}
	for i, to := range []*[2]geom.Point{&s.left, &s.right} {
		line, sure := t.end(whole, i == 1)
		out.Sure = math.Min(out.Sure, sure)
		for k, y := range [2]float64{0, f.Width} {
			d := (line[1].X - line[0].X) / (line[1].Y - line[0].Y)
			at := geom.Pt(line[0].X+d*(y+t.around.Min.Y-line[0].Y), y+t.around.Min.Y)
			to[k] = m.Apply(at.Sub(t.around.Min))
		}
	}
	least := math.Inf(1)
	for k := range 11 {
		slant := float64(k) / 10
		q, err := s.rectangle(slant)
		if err != nil {
			return nil, err
		}
		view := photo.View{Bow: f.View.Bow}
		for i := range q {
			view.Corners[i] = lens.Bowed(q[i])
		}
		if slant == 1 {
			a, b := q[0].Dist(q[3]), q[1].Dist(q[2])
			out.Narrow = 1 - math.Min(a, b)/math.Max(a, b)
		}
		wide, off, err := Width(view, w, h, length, cam)
		if err != nil {
			return nil, err
		}
		to, _, err := view.FromFace(w, h, length, wide)
		if err != nil {
			return nil, err
		}
		back, ok := to.Inverse()
		if !ok {
			continue
		}
		board := make(geom.Polygon, len(ring))
		for i, p := range ring {
			board[i] = back.Apply(p)
			switch x := f.Ring[i].X; {
			case x < 1e-6:
				board[i].X = 0
			case x > length-1e-6:
				board[i].X = length
			}
			board[i].X = math.Min(math.Max(board[i].X, 0), length)
		}
		cost := math.Pow((slant-usualSlant)/slantSpread, 2)
		if width > 0 {
			low, high := Widest(board)
			cost += math.Pow((math.Log((high-low)/width)+narrower)/math.Hypot(agrees, off), 2)
		}
		if cost < least {
			least = cost
			out.View, out.Width, out.Off, out.Ring = view, wide, off, board
		}
	}
	if math.IsInf(least, 1) {
		return nil, fmt.Errorf("laying a rectangle about a board: none is seen in perspective; mark the corners by hand")
	}
	return out, nil
}
