package depth

import (
	"math"
	"reflect"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// sapAt returns the sapwood across a face at x as (from, to) pairs, rising.
func sapAt(f face.BoardFace, width, x float64) []float64 {
	kind := func(y float64) face.Kind {
		k := f.Base
		for _, z := range f.Zones {
			if z.Polygon.Contains(geom.Pt(x, y)) {
				k = z.Kind
			}
		}
		return k
	}
	var out []float64
	const fine = 0.01
	open := false
	for y := fine / 2; y < width; y += fine {
		if sap := kind(y) == face.Sap; sap != open {
			out = append(out, y-fine/2)
			open = sap
		}
	}
	if open {
		out = append(out, width)
	}
	return out
}

// heartWidth returns how much of a face at x is not sapwood, mm.
func heartWidth(f face.BoardFace, width, x float64) float64 {
	w := width
	s := sapAt(f, width, x)
	for i := 0; i+1 < len(s); i += 2 {
		w -= s[i+1] - s[i]
	}
	return w
}

func rect(x0, y0, x1, y1 float64) geom.Polygon { return geom.R(x0, y0, x1, y1).Polygon() }

// round is a board of a round heartwood: half-widths of the heart on face 1
// and face 2, the pith across at pith.
func round(length, width, thickness, pith, half1, half2 float64) Board {
	b := Board{Length: length, Width: width, Thickness: thickness}
	for k, h := range [2]float64{half1, half2} {
		at := pith
		if k == 1 {
			at = width - pith
		}
		b.Faces[k] = Face{Known: true, Zones: []face.Zone{
			{Kind: face.Sap, Polygon: rect(0, 0, length, at-h)},
			{Kind: face.Sap, Polygon: rect(0, at+h, length, width)},
		}}
	}
	return b
}

func mustNew(t *testing.T, b Board) *Solid {
	t.Helper()
	s, err := New(b)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.3f, want %.3f within %g", what, got, want, within)
	}
}

// A round heartwood of radius R shows sqrt(R^2 - h^2) each side on a face h
// from the pith. Worked: R 100, faces at 60 and 85: 160 and 105.36 mm; 2 mm
// off each, at 62 and 83: 156.9 and 111.6 mm.
func TestRoundHeartwood(t *testing.T) {
	b := round(600, 260, 25, 130, 52.678, 80) // face 1 is the bark side
	for name, set := range map[string]func(*Board){
		"pith and radius": func(b *Board) { b.Pith, b.Heart = []Pith{{0, 130, 85}}, 100 },
		"pith alone":      func(b *Board) { b.Pith = []Pith{{0, 130, 85}} },
		"pith by place":   func(b *Board) { b.Pith = []Pith{{600, 130, 85}, {0, 130, 85}} },
	} {
		w := b
		set(&w)
		s := mustNew(t, w)
		bark, note := s.At(1, 2)
		near(t, name+": bark side, 2 mm off", heartWidth(bark, 260, 300), 111.6, 0.35)
		if note.How != About || !(note.Uncertain > 0) || note.Uncertain > 20 {
			t.Errorf("%s: note %+v", name, note)
		}
		pith, _ := s.At(2, 2)
		near(t, name+": pith side, 2 mm off", heartWidth(pith, 260, 300), 156.9, 0.35)
		// Half way, 72.5 from the pith.
		mid, _ := s.At(1, 12.5)
		near(t, name+": half way", heartWidth(mid, 260, 300), 2*math.Sqrt(100*100-72.5*72.5), 0.35)
		back, _ := s.At(2, 12.5)
		near(t, name+": half way from the other side", heartWidth(back, 260, 300), 2*math.Sqrt(100*100-72.5*72.5), 0.35)
	}
	// The faces alone: an arc of 90 mm through 52.678 and 80 each side, which lies
	// a little outside that of 100; the chord, 109.7 mm, lies inside both.
	s := mustNew(t, b)
	bark, note := s.At(1, 2)
	near(t, "faces alone", heartWidth(bark, 260, 300), 111.6, 0.35)
	if note.How != Between {
		t.Errorf("note %+v", note)
	}
}

