package command

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
)

// Two shelves of one board each. The sapwood of A lies along its marked edge, 65
// mm wide on face 1 and none on face 2; B has none. Of 20 mm, 16 are left, so the
// show face lies 2 mm down, where by the rule of distances the line is at y with
// 0.9 (65 - y) = 0.1 x 40: 60.556. The front edge being at 10, 50.556 of 200 mm
// are sapwood. Stood one above another with 4 mm between, they are 404 wide:
// 50.556 of 400 mm of wood is sapwood, and its middle, 25.278 from the front,
// lies 176.722 before the middle of all, 202. A third board is spoiled, with a
// leg still to come from it and one that was sawn.
const pair = `heartside: 1
name: Pair
boards:
  - {id: A, species: walnut-black, length: 1000, width: 220, thickness: 20, faces: {1: {zones: [{kind: sap, polygon: [[0, 0], [1000, 0], [1000, 65], [0, 65]]}]}, 2: {}}}
  - {id: B, species: walnut-black, length: 1000, width: 220, thickness: 20, faces: {1: {}, 2: {}}}
  - {id: C, species: walnut-black, length: 1000, width: 220, thickness: 20, spoiled: true, faces: {1: {}, 2: {}}}
panels:
  - {id: low, role: drawer-front, length: 900, width: 200, thickness: 16, strips: [{id: A1, board: A, x: 30, y: 5, length: 930, width: 210, up: 1}]}
  - {id: high, role: drawer-front, length: 900, width: 200, thickness: 16, strips: [{id: B1, board: B, x: 30, y: 5, length: 930, width: 210, up: 1}]}
sets: [{name: Fronts, panels: [low, high], gap: 4}]
parts:
  - {id: leg, kind: leg, count: 2, length: 400, width: 40, thickness: 20, places: [{board: C, x: 30, y: 10, length: 410, width: 45, stage: sawn}, {board: C, x: 30, y: 90, length: 410, width: 45}]}
`

func TestCheckTellsOfSetsAndParts(t *testing.T) {
	code, out, errs := checkText(t, pair, "--json")
	if code != Warnings || errs != "" {
		t.Fatalf("exit code %d, %s", code, errs)
	}
	var r reportJSON
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Sets) != 1 || !slices.Equal(r.Sets[0].Panels, []string{"low", "high"}) || !r.Sets[0].Together {
		t.Fatalf("sets: %+v", r.Sets)
	}
	// The strip begins at y = 5 and 5 more come off in front.
	const sap = 65 - 40.0/9 - 10
	if s := r.Sets[0]; math.Abs(s.Light-sap/400) > 1e-6 || math.Abs(s.Balance+(202-sap/2)/404) > 1e-6 {
		t.Errorf("light %g, balance %g", s.Light, s.Balance)
	}
	if g := r.Sets[0].Gaps; len(g) != 1 || g[0].Lines != 0 || g[0].Ending != 0 || g[0].Mismatch != 0 || math.Abs(g[0].Slipped-sap) > 2e-3 {
		t.Errorf("gaps: %+v", g)
	}
	if len(r.Warnings) != 1 || r.Warnings[0].Kind != "board-spoiled" || !slices.Equal(r.Warnings[0].Strips, []string{"leg/2"}) {
		t.Errorf("warnings: %+v", r.Warnings)
	}
	_, text, _ := checkText(t, pair)
	for _, want := range []string{"Fronts, seen together: low, high", "13 % light", "no sap lines go on", "! Board C is spoiled: part leg 2 is still to be cut from it"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text does not say %q:\n%s", want, text)
		}
	}
}

// What is wrong with parts alone is a warning too: exit code 1.
func TestPartsAloneWarn(t *testing.T) {
	head, _, _ := strings.Cut(pair, "panels:")
	_, parts, _ := strings.Cut(pair, "parts:")
	if code, out, errs := checkText(t, head+"parts:"+parts); code != Warnings || errs != "" {
		t.Errorf("exit code %d, %s%s", code, out, errs)
	}
	if code, _, _ := checkText(t, strings.Replace(head, "spoiled: true, ", "", 1)+"parts:"+parts); code != Done {
		t.Errorf("the board being sound, exit code %d", code)
	}
}
