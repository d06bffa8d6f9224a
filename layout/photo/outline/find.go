package outline

import (
	"context"
	"fmt"
	"image"
	"math"
	"slices"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// Found is a board found in a photograph.
type Found struct {
	View       photo.View // corners in the picture's pixels, as shown, and the lens's bow
	Confidence [4]float64 // of each corner, 0 to 1; below 0.5 it wants a look
	Whole      float64    // that this is the face of the board at all, 0 to 1
	Residual   float64    // mm of the face: how far the edges seen lie from the edges laid, root mean square
}

// Sizes of the smaller pictures worked on, pixels along the longer side, and
// how many boards are kept from step to step. Engineering choices.
const (
	baseLong  = 1280
	smallLong = 360
	mostRough = 60
	mostFine  = 10

	fineSpread  = 0.015 // of shape: edges laid, the bow not known
	runOn       = 1.0   // what an edge that runs on past a corner costs
	ragged      = 1.0   // what edges a sample off their lines cost
	exactSpread = 0.005 // the bow known too; a maker measures to half a per cent
)

// leastPicture is the least picture looked at, pixels.
const leastPicture = 48

func check(img image.Image, length, width float64) error {
	if img == nil || img.Bounds().Dx() < leastPicture || img.Bounds().Dy() < leastPicture {
		return fmt.Errorf("finding a board: the picture is smaller than %d x %d pixels", leastPicture, leastPicture)
	}
	for _, v := range []struct {
		name string
		v    float64
	}{{"length", length}, {"width", width}} {
		if !(v.v > 0) || math.IsInf(v.v, 0) {
			return fmt.Errorf("finding a board: its %s is %g mm, want more than 0", v.name, v.v)
		}
	}
	if r := length / width; r > 100 || r < 0.01 {
		return fmt.Errorf("finding a board: %g x %g mm is too narrow to be seen", length, width)
	}
	return nil
}

// Find looks for the face of a board of length x width mm. It gives the best
// it has, with an honest confidence; an error only where there is nothing with
// four sides of that shape, or ctx ended.
func Find(ctx context.Context, img image.Image, length, width float64) (*Found, error) {
	if err := check(img, length, width); err != nil {
		return nil, err
	}
	src := sourceOf(img)
	base, err := planeOf(ctx, &src, baseLong)
	if err != nil {
		return nil, err
	}
	small, err := base.smaller(ctx, (max(base.w, base.h)+smallLong-1)/smallLong)
	if err != nil {
		return nil, err
	}
	b, err := beamsOf(ctx, small)
	if err != nil {
		return nil, err
	}
	quads, err := quadsOf(ctx, b, base, &wanted{float64(small.w), float64(small.h), length, width, 1}, mostRough)
	if err != nil {
		return nil, err
	}
	s := &seeker{src: &src, base: base, length: length, width: width, fills: 1}
	settled := make([][]candidate, len(quads))
	if err := photo.Each(ctx, len(quads), func(i int) {
		settled[i] = s.settle(scaledBy(quads[i].c, small.factor), 1.5*small.factor)
	}); err != nil {
		return nil, err
	}
	boards := best(slices.Concat(settled...), mostFine, 2*base.factor)
	lay := func(boards []candidate) error {
		return photo.Each(ctx, len(boards), func(i int) {
			boards[i] = s.bowed(scaled{base}, boards[i], base.factor, 3, wideWindow)
			s.weigh(scaled{base}, &boards[i], base.factor)
		})
	}
	if err := lay(boards); err != nil {
		return nil, err
	}
	again := best(boards, mostReended, base.factor)
	renewed := make([][]candidate, len(again))
	if err := photo.Each(ctx, len(again), func(i int) { renewed[i] = s.reended(again[i]) }); err != nil {
		return nil, err
	}
	more := slices.Concat(renewed...)
	if err := lay(more); err != nil {
		return nil, err
	}
	boards = append(boards, more...)
	boards, err = s.choose(ctx, best(boards, mostFine, base.factor))
	if err != nil {
		return nil, err
	}
	// Once more from where the best of them lie now.
	last, err := s.choose(ctx, boards[:min(len(boards), 3)])
	if err != nil {
		return nil, err
	}
	boards = best(append(boards, last...), mostFine, 1.5*s.finest())
	if len(boards) == 0 {
		return nil, fmt.Errorf("finding a board: nothing of %g x %g mm with four straight sides is to be seen; mark the corners by hand", length, width)
	}
	return s.found(boards[0], boards), nil
}

// choose looks at the candidates in the photograph itself, each with the other
// edges that run beside its own, and puts the best first.
func (s *seeker) choose(ctx context.Context, boards []candidate) ([]candidate, error) {
	step := s.finest()
	near := make([][]candidate, len(boards))
	if err := photo.Each(ctx, len(boards), func(i int) {
		more := s.variants(s.src, boards[i].c, boards[i].bow, step, 12, narrowWindow, exactSpread)
		near[i] = more[:min(len(more), 4)]
	}); err != nil {
		return nil, err
	}
	all := best(slices.Concat(near...), 3*mostFine, 1.5*step)
	if err := photo.Each(ctx, len(all), func(i int) {
		c := &all[i]
		*c = s.bowed(s.src, *c, step, 2, narrowWindow)
		if math.IsInf(c.score, -1) {
			return
		}
		s.rate(c, exactSpread)
		s.weigh(s.src, c, step)
		// Sawn edges are straight, and lenses bow little.
		bow := c.bow / bowSpread
		c.score -= ragged*c.rms/step + bow*bow/2
	}); err != nil {
		return nil, err
	}
	return best(all, mostFine, 1.5*step), nil
}

// weigh adds to a candidate's score what lies about it: colours on both sides
// of its edges, and edges that run on past its corners.
func (s *seeker) weigh(r reader, c *candidate, step float64) {
	if !math.IsInf(c.score, -1) {
		c.score += s.regionScore(c) - runOn*s.runsOn(r, c, step)
	}
}

// finest is the step between samples of the photograph itself, pixels.
func (s *seeker) finest() float64 { return max(1, float64(max(s.src.w, s.src.h))/3000) }

// best picks the best candidates, each farther than near from a better one.
func best(all []candidate, most int, near float64) []candidate {
	kept := make([]candidate, 0, min(most, len(all)))
next:
	for _, i := range ranked(len(all), func(i int) float64 { return all[i].score }) {
		q := &all[i]
		if len(kept) >= most || math.IsInf(q.score, -1) {
			break
		}
		for i := range kept {
			if farthest(q.c, kept[i].c) < near {
				continue next
			}
		}
		kept = append(kept, *q)
	}
	return kept
}

// candidate is a board whose sides were looked at closely: corners in the
// photograph's pixels without bow.
type candidate struct {
	c      [4]geom.Point
	bow    float64
	tracks [4]track
	shape  shape
	rms    float64 // pixels
	score  float64
}

// seeker holds what is looked at and what for.
type seeker struct {
	src           *source
	base          *plane
	length, width float64
	fills         float64 // as in wanted
}

func (s *seeker) lens(bow float64) photo.Lens { return photo.LensOf(s.src.w, s.src.h, bow) }

// rate scores a candidate from its sides, its shape and what lies about it.
func (s *seeker) rate(c *candidate, spread float64) {
	m := geom.Pt(float64(s.src.w)/2, float64(s.src.h)/2)
	// An edge is known to about half a sample: more of a narrow board.
	short := min(c.c[0].Dist(c.c[3]), c.c[0].Dist(c.c[1]))
	spread = math.Hypot(spread, 0.5*s.finest()/max(short, 1))
	c.shape = shapeOf(c.c, m, float64(max(s.src.w, s.src.h)), s.length, s.width, spread)
	var sides [4]float64
	for i, t := range c.tracks {
		sides[i] = t.score
	}
	c.score = sidesScore(sides) - misshape(c.shape.cost) - s.fills*smallness(longest(c.c)/float64(max(s.src.w, s.src.h)))
}

// settle looks for the sides near corners known roughly, within reach pixels,
// and gives what the best edges of each side make.
func (s *seeker) settle(c [4]geom.Point, reach float64) []candidate {
	step := s.base.factor
	r := scaled{s.base}
	all := s.variants(r, c, 0, step, int(reach/step)+4, wideWindow, fineSpread)
	all = all[:min(len(all), 8)]
	for i := range all {
		s.weigh(r, &all[i], step)
	}
	return all
}

// variants gives the boards made of the best edges near each side, best first.
// The corners are without bow.
func (s *seeker) variants(r reader, c [4]geom.Point, bow, step float64, reach, window int, spread float64) []candidate {
	const ways, most = 5, 10 // edges kept of a side, boards
	lens := s.lens(bow)
	var tr [4][]track
	var lines [4][ways]line
	var worth [4][ways]float64 // what an edge adds to the score
	for i := range c {
		f := profileOf(r, lens, c[i], c[(i+1)%4], step, reach, window)
		tr[i] = f.tracks(reach, 8, ways, 1.5)
		for k, t := range tr[i] {
			lines[i][k] = through(f.ends(t))
			worth[i][k] = sideScore(t.score)
		}
	}
	n := len(tr[0]) * len(tr[1]) * len(tr[2]) * len(tr[3])
	pick := func(k int) (of [4]int) {
		for i := range of {
			of[i], k = k%len(tr[i]), k/len(tr[i])
		}
		return of
	}
	bounds := make([]float64, n)
	for k := range bounds {
		for i, v := range pick(k) {
			bounds[k] += worth[i][v]
		}
	}
	var out []candidate
	look := 2 * most
	for done, k := range ranked(n, func(k int) float64 { return bounds[k] }) {
		if done == look {
			// Shape and size only cost: the rest cannot come in.
			if kept := best(out, most, step); len(kept) == most && bounds[k] < kept[most-1].score {
				return kept
			}
			look += look / 2
		}
		v := candidate{bow: bow}
		var f fitted
		for i, w := range pick(k) {
			v.tracks[i] = tr[i][w]
			f.lines[i] = lines[i][w]
		}
		ok := true
		if v.c, ok = f.corners(); !ok {
			continue
		}
		s.rate(&v, spread)
		out = append(out, v)
	}
	return best(out, most, step)
}

// Laid anew, sides that move less than this lie where they will: in parts of a
// step, and of the bow.
const stillStep, stillBow = 0.05, 1e-3

// bowed lays the sides again with the bow of the lens, looking at every step
// pixels, reach steps to either side.
func (s *seeker) bowed(r reader, c candidate, step float64, reach, window int) candidate {
	for pass := 0; pass < 3; pass++ {
		lens := s.lens(c.bow)
		var marks [4][]mark
		n := candidate{}
		for i := range c.c {
			p := profileOf(r, lens, c.c[i], c.c[(i+1)%4], step, reach+3, window)
			n.tracks[i] = p.nearest(reach)
			marks[i] = p.marks(n.tracks[i], lens, 3)
		}
		f := fit(&marks, s.src.w, s.src.h, step)
		var ok bool
		if n.c, ok = f.corners(); !ok || !f.ok {
			c.score = math.Inf(-1)
			return c
		}
		n.bow, n.rms = f.bow, f.rms
		s.rate(&n, fineSpread)
		still := farthest(n.c, c.c) < stillStep*step && math.Abs(n.bow-c.bow) < stillBow
		if c = n; still {
			break
		}
	}
	return c
}
