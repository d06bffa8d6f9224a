package grain

import (
	"image"
	"image/color"
	"math"

	"heartside/layout/geom"
)

// Draw returns the picture of the face, its row 0 at y = width: pixel (i, j)
// of nx x ny covers x from i*Length/nx and, downwards, y from
// Width - j*Width/ny.
func Draw(s Spec) *image.RGBA {
	nx, ny := s.size()
	img := image.NewRGBA(image.Rect(0, 0, nx, ny))
	if !(s.Length > 0) || !(s.Width > 0) || s.Length > mostLength || s.Width > mostLength {
		return img
	}
	if !(s.Wood.Ring > 0.1) || !(s.Wood.Late > 0) {
		s.Wood = WoodOf("")
	}
	d := newDrawer(&s, nx, ny)
	for j := 0; j < ny; j++ {
		d.row(j, img.Pix[j*img.Stride:j*img.Stride+4*nx])
	}
	return img
}

// drawer holds what the pixels share.
type drawer struct {
	s       *Spec
	nx, ny  int
	px      float64 // pixels a mm
	labels  []uint8
	sap     []float32 // softened share of sapwood
	unseen  []float32 // nil where nothing is unseen
	flaw    []float32 // nil where there is none
	knots   []knot
	columns []column
	profile [257]float64 // darkness through one ring
	n       [9]noise
}

// column is what the pixels of one x share.
type column struct{ x, across, depth, draw float64 }

func newDrawer(s *Spec, nx, ny int) *drawer {
	d := &drawer{s: s, nx: nx, ny: ny, px: float64(nx) / s.Length, knots: s.knots()}
	d.labels = s.labels(nx, ny)
	base := noise{mixBits(s.Seed + 1)}
	for i := range d.n {
		d.n[i] = base.sub(uint64(i) + 1)
	}
	rx, ry := max(1, int(5*d.px+0.5)), max(1, int(2.1*d.px+0.5))
	d.sap = soften(d.labels, nx, ny, Sap, rx, ry)
	for _, l := range d.labels {
		switch {
		case l == Unseen && d.unseen == nil:
			d.unseen = soften(d.labels, nx, ny, Unseen, rx, ry)
		case l == Flaw && d.flaw == nil:
			d.flaw = soften(d.labels, nx, ny, Flaw, 1, 1)
		}
	}
	for i := range d.profile {
		t := float64(i) / 256
		d.profile[i] = math.Pow(t, s.Wood.Late) * (1 - ramp(t, 0.93, 1))
	}
	d.columns = make([]column, nx)
	for i := range d.columns {
		x := (float64(i) + 0.5) / d.px
		d.columns[i] = column{
			x:      x,
			across: s.Pith.Across + 9*d.n[0].at1(x/620) + 2*d.n[0].at1(x/190+50),
			depth:  s.Pith.Depth + 10*d.n[1].at1(x/700) + 2*d.n[1].at1(x/210+50),
			draw:   s.Pith.Taper * (x - s.Length/2) / 1000,
		}
	}
	return d
}

// row paints one line of pixels.
func (d *drawer) row(j int, row []uint8) {
	s := d.s
	y := s.Width - (float64(j)+0.5)*s.Width/float64(d.ny)
	for i := 0; i < d.nx; i++ {
		k := j*d.nx + i
		if d.labels[k] == blank {
			continue
		}
		p := geom.Pt(d.columns[i].x, y)
		q := p
		for n := range d.knots {
			q = d.knots[n].deflect(q)
		}
		w := d.wood(&d.columns[i], q, float64(d.sap[k]))
		if d.unseen != nil && d.unseen[k] > 0 {
			w = d.rough(w, p, float64(d.unseen[k]))
		}
		if d.flaw != nil && d.flaw[k] > 0 {
			w = d.flawed(w, p, float64(d.flaw[k]))
		}
		row[4*i], row[4*i+1], row[4*i+2], row[4*i+3] = byteOf(w[0]), byteOf(w[1]), byteOf(w[2]), 255
	}
}

// tone is a colour, 0 to 255 a channel.
type tone [3]float64

func toneOf(c color.RGBA) tone { return tone{float64(c.R), float64(c.G), float64(c.B)} }

