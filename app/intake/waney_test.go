package intake

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"math"
	"slices"
	"testing"

	"golang.org/x/image/draw"

	"heartside/layout/geom"
	"heartside/layout/grain"
	"heartside/layout/photo"
	"heartside/model"
)

const waneyLong, waneyWide = 1300.0, 340.0

// waneyEdges are the true edges: sums of sines that reach from 0 to the width.
func waneyEdges(x float64) (low, high float64) {
	at := func(x float64) (low, high float64) {
		return 8*math.Sin(x/150) + 5*math.Sin(x/47+1), 11*math.Sin(x/210+0.6) + 6*math.Sin(x/61)
	}
	least, most := math.Inf(1), math.Inf(-1)
	for v := 0.0; v <= waneyLong; v++ {
		l, h := at(v)
		least, most = math.Min(least, l), math.Max(most, h)
	}
	low, high = at(x)
	return low - least, waneyWide + high - most
}

// waneySpec is a board drawn with those edges and sapwood of 30 mm along both.
func waneySpec() grain.Spec {
	var lower, upper, in, out []geom.Point
	for x := 0.0; x <= waneyLong; x += 10 {
		l, h := waneyEdges(x)
		lower, upper = append(lower, geom.Pt(x, l)), append(upper, geom.Pt(x, h))
		in, out = append(in, geom.Pt(x, l+30)), append(out, geom.Pt(x, h-30))
	}
	ring := func(a, b []geom.Point) geom.Polygon {
		back := slices.Clone(b)
		slices.Reverse(back)
		return append(slices.Clone(a), back...)
	}
	s := grain.Spec{
		Seed: 5, Length: waneyLong, Width: waneyWide, Thickness: 40, Face: 1, Outline: ring(lower, upper),
		Heart: color.RGBA{R: 101, G: 70, B: 51, A: 255}, Sap: color.RGBA{R: 206, G: 181, B: 144, A: 255},
		Wood:  grain.WoodOf("walnut-black"),
		Zones: []geom.Layer{{Label: grain.Sap, Polygon: ring(lower, in)}, {Label: grain.Sap, Polygon: ring(out, upper)}},
	}
	s.Pith = grain.PithOf(s.Seed, s.Width, s.Thickness, 2)
	return s
}

// waneyPhoto is a photograph of it, as a JPEG, and where the rectangle of
// 1300 x 340 mm lies in that.
func waneyPhoto(t testing.TB) (OpenFunc, image.Image, [4]geom.Point) {
	t.Helper()
	ph := grain.Photo(waneySpec(), grain.Camera{Width: 1500, Height: 700, Tilt: 9, Turn: 2, Light: 0.1})
	var w bytes.Buffer
	if err := jpeg.Encode(&w, ph.Img, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return func(string) (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(w.Bytes())), nil }, ph.Img, ph.Corners
}

// offEdges is how far an outline lies from the true edges on 95 of 100 places,
// and how far its widths are from the true ones, mm.
func offEdges(ring geom.Polygon) (edges, widths float64) {
	var off, wide []float64
	for x := 10.0; x < waneyLong-10; x += 5 {
		low, high := math.Inf(1), math.Inf(-1)
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.X <= x) != (b.X <= x) {
				y := a.Y + (x-a.X)/(b.X-a.X)*(b.Y-a.Y)
				low, high = math.Min(low, y), math.Max(high, y)
			}
		}
		l, h := waneyEdges(x)
		off = append(off, math.Abs(low-l), math.Abs(high-h))
		wide = append(wide, math.Abs(high-low-h+l))
	}
	slices.Sort(off)
	slices.Sort(wide)
	return off[len(off)*95/100], wide[len(wide)*95/100]
}

