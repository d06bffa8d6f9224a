package grain

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
)

var (
	heartColour = color.RGBA{104, 78, 60, 255}
	sapColour   = color.RGBA{206, 184, 152, 255}
)

func walnut(face int) Spec {
	return Spec{
		Seed: 5, Length: 600, Width: 200, Thickness: 26, PxPerMM: 0.5, Face: face,
		Heart: heartColour, Sap: sapColour, Wood: WoodOf("walnut-black"), Pith: PithOf(5, 200, 26, 2),
	}
}

// mean returns the mean colour inside a rectangle of the face, mm.
func mean(img *image.RGBA, s Spec, r geom.Rect) (c [3]float64) {
	n := 0.0
	nx, ny := img.Rect.Dx(), img.Rect.Dy()
	for j := 0; j < ny; j++ {
		for i := 0; i < nx; i++ {
			p := geom.Pt((float64(i)+0.5)*s.Length/float64(nx), s.Width-(float64(j)+0.5)*s.Width/float64(ny))
			if r.Contains(p) {
				v := img.RGBAAt(i, j)
				c[0], c[1], c[2], n = c[0]+float64(v.R), c[1]+float64(v.G), c[2]+float64(v.B), n+1
			}
		}
	}
	for k := range c {
		c[k] /= n
	}
	return c
}

func away(a [3]float64, b color.RGBA) float64 {
	return math.Sqrt(sq(a[0]-float64(b.R)) + sq(a[1]-float64(b.G)) + sq(a[2]-float64(b.B)))
}

func sq(v float64) float64 { return v * v }

func TestSamePictureEveryTime(t *testing.T) {
	a, b := Draw(walnut(1)), Draw(walnut(1))
	if !bytes.Equal(a.Pix, b.Pix) {
		t.Error("two pictures of one specification differ")
	}
	s := walnut(1)
	s.Seed++
	if bytes.Equal(a.Pix, Draw(s).Pix) {
		t.Error("another seed gives the same picture")
	}
}

// Zones lie where their polygons are: y up from the face's own y = 0, later
// ones on top, and each colour near the one asked for.
func TestZonesLieWhereTheyAre(t *testing.T) {
	s := walnut(1)
	s.Zones = []geom.Layer{
		{Label: Sap, Polygon: geom.R(0, 0, 600, 60).Polygon()},
		{Label: Heart, Polygon: geom.R(200, 0, 400, 60).Polygon()},
		{Label: Unseen, Polygon: geom.R(500, 100, 600, 200).Polygon()},
	}
	img := Draw(s)
	if img.Rect != image.Rect(0, 0, 300, 100) || img.Stride != 4*300 {
		t.Fatalf("picture %v, stride %d", img.Rect, img.Stride)
	}
	for _, c := range []struct {
		name string
		r    geom.Rect
		want color.RGBA
		far  color.RGBA
	}{
		{"sap at the lower left", geom.R(10, 5, 180, 50), sapColour, heartColour},
		{"heart on top of it", geom.R(220, 5, 380, 50), heartColour, sapColour},
		{"sap at the lower right", geom.R(420, 5, 590, 50), sapColour, heartColour},
		{"heart above", geom.R(10, 80, 480, 190), heartColour, sapColour},
	} {
		m := mean(img, s, c.r)
		if away(m, c.want) > 45 || away(m, c.want) > away(m, c.far)/2 {
			t.Errorf("%s: mean %v, want near %v", c.name, m, c.want)
		}
	}
	// Unseen wood is grey: its channels lie closer together than heart's.
	u, h := mean(img, s, geom.R(520, 110, 590, 190)), mean(img, s, geom.R(220, 110, 480, 190))
	if (u[0]-u[2])/u[0] > 0.7*(h[0]-h[2])/h[0] {
		t.Errorf("unseen %v is as coloured as heart %v", u, h)
	}
}

func TestOutlineLeavesTheRestClear(t *testing.T) {
	s := walnut(1)
	s.Outline = geom.Polygon{{X: 0, Y: 0}, {X: 600, Y: 0}, {X: 0, Y: 200}}
	img := Draw(s)
	solid := 0
	for i := 3; i < len(img.Pix); i += 4 {
		if img.Pix[i] != 0 && img.Pix[i] != 255 {
			t.Fatal("half clear pixel")
		}
		if img.Pix[i] == 255 {
			solid++
		}
	}
	// A triangle is half of its rectangle.
	if share := float64(solid) / (300 * 100); math.Abs(share-0.5) > 0.01 {
		t.Errorf("%.3f of the picture is wood, want 0.5", share)
	}
	if img.RGBAAt(0, 99).A == 0 || img.RGBAAt(299, 0).A != 0 {
		t.Error("the wrong corner is clear")
	}
}

// A knot is darker than the wood round it.
func TestKnotsAreDark(t *testing.T) {
	s := walnut(1)
	s.Zones = []geom.Layer{{Label: Flaw, Polygon: geom.Polygon{{X: 280, Y: 100}, {X: 300, Y: 112}, {X: 320, Y: 100}, {X: 300, Y: 88}}}}
	if k := s.knots(); len(k) != 1 {
		t.Fatalf("%d knots", len(k))
	}
	img := Draw(s)
	in, out := mean(img, s, geom.R(290, 94, 310, 106)), mean(img, s, geom.R(100, 60, 220, 140))
	if in[0] > 0.8*out[0] {
		t.Errorf("knot %v, wood %v", in, out)
	}
	// A split is no knot.
	s.Zones[0].Polygon = geom.R(0, 98, 200, 101).Polygon()
	if k := s.knots(); len(k) != 0 {
		t.Error("a split was taken for a knot")
	}
}

