package model

import (
	"fmt"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Split says how the zones of a photographed face came about.
type Split struct {
	By   SplitBy
	Sure float64 // how sure the program was, 0 to 1
}

// SplitBy is who split a photographed face into zones.
type SplitBy string

// How far the split of a face is.
const (
	SplitOpen    SplitBy = "open"    // not split yet: the face is as if not looked at
	SplitFound   SplitBy = "found"   // by the program, not looked at by the maker
	SplitChecked SplitBy = "checked" // looked at, or corrected, by the maker
)

// Tone is the colour measured on one kind of wood of a photographed face.
type Tone struct {
	Kind   ZoneKind
	Mean   colour.Lab
	Spread float64 // mean CIEDE2000 difference from the mean
}

// clonePhotograph keeps a caller's later changes out.
func (f *Face) clonePhotograph() {
	f.Corners, f.Split, f.White, f.Tones = clonePtr(f.Corners), clonePtr(f.Split), clonePtr(f.White), cloneSlice(f.Tones)
}

// photographed reports whether anything is told of a photograph.
func (f *Face) photographed() bool {
	return f.Photo != "" || f.Corners != nil || f.Bow != 0 || f.Reference != "" || f.Split != nil || f.White != nil || len(f.Tones) > 0
}

// Open reports whether the face has a photograph that waits to be split.
func (f *Face) Open() bool { return f.Split != nil && f.Split.By == SplitOpen }

// mostBow bounds the bow of a lens, mostGain the gain of a colour channel and
// mostRadius the radius of heartwood, mm.
const (
	mostBow    = 0.3
	mostGain   = 8
	mostRadius = 3000
)

func (c *checker) photograph(b *Board, i int) {
	f := &b.Faces[i]
	at := RuleError{Board: b.ID, Where: fmt.Sprintf("face %d", i+1)}
	fail := func(where, detail string) {
		e := at
		e.Rule, e.Where, e.Detail = RulePhotograph, at.Where+", "+where, detail
		c.fail(e)
	}
	if !within(f.Bow, -mostBow, mostBow) {
		fail("bow", say.F("a lens bows by %g to %g, not by %g", -mostBow, mostBow, f.Bow))
	}
	if f.Split != nil {
		c.word(at, say.F("%s, split", at.Where), string(f.Split.By), string(SplitOpen), string(SplitFound), string(SplitChecked))
		if !within(f.Split.Sure, 0, 1) {
			fail("split", say.F("sure is a share from 0 to 1, not %g", f.Split.Sure))
		}
	}
	if f.White != nil {
		for _, g := range f.White {
			if !within(g, 1./mostGain, mostGain) {
				fail("white", say.F("a gain of %g is not one of %g to %d", g, 1./mostGain, mostGain))
			}
		}
	}
	for _, t := range f.Tones {
		c.word(at, say.F("%s, tones", at.Where), string(t.Kind), string(Heart), string(Sap), string(Flaw))
		if !within(t.Mean.L, 0, 100) || !within(t.Mean.A, -200, 200) || !within(t.Mean.B, -200, 200) || !within(t.Spread, 0, 200) {
			fail("tones", say.F("%g, %g, %g with a spread of %g is no colour of wood", t.Mean.L, t.Mean.A, t.Mean.B, t.Spread))
		}
	}
}

// Turned returns a face of a board of length x width mm laid the other way
// round: half a turn in its own plane, with its photograph.
func (f Face) Turned(length, width float64) Face {
	f = cloneFace(f)
	if f.Corners != nil {
		q := *f.Corners
		f.Corners = &[4]geom.Point{q[2], q[3], q[0], q[1]}
	}
	turn := func(p geom.Polygon) {
		for i := range p {
			p[i] = geom.Pt(length-p[i].X, width-p[i].Y)
		}
	}
	turn(f.Outline)
	for i := range f.Zones {
		turn(f.Zones[i].Polygon)
	}
	for _, line := range f.Grain {
		turn(line)
	}
	return f
}
