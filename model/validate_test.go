package model

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

func TestFixtureKeepsEveryRule(t *testing.T) {
	for _, p := range []*Project{table(), NewProject(), {}} {
		if err := Validate(p); err != nil {
			t.Errorf("%s: %v", p.Name, err)
		}
	}
	wantRule(t, Validate(nil), RuleMissing)
}

// Each case breaks one rule; what is told names the place.
func TestBrokenRules(t *testing.T) {
	board := func(f func(*Board)) func(*Project) { return func(p *Project) { f(p.Boards[0]) } }
	panel := func(f func(*Panel)) func(*Project) { return func(p *Project) { f(p.Panels[0]) } }
	strip := func(f func(*Strip)) func(*Project) { return func(p *Project) { f(&p.Panels[0].Strips[0]) } }
	zone := func(g geom.Polygon) func(*Project) {
		return board(func(b *Board) { b.Faces[0].Zones = append(b.Faces[0].Zones, Zone{Flaw, g}) })
	}
	corners := func(xy ...float64) func(*Project) {
		return board(func(b *Board) { b.Faces[0].Corners = (*[4]geom.Point)(ring(xy...)) })
	}
	set := func(f func(*Set)) func(*Project) { return func(p *Project) { f(&p.Sets[0]) } }
	part := func(f func(*Part)) func(*Project) { return func(p *Project) { f(&p.Parts[0]) } }
	place := func(f func(*PartPlace)) func(*Project) { return func(p *Project) { f(&p.Parts[0].Places[1]) } }
	grain := func(xy ...float64) func(*Project) {
		return board(func(b *Board) { b.Faces[0].Grain = append(b.Faces[0].Grain, ring(xy...)) })
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name  string
		spoil func(*Project)
		rule  Rule
		says  string // part of the message
	}{
		{"no id", board(func(b *Board) { b.ID = " " }), RuleEmptyID, "id"},
		{"odd id", panel(func(n *Panel) { n.ID = "a/b" }), RuleID, `"a/b"`},
		{"long id", strip(func(s *Strip) { s.ID = strings.Repeat("x", 41) }), RuleID, "40"},
		{"id with two spaces", strip(func(s *Strip) { s.ID = "a  b" }), RuleID, "single spaces"},
		{"two boards", func(p *Project) { p.Boards[1].ID = "A" }, RuleDuplicateID, "board A"},
		{"two panels", func(p *Project) { p.Panels[1].ID = "top" }, RuleDuplicateID, "panel top"},
		{"two strips", func(p *Project) { p.Panels[0].Strips[1].ID = "A1" }, RuleDuplicateID, "panel top, strip A1"},
		{"two spares", func(p *Project) { p.Spares = append(p.Spares, p.Spares[0]) }, RuleDuplicateID, "strip B2"},
		{"nil board", func(p *Project) { p.Boards[1] = nil }, RuleMissing, "board"},
		{"nil panel", func(p *Project) { p.Panels[1] = nil }, RuleMissing, "panel"},
		{"unknown board", strip(func(s *Strip) { s.Board = "Q" }), RuleUnknownBoard, "board Q"},
		{"no species", board(func(b *Board) { b.Species = "" }), RuleSpecies, "board A"},
		{"zero length", board(func(b *Board) { b.Length = 0 }), RuleSize, "board A, length"},
		{"negative width", panel(func(n *Panel) { n.Width = -1 }), RuleSize, "panel top, width"},
		{"endless thickness", board(func(b *Board) { b.Thickness = inf }), RuleSize, "thickness"},
		{"20 m", strip(func(s *Strip) { s.L = 20000 }), RuleSize, "strip A1, length"},
		{"no number", strip(func(s *Strip) { s.W = nan }), RuleSize, "NaN"},
		{"place nowhere", strip(func(s *Strip) { s.X = nan }), RulePlace, "strip A1"},
		{"shift", strip(func(s *Strip) { s.Shift = inf }), RulePlace, "strip A1"},
		{"angle -90", strip(func(s *Strip) { s.Angle = -90 }), RuleAngle, "-90"},
		{"angle 91", strip(func(s *Strip) { s.Angle = 91 }), RuleAngle, "91"},
		{"up 0", strip(func(s *Strip) { s.Up = 0 }), RuleUp, "face 0"},
		{"up 3", strip(func(s *Strip) { s.Up = 3 }), RuleUp, "face 3"},
		{"stage", strip(func(s *Strip) { s.Stage = "sanded" }), RuleWord, "sanded"},
		{"two corners", zone(ring(0, 0, 9, 9)), RulePolygon, "face 1, zone 2"},
		{"no area", zone(ring(0, 0, 50, 50, 100, 100)), RulePolygon, "no area"},
		{"bow tie", zone(ring(0, 0, 100, 100, 100, 0, 0, 90)), RulePolygon, "crosses itself"},
		{"endless zone", zone(ring(0, 0, inf, 0, 5, 5)), RulePolygon, "zone 2"},
		{"zone beside", zone(ring(0, 220, 50, 220, 50, 260)), RuleOutsideFace, "face 1, zone 2"},
		{"zone along the edge outside", zone(ring(0, 210, 50, 210, 50, 260)), RuleOutsideFace, "zone 2"},
		{"outline", board(func(b *Board) { b.Faces[1].Outline = ring(0, 0, 1, 1) }), RulePolygon, "face 2, outline"},
		{"zone kind", board(func(b *Board) { b.Faces[0].Zones[0].Kind = "bark" }), RuleWord, "bark"},
		{"base", board(func(b *Board) { b.Faces[0].Base = "x" }), RuleWord, "face 1, base"},
		{"corners clockwise", corners(120, 80, 3900, 95, 3880, 460, 130, 450), RuleCorners, "face 1, corners"},
		{"corners crossed", corners(130, 450, 3900, 95, 3880, 460, 120, 80), RuleCorners, "anticlockwise"},
		{"corners not convex", corners(0, 100, 100, 100, 10, 90, 0, 0), RuleCorners, "corners"},
		{"bow of no lens", board(func(b *Board) { b.Faces[0].Bow = 0.4 }), RulePhotograph, "face 1, bow"},
		{"split by whom", board(func(b *Board) { b.Faces[1].Split = &Split{By: "me"} }), RuleWord, "face 2, split"},
		{"surer than sure", board(func(b *Board) { b.Faces[1].Split = &Split{By: SplitFound, Sure: nan} }), RulePhotograph, "face 2, split"},
		{"no gain", board(func(b *Board) { b.Faces[0].White = &[3]float64{1, 0, 1} }), RulePhotograph, "face 1, white"},
		{"tone", board(func(b *Board) { b.Faces[0].Tones = []Tone{{Kind: Sap, Spread: -1}} }), RulePhotograph, "face 1, tones"},
		{"heart radius", board(func(b *Board) { b.Heart = -1 }), RulePlace, "heart-radius"},
		{"end corners crossed", board(func(b *Board) {
			b.Ends[1].Corners = &[4]geom.Point{{X: 0, Y: 0}, {X: 9, Y: 9}, {X: 9, Y: 0}, {X: 0, Y: 9}}
		}), RuleCorners, "end b"},
		{"moisture", board(func(b *Board) { b.Moisture = 61 }), RuleMoisture, "61"},
		{"bark and pith", board(func(b *Board) { b.Bark = BarkFace1 }), RuleBarkPith, "board A, pith"},
		{"bark and pith above", board(func(b *Board) { b.Pith[0].Depth = 14 }), RuleBarkPith, "disagree"},
		{"wandering pith", board(func(b *Board) { b.Pith = []Pith{{0, true, 100, -60}, {2400, true, 100, 40}} }), RuleBarkPith, "pith, place 2"},
		{"pith list without x", board(func(b *Board) { b.Pith = []Pith{{0, true, 100, -60}, {Across: 100, Depth: -60}} }), RuleMissing, "place 2"},
		{"pith nowhere", board(func(b *Board) { b.Pith[0].Across = nan }), RulePlace, "pith"},
		{"price", board(func(b *Board) { b.Price.Per = "hour" }), RulePrice, "hour"},
		{"negative price", board(func(b *Board) { b.Price.Amount = -1 }), RulePrice, "-1"},
		{"planes", board(func(b *Board) { b.Planes = "up" }), RuleWord, "planes"},
		{"bark", board(func(b *Board) { b.Bark = "3" }), RuleWord, "bark"},
		{"wanted", board(func(b *Board) { b.Wanted = "both sides" }), RuleWord, "wanted"},
		{"log", board(func(b *Board) { b.Log.Name = "" }), RuleWord, "log"},
		{"shape", board(func(b *Board) { b.Shape.Bow = nan }), RulePlace, "shape, bow"},
		{"panel shape", panel(func(n *Panel) { n.Shape = "star" }), RuleWord, "shape"},
		{"polygon without points", panel(func(n *Panel) { n.Shape = Poly }), RulePolygon, "points"},
		{"points beside", panel(func(n *Panel) { n.Shape, n.Points = Poly, ring(-9, 0, -5, 0, -5, 9) }), RuleOutsideFace, "points"},
		{"hidden", panel(func(n *Panel) { n.Hidden = []geom.Polygon{ring(0, 0, 1, 1)} }), RulePolygon, "hidden region 1"},
		{"role", panel(func(n *Panel) { n.Role = "lid" }), RuleWord, "lid"},
		{"look", panel(func(n *Panel) { n.Look = "nice" }), RuleWord, "nice"},
		{"limit", panel(func(n *Panel) { n.UnwantedLimit[1] = 30 }), RuleShare, "unwanted-limit, back"},
		{"stock off", func(p *Project) { p.Panels[0].Strips[3].Off = &[2]float64{13, 13} }, RuleStockOff, "strip B1"},
		{"negative stock", func(p *Project) { p.Panels[0].Strips[3].Off = &[2]float64{-1, 3} }, RuleStockOff, "strip B1"},
		{"sap wider than the strip", func(p *Project) { p.Panels[0].Strips[3].Planed = &PlanedSap{Far: Tape{0, 0, 91}} }, RuleTape, "91"},
		{"sawn nothing", func(p *Project) { p.Panels[0].Strips[2].Stage = Sawn }, RuleEmptyPlace, "strip 3"},
		{"spare without board", func(p *Project) { p.Spares[0].Board = "" }, RuleEmptyPlace, "spares"},
		{"streak", func(p *Project) { p.Limits.Streak = 12 }, RuleShare, "limits, streak"},
		{"mix", func(p *Project) { p.Limits.Mix = [2]float64{0.6, 0.2} }, RuleMixOrder, "limits, mix"},
		{"kerf", func(p *Project) { p.Allowances.Kerf = -3 }, RuleAllowance, "allowances, kerf"},
		{"machine", func(p *Project) { p.Machines.Flatten = nan }, RuleAllowance, "machines, flatten"},
		{"air", func(p *Project) { p.Climate.Wet.RH = 120 }, RuleClimate, "climate, wet"},
		{"units", func(p *Project) { p.Units = "feet" }, RuleWord, "feet"},
		{"joined to nothing", func(p *Project) { p.Joined[0].Panels[1] = "leg" }, RuleUnknownPanel, "panel leg"},
		{"joined to itself", func(p *Project) { p.Joined[0].Panels[1] = "top" }, RuleJoined, "itself"},
		{"joined how", func(p *Project) { p.Joined[0].How = "glued" }, RuleJoined, "glued"},
		{"kept of nothing", func(p *Project) { p.Kept[0].Panel = "leg" }, RuleUnknownPanel, "first"},
		{"kept twice", func(p *Project) { p.Kept = append(p.Kept, p.Kept[0]) }, RuleDuplicateID, "first"},
		{"kept without name", func(p *Project) { p.Kept[0].Name = "" }, RuleEmptyID, "kept"},
		{"kept strip", func(p *Project) { p.Kept[0].Strips[0].Up = 7 }, RuleUp, "strip B1"},
		{"colour of nothing", func(p *Project) { p.Colours[0].Species = "" }, RuleSpecies, "colours, entry 1"},
		{"colour", func(p *Project) { p.Colours[0].Heart = &colour.Lab{L: 140} }, RuleColour, "heart"},
		{"years", func(p *Project) { p.Colours[0].Years = -1 }, RuleColour, "-1"},
		{"set without name", set(func(s *Set) { s.Name = " " }), RuleEmptyID, "sets"},
		{"two sets", func(p *Project) { p.Sets = append(p.Sets, p.Sets[0]) }, RuleDuplicateID, "set case"},
		{"set of one", set(func(s *Set) { s.Panels = s.Panels[:1] }), RuleSet, "set case, panels: a set needs two"},
		{"set of a stranger", set(func(s *Set) { s.Panels[1] = "leg" }), RuleUnknownPanel, "set case, panel leg"},
		{"set of one twice", set(func(s *Set) { s.Panels[1] = "top" }), RuleSet, "panel top, panels: it stands twice"},
		{"gap below 0", set(func(s *Set) { s.Gap = -1 }), RuleGap, "set case, gap"},
		{"gap of a door width", set(func(s *Set) { s.Gap = 100.5 }), RuleGap, "100.5"},
		{"no gap", set(func(s *Set) { s.Gap = nan }), RuleGap, "NaN"},
		{"way", set(func(s *Set) { s.Way = "above" }), RuleWord, "set case, way"},
		{"match", set(func(s *Set) { s.Match = "book" }), RuleWord, "set case, match"},
		{"part without id", part(func(n *Part) { n.ID = "" }), RuleEmptyID, "id"},
		{"odd part", part(func(n *Part) { n.ID = "leg/1" }), RuleID, "part leg/1"},
		{"two parts", func(p *Project) { p.Parts = append(p.Parts, NewPart("leg", Leg, 1, 9, 9, 9)) }, RuleDuplicateID, "part leg: two parts"},
		{"part called as a panel", part(func(n *Part) { n.ID = "side" }), RuleDuplicateID, "part side: a panel"},
		{"kind", part(func(n *Part) { n.Kind = "arm" }), RuleWord, "part leg, kind"},
		{"no part", part(func(n *Part) { n.Count = 0 }), RuleCount, "part leg, count"},
		{"too many", part(func(n *Part) { n.Count = 1001 }), RuleCount, "1001"},
		{"part length", part(func(n *Part) { n.Length = 0 }), RuleSize, "part leg, length"},
		{"part width", part(func(n *Part) { n.Width = nan }), RuleSize, "part leg, width"},
		{"part thickness", part(func(n *Part) { n.Thickness = -4 }), RuleSize, "part leg, thickness"},
		{"part wanted", part(func(n *Part) { n.Wanted = "bark" }), RuleWord, "part leg, wanted"},
		{"cutting of no board", place(func(k *PartPlace) { k.Board = "" }), RuleMissing, "cutting 2"},
		{"cutting of an unknown board", place(func(k *PartPlace) { k.Board = "Q" }), RuleUnknownBoard, "part leg, board Q, cutting 2"},
		{"cutting of no length", place(func(k *PartPlace) { k.L = 0 }), RuleSize, "cutting 2, length"},
		{"cutting of no width", place(func(k *PartPlace) { k.W = inf }), RuleSize, "cutting 2, width"},
		{"cutting nowhere", place(func(k *PartPlace) { k.Y = nan }), RulePlace, "cutting 2"},
		{"cutting too steep", place(func(k *PartPlace) { k.Angle = -90 }), RuleAngle, "cutting 2, angle"},
		{"cutting stage", place(func(k *PartPlace) { k.Stage = "sanded" }), RuleWord, "cutting 2, stage"},
		{"grain of a point", grain(50, 50), RuleGrain, "face 1, grain line 2"},
		{"grain on the spot", grain(50, 50, 50, 50), RuleGrain, "no length"},
		{"endless grain", grain(50, 50, inf, 50), RuleGrain, "place within"},
		{"grain beside", grain(0, 220, 2400, 230), RuleOutsideFace, "face 1, grain line 2"},
		{"grain past a corner", grain(-40, 20, 20, -40), RuleOutsideFace, "grain line 2"},
		{"rings", panel(func(n *Panel) { n.Rings = "up" }), RuleWord, "panel top, rings"},
		{"no colour", func(p *Project) { p.Colours[0].Heart = nil }, RuleColour, "neither"},
	} {
		p := table()
		c.spoil(p)
		err := Validate(p)
		if err == nil {
			t.Errorf("%s: let pass", c.name)
			continue
		}
		r := wantRule(t, err, c.rule)
		if !strings.Contains(r.Error(), c.says) {
			t.Errorf("%s: %q does not say %q", c.name, r.Error(), c.says)
		}
		if r.Rule != RuleMissing && r.Rule != RuleWord && r.Rule.Hint() == "" {
			t.Errorf("%s: no word on what to do", c.name)
		}
	}
}