// On a face through the pith's plane rings stand upright and lines run
// straight; flat to the rings they arch, so that a line along the grain
// crosses rings.
func TestFlatSawnArchesQuarterSawnDoesNot(t *testing.T) {
	crossings := func(p Pith) int {
		s := walnut(1)
		s.Length, s.PxPerMM, s.Pith = 1500, 1, p
		s.Wood = Wood{Ring: 4, Late: 2, Rings: 1}
		d := newDrawer(&s, 1500, 200)
		n, last := 0, 0.0
		for i := range d.columns {
			c := &d.columns[i]
			// Rings met along a line straight over the pith, or beside it.
			dy, dz := 100-c.across, -c.depth
			q := math.Floor((math.Hypot(dy, dz) + c.draw) / s.Wood.Ring)
			if i > 0 && q != last {
				n++
			}
			last = q
		}
		return n
	}
	flat, quarter := crossings(Pith{Across: 100, Depth: -60, Taper: 25}), crossings(Pith{Across: -400, Depth: 13, Taper: 0})
	// 25 mm a metre over 1.5 m is 37 mm: nine rings of 4 mm.
	if flat < 7 {
		t.Errorf("a flat-sawn face meets %d rings along its middle, want about 9", flat)
	}
	if quarter > flat/2+1 {
		t.Errorf("a quarter-sawn face meets %d rings along the grain, a flat-sawn one %d", quarter, flat)
	}
}

func TestEveryKindOfWoodAndInputDraws(t *testing.T) {
	for _, name := range []string{"walnut-black", "maple-sugar", "cherry-black", "oak-white", "pine-eastern-white", "unheard-of", ""} {
		if w := WoodOf(name); w.Ring <= 0 || w.Late <= 0 {
			t.Errorf("%q: %+v", name, w)
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	for i := 0; i < 60; i++ {
		s := walnut(1 + i%2)
		s.Seed, s.Length, s.Width, s.PxPerMM = r.Uint64(), r.Float64()*300, r.Float64()*100, r.Float64()
		s.Pith = PithOf(s.Seed, s.Width, s.Thickness, i%3)
		for k := 0; k < 4; k++ {
			var p geom.Polygon
			for n := r.IntN(6); n > 0; n-- {
				p = append(p, geom.Pt(r.Float64()*500-100, r.Float64()*200-50))
			}
			s.Zones = append(s.Zones, geom.Layer{Label: r.IntN(4), Polygon: p})
		}
		Draw(s)
	}
	for _, s := range []Spec{{}, {Length: math.NaN(), Width: 1, PxPerMM: 1}, {Length: 1e9, Width: 1e9, PxPerMM: 1}, {Length: 10, Width: 10, PxPerMM: -1}} {
		if img := Draw(s); img.Rect.Dx() != 1 {
			t.Errorf("%+v gives %v", s, img.Rect)
		}
	}
}

// Straight from above a picture is to one scale: 0.88 of its width is the
// length of the board.
func TestPhotographIsAPerspective(t *testing.T) {
	s := walnut(1)
	s.Zones = []geom.Layer{{Label: Sap, Polygon: geom.R(0, 0, 600, 200).Polygon()}}
	p := Photo(s, Camera{Width: 300, Height: 200})
	k := 0.88 * 300 / 600
	for i, want := range [4]geom.Point{
		{X: 150 - 300*k, Y: 100 + 100*k}, {X: 150 + 300*k, Y: 100 + 100*k},
		{X: 150 + 300*k, Y: 100 - 100*k}, {X: 150 - 300*k, Y: 100 - 100*k},
	} {
		if d := p.Corners[i].Dist(want); d > 1e-6 {
			t.Errorf("corner %d at %v, want %v", i, p.Corners[i], want)
		}
	}
	if in, out := p.Img.RGBAAt(150, 100), p.Img.RGBAAt(150, 8); int(in.R)-int(in.B) < 25 || int(out.R)-int(out.B) > 25 {
		t.Errorf("sapwood %v in the middle, neutral bench %v above", in, out)
	}
	// Tilted, the far edge is shorter than the near one, and the corners still
	// run anticlockwise as seen.
	p = Photo(s, Camera{Width: 300, Height: 200, Tilt: 20, Turn: 3})
	near, far := p.Corners[0].Dist(p.Corners[1]), p.Corners[3].Dist(p.Corners[2])
	if far >= near {
		t.Errorf("the far edge is %.1f px, the near one %.1f", far, near)
	}
	if a := geom.Polygon(p.Corners[:]).SignedArea(); a >= 0 {
		t.Errorf("corners run clockwise as seen (area %g with y down)", a)
	}
	// Turned anticlockwise, the right end lies higher.
	if p.Corners[1].Y >= p.Corners[0].Y {
		t.Error("a turn anticlockwise did not raise the right end")
	}
	if g := p.Img.RGBAAt(int(p.Card.X), int(p.Card.Y)); math.Abs(float64(g.R)-119) > 14 || math.Abs(float64(g.R)-float64(g.B)) > 6 {
		t.Errorf("the grey patch is %v", g)
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, px := range []struct {
		name  string
		scale float64
	}{{"half", 0.5}, {"one", 1}} {
		b.Run(px.name, func(b *testing.B) {
			s := walnut(1)
			s.Length, s.Width, s.PxPerMM = 2400, 210, px.scale
			s.Zones = []geom.Layer{{Label: Sap, Polygon: geom.R(0, 0, 2400, 40).Polygon()}}
			for b.Loop() {
				Draw(s)
			}
		})
	}
}
