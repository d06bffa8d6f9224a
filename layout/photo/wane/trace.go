package wane

import (
	"context"
	"errors"
	"fmt"
	"math"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Found is the outline of a board.
type Found struct {
	Ring geom.Polygon // mm of the squared picture, anticlockwise; its ends are straight
	Sure float64      // 0 to 1; below 0.5 it wants a look
	// Vague holds the stretches along the board, mm, in which an edge may lie
	// elsewhere.
	Vague [][2]float64
}

// Sizes of the cells worked on, mm along and across: coarse ones to learn
// from, fine ones for the edges. Engineering choices; large faces get larger
// cells.
const (
	coarseAlong, coarseAcross = 8.0, 2.0
	fineAlong, fineAcross     = 4.0, 1.0
	mostCoarse, mostFine      = 60000, 600000

	passes = 3    // of learning and laying
	near   = 14.0 // mm to either side of the coarse edge that the fine one may lie
)

// Trace finds the outline of a board with waney edges in a squared picture
// that shows it and the ground about it. around is the rectangle laid about
// the board, mm of the picture: the ends of the board are its short sides, the
// edges lie anywhere within, and beyond it there is ground. It gives the best
// it has, with an honest figure of how sure that is; an error only where there
// is nothing to go by or ctx ended. Each edge is a shortest path (Bellman
// 1957).
func Trace(ctx context.Context, s *photo.Squared, around geom.Rect) (*Found, error) {
	_, f, err := trace(ctx, s, around)
	return f, err
}

func trace(ctx context.Context, s *photo.Squared, around geom.Rect) (*tracer, *Found, error) {
	if s == nil || s.Pix == nil || s.Pix.Rect.Empty() || !(s.Length > 0) || !(s.Width > 0) {
		return nil, nil, errors.New("tracing waney edges: there is no squared picture; square the photograph first")
	}
	if !(around.Min.X >= 0 && around.Min.Y >= 0 && around.Max.X <= s.Length && around.Max.Y <= s.Width && around.W() >= 20 && around.H() >= 10) {
		return nil, nil, fmt.Errorf("tracing waney edges: a rectangle from (%.0f, %.0f) to (%.0f, %.0f) mm does not lie in a picture of %.0f x %.0f mm; give one that holds the board", around.Min.X, around.Min.Y, around.Max.X, around.Max.Y, s.Length, s.Width)
	}
	t := &tracer{s: s, around: around}
	t.scale(coarseAlong, coarseAcross, mostCoarse)
	wood, ground := t.atFirst()
	var edges [2]path
	var l likeness
	dark := 0.0
	for pass := range passes {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		var ok bool
		if l, ok = likenessOf(wood, ground); !ok {
			return nil, nil, errors.New("tracing waney edges: too little of the ground beside the board is to be seen; leave some on both sides in the picture, or draw the outline by hand")
		}
		if pass == 0 {
			dark = l.dark
		}
		l.dark = dark // of the middle, where there is no bark
		t.lean(&l, nil)
		edges = t.edges()
		if pass+1 < passes {
			wood, ground = t.again(edges)
		}
	}
	from := t.heights(edges)
	coarse := *t
	coarse.laid = edges
	t.scale(fineAlong, fineAcross, mostFine)
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	t.near(from, &coarse)
	l.strange = 0 // near an edge both sides are mixed: the step tells
	t.lean(&l, from)
	edges = t.edges()
	t.likes = l
	return t, t.found(edges, &coarse), ctx.Err()
}

// tracer works on one picture in cells of one size.
type tracer struct {
	s      *photo.Squared
	around geom.Rect
	c      *cells
	dx, dy float64
	i0, i1 int       // columns between the ends
	of     []float64 // how far each cell leans to wood
	seed   []int     // a row on the board in each column between the ends
	laid   [2]path   // the edges
	likes  likeness
}

// scale cuts the picture into cells.
func (t *tracer) scale(along, across, most float64) {
	if k := math.Sqrt(t.s.Length / along * t.s.Width / across / most); k > 1 {
		along, across = along*k, across*k
	}
	img := t.s.Level(1 / across)
	nx := min(max(int(math.Round(t.s.Length/along)), 24), img.Rect.Dx())
	ny := min(max(int(math.Round(t.s.Width/across)), 24), img.Rect.Dy())
	t.c = cellsOf(img, nx, ny)
	t.dx, t.dy = t.s.Length/float64(nx), t.s.Width/float64(ny)
	t.i0 = min(max(int(math.Round(t.around.Min.X/t.dx)), 0), nx-2)
	t.i1 = max(min(int(math.Round(t.around.Max.X/t.dx)), nx), t.i0+2)
	t.of, t.seed = make([]float64, nx*ny), nil
}

// place is the middle of a cell, mm.
func (t *tracer) place(i, j int) geom.Point {
	return geom.Pt((float64(i)+0.5)*t.dx, t.s.Width-(float64(j)+0.5)*t.dy)
}

// Engineering choice: the part of the rectangle, across and along, that is
// wood at first sight.
const midAcross, midAlong = 0.36, 0.94

// atFirst samples the middle of the rectangle and what lies beyond it.
func (t *tracer) atFirst() (wood, ground []feature) {
	inner := t.around
	mid := geom.R(inner.Min.X+inner.W()*(1-midAlong)/2, inner.Min.Y+inner.H()*(1-midAcross)/2, inner.Max.X-inner.W()*(1-midAlong)/2, inner.Max.Y-inner.H()*(1-midAcross)/2)
	outer := t.around.Inset(-max(t.dx, t.dy))
	for j := range t.c.ny {
		for i := range t.c.nx {
			k := j*t.c.nx + i
			p := t.place(i, j)
			switch {
			case !t.c.seen[k]:
			case mid.Contains(p):
				wood = append(wood, *t.c.at(i, j))
			case !outer.Contains(p):
				ground = append(ground, *t.c.at(i, j))
			}
		}
	}
	return wood, ground
}

// again samples what the edges laid so far part: ground beside the board is
// believed only where it is like ground.
func (t *tracer) again(edges [2]path) (wood, ground []feature) {
	outer := t.around.Inset(-max(t.dx, t.dy))
	in, out := int(math.Ceil(2/t.dy)), int(math.Ceil(5/t.dy))
	for j := range t.c.ny {
		for i := range t.c.nx {
			k := j*t.c.nx + i
			if !t.c.seen[k] {
				continue
			}
			if !outer.Contains(t.place(i, j)) {
				ground = append(ground, *t.c.at(i, j))
				continue
			}
			if i < t.i0 || i >= t.i1 {
				continue
			}
			up, low := edges[0].row[i-t.i0], t.c.ny-edges[1].row[i-t.i0]
			switch {
			case j >= up+in && j < low-in:
				wood = append(wood, *t.c.at(i, j))
			case (j < up-out || j >= low+out) && t.of[k] < -0.5:
				ground = append(ground, *t.c.at(i, j))
			}
		}
	}
	return wood, ground
}

// lean weighs every cell, or those near edges known roughly: farther away the
// sides are taken as told.
func (t *tracer) lean(l *likeness, at *band) {
	for j := range t.c.ny {
		for i := range t.c.nx {
			k := j*t.c.nx + i
			switch {
			case !t.c.seen[k]:
				t.of[k] = -mostLean / 2
			case at != nil && !at.holds(i, j):
				t.of[k] = at.side(i, j)
			default:
				t.of[k] = l.lean(t.c.at(i, j))
			}
		}
	}
}