func (a tone) mix(b tone, t float64) tone {
	return tone{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1]), a[2] + t*(b[2]-a[2])}
}

// darker takes light away, blue more than red as in wood.
func (a tone) darker(d float64) tone {
	return tone{a[0] * (1 - 0.80*d), a[1] * (1 - 0.92*d), a[2] * (1 - d)}
}

func byteOf(v float64) uint8 { return uint8(math.Min(math.Max(v+0.5, 0), 255)) }

// wood returns the colour of clear wood at p, with a share of sapwood.
func (d *drawer) wood(c *column, p geom.Point, sapShare float64) tone {
	s, px := d.s, d.px
	y, z := p.Y, 0.0
	if s.Face == 2 {
		y, z = s.Width-p.Y, s.Thickness
	}
	dy, dz := y-c.across, z-c.depth
	r0 := math.Hypot(dy, dz)
	r := r0 + c.draw + 2.1*d.n[2].at2(p.X/240, y/38) + 0.55*d.n[2].at2(p.X/64+300, y/11)
	q := r / s.Wood.Ring
	q += 0.55*d.n[3].at1(q*0.45) + 0.25*d.n[3].at1(q*1.3+500)
	f := math.Floor(q)
	ring := d.n[3].cell(int64(f), 9)

	// How many pixels a ring takes here; rings finer than pixels melt away.
	across := math.Abs(dy)/math.Max(r0, 1) + 0.02
	fine := ramp(s.Wood.Ring/across*px, 0.9, 3.2)

	heart := 1 - ramp(sapShare+0.16*d.n[4].at2(p.X/55, y/2.6)+0.06*d.n[4].at2(p.X/9, y/0.9), 0.30, 0.70)
	// The share alone decides far from the border.
	heart = heart*ramp(sapShare, 1.02, 0.84) + (1-ramp(sapShare, 0, 0.16))*(1-heart*ramp(sapShare, 1.02, 0.84))

	t := toneOf(s.Sap).mix(toneOf(s.Heart), heart)
	dark := s.Wood.Rings * (0.42 + 0.58*heart) * d.profile[int((q-f)*256)] * (0.72 + 0.45*ring) * fine
	streak := math.Max(0, d.n[5].at2(q*0.33, p.X/1900)+0.25*d.n[5].at2(q*1.1, p.X/700)-0.05)
	dark += s.Wood.Streaks * heart * 0.62 * streak * math.Min(1, 0.4+fine)
	dark += d.fibre(p, y, q-f, heart)
	dark += 0.035 * d.n[8].at2(p.X/900, y/120)
	t = t.darker(dark)

	// Warmer and cooler stretches.
	warm := 0.016 * d.n[7].at2(p.X/700+70, y/70)
	t[0] *= 1 + warm
	t[2] *= 1 - 1.4*warm
	return t
}

// fibre returns the darkness of fibre, pores and flecks.
func (d *drawer) fibre(p geom.Point, y, phase, heart float64) float64 {
	w, px := &d.s.Wood, d.px
	v := 0.050*d.n[6].at2(p.X/150, y/4.5) + 0.045*d.n[6].at2(p.X/52+900, y/1.5)*math.Min(1, 1.2*px)
	if px > 0.4 {
		v += 0.05 * d.n[6].at2(p.X/21+40, y/0.62) * math.Min(1, 0.9*px)
	}
	if w.Pores > 0 {
		a := w.Pores * math.Min(1, 0.55+0.35*px)
		if w.Porous {
			a *= 0.35 + 1.5*(1-ramp(phase, 0.12, 0.42))
		}
		long, wide := 9.0, 0.55
		if px < 1 { // pores finer than pixels show as groups of them
			long, wide = long/px*0.8, wide/px
		}
		v += a * 0.42 * math.Max(0, d.n[7].at2(p.X/long, y/wide)-0.30)
	}
	if w.Flecks > 0 {
		v += w.Flecks * 0.030 * d.n[8].at2(p.X/26+d.n[1].at1(y/14)*2, y/34)
		v += w.Flecks * 0.10 * math.Max(0, d.n[8].at2(p.X/3.4+17, y/1.1)-0.55) * math.Min(1, px)
	}
	return v * (0.75 + 0.25*heart)
}