// The truth: the edges and zones that were drawn. With a rectangle laid by the
// maker the outline is right to 3 mm. Found by the program, a board is laid
// along its own shape, which may lie a little askew to how it was drawn, and a
// taper may be taken in part for perspective: its widths are right to 3 in a
// hundred.
func TestReaderReadsAWaneyFace(t *testing.T) {
	open, _, corners := waneyPhoto(t)
	spec := waneySpec()
	sap := spec.Zones[0].Polygon.Area() + spec.Zones[1].Polygon.Area()
	share := sap / spec.Outline.Area()
	// A rectangle laid by hand, 25 mm off on both sides.
	m, err := geom.QuadToQuad([4]geom.Point{{}, {X: waneyLong}, {X: waneyLong, Y: waneyWide}, {Y: waneyWide}}, corners)
	if err != nil {
		t.Fatal(err)
	}
	var loose [4]geom.Point
	for i, p := range geom.R(0, -25, waneyLong, waneyWide+25).Polygon() {
		loose[i] = m.Apply(p)
	}
	for _, c := range []struct {
		name    string
		job     Job
		edges   float64 // mm
		widths  float64
		measure float64
	}{
		{"found", Job{Length: waneyLong, Width: waneyWide}, 15, 10, 0},
		{"found, width measured", Job{Length: waneyLong}, 15, 12, 12},
		{"rectangle by hand", Job{Length: waneyLong, Width: waneyWide, Corners: &loose}, 3, 4, 0},
		{"rectangle by hand, width measured", Job{Length: waneyLong, Corners: &loose}, 6, 6, 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.job.Waney, c.job.Place, c.job.Name = true, Place{"F", Face1}, "w.jpg"
			r, err := Reader(open)(context.Background(), c.job, func(Step) {})
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(r.Width-waneyWide) > c.measure {
				t.Errorf("measured %g mm wide, want %g", r.Width, waneyWide)
			}
			b := model.NewBoard("F", "walnut-black", waneyLong, r.Width, 40)
			b.Faces[0] = r.Face(model.Face{}, "w.jpg")
			p, err := model.Apply(model.NewProject(), model.AddBoard{Board: b})
			if err != nil {
				t.Fatalf("what was read breaks a rule: %v", err)
			}
			f := p.Boards[0].Faces[0]
			off, wide := offEdges(f.Outline)
			mask, err := MaskOf(&f, waneyLong, r.Width)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("outline %.1f mm off, widths %.1f, %d corners, %.1f mm wide, sap %.3f of %.3f, sure %.2f, doubts %q", off, wide, len(f.Outline), r.Width, mask.Shares()[photo.Sap], share, r.Split.Sure, r.Doubts)
			if off > c.edges || wide > c.widths {
				t.Errorf("the outline lies %.1f mm off, its widths %.1f; want %g and %g", off, wide, c.edges, c.widths)
			}
			if s := mask.Shares()[photo.Sap]; math.Abs(s-share) > 0.03 {
				t.Errorf("the zones hold %.3f sapwood, want %.3f", s, share)
			}
		})
	}
}