// Worked: R 100, 26 mm thick, the heart side 60 mm from the pith: 160 mm of
// heart there and 102 on the bark side (86 mm); 3 mm off the bark side gains
// 9.5 mm there (83: 111.5), 3 mm off the heart side loses 5 (63: 155.3).
func TestWhereStockComesOffMatters(t *testing.T) {
	b := round(600, 260, 26, 130, math.Sqrt(10000-86*86), 80)
	b.Pith, b.Heart = []Pith{{0, 130, 86}}, 100
	s := mustNew(t, b)
	sawn, note := s.At(1, 0)
	if note != (Note{How: Exact}) {
		t.Errorf("note of the sawn face %+v", note)
	}
	near(t, "bark side", heartWidth(sawn, 260, 300), 102, 0.2)
	bark, _ := s.At(1, 3)
	near(t, "gained on the bark side", heartWidth(bark, 260, 300)-heartWidth(sawn, 260, 300), 9.5, 0.5)
	heart, _ := s.At(2, 0)
	near(t, "heart side", heartWidth(heart, 260, 300), 160, 0.1)
	less, _ := s.At(2, 3)
	near(t, "lost on the heart side", heartWidth(heart, 260, 300)-heartWidth(less, 260, 300), 5, 0.5)
}

// Stock off the side nearer the pith brings sapwood into the face that shows:
// a strip of 2 x 78 mm about the middle of the heart side, all heart as sawn
// (160 mm), shows sapwood 5 mm down, 65 from the pith (2 x 75.99).
func TestPlaningMovesSapIntoTheShowFace(t *testing.T) {
	b := round(600, 260, 26, 130, math.Sqrt(10000-86*86), 80)
	b.Pith, b.Heart = []Pith{{0, 130, 86}}, 100
	s := mustNew(t, b)
	const strip = 156
	sap := func(side int, z float64) float64 {
		f, _ := s.At(side, z)
		return 1 - math.Min(heartWidth(f, 260, 300), strip)/strip
	}
	near(t, "none off the show face", sap(2, 0), 0, 1e-9)
	near(t, "all off the show face", sap(2, 5), 1-2*75.993/strip, 0.003)
	for _, z := range []float64{1, 2, 3, 4, 5} {
		if sap(2, z) < sap(2, z-1) {
			t.Errorf("%g mm off the pith side shows less sapwood than %g", z, z-1)
		}
	}
	// The bark side up, 2 x 51 mm of heart as sawn: planing it gains heart.
	if !(sap(1, 5) < sap(1, 0)) {
		t.Errorf("sap %g with nothing off the bark side, %g with all", sap(1, 0), sap(1, 5))
	}
}

// Heartwood that closes between the faces: R 80, faces at 60 and 90 from the
// pith, so face 1 shows none. The heart shows 2 sqrt(80^2 - h^2) at h < 80 and
// none beyond.
func TestHeartwoodClosesBetweenTheFaces(t *testing.T) {
	b := Board{Length: 600, Width: 200, Thickness: 30, Pith: []Pith{{0, 100, 90}}, Heart: 80}
	half := math.Sqrt(80*80 - 60*60)
	b.Faces[0] = Face{Known: true, Base: face.Sap}
	b.Faces[1] = Face{Known: true, Base: face.Sap, Zones: []face.Zone{{Kind: face.Heart, Polygon: rect(0, 100-half, 600, 100+half)}}}
	s := mustNew(t, b)
	for z, want := range map[float64]float64{
		4: 0, 8: 0, // 86 and 82 from the pith
		25: 2 * math.Sqrt(80*80-65*65),
		28: 2 * math.Sqrt(80*80-62*62),
	} {
		f, _ := s.At(1, z)
		// How far the unseen crown reaches is a guess; near face 2 it hardly counts.
		near(t, "heart", heartWidth(f, 200, 300), want, 5)
	}
}

