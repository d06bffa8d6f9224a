package arrange

import (
	"context"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// slanted is a board of 1000 x 150 x 26 whose sapwood reaches 30 mm from the
// marked edge on face 1 and slope mm further for each mm below.
type slanted struct {
	b     *face.Board
	slope float64
	made  map[[2]float64]*face.Board
}

func (s *slanted) draw(b *face.Board, off [2]float64) {
	for f, depth := range [2]float64{off[0], 26 - off[1]} {
		y := 30 + s.slope*depth
		p := geom.R(0, 0, 1000, y).Polygon()
		if f == 1 {
			p = geom.R(0, 150-y, 1000, 150).Polygon()
		}
		b.Faces[f].Zones = []face.Zone{{Kind: face.Sap, Polygon: p}}
	}
}

func (s *slanted) Finished(off [2]float64) *face.Board {
	if s.made[off] == nil {
		b := *s.b
		b.Deep, b.Sawn, b.Thickness = nil, s.b, 26-off[0]-off[1]
		s.draw(&b, off)
		s.made[off] = &b
	}
	return s.made[off]
}

// planedStrip is a panel of four strips, 20 mm thick, whose second is cut from
// such a board 5 mm clear of the sapwood of face 1: 3 mm come off each face.
func planedStrip(slope float64) *face.Panel {
	p := laid(4)
	p.Thickness = 20
	b := walnut("P", 1000, 150)
	b.Thickness = 26
	s := &slanted{b, slope, map[[2]float64]*face.Board{}}
	s.draw(b, [2]float64{})
	b.Deep = s
	p.Strips[1].Board, p.Strips[1].Y = b, 35
	return p
}

// 3 mm deeper the sapwood has come 3 x 3 mm nearer, 4 into the strip, and on the
// other face it reaches 30 + 3 x 23 = 99: rolled over, the strip would show 64 of
// it. With 1 mm off the face that shows it stays 2 mm clear.
func TestStockComesOffTheOtherFace(t *testing.T) {
	p := planedStrip(3)
	list := fixes(t, p, face.SapAfterPlaning, "s2")
	var got *Fix
	for i := range list {
		if list[i].Kind == TakeOff {
			got = &list[i]
			break
		}
	}
	if got == nil {
		t.Fatalf("no such fix: %+v", list)
	}
	want := face.Off{Set: true, Face: [2]float64{1, 5}}
	if got.Cost != Free || len(got.Steps) != 1 || got.Steps[0].By != 1 || got.Panel[1].Off != want {
		t.Errorf("%+v, off %+v", got.Steps, got.Panel[1].Off)
	}
	// 1.5 mm taken after glue-up come off both faces alike: 4.5 are left to give,
	// and the face that shows loses 1.75 in all: 0.25 mm come in, a sliver.
	opt := options
	opt.AfterGlue = 1.5
	for _, x := range Fixes(context.Background(), nil, p, nil, warned(t, p, face.SapAfterPlaning, "s2"), opt) {
		if x.Kind == TakeOff {
			t.Errorf("%+v leaves a sliver", x.Panel[1].Off)
		}
	}
	p = planedStrip(2.8) // 1.75 mm bring it 4.9 nearer
	found := false
	for _, x := range Fixes(context.Background(), nil, p, nil, warned(t, p, face.SapAfterPlaning, "s2"), opt) {
		found = found || x.Kind == TakeOff && x.Panel[1].Off == face.Off{Set: true, Face: [2]float64{1, 3.5}}
	}
	if !found {
		t.Error("1 mm off the face that shows, 3.5 off the other and 1.5 after glue-up bring none")
	}
}

// What is planed already is not asked for, nor where nothing is known below the
// faces.
func TestStockOnlyWhereItIsLeft(t *testing.T) {
	for name, alter := range map[string]func(*face.Panel){
		"planed": func(p *face.Panel) { p.Strips[1].Stage = face.Planed },
		"pinned": func(p *face.Panel) { p.Strips[1].Pinned = true },
	} {
		p := planedStrip(3)
		alter(p)
		for _, x := range fixes(t, p, face.SapAfterPlaning, "s2") {
			if x.Kind == TakeOff {
				t.Errorf("%s: %+v", name, x.Steps)
			}
		}
	}
}
