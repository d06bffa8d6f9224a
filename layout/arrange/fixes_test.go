package arrange

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
)

// first checks the first fix: one step of a kind on a strip.
func first(t *testing.T, list []Fix, kind Kind, strip string, cost Cost) Fix {
	t.Helper()
	if len(list) == 0 {
		t.Fatal("no fix")
	}
	x := list[0]
	if len(x.Steps) != 1 || x.Kind != kind || x.Steps[0].Strips[0] != strip || x.Cost != cost {
		t.Fatalf("first fix %v %v, want %s of %s, %v", x.Steps, x.Cost, kind, strip, cost)
	}
	return x
}

// Strip 3 is light along its front edge, 24 wide, and strip 4 along its own
// front edge, 26 wide: two streaks. Turned end for end, strip 3 has its light
// edge at the back, where strip 4's begins: one band of 50 over the joint, and
// 50 of the 370 mm of the width are light.
func TestTurningLetsLightEdgesMeet(t *testing.T) {
	p := laid(4)
	edgeSap(p, 2, 1, 24)
	edgeSap(p, 3, 1, 26)
	edgeSap(p, 2, 2, 60) // rolled over it would be worse
	x := first(t, fixes(t, p, face.LoneStreak, "s3"), Turn, "s3", Free)
	if x.How != face.ExcuseJoint || !reflect.DeepEqual(x.Meets, []string{"s4"}) || x.Partner {
		t.Errorf("how %q meets %v partner %v, want a joint with s4", x.How, x.Meets, x.Partner)
	}
	layouttest.Near(t, "light share", x.After.Light, 50.0/370, 1e-9)
	layouttest.Near(t, "unwanted share", x.After.Unwanted, 50.0/370, 1e-9)
	if x.After.LoneStreaks != 0 || len(x.Makes) != 0 {
		t.Errorf("after %+v makes %v", x.After, x.Makes)
	}
	want := slices.Clone(p.Strips)
	want[2].Turned = true
	if !reflect.DeepEqual(x.Panel, want) || x.Spares != nil {
		t.Errorf("strips %+v, want only strip 3 turned", x.Panel)
	}
}

// The same drawing with wood and colours exchanged: sap is wanted, and brown
// heart is drawn on it.
func TestTurningLetsDarkEdgesMeet(t *testing.T) {
	p := laid(4)
	p.Wanted = face.WantSap
	for i := range p.Strips {
		for f := range p.Strips[i].Board.Faces {
			p.Strips[i].Board.Faces[f].Base = face.Sap
		}
	}
	draw(p.Strips[2].Board, 1, face.Heart, 0, 0, 980, 4.5+24)
	draw(p.Strips[3].Board, 1, face.Heart, 0, 0, 980, 4.5+26)
	draw(p.Strips[2].Board, 2, face.Heart, 0, 0, 980, 4.5+60)
	x := first(t, fixes(t, p, face.LoneStreak, "s3"), Turn, "s3", Free)
	if x.How != face.ExcuseJoint || !reflect.DeepEqual(x.Meets, []string{"s4"}) {
		t.Errorf("how %q meets %v, want a joint with s4", x.How, x.Meets)
	}
	layouttest.Near(t, "light share", x.After.Light, 320.0/370, 1e-9)
	layouttest.Near(t, "unwanted share", x.After.Unwanted, 50.0/370, 1e-9)
}

// A streak in the middle of strip 1 and another in strip 4 that lies beside
// its mirror image: turned, strip 4 has it opposite. Strip 1 is pinned.
func TestAnotherStripMirrors(t *testing.T) {
	p := laid(4)
	for f := 1; f <= 2; f++ {
		draw(p.Strips[0].Board, f, face.Sap, 0, 4.5+20, 980, 4.5+40)
		// Face 1 of strip 4 not turned: 20 to 40 behind its front edge. Its
		// mirror image would be 20 to 40 before its back edge.
		draw(p.Strips[3].Board, f, face.Sap, 0, 4.5+20, 980, 4.5+40)
	}
	p.Strips[0].Pinned = true
	list := fixes(t, p, face.LoneStreak, "s1")
	x := first(t, list, Turn, "s4", Free)
	if !x.Partner || x.How != face.ExcuseMirror || !reflect.DeepEqual(x.Meets, []string{"s4"}) {
		t.Errorf("%+v, want s4 as a partner that mirrors", x)
	}
	for _, x := range list {
		if x.Panel[0] != p.Strips[0] {
			t.Errorf("%v touches the pinned strip", x.Steps)
		}
	}
}