// One face and the log: the other face hidden, R 100, face 2 at 60.
func TestOneFaceAndThePith(t *testing.T) {
	b := round(600, 260, 25, 130, 52.678, 80)
	b.Faces[0] = Face{}
	b.Pith, b.Heart = []Pith{{0, 130, 85}}, 100
	s := mustNew(t, b)
	f, note := s.At(2, 2)
	near(t, "2 mm under the face that is known", heartWidth(f, 260, 300), 156.9, 0.35)
	if note.How != OneFace {
		t.Errorf("note %+v", note)
	}
	f, _ = s.At(1, 0)
	near(t, "the face nobody has seen", heartWidth(f, 260, 300), 105.36, 0.5)

	b.Faces[1] = Face{}
	f, note = mustNew(t, b).At(1, 2)
	near(t, "no face at all", heartWidth(f, 260, 300), 111.6, 0.35)
	if note.How != Circle {
		t.Errorf("note %+v", note)
	}
}

func TestOneFaceAloneIsTakenToStayTheSame(t *testing.T) {
	b := round(600, 260, 25, 130, 50, 80)
	b.Faces[1] = Face{}
	s := mustNew(t, b)
	f, note := s.At(1, 4)
	if note.How != Assumed || !f.Guessed || !(note.Uncertain > 0) {
		t.Errorf("note %+v, guessed %v", note, f.Guessed)
	}
	if !reflect.DeepEqual(f.Zones, b.Faces[0].Zones) {
		t.Error("the face is another one")
	}
	f, _ = s.At(2, 0)
	near(t, "the other side", heartWidth(f, 260, 300), 100, 0.02)
}

// A line that goes from 40 to 60 mm from the marked edge through 26 mm lies on a
// circle of radius 90 mm about heartwood beyond it, its centre found from the chord;
// a parabola of the same height lies within 0.12 mm of it.
func TestArcBetweenTheFaces(t *testing.T) {
	b := Board{Length: 1000, Width: 100, Thickness: 26}
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: rect(0, 0, 1000, 40)}}}
	b.Faces[1] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: rect(0, 40, 1000, 100)}}}
	s := mustNew(t, b)
	chord := math.Hypot(20, 26)
	in := math.Sqrt(90*90 - chord*chord/4)
	cy, cz := 50+in*26/chord, 13-in*20/chord
	for _, z := range []float64{1, 3, 13, 22} {
		want := cy - math.Sqrt(90*90-(z-cz)*(z-cz))
		f, _ := s.At(1, z)
		got := sapAt(f, 100, 500)
		if len(got) != 2 {
			t.Fatalf("sap %v", got)
		}
		near(t, "line", got[1], want, 0.12)
		f, _ = s.At(2, 26-z)
		got = sapAt(f, 100, 500)
		near(t, "line from the other side", got[0], 100-want, 0.12)
	}
}

// A line that goes over by 4 mm through 26 stands upright: 6 mm off either face it
// is where that face shows it, half way between in the middle.
func TestUprightLineStays(t *testing.T) {
	for _, line := range []geom.Polygon{rect(0, 0, 1000, 40), {geom.Pt(0, 0), geom.Pt(1000, 0), geom.Pt(1000, 41), geom.Pt(0, 39)}} {
		b := Board{Length: 1000, Width: 100, Thickness: 26}
		b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: line}}}
		b.Faces[1] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: rect(0, 56, 1000, 100)}}}
		for _, pith := range [][]Pith{nil, {{0, 140, 13}}} {
			b.Pith = pith
			s := mustNew(t, b)
			for _, z := range []float64{2, 6} {
				f, note := s.At(1, z)
				near(t, "face 1", sapAt(f, 100, 500)[1], 40, 0.05)
				if !(note.Uncertain > 0) {
					t.Error("no doubt is told")
				}
				f, _ = s.At(2, z)
				near(t, "face 2", sapAt(f, 100, 500)[0], 56, 0.05)
			}
			f, _ := s.At(1, 13)
			near(t, "middle", sapAt(f, 100, 500)[1], 42, 0.4)
		}
	}
}

