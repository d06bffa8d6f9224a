package model

import (
	"reflect"
	"strings"
	"testing"

	"heartside/layout/colour"
	"heartside/layout/geom"
)

// allEdits holds each edit once, as it may be applied to table.
func allEdits() []Edit {
	p := table()
	c := NewBoard("C", "cherry-black", 2000, 180, 25)
	b := *p.Board("B")
	b.Moisture = 9
	top := *p.Panel("top")
	top.Width = 455
	place := NewPlace("5", 930, 80)
	wide := top.Strips[0]
	wide.W = 96
	return []Edit{
		SetSettings{Settings{"Hall table 2", "inch", "GBP", Climate{Now: Air{RH: 50, Temp: 20}, Dry: Air{RH: 25, Temp: 21}, Wet: Air{RH: 70, Temp: 23, MC: 13}},
			Limits{Streak: 0.2, Mix: [2]float64{0.3, 0.5}, Cup: 6, Apart: 3, Planed: 4, Turns: 3}, Allowances{Kerf: 2}, Machines{Flatten: 250}, Behaviour{SapFactor: 1.1, FaceDifference: 2}}},
		SetClear{&ClearStock{Price: &Price{16.25, "board-foot"}, Loss: 0.25, Thickness: 26}},
		SetJoined{nil},
		SetColours{[]Colours{{"cherry-black", 0, nil, &colour.Lab{L: 80, A: 4, B: 20}}}},
		AddBoard{c},
		SetBoard{&b},
		RenameBoard{"A", "H"},
		RemoveBoard{"B"},
		SetFace{"B", 1, Face{Base: Sap}},
		SetBoards{[]*Board{NewBoard("A", "teak", 2400, 210, 26), NewBoard("B", "teak", 2400, 180, 26)}, "x"},
		AddBoards{[]*Board{NewBoard("Y", "teak", 900, 100, 25), NewBoard("Z", "teak", 900, 100, 25)}},
		SetZones{"A", 2, []Zone{{Flaw, ring(10, 10, 50, 10, 50, 60)}}, "Draw a flaw"},
		AddPanel{NewPanel("door", RoleDoor, 600, 400, 20)},
		SetPanel{&top},
		RenamePanel{"top", "leaf"},
		RemovePanel{"top"},
		NameFront{"top"},
		SetStrips{"top", top.Strips[:3], nil, ""},
		PlaceStrip{"top", "3", "A", 1100, 110, 2},
		LiftStrip{"top", "A1"},
		SetStrip{"top", wide, "Widen"},
		FlipStrip{"top", "A1"},
		TurnStrip{"top", "A1"},
		ShiftStrip{"top", "A1", 12},
		PinStrip{"top", "A1", true},
		SetStage{"top", "A1", Sawn},
		SetPlaned{"top", "A1", &PlanedSap{Near: Tape{10, 12, 14}}},
		SwapStrips{"top", "A1", "3"},
		MoveStrip{"top", "A1", 2},
		AddStrip{"top", place, 1},
		RemoveStrip{"top", "3"},
		ToSpares{"top", "A1"},
		FromSpares{"B2", "side", -1},
		RemoveSpare{"B2"},
		Keep{Panel: "top", Name: "second"},
		DropKept{"top", "first"},
		UseKept{"top", "first"},
		KeepAll{{Panel: "top", Name: "both"}, {Panel: "side", Name: "both"}},
		DropAllKept{{"top", "first"}},
		SpoilBoard{"B", true},
		CutEnd{"A", 1, 60},
		SetGrain{"B", 2, [][]geom.Point{ring(0, 20, 900, 25)}, ""},
		PutSet{"", NewSet("pair", "side", "top")},
		DropSet{"case"},
		PutPart{"", NewPart("rail", Rail, 2, 600, 80, 20)},
		PlacePart{"leg", []PartPlace{{Board: "A", X: 50, Y: 20, L: 740, W: 56}}, ""},
		DropPart{"leg"},
		SetRecord{[]FinishStep{{What: "dye", Wood: Sap}}, ""},
		SetYard{Species: "cherry-black", Wanted: WantHeart},
		PutOffer{Offer: Offer{Board: NewBoard("E", "walnut-black", 2000, 150, 26)}},
		SayOffers{[]string{"Y1"}, OfferLeave},
		DropOffer{"Y1"},
		TakeOffers{[]string{"Y1"}},
		SetPlan{Panels: []PlanPanel{{"side", []Strip{NewPlace("1", 700, 90)}}}, Parts: []PlanPart{{"leg", nil}}, Verb: "Plan"},
	}
}

