package file

import (
	"reflect"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// caseText is a small case: two doors seen together, legs from the same
// boards. It is written as files are written, keys in their order.
const caseText = `heartside: 1
name: Case
units: mm
climate: {now: {rh: 45, temp: 20}, dry: {rh: 30, temp: 20}, wet: {rh: 65, temp: 22}}
limits: {streak: 0.12, mix: [0.25, 0.6]}
allowances: {kerf: 3, rest: 3, joint: 1.5, ends: 25, panel-edge: 5, after-glue: 1.5, snipe: 60, flaw-margin: 10}
machines: {flatten: 300, thickness: 330, shortest: 300, narrowest: 50}
boards:
  - id: A
    species: teak
    length: 2400
    width: 210
    thickness: 26
    spoiled: true
    faces:
      1:
        grain:
          - [[0, 90], [1200, 96.5], [2400, 88]]
          - [[0, 10], [800, 14]]
panels:
  - id: left
    role: door
    length: 600
    width: 400
    thickness: 20
    shape: rectangle
    show: face
    look: as-laid
    rings: heart-up
    unwanted-limit: {face: 1, back: 1}
    strips: []
  - id: right
    role: door
    length: 600
    width: 400
    thickness: 20
    shape: rectangle
    show: face
    look: as-laid
    unwanted-limit: {face: 1, back: 1}
    strips: []
sets:
  - {name: Doors, panels: [left, right], gap: 2.5, way: along, match: mirrored}
parts:
  - id: leg
    kind: leg
    count: 4
    length: 720
    width: 50
    thickness: 50
    wanted: heart
    places:
      - {board: A, x: 10, y: 20, length: 740, width: 56, angle: 1.5, stage: sawn}
  - id: rail
    kind: rail
    count: 2
    length: 500
    width: 80
    thickness: 22
    places: []
spares: []
joined: []
kept: []
`

// The numbers are those of the text, entered here by hand.
func TestSetsAndPartsAreRead(t *testing.T) {
	p, notices, err := Read([]byte(caseText), "case.yaml")
	if err != nil || len(notices) != 0 {
		t.Fatal(err, notices)
	}
	if want := []model.Set{{Name: "Doors", Panels: []string{"left", "right"}, Gap: 2.5, Way: model.Along, Match: model.MatchMirrored}}; !reflect.DeepEqual(p.Sets, want) {
		t.Errorf("sets %+v", p.Sets)
	}
	want := []model.Part{
		{ID: "leg", Kind: model.Leg, Count: 4, Length: 720, Width: 50, Thickness: 50, Wanted: model.WantHeart,
			Places: []model.PartPlace{{Board: "A", X: 10, Y: 20, L: 740, W: 56, Angle: 1.5, Stage: model.Sawn}}},
		{ID: "rail", Kind: model.Rail, Count: 2, Length: 500, Width: 80, Thickness: 22},
	}
	if !reflect.DeepEqual(p.Parts, want) {
		t.Errorf("parts %+v", p.Parts)
	}
	a := p.Boards[0]
	lines := [][]geom.Point{{{X: 0, Y: 90}, {X: 1200, Y: 96.5}, {X: 2400, Y: 88}}, {{X: 0, Y: 10}, {X: 800, Y: 14}}}
	if !a.Spoiled || !a.Faces[0].Known || !reflect.DeepEqual(a.Faces[0].Grain, lines) || a.Faces[1].Grain != nil {
		t.Errorf("board %+v", a)
	}
	if p.Panels[0].Rings != model.RingsHeartUp || p.Panels[1].Rings != model.RingsAny {
		t.Errorf("rings %q and %q", p.Panels[0].Rings, p.Panels[1].Rings)
	}
	if got := string(Marshal(p)); got != caseText {
		t.Errorf("written:\n%s", got)
	}
}

// What a file leaves out.
func TestSetsAndPartsGetTheDefaults(t *testing.T) {
	text := `heartside: 1
boards: [{id: A, species: teak, length: 900, width: 90, thickness: 20}]
panels:
  - {id: left, length: 600, width: 400, thickness: 20, rings: any}
  - {id: right, length: 600, width: 400, thickness: 20}
sets: [{name: Doors, panels: [left, right]}, {name: tight, panels: [right, left], gap: 0}]
parts: [{id: leg, length: 700, width: 50, thickness: 50, places: [{board: A, length: 740, width: 56}]}]
`
	p, _, err := Read([]byte(text), "x")
	if err != nil {
		t.Fatal(err)
	}
	set := model.Set{Name: "Doors", Panels: []string{"left", "right"}, Gap: 3, Way: "beside", Match: "none"}
	if !reflect.DeepEqual(p.Sets[0], set) || p.Sets[1].Gap != 0 {
		t.Errorf("sets %+v", p.Sets)
	}
	part := model.Part{ID: "leg", Kind: "other", Count: 1, Length: 700, Width: 50, Thickness: 50,
		Places: []model.PartPlace{{Board: "A", L: 740, W: 56, Stage: "planned"}}}
	if !reflect.DeepEqual(p.Parts, []model.Part{part}) {
		t.Errorf("parts %+v", p.Parts)
	}
	if p.Panels[0].Rings != model.RingsAny {
		t.Errorf("rings: any is read as %q", p.Panels[0].Rings)
	}
}

// A project that has none of it is written as ever.
func TestNothingIsWrittenOfWhatIsNotThere(t *testing.T) {
	text := string(Marshal(read(t, "contract.yaml")))
	for _, key := range []string{"sets:", "parts:", "grain:", "spoiled:", "rings:"} {
		if strings.Contains(text, key) {
			t.Errorf("%s is written", key)
		}
	}
}

// The wood still to be cut from a spoiled board is told with its line.
func TestSpoiledBoardsAreRemarkedOn(t *testing.T) {
	_, notices, err := Read([]byte(strings.Replace(caseText, "stage: sawn", "stage: planned", 1)), "case.yaml")
	if err != nil || len(notices) != 1 || notices[0].Field != "parts[leg].places[0]" || notices[0].Line != 53 || !strings.Contains(notices[0].Text, "spoiled") {
		t.Errorf("%v %v", notices, err)
	}
}

// A line that trimming would shrink to a point keeps its digits.
func TestTrimmingKeepsAShortGrainLine(t *testing.T) {
	p := read(t, "contract.yaml")
	p.Boards[0].Faces[0].Grain = [][]geom.Point{{{X: 10.0002, Y: 5.0002}, {X: 10.0011, Y: 5.0014}}, {{X: 10.00049, Y: 5}, {X: 9.99951, Y: 5.0003}}}
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	if q, _ := there(t, p); !reflect.DeepEqual(p, q) {
		t.Errorf("%v", q.Boards[0].Faces[0].Grain)
	}
}