func TestTheFileExamplesOfCornersAndPith(t *testing.T) {
	// A picture of a whole board, marked end left, marked edge at the bottom;
	// rows of pixels are counted downwards.
	if !goodCorners([4]geom.Point{{X: 130, Y: 450}, {X: 3880, Y: 460}, {X: 3900, Y: 95}, {X: 120, Y: 80}}) {
		t.Error("corners anticlockwise as seen are refused")
	}
	for _, c := range []struct {
		bark  Bark
		depth float64
		ok    bool
	}{ // thickness 26: the pith 60 beyond face 1 makes face 2 the bark side
		{BarkFace2, -60, true}, {BarkFace1, -60, false}, {BarkFace1, 86, true}, {BarkFace2, 86, false},
		{BarkFace1, 13, true}, {BarkFace2, 13, true}, {BarkNone, -60, true}, {BarkUnknown, 86, true},
	} {
		p := table()
		p.Boards[0].Bark, p.Boards[0].Pith = c.bark, []Pith{{Across: 100, Depth: c.depth}}
		if err := Validate(p); (err == nil) != c.ok {
			t.Errorf("bark %q, pith at depth %g: %v", c.bark, c.depth, err)
		}
	}
}

func TestAllowedIDs(t *testing.T) {
	for id, ok := range map[string]bool{
		"A": true, "AA": true, "A1": true, "top": true, "drawer-front-3": true, "Walnut 12.b": true, "é_2": true, "7": true,
		"": false, " A": false, "A ": false, "-A": false, "A\n": false, "A:1": false, "a\tb": false, "..": false,
	} {
		if goodID(id) != ok {
			t.Errorf("%q: %v", id, !ok)
		}
	}
}