// A sliver of 2.5 mm along the near edge, on a board with 20 mm to spare:
// moved 3 mm across, none is left. Rolled over the strip would show worse. At
// the front of the panel it would be trimmed off, so its neighbours are pinned.
func TestSliverIsRippedOff(t *testing.T) {
	p := laid(3)
	b := walnut("B2", 980, 124)
	draw(b, 1, face.Sap, 0, 0, 980, 4.5+2.5)
	draw(b, 2, face.Sap, 0, 0, 980, 60)
	p.Strips[1].Board = b
	p.Strips[0].Pinned, p.Strips[2].Pinned = true, true
	x := first(t, fixes(t, p, face.SliverKind, "s2"), MoveAcross, "s2", ReCut)
	layouttest.Near(t, "moved by", x.Steps[0].By, 3, 1e-9)
	layouttest.Near(t, "y", x.Panel[1].Y, 7.5, 1e-9)
	layouttest.Near(t, "light share", x.After.Light, 0, 1e-12)
}

// A knot on both faces 1 to 7 mm inside the left end of the panel. The strip
// is 30 longer than the panel: slid 15 to the left, the knot is trimmed off.
func TestKnotIsSlidIntoTheWaste(t *testing.T) {
	p := laid(3)
	for f := 1; f <= 2; f++ {
		draw(p.Strips[1].Board, f, face.Flaw, 25+16, 40, 25+22, 52)
	}
	x := first(t, fixes(t, p, face.FlawOnShow, "s2"), Shift, "s2", Free)
	layouttest.Near(t, "shift", x.Panel[1].Shift, -15, 1e-9)
}

// A knot in the middle of a strip on a board 1200 long: 515 to 535 of the
// strip along, 40 to 52 across. Nothing but another place on the board helps.
func TestKnotIsLeftOnTheBoard(t *testing.T) {
	p := laid(3)
	b := walnut("B2", 2100, 104)
	for f := 1; f <= 2; f++ {
		draw(b, f, face.Flaw, 540, 44.5, 560, 56.5)
	}
	p.Strips[1].Board = b
	x := first(t, fixes(t, p, face.FlawOnShow, "s2"), MoveAlong, "s2", ReCut)
	// The panel's end lies 15 into the strip: at 560 + 0.5 from the marked end
	// or farther the knot is trimmed off.
	if x.Panel[1].X+15 < 560 {
		t.Errorf("strip begins at %g: the knot still shows", x.Panel[1].X)
	}
}

// Two blanks of one board 1 mm apart where 3 are needed: 2 more, away from
// each other. Only one of them has room.
func TestOverlapIsPushedApart(t *testing.T) {
	p := laid(2)
	b := walnut("B1", 980, 230)
	p.Strips[0].Board, p.Strips[1].Board = b, b
	p.Strips[1].Y = 4.5 + 104 + 1
	w := warned(t, p, face.PartsOverlap, "s1")
	layouttest.Near(t, "needed", w.Measure, 2, 1e-9)
	x := first(t, fixes(t, p, face.PartsOverlap, "s1"), MoveAcross, "s2", ReCut)
	layouttest.Near(t, "moved by", x.Steps[0].By, 2, 1e-9)
}

// A blank 5 mm over the marked end of a board 980 + 20 long.
func TestBlankIsPulledOntoItsBoard(t *testing.T) {
	p := laid(2)
	p.Strips[0].Board, p.Strips[0].X = walnut("B1", 1000, 104), 20
	x := first(t, fixes(t, p, face.OutsideBoard, "s1"), MoveAlong, "s1", ReCut)
	layouttest.Near(t, "x", x.Panel[0].X, 25, 1e-9)
}

