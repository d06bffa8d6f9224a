package command

import (
	"encoding/json"
	"math"
	"testing"
)

// Board A of pair loses 4 mm, 1.5 of them after glue-up and 1.25 off each face
// before. Its line moves from 65 to 60.556 mm (worked out there): 55 and 50.556 of
// the 200 mm that are left of the strip. B shows none.
func TestCheckTellsOfPlaning(t *testing.T) {
	_, out, errs := checkText(t, pair, "--json")
	var r reportJSON
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err, errs)
	}
	got := map[string]planingJSON{}
	for _, p := range r.Panels {
		if len(p.Planing) != 1 {
			t.Fatalf("%s: %+v", p.ID, p.Planing)
		}
		got[p.ID] = p.Planing[0]
	}
	const moved = 40.0 / 9
	a := got["low"]
	if a.Strip != "A1" || a.Board != "A" || a.Up != 1 || a.Thickness != 20 || a.Off != [2]float64{1.25, 1.25} || a.After != 1.5 || a.Finished != 16 || a.How != "between" {
		t.Errorf("%+v", a)
	}
	if math.Abs(a.Sawn-55.0/200) > 1e-6 || math.Abs(a.Shows-(55-moved)/200) > 1e-6 {
		t.Errorf("light share %g sawn, %g finished", a.Sawn, a.Shows)
	}
	if a.Moves == nil || math.Abs(*a.Moves-moved) > 0.01 || a.Uncertain == nil || !(*a.Uncertain > 0) {
		t.Errorf("moves %v, give or take %v", a.Moves, a.Uncertain)
	}
	if b := got["high"]; b.Sawn != 0 || b.Shows != 0 || b.Moves == nil || *b.Moves != 0 {
		t.Errorf("%+v", b)
	}
}