func TestAllEditsAreListed(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range allEdits() {
		name := reflect.TypeOf(e).Name()
		if seen[name] {
			t.Errorf("%s stands twice", name)
		}
		seen[name] = true
	}
	if len(seen) != 54 {
		t.Errorf("%d edits listed; a new edit belongs into the list", len(seen))
	}
}

func TestEveryEditAppliesAndIsTakenBack(t *testing.T) {
	for _, e := range allEdits() {
		t.Run(reflect.TypeOf(e).Name(), func(t *testing.T) {
			p, untouched := table(), table()
			h := NewHistory(p)
			if err := h.Commit(e); err != nil {
				t.Fatal(err)
			}
			if h.Current() == p {
				t.Fatal("nothing changed")
			}
			if !reflect.DeepEqual(p, untouched) {
				t.Error("the project it was applied to has changed")
			}
			if err := Validate(h.Current()); err != nil {
				t.Errorf("the result breaks a rule: %v", err)
			}
			if l := e.Label(); strings.TrimSpace(l) == "" || l != h.UndoLabel() {
				t.Errorf("label %q, in the menu %q", l, h.UndoLabel())
			}
			after := h.Current()
			if !h.Undo() || h.Current() != p {
				t.Error("undo does not give the very same project")
			}
			if !h.Redo() || h.Current() != after {
				t.Error("redo does not give the very same project")
			}
		})
	}
}

func TestEveryEditSurvivesAnEmptyProject(t *testing.T) {
	for _, p := range []*Project{NewProject(), {}} {
		for _, e := range allEdits() {
			q, err := Apply(p, e)
			if (q == nil) == (err == nil) {
				t.Errorf("%s: project %v, error %v", e.Label(), q, err)
			}
			if err != nil && err.Error() == "" {
				t.Errorf("%s: an error without words", e.Label())
			}
		}
	}
	if _, err := Apply(nil, NameFront{"top"}); err == nil {
		t.Error("no project is edited")
	}
	if _, err := Apply(NewProject(), nil); err == nil {
		t.Error("no edit is applied")
	}
	for _, e := range []Edit{AddBoard{}, SetBoard{}, AddPanel{}, SetPanel{}} {
		_, err := Apply(table(), e)
		wantRule(t, err, RuleMissing)
	}
}

// The same result asked for twice is no second change.
func TestSameAgainChangesNothing(t *testing.T) {
	for _, e := range allEdits() {
		switch e.(type) {
		case FlipStrip, TurnStrip, SwapStrips, // the other way round again
			AddBoard, AddBoards, AddPanel, AddStrip, ToSpares, FromSpares, RemoveSpare,
			RemoveBoard, RemovePanel, RemoveStrip, RenameBoard, RenamePanel, DropKept, DropAllKept, DropSet, DropPart,
			PutOffer, DropOffer, TakeOffers: // not there, or there twice
			continue
		}
		q := must(t, table(), e)
		if r := must(t, q, e); r != q {
			t.Errorf("%s: the same again makes another project", e.Label())
		}
	}
}