// The editor on a waney face: its outline is traced, taken back, painted, and
// drawn again from the mask.
func TestEditorOutline(t *testing.T) {
	_, img, corners := waneyPhoto(t)
	ctx := context.Background()
	sq, err := photo.Square(ctx, img, photo.View{Corners: corners}, waneyLong, waneyWide, 1)
	if err != nil {
		t.Fatal(err)
	}
	e, err := NewEditor(ctx, sq, nil)
	if err != nil {
		t.Fatal(err)
	}
	if ring, _, err := e.Ring(); ring != nil || err != nil {
		t.Errorf("a face with sawn edges has the outline %v, %v", ring, err)
	}
	outside := func() (n float64) {
		for _, l := range e.Mask().Pix {
			if l == photo.Outside {
				n++
			}
		}
		return n / float64(len(e.Mask().Pix))
	}
	ring := waneySpec().Outline
	if err := e.Outline(ctx, ring); err != nil {
		t.Fatal(err)
	}
	// The rectangle is 442000 mm2; cells are counted by their middles.
	want := 1 - ring.Area()/(waneyLong*waneyWide)
	if got := outside(); math.Abs(got-want) > 0.002 || e.UndoLabel() != "Waney edges" {
		t.Errorf("%.4f of the face is outside, want %.4f, by %q", got, want, e.UndoLabel())
	}
	if got, traced, _ := e.Ring(); !traced || !slices.Equal(got, ring) {
		t.Error("the outline traced is not kept to the point")
	}
	spec := waneySpec()
	share := (spec.Zones[0].Polygon.Area() + spec.Zones[1].Polygon.Area()) / ring.Area()
	if got := e.Mask().Shares()[photo.Sap]; math.Abs(got-share) > 0.03 {
		t.Errorf("%.3f sapwood within the outline, want %.3f", got, share)
	}
	// A stroke over the edge teaches but makes no wood.
	before := outside()
	if err := e.Stroke(ctx, photo.Sap, []geom.Point{{X: 600, Y: 1}, {X: 700, Y: 30}}, 6); err != nil {
		t.Fatal(err)
	}
	if got := outside(); got != before {
		t.Errorf("a stroke over the edge left %.4f outside, not %.4f", got, before)
	}
	// 100 x 40 mm are no wood: of the face 4000 / 442000.
	hole := geom.R(600, 150, 700, 190).Polygon()
	if err := e.Fill(photo.Outside, hole); err != nil {
		t.Fatal(err)
	}
	if got := outside() - before; math.Abs(got-4000/442000.) > 1e-9 || e.UndoLabel() != "Fill with no wood" {
		t.Errorf("%.5f more is outside by %q, want %.5f", got, e.UndoLabel(), 4000/442000.)
	}
	got, traced, err := e.Ring()
	if err != nil || traced || math.Abs(got.Area()-ring.Area()) > 0.004*ring.Area() {
		t.Errorf("drawn from the mask: %.0f mm2 of %.0f, traced %v, %v", got.Area(), ring.Area(), traced, err)
	}
	if m := WithHoles(e.Mask(), got); m.At(650, 170) != photo.Flaw || m.At(650, 0) != e.Mask().At(650, 0) {
		t.Error("a hole is no flaw")
	}
	// Painted wood grows the outline; taken back all is as before.
	if err := e.Brush(photo.Outside, []geom.Point{{X: 5, Y: 0}, {X: 5, Y: waneyWide}}, 20); err != nil {
		t.Fatal(err)
	}
	if got, _, _ := e.Ring(); math.Abs(got.Bounds().Min.X-15) > 2 {
		t.Errorf("15 mm of an end were painted away, the outline begins at %.1f", got.Bounds().Min.X)
	}
	if err := e.Brush(photo.Heart, []geom.Point{{X: 5, Y: 100}, {X: 5, Y: 240}}, 20); err != nil {
		t.Fatal(err)
	}
	if e.Mask().At(5, 170) != photo.Heart {
		t.Error("wood painted where there was none is not there")
	}
	for e.Undo() {
	}
	if outside() != 0 {
		t.Error("taken back, some is still outside")
	}
	// Opened with an outline, the split looks at nothing else.
	for e.UndoLabel() != "Waney edges" {
		e.Redo()
	}
	o, err := NewEditor(ctx, sq, e.Mask())
	if err != nil {
		t.Fatal(err)
	}
	if o.Touched() || o.Mask() != e.Mask() {
		t.Error("opened with a mask it is not that")
	}
	if err := o.Afresh(ctx); err != nil {
		t.Fatal(err)
	}
	if got := o.Mask().Shares()[photo.Sap]; math.Abs(got-share) > 0.03 {
		t.Errorf("split afresh: %.3f sapwood within the outline, want %.3f", got, share)
	}
	if err := o.Outline(ctx, nil); err != nil || o.UndoLabel() != "Straight edges" || slices.Contains(o.Mask().Pix, photo.Outside) {
		t.Errorf("straight again: %q, %v", o.UndoLabel(), err)
	}
	if err := o.Outline(ctx, geom.R(-50, -50, -10, -10).Polygon()); err == nil {
		t.Error("an outline beside the face: no error")
	}
}

func TestWaneyDoubts(t *testing.T) {
	for _, c := range []struct {
		w    Waney
		want int
	}{
		{Waney{Sure: 0.8}, 0},
		{Waney{Sure: 0.3}, 1},
		{Waney{Sure: 0.8, Vague: 0.2}, 1},
		{Waney{Sure: 0.8, Off: 0.1}, 1},
		{Waney{Sure: 0.8, Off: -0.1}, 0}, // the narrower face
		{Waney{Sure: 0.8, Off: -0.4}, 1},
		{Waney{Sure: 0.8, Narrow: 0.3, Found: true}, 0}, // the width that was measured told
		{Waney{Sure: 0.8, Narrow: 0.3, Found: true, Unknown: true}, 1},
	} {
		if got := c.w.Doubts(); len(got) != c.want {
			t.Errorf("%+v: doubts %q", c.w, got)
		}
	}
}

// A waney face of a photograph of 4000 pixels, from the picture to its zones;
// found, or in a rectangle laid by hand.
func BenchmarkWaneyFace(b *testing.B) {
	_, small, corners := waneyPhoto(b)
	k := 4000 / float64(small.Bounds().Dx())
	img := image.NewRGBA(image.Rect(0, 0, 4000, int(k*float64(small.Bounds().Dy()))))
	draw.BiLinear.Scale(img, img.Rect, small, small.Bounds(), draw.Src, nil)
	for i := range corners {
		corners[i] = corners[i].Mul(k)
	}
	for name, ask := range map[string]Ask{"found": {}, "given": {Corners: &corners}} {
		b.Run(name, func(b *testing.B) {
			ask.Waney, ask.Length, ask.Width = true, waneyLong, waneyWide
			b.ReportAllocs()
			for b.Loop() {
				s, err := Look(context.Background(), img, ask, func(Step) {})
				if err != nil {
					b.Fatal(err)
				}
				if _, err := s.reading(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
