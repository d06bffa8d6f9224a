package split

import (
	"context"
	"errors"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Face is a face made ready for splitting. It does not change once made; its
// methods may be called at the same time.
type Face struct {
	length, width float64 // mm
	g             *grid   // the cells
	c             *grid   // several cells in one, to try guesses on
	kx, ky        int     // how many
	gs, cs        *steps
	gn, cn        mat3 // what one wood leaves unexplained
	ties          *field
	flaws         []bool  // per cell
	unevenness    float64 // of the light along the board, log
	empty         []bool  // per mask cell: nothing of the picture lies there; nil where nowhere
	w, h          int     // of the mask
}

// spreadAlong is the spread of the lightness of columns, as half of what lies
// between the tenth and the ninetieth of a hundred.
func spreadAlong(g *grid) float64 {
	mean := make([]float64, g.nx)
	for i := range mean {
		col := make([]float64, g.ny)
		for j := range col {
			col[j] = g.f[0][j*g.nx+i]
		}
		mean[i] = medianOf(col)
	}
	slices.Sort(mean)
	return (mean[g.nx*9/10] - mean[g.nx/10]) / 2
}

// Stroke is a mark of the maker's: what lies under it is Kind.
type Stroke struct {
	Kind   photo.Label
	Points []geom.Point // of the face, mm, y up
	Width  float64      // mm
}

// Cells put together for trying guesses: at least coarseAlong, and more on a
// large face, so that about coarseCells are left. Engineering choices.
const (
	coarseAlong, coarseAcross = 3, 2
	coarseCells               = 16000
)

// Reach of the comparison on either side of a sap line, and along it, mm.
// Engineering choices: wider than a ring, narrower than the least sapwood
// worth keeping.
const stepReach, stepAlong = 6.0, 12.0

// New makes a squared face ready. It reads the picture at 1 pixel a mm.
func New(ctx context.Context, s *photo.Squared) (*Face, error) {
	if s == nil || s.Pix == nil || s.Pix.Rect.Empty() || !(s.Length > 0) || !(s.Width > 0) {
		return nil, errors.New("splitting a face: there is no squared picture; square the photograph first")
	}
	if s.Length/cellAlong*(s.Width/cellAcross) > mostCells {
		return nil, errors.New("splitting a face: the face is too large; check its length and width in mm")
	}
	m := photo.NewMask(s.Length, s.Width, 1)
	f := &Face{length: s.Length, width: s.Width, g: gridOf(s), w: m.W, h: m.H}
	f.empty = emptyOf(s, m.W, m.H)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	weigh(f.g)
	f.flaws = flaws(f.g)
	f.kx, f.ky = min(max(coarseAlong, f.g.nx*f.g.ny/coarseAcross/coarseCells), f.g.nx), min(coarseAcross, f.g.ny)
	f.c = f.g.coarse(f.kx, f.ky)
	f.cs = stepsOf(f.c, stepReach, stepAlong)
	f.gs = stepsOf(f.g, stepReach, stepAlong)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	f.unevenness = spreadAlong(f.g)
	f.gn, f.cn = plain(f.g), plain(f.c)
	f.ties = newField(f.g)
	return f, ctx.Err()
}

// emptyOf tells where the picture has no pixels, nil where it has all.
func emptyOf(s *photo.Squared, w, h int) []bool {
	b := s.Pix.Rect
	var out []bool
	for j := range h {
		y := min(int((float64(j)+.5)*float64(b.Dy())/float64(h)), b.Dy()-1)
		for i := range w {
			x := min(int((float64(i)+.5)*float64(b.Dx())/float64(w)), b.Dx()-1)
			if s.Pix.Pix[y*s.Pix.Stride+4*x+3] != 0 {
				continue
			}
			if out == nil {
				out = make([]bool, w*h)
			}
			out[j*w+i] = true
		}
	}
	return out
}