// A line that goes over by 20 mm and runs off the edge of face 1 half way along is
// beyond that edge there: 12 mm within face 2, it lies 8 mm past the edge of face 1
// and not the 40 that count where nothing is known, 8.5 mm within at 5 mm above
// face 2 but for the bend, which leaves more heart.
func TestLineRunsOffAnEdge(t *testing.T) {
	b := Board{Length: 1000, Width: 100, Thickness: 26}
	// 30 mm of sap within face 2 at one end, 10 at the other: 10 mm of it show on
	// face 1 where it begins, none from the middle on.
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{geom.Pt(0, 0), geom.Pt(500, 0), geom.Pt(0, 10)}}}}
	b.Faces[1] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.Polygon{geom.Pt(0, 70), geom.Pt(1000, 90), geom.Pt(1000, 100), geom.Pt(0, 100)}}}}
	s := mustNew(t, b)
	f, _ := s.At(2, 5)
	got := sapAt(f, 100, 900) // 12 mm of sap on face 2, straight 12 - 20 x 5/26 = 8.15
	if len(got) != 2 {
		t.Fatalf("sap %v", got)
	}
	if w := got[1] - got[0]; w < 8.15-1.2 || w > 8.15 {
		t.Errorf("%.2f mm of sap are left", w)
	}
}

// Where one face shows no line its distance is 40 mm, the most that counts: a
// line 65 mm from the edge of face 1 over a face 2 all heart, 20 mm thick, lies
// at (1 - z/20)(65 - y) = 40 z/20, as far as half the thickness: there 40 mm of
// either kind weigh the same. Over a face all sap, 35 mm of heart are gone at z =
// 20 x 35/75.
func TestOneFaceWithoutALine(t *testing.T) {
	b := Board{Length: 1000, Width: 220, Thickness: 20}
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: rect(0, 0, 1000, 65)}}}
	b.Faces[1] = Face{Known: true}
	s := mustNew(t, b)
	for _, z := range []float64{0.5, 2, 8, 9.9} {
		f, _ := s.At(1, z)
		got := sapAt(f, 220, 500)
		if len(got) != 2 {
			t.Fatalf("%g mm: sap %v", z, got)
		}
		near(t, "line", got[1], 65-40*z/(20-z), 0.011)
	}
	if f, _ := s.At(1, 10.1); len(sapAt(f, 220, 500)) != 0 {
		t.Error("sapwood goes deeper than the rule has it")
	}
	b.Faces[0].Zones[0].Polygon = rect(0, 0, 1000, 185)
	b.Faces[1].Base = face.Sap
	s = mustNew(t, b)
	for _, z := range []float64{2, 8} {
		f, _ := s.At(1, z)
		near(t, "line over sapwood", heartWidth(f, 220, 500), 35-40*z/(20-z), 0.011)
	}
	if f, _ := s.At(1, 20*35.0/75+0.1); heartWidth(f, 220, 500) != 0 {
		t.Error("heartwood goes deeper than the rule has it")
	}
}

// An island that one face has alone: sap 12 mm wide over heart, 20 mm thick.
// (1 - t) d = 40 t: at 1 mm, t 0.05, 2.105 mm in from each side; gone at t =
// 6/46, 2.61 mm.
func TestIslandsNarrow(t *testing.T) {
	b := Board{Length: 1000, Width: 200, Thickness: 20}
	b.Faces[0] = Face{Known: true, Zones: []face.Zone{{Kind: face.Sap, Polygon: rect(300, 60, 700, 72)}}}
	b.Faces[1] = Face{Known: true}
	s := mustNew(t, b)
	f, _ := s.At(1, 1)
	got := sapAt(f, 200, 500)
	if len(got) != 2 {
		t.Fatalf("sap %v", got)
	}
	near(t, "from", got[0], 62.105, 0.011)
	near(t, "to", got[1], 69.895, 0.011)
	if f, _ := s.At(1, 2.7); len(sapAt(f, 200, 500)) != 0 {
		t.Error("the island goes deeper than the rule has it")
	}
}