func TestSeveralFaultsAreToldTogether(t *testing.T) {
	p := table()
	p.Boards[0].Length, p.Panels[0].Strips[0].Up, p.Limits.Streak = -1, 9, 9
	err := Validate(p)
	wantRule(t, err, RuleSize)
	wantRule(t, err, RuleUp)
	wantRule(t, err, RuleShare)
	if n := len(unjoin(err)); n != 3 {
		t.Errorf("%d faults: %v", n, err)
	}
}

// What Apply does not look at again is what it was shown before.
func TestApplyChecksWhatChanged(t *testing.T) {
	p := table()
	_, err := Apply(p, AddStrip{"side", Strip{ID: "9", Board: "Q", L: 10, W: 10, Up: 1}, 0})
	wantRule(t, err, RuleUnknownBoard)
	_, err = Apply(p, SetZones{"A", 1, []Zone{{Sap, ring(0, 0, 1, 1)}}, ""})
	wantRule(t, err, RulePolygon)
	// A thinner board leaves nothing of a strip that itself did not change.
	b := *p.Board("B")
	b.Thickness = 2.5
	_, err = Apply(p, SetBoard{&b})
	if r := wantRule(t, err, RuleStockOff); r.Strip != "B1" {
		t.Errorf("%+v", r)
	}
}

