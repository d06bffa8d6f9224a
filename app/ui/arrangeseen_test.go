package ui

import (
	"image"
	"testing"

	"heartside/app/scene"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
)

// grey reports whether all of a picture is in grey.
func grey(img image.Image) bool {
	p := img.(*image.RGBA)
	for i := 0; i < len(p.Pix); i += 4 {
		if p.Pix[i] != p.Pix[i+1] || p.Pix[i] != p.Pix[i+2] {
			return false
		}
	}
	return true
}

func TestSeenOtherwise(t *testing.T) {
	s := arrangeAt(t, 100)
	s.ends(t, s.five(), nil)
	g := s.p.gallery
	s.pictures(t)
	plain := g.tiles[0].img.Image.(*image.RGBA)
	if grey(plain) {
		t.Fatal("the wood is grey as it is")
	}
	s.typed("v")
	s.pictures(t)
	if !grey(g.tiles[0].img.Image) || s.p.head.seen.SelectedIndex() != int(seenGrey) {
		t.Error("V does not show it in grey")
	}
	s.typed("vv")
	s.pictures(t)
	m := g.tiles[0].img.Image.(*image.RGBA)
	if w := m.Rect.Dx(); m.Rect != plain.Rect || m.RGBAAt(0, 10) != plain.RGBAAt(w-1, 10) || m.RGBAAt(w-1, 50) != plain.RGBAAt(0, 50) {
		t.Error("left and right are not exchanged in the mirror")
	}
	s.typed("v")
	s.pictures(t)
	c := g.tiles[0].img.Image.(*image.RGBA)
	// The front edge is nearer: it reaches further to the sides than the back.
	span := func(y int) (n int) {
		for x := range c.Rect.Dx() {
			if c.RGBAAt(x, y).A > 0 {
				n++
			}
		}
		return n
	}
	top, low := 0, 0
	for y := range c.Rect.Dy() {
		if n := span(y); n > 0 && top == 0 {
			top = n
		} else if n > 0 {
			low = n
		}
	}
	if top >= low {
		t.Errorf("from the chair the back edge is %d wide, the front %d", top, low)
	}
	s.typed("v")
	s.pictures(t)
	old := g.tiles[0].img.Image.(*image.RGBA)
	mid := old.Rect.Dy() / 2
	// Walnut's heartwood pales with the years, by all texts the table names.
	if a, b := old.RGBAAt(30, mid), plain.RGBAAt(30, mid); old.Rect != plain.Rect || int(a.R)+int(a.G)+int(a.B) <= int(b.R)+int(b.G)+int(b.B) {
		t.Errorf("in ten years %v, now %v", a, b)
	}
	s.typed("v")
	s.pictures(t)
	if g.tiles[0].img.Image != image.Image(plain) {
		t.Error("the picture is made again though it was kept")
	}
	s.typed("h")
	s.pictures(t)
	if g.tiles[0].img.Image == image.Image(plain) {
		t.Error("H does not hatch")
	}
}

// A side stands upright: seen in its place it is higher than wide.
func TestUprightPanelsStand(t *testing.T) {
	p := &face.Panel{Length: 700, Width: 300}
	k := sitter{panel: p, role: model.RoleSide, seen: seenChair, w: 200, h: 200, sit: scene.Sitting{Theme: scene.Paper()}}
	p.Strips = []face.Strip{{ID: "1", Board: &face.Board{ID: "A", Length: 700, Width: 300, Thickness: 20}, L: 700, W: 300, Up: 1}}
	img := k.paint()
	var box geom.Rect
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y).A > 100 {
				box = box.Union(geom.R(float64(x), float64(y), float64(x+1), float64(y+1)))
			}
		}
	}
	if box.H() < 1.5*box.W() {
		t.Errorf("it is %.0f wide and %.0f high", box.W(), box.H())
	}
}

func TestMarksAreDrawnIntoPicturesFromTheChair(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 320, 100))
	p := &face.Panel{Length: 320, Width: 100}
	markInto(img, geom.R(0, 20, 320, 60), p)
	// Row 0 is y = 100: the place lies at rows 40 to 79, its line 6 pixels wide.
	if at := img.RGBAAt(160, 40); at.A != 255 || at.R != 0 {
		t.Errorf("no dark line at the edge: %v", at)
	}
	if at := img.RGBAAt(160, 42); at.R != 255 {
		t.Errorf("no light line in it: %v", at)
	}
	if img.RGBAAt(160, 60).A != 0 || img.RGBAAt(160, 38).A != 0 || img.RGBAAt(160, 81).A != 0 {
		t.Error("it is drawn elsewhere")
	}
}