// The strips make 4 mm less than the panel with 5 at each edge, and strip 2
// has 20 mm to spare on its board.
func TestPanelTooNarrow(t *testing.T) {
	p := laid(2)
	p.Width += 4
	p.Strips[1].Board = walnut("B2", 980, 124)
	x := first(t, fixes(t, p, face.PanelTooSmall, ""), Widen, "s2", ReCut)
	layouttest.Near(t, "width", x.Panel[1].W, 99, 1e-9)
	layouttest.Near(t, "together", applied(p, x).StripsWidth(), 194, 1e-9)
}

// A strip slid so far that it misses the panel's end slides back.
func TestStripTooShortSlidesBack(t *testing.T) {
	p := laid(2)
	p.Strips[0].Shift = 20 // 15 is as much as its length allows
	x := first(t, fixes(t, p, face.PanelTooSmall, "s1"), Shift, "s1", Free)
	if s := x.Panel[0].Shift; math.Abs(s) > 15 {
		t.Errorf("shift %g", s)
	}
	// A strip that is too short is cut longer: 890 for a panel of 900 misses
	// 5 at each end.
	p = laid(2)
	p.Strips[0].L = 890
	x = first(t, fixes(t, p, face.PanelTooSmall, "s1"), Lengthen, "s1", ReCut)
	layouttest.Near(t, "length", x.Panel[0].L, 900, 1e-9)
}

// Of three strips that plane from the marked end one lies turned. No wood
// shows a difference, so turning it back mends it.
func TestPlanesBackwards(t *testing.T) {
	p := laid(3)
	for i := range p.Strips {
		p.Strips[i].Board.Planes = face.PlanesFromMarked
	}
	p.Strips[1].Turned = true
	first(t, fixes(t, p, face.PlanesBackwards, "s2"), Turn, "s2", Free)
}

// A quarter of the show face is light where a tenth is allowed; the other face
// of that strip is clear.
func TestOverLimitIsRolledOver(t *testing.T) {
	p := laid(4)
	p.Limit = [2]float64{0.10, 1}
	draw(p.Strips[1].Board, 1, face.Sap, 0, 0, 980, 104)
	x := first(t, fixes(t, p, face.OverLimit, ""), RollOver, "s2", Free)
	layouttest.Near(t, "unwanted share", x.After.Unwanted, 0, 1e-12)
}

// Light along the front edge of the panel only, on both faces of the strip;
// the last strip is light along its front edge and, turned, along the back
// edge of the panel.
func TestOneSidedEdgeIsAnswered(t *testing.T) {
	p := laid(4)
	for f := 1; f <= 2; f++ {
		edgeSap(p, 0, f, 35)
		edgeSap(p, 3, f, 35)
	}
	p.Strips[0].Pinned = true
	x := first(t, fixes(t, p, face.OneSidedEdge, "s1"), Turn, "s4", Free)
	if !x.Partner {
		t.Error("s4 answers s1")
	}
}

// Sawn strips with a streak inside both faces: no order and no side of them
// ends it, but a clear spare does.
func TestSpareIsTaken(t *testing.T) {
	p := laid(3)
	for f := 1; f <= 2; f++ {
		draw(p.Strips[0].Board, f, face.Sap, 0, 4.5+30, 980, 4.5+42)
	}
	for i := range p.Strips {
		p.Strips[i].Stage = face.Sawn
	}
	spare := face.Strip{ID: "x", Board: walnut("X", 980, 104), X: 25, Y: 4.5, L: 930, W: 95, Up: 1, Stage: face.Sawn}
	w := warned(t, p, face.LoneStreak, "s1")
	list := Fixes(context.Background(), nil, p, []face.Strip{spare}, w, options)
	var x *Fix
	for i := range list {
		if list[i].Kind == TakeSpare {
			x = &list[i]
			break
		}
	}
	if x == nil {
		t.Fatalf("fixes %v, want the spare among them", list)
	}
	if x.Cost != CostsWood || x.Panel[0].ID != "x" || !reflect.DeepEqual(x.Steps[0].Strips, []string{"s1", "x"}) {
		t.Errorf("%+v", x)
	}
	if len(x.Spares) != 1 || x.Spares[0] != p.Strips[0] {
		t.Errorf("spares %v, want the strip that was replaced", x.Spares)
	}
}

