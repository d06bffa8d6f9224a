package session

import (
	"context"
	"math"
	"time"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Faces seen near by are squared anew, finer. Engineering choices: twice
// picturePx is as fine as anything on screen is drawn; a photograph of less
// than leastOwn pixels a mm shows nothing more at that; mostFine bytes are the
// six boards of 2400 x 210 mm that a large screen may show so near, and
// half as many again; what was not seen for as long as leftFine is let go.
const (
	finePx   = 2.0
	leastOwn = 1.3
	mostFine = 96 << 20
	leftFine = 20 * time.Second
)

// fineEnough is up to how many pixels a mm of the screen a picture will do that
// has px.
func fineEnough(px float64) float64 { return 1.1 * px }

// ownPx is how many pixels a mm the photograph has of the face, in the mean.
func (k *pictureKey) ownPx() float64 {
	v := k.view()
	return math.Sqrt(geom.Polygon(v.Corners[:]).Area() / (k.length * k.width))
}

// finer returns the picture of a photograph at finePx as a look has it, or has
// it made in the background. Nil is returned meanwhile, and where the
// photograph is not that fine.
func (ps *pictures) finer(sh *shot, spec lookSpec) *photo.Squared {
	g := &ps.fine
	if sh.coarse || sh.key.ownPx() < leastOwn || g.need(&sh.key) > g.memory.most {
		return nil
	}
	return ps.get(g, sh, spec, func(o order) error { return ps.makeFine(ps.ctx, o, &spec) },
		func(error) { sh.coarse = true }) // the coarse picture stays
}

// makeFine reads a photograph anew. It is kept in memory only: reading takes
// less than a second, and few faces are seen so near.
func (ps *pictures) makeFine(ctx context.Context, o order, spec *lookSpec) error {
	sq, err := readPicture(ctx, o.from, &o.key, finePx)
	if err != nil {
		return err
	}
	pic, _, _, err := spec.pixels(ctx, sq)
	if err == nil {
		ps.fine.memory.put(memoryKey{o.shot, spec.tint}, pic, true)
	}
	return err
}