func TestLabels(t *testing.T) {
	for want, e := range map[string]Edit{
		"Roll strip A1 over":             FlipStrip{"top", "A1"},
		"Turn strip A1 end for end":      TurnStrip{"top", "A1"},
		"Swap strips A1 and B2":          SwapStrips{"top", "A1", "B2"},
		"Place strip 3 on board A":       PlaceStrip{Strip: "3", Board: "A"},
		"Draw a sap zone on board A":     SetZones{Board: "A", Verb: "Draw a sap zone"},
		"Change zones on board A":        SetZones{Board: "A"},
		"Narrow strip A1":                SetStrip{Strip: Strip{ID: "A1"}, Verb: "Narrow"},
		"Arrange strips of panel top":    SetStrips{Panel: "top"},
		"Propose strips":                 SetStrips{Panel: "top", Verb: "Propose strips"},
		"Mark strip A1 planned":          SetStage{Strip: "A1"},
		"Forget measured sap of strip 4": SetPlaned{Strip: "4"},
		"Add board ":                     AddBoard{},
		"Mark board B spoiled":           SpoilBoard{"B", true},
		"Mark board B sound":             SpoilBoard{"B", false},
		"Draw grain on board A":          SetGrain{Board: "A", Verb: "Draw grain"},
		"Change set case":                PutSet{"case", Set{Name: "case"}},
		"Rename set case to pair":        PutSet{"case", Set{Name: "pair"}},
		"Change part leg":                PutPart{"", Part{ID: "leg"}},
		"Rename part leg to foot":        PutPart{"leg", Part{ID: "foot"}},
		"Lay out part leg":               PlacePart{Part: "leg"},
		"Keep board G":                   SayOffers{[]string{"G"}, OfferKeep},
		"Leave open board G":             SayOffers{[]string{"G"}, OfferOpen},
		"Take boards into the rack":      TakeOffers{[]string{"G", "H"}},
		"Lay out the boards":             SetPlan{},
		"Share out the boards":           SetPlan{Verb: "Share out the boards"},
	} {
		if e.Label() != want {
			t.Errorf("label %q, want %q", e.Label(), want)
		}
	}
}

func TestUntouchedPartsKeepTheirPointers(t *testing.T) {
	p := table()
	for _, c := range []struct {
		e             Edit
		boards, sheet string // ids that may change
	}{
		{FlipStrip{"top", "A1"}, "", "top"},
		{SetZones{"A", 1, nil, ""}, "A", ""},
		{SetSettings{Settings{Name: "x", Units: "mm"}}, "", ""},
		{RenameBoard{"B", "K"}, "B", "top"},
		{Keep{Panel: "side", Name: "k"}, "", ""},
		{ToSpares{"top", "B1"}, "", "top"},
	} {
		q := must(t, p, c.e)
		for i, b := range p.Boards {
			if (q.Boards[i] == b) == (b.ID == c.boards) {
				t.Errorf("%s: board %s shared: %v", c.e.Label(), b.ID, q.Boards[i] == b)
			}
		}
		for i, n := range p.Panels {
			if (q.Panels[i] == n) == (n.ID == c.sheet) {
				t.Errorf("%s: panel %s shared: %v", c.e.Label(), n.ID, q.Panels[i] == n)
			}
		}
	}
}

// A caller may go on with what it handed in.
func TestEditsCopyWhatTheyAreGiven(t *testing.T) {
	z := []Zone{{Sap, ring(0, 0, 100, 0, 100, 20)}}
	q := must(t, table(), SetZones{"B", 1, z, ""})
	z[0].Polygon[0].X = 50
	if got := q.Board("B").Faces[0].Zones[0].Polygon[0].X; got != 0 {
		t.Errorf("the zone moved to %g", got)
	}
	b := NewBoard("C", "teak", 1000, 100, 20)
	q = must(t, table(), AddBoard{b})
	b.Width = 1
	if q.Board("C").Width != 100 {
		t.Error("the board changed")
	}
	g := [][]geom.Point{ring(0, 20, 900, 25)}
	q = must(t, table(), SetGrain{"B", 1, g, ""})
	g[0][0].Y = 50
	if got := q.Board("B").Faces[0].Grain[0][0].Y; got != 20 {
		t.Errorf("the grain line moved to %g", got)
	}
	ids := []string{"side", "top"}
	q = must(t, table(), PutSet{"", Set{Name: "pair", Panels: ids}})
	ids[0] = "top"
	if got, _ := q.Set("pair"); got.Panels[0] != "side" {
		t.Error("the set changed")
	}
	places := []PartPlace{{Board: "A", X: 50, Y: 20, L: 740, W: 56}}
	q = must(t, table(), PlacePart{"leg", places, ""})
	places[0].X = 1
	if got, _ := q.Part("leg"); got.Places[0].X != 50 {
		t.Error("the cutting moved")
	}
	s := []Strip{NewPlace("9", 930, 90)}
	q = must(t, table(), SetStrips{"side", s, nil, ""})
	s[0].W = 1
	if strip(t, q, "side", "9").W != 90 {
		t.Error("the strip changed")
	}
}