func TestProblemsDoNotBlock(t *testing.T) {
	if list := Problems(table()); len(list) != 0 {
		t.Errorf("%v", list)
	}
	p := table()
	p.Boards[1].Wanted = WantSap
	if err := Validate(p); err != nil {
		t.Fatal(err)
	}
	list := Problems(p)
	if len(list) != 1 || list[0].Rule != RuleWanted || list[0].Panel != "top" {
		t.Fatalf("%v", list)
	}
	if w := DefaultWanted(p, p.Panels[0]); w != WantDefault {
		t.Errorf("not stated, and yet %q", w)
	}
	p.Panels[0].Wanted = WantBoth
	if list := Problems(p); len(list) != 0 {
		t.Errorf("stated, and yet %v", list)
	}
	p = table()
	p.Climate.Dry, p.Climate.Wet = p.Climate.Wet, p.Climate.Dry
	p.Panels[1].Strips = []Strip{{ID: "A1", Board: "A", X: 40, Y: 120, L: 700, W: 60, Up: 1}}
	list = Problems(p)
	if len(list) != 2 || list[0].Rule != RuleSameNumber || list[0].Panel != "side" || list[1].Rule != RuleSeason {
		t.Errorf("%v", list)
	}
}

func TestDefaultWanted(t *testing.T) {
	p := table()
	for _, b := range p.Boards {
		b.Wanted = WantSap
	}
	if w := DefaultWanted(p, p.Panels[0]); w != WantSap {
		t.Errorf("both boards want sap, the panel %q", w)
	}
	if w := DefaultWanted(p, p.Panels[1]); w != WantHeart {
		t.Errorf("an empty panel wants %q", w)
	}
	p.Panels[0].Wanted = WantHeart
	if w := DefaultWanted(p, p.Panels[0]); w != WantHeart {
		t.Errorf("the panel says heart, read %q", w)
	}
}

