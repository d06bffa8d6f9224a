package arrange

import (
	"cmp"
	"context"
	"slices"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// Finder seeks fixes for the warnings of one panel. What it tries for one
// warning it need not read again for the next. It is for one goroutine.
type Finder struct {
	r       *face.Reader
	p       *face.Panel
	spares  []face.Strip
	opt     Options
	checker *cutting.Checker
	before  *outcome
	reading *face.Reading
	tried   map[string]*outcome
	covered map[string]float64 // contrast coverage of what was found
	left    int                // readings that may still be made
}

// NewFinder reads p and returns a Finder for it. r is taken over until the
// last search is done; nil makes a new one.
func NewFinder(r *face.Reader, p *face.Panel, spares []face.Strip, opt Options) *Finder {
	if r == nil {
		r = face.NewReader()
	}
	if opt.Most <= 0 {
		opt.Most = defaultMost
	}
	f := &Finder{r: r, p: p, spares: spares, opt: opt, tried: map[string]*outcome{}, left: opt.Tries}
	if f.left <= 0 {
		f.left = defaultTries
	}
	f.checker = cutting.NewChecker(join(opt.Others, spares), opt.Allowances, opt.Machines)
	r.Hold(false)
	f.before = judge(r, f.checker, p)
	f.reading = r.Read(p).Clone()
	f.covered = map[string]float64{}
	return f
}

func join(a, b []face.Strip) []face.Strip { return append(slices.Clip(slices.Clone(a)), b...) }

// Fixes returns changes that end w without making another warning as grave,
// the cheapest and smallest first. Those that make a milder one are left out
// where others make none. A warning that p does not have gives none. When ctx
// is done, it returns what was found so far.
func Fixes(ctx context.Context, r *face.Reader, p *face.Panel, spares []face.Strip, w face.Warning, opt Options) []Fix {
	return NewFinder(r, p, spares, opt).Fixes(ctx, w)
}

// Fixed is a warning with its fixes.
type Fixed struct {
	Warning face.Warning
	Fixes   []Fix
}

// All seeks fixes for every warning of p, of the reading first and then of the
// cutting rules, and returns them in that order.
func All(ctx context.Context, r *face.Reader, p *face.Panel, spares []face.Strip, opt Options) []Fixed {
	f := NewFinder(r, p, spares, opt)
	list := slices.Clone(f.reading.Warnings)
	if f.reading.Placed > 0 {
		list = append(list, f.checker.Panel(p)...)
	}
	slices.SortStableFunc(list, func(a, b face.Warning) int { return cmp.Compare(b.Weight, a.Weight) })
	var out []Fixed
	for _, w := range list {
		// No warning may spend all that those after it need.
		rest := f.left
		f.left = max(rest/2, min(rest, leastTries))
		given := f.left
		fixes := f.Fixes(ctx, w)
		f.left += rest - given
		out = append(out, Fixed{w, fixes})
	}
	return out
}

// leastTries is how many readings a warning may spend where there are as many.
const leastTries = 20

// Fixes is the function of that name for one of the panel's warnings.
func (f *Finder) Fixes(ctx context.Context, w face.Warning) []Fix {
	n := noteOf(w)
	if f.before.same(&n) == 0 {
		return nil
	}
	h := hunt{f: f, ctx: ctx, w: &n}
	f.r.SkipCoverage(true)
	h.run()
	f.r.SkipCoverage(false)
	list := h.result()
	for i := range list {
		list[i].After.Coverage = f.coverage(&list[i])
	}
	return list
}

// coverage reads the contrast coverage that a fix would give.
func (f *Finder) coverage(x *Fix) float64 {
	key := (&change{strips: x.Panel}).key()
	c, ok := f.covered[key]
	if !ok {
		q := *f.p
		q.Strips = x.Panel
		c = f.r.Read(&q).Show.Coverage
		f.covered[key] = c
	}
	return c
}

// try returns what the panel would read like after a change, nil where the
// readings are spent or the search is called off.
func (f *Finder) try(ctx context.Context, c *change) *outcome {
	key := c.key()
	if o, ok := f.tried[key]; ok {
		return o
	}
	if f.left <= 0 || ctx.Err() != nil {
		return nil
	}
	f.left--
	q := *f.p
	q.Strips = c.strips
	checker := f.checker
	if c.spares != nil {
		checker = cutting.NewChecker(join(f.opt.Others, c.spares), f.opt.Allowances, f.opt.Machines)
	}
	o := judge(f.r, checker, &q)
	f.tried[key] = o
	return o
}

// hunt is the search for the fixes of one warning.
type hunt struct {
	f     *Finder
	ctx   context.Context
	w     *note
	found []Fix
}

// strict counts the fixes found that make no milder warning.
func (h *hunt) strict() int {
	n := 0
	for i := range h.found {
		if len(h.found[i].Makes) == 0 {
			n++
		}
	}
	return n
}

// enough reports whether the search may stop.
func (h *hunt) enough() bool {
	return h.strict() >= h.f.opt.Most || h.ctx.Err() != nil
}

// fewFree is how many free fixes do without looking for dearer ones.
const fewFree = 3

// run goes through the ways to change the panel, cheap ones first.
func (h *hunt) run() {
	for _, way := range h.ways() {
		if h.enough() {
			return
		}
		list := way()
		slices.SortStableFunc(list, func(a, b change) int {
			return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.size, b.size))
		})
		for i := range list {
			if h.enough() || list[i].cost > Free && h.strict() >= fewFree {
				return
			}
			h.consider(&list[i])
		}
	}
}

// consider tries one change and keeps it where it ends the warning.
func (h *hunt) consider(c *change) {
	o := h.f.try(h.ctx, c)
	if o == nil {
		return
	}
	makes, ok := ends(h.w, h.f.before, o)
	if !ok {
		return
	}
	x := Fix{
		Kind: c.steps[0].Kind, Cost: c.cost, Steps: c.steps, Panel: c.strips, Spares: c.spares,
		Makes: makes, Size: c.size, After: o.after, Partner: true,
	}
	for _, s := range c.steps {
		for _, id := range s.Strips {
			if !slices.Contains(x.Strips, id) {
				x.Strips = append(x.Strips, id)
			}
		}
	}
	if meets(x.Strips, h.w.Strips) {
		x.Partner = false
	}
	x.How, x.Meets = o.excused(h.w, h.f.p.Width)
	h.found = append(h.found, x)
}

// result ranks what was found.
func (h *hunt) result() []Fix {
	list := h.found
	if h.strict() > 0 {
		list = slices.DeleteFunc(slices.Clone(list), func(x Fix) bool { return len(x.Makes) > 0 })
	}
	slices.SortStableFunc(list, func(a, b Fix) int {
		return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(len(a.Makes), len(b.Makes)), cmp.Compare(a.Size, b.Size))
	})
	// What comes to the same panel is one fix: the first, which is the least.
	var out []Fix
	for i := range list {
		if len(out) < h.f.opt.Most && !slices.ContainsFunc(out, func(x Fix) bool { return sameLaying(&x, &list[i]) }) {
			out = append(out, list[i])
		}
	}
	return out
}

// sameLaying reports whether two fixes leave the same strips in the same places.
func sameLaying(a, b *Fix) bool {
	return slices.Equal(a.Panel, b.Panel) && slices.Equal(a.Spares, b.Spares)
}
