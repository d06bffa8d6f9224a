package file

import (
	"reflect"
	"strings"
	"testing"

	"heartside/model"
)

// How the wood behaves is written and read back, and not written where nothing
// was said.
func TestBehaviourComesBack(t *testing.T) {
	p := read(t, "contract.yaml")
	if text := string(Marshal(p)); strings.Contains(text, "behaviour") || strings.Contains(text, "fitting") || strings.Contains(text, "mc:") {
		t.Errorf("what nobody said is written:\n%s", text)
	}
	p.Climate.Wet.MC = 11.5
	p.Limits.Cup, p.Limits.Apart = 6, 1.5
	p.Behaviour = model.Behaviour{SapFactor: 1.1, FaceDifference: 2}
	n := *p.Panels[0]
	n.Fitting = &model.Fitting{Held: model.HeldGroove, Line: model.LineBack, Rows: []float64{50, 400.5}, Groove: 9}
	n.Profiles = model.Profiles{0: {Kind: model.ProfileBevel, Across: 12, Down: 8}, 3: {Kind: model.ProfileRound, Across: 3, Down: 3}}
	p.Panels[0] = &n
	q, text := there(t, p)
	if !reflect.DeepEqual(p, q) {
		t.Errorf("read back it differs:\n%s", text)
	}
	for _, want := range []string{
		"wet: {rh: 65, temp: 22, mc: 11.5}",
		"limits: {streak: 0.12, mix: [0.25, 0.6], cup: 6, apart: 1.5}",
		"behaviour: {sap-factor: 1.1, face-difference: 2}",
		"fitting: {held: groove, line: back, rows: [50, 400.5], groove: 9}",
		"profiles: {front: {kind: bevel, across: 12, down: 8}, right: {kind: round, across: 3, down: 3}}",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no line %q in\n%s", want, text)
		}
	}
}