// A drawer front stands: the edge at Y = 0 is drawn lowest, so it is the bottom.
func TestEdgesAreNamedAsTheyStand(t *testing.T) {
	for i, want := range [4]string{"bottom", "top", "left", "right"} {
		if got := RoleDrawerFront.Sides()[i].Word; got != want {
			t.Errorf("side %d is called %s, want %s", i, got, want)
		}
	}
}

func TestZeroValues(t *testing.T) {
	var s Strip
	if !s.Empty() || s.Cut() || s.MeasuredAsShown() || PlanedZones(s) != nil {
		t.Error("a zero strip is an empty place, planned")
	}
	var n Panel
	if n.StripsWidth() != 0 || n.StripIndex("x") != -1 {
		t.Error("a zero panel has no strips")
	}
	if got := Role("").Sides(); got != RoleOther.Sides() || got[1].The != "the back edge" {
		t.Errorf("%v", got)
	}
	var p Project
	if p.Board("A") != nil || p.Panel("top") != nil || NextBoardID(&p) != "A" || NextStripID(&p) != "1" || Problems(&p) != nil || Problems(nil) != nil {
		t.Error("a zero project is empty")
	}
	if e := (RuleError{}).Error(); e != "" {
		t.Errorf("%q", e)
	}
	if !reflect.DeepEqual(cloneFace(Face{}), Face{}) {
		t.Error("copying an unknown face makes it known")
	}
}