func TestStagesAreRespected(t *testing.T) {
	for stage := face.Planned; stage <= face.Glued; stage++ {
		n := 0
		for seed := uint64(0); seed < 6; seed++ {
			p := random(4, seed)
			for i := range p.Strips {
				p.Strips[i].Stage = stage
			}
			for _, f := range All(context.Background(), nil, p, nil, options) {
				for _, x := range f.Fixes {
					n++
					checkStage(t, p, &x, stage)
				}
			}
		}
		if (n == 0) != (stage == face.Glued) {
			t.Errorf("stage %d: %d fixes", stage, n)
		}
	}
}

func checkStage(t *testing.T, p *face.Panel, x *Fix, stage face.Stage) {
	t.Helper()
	for _, s := range x.Panel {
		old := p.Strips[slices.IndexFunc(p.Strips, func(o face.Strip) bool { return o.ID == s.ID })]
		here, there := geom.Pt(s.X, s.Y), geom.Pt(old.X, old.Y)
		if stage >= face.Sawn && s.W == old.W && (here != there || s.L != old.L) {
			t.Errorf("stage %d: %v moves strip %s on its board", stage, x.Steps, s.ID)
		}
		if stage >= face.Sawn && s.W > old.W {
			t.Errorf("stage %d: %v widens strip %s", stage, x.Steps, s.ID)
		}
		if stage >= face.Jointed && s.W != old.W {
			t.Errorf("stage %d: %v narrows strip %s", stage, x.Steps, s.ID)
		}
	}
	if stage == face.Jointed && x.Cost < ReJoint && x.Kind != Shift {
		t.Errorf("jointed strips: %v is called %v", x.Steps, x.Cost)
	}
}

func TestPinnedStripsStay(t *testing.T) {
	for seed := uint64(0); seed < 8; seed++ {
		p := random(5, seed)
		for i := range p.Strips {
			p.Strips[i].Pinned = (seed+uint64(i))%2 == 0
		}
		for _, f := range All(context.Background(), nil, p, nil, options) {
			for _, x := range f.Fixes {
				for i, s := range p.Strips {
					if s.Pinned && x.Panel[i] != s {
						t.Errorf("seed %d: %v changes or moves pinned strip %s", seed, x.Steps, s.ID)
					}
				}
			}
		}
	}
}

func TestRollingOverLeavesWhatWasMeasured(t *testing.T) {
	p := laid(3)
	edgeSap(p, 1, 1, 30)
	p.Strips[1].Stage = face.Planed
	p.Strips[1].Planed = &face.PlanedFace{Zones: []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 30, 930, 45).Polygon()}}}
	rolled := false
	for _, x := range fixes(t, p, face.LoneStreak, "s2") {
		if x.Kind == RollOver {
			rolled = true
			if x.Panel[1].Planed != nil {
				t.Error("what was measured on one face is taken for the other")
			}
		}
	}
	if !rolled {
		t.Error("the clear other face is not offered")
	}
}

func TestNoFixWithoutTheWarning(t *testing.T) {
	p := laid(3)
	if got := Fixes(context.Background(), nil, p, nil, face.Warning{Kind: face.LoneStreak, Strips: []string{"s1"}}, options); got != nil {
		t.Errorf("a clear panel: %v", got)
	}
	if got := All(context.Background(), nil, &face.Panel{ID: "none"}, nil, options); got != nil {
		t.Errorf("an empty panel: %v", got)
	}
}

func TestCalledOff(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	for _, f := range All(ctx, nil, random(6, 1), nil, options) {
		if len(f.Fixes) != 0 {
			t.Errorf("%v found after the search was called off", f.Fixes)
		}
	}
}

func TestSameAnswerEveryTime(t *testing.T) {
	r := face.NewReader()
	for seed := uint64(0); seed < 6; seed++ {
		p := random(6, seed)
		want := All(context.Background(), nil, p, nil, options)
		if got := All(context.Background(), nil, p, nil, options); !reflect.DeepEqual(got, want) {
			t.Errorf("seed %d: another answer the second time", seed)
		}
		// A reader that has read other panels gives the same.
		if got := All(context.Background(), r, p, nil, options); !reflect.DeepEqual(got, want) {
			t.Errorf("seed %d: another answer from a used reader", seed)
		}
	}
}
