package command

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func checkText(t *testing.T, yaml string, args ...string) (code int, out, errs string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "job.yaml")
	if err := os.WriteFile(path, []byte(yaml), 0o666); err != nil {
		t.Fatal(err)
	}
	var o, e bytes.Buffer
	code = Run(append([]string{"check", path}, args...), &o, &e)
	return code, o.String(), e.String()
}

// The shelf is one strip of 900 x 200 trimmed out of 930 x 210 at (50, 10) of
// its board, so the panel's left front corner lies at (65, 15).
const shelf = `heartside: 1
name: Shelf
boards:
  - {id: A, species: walnut-black, length: 1100, width: 240, thickness: 20, moisture: 8, faces: {
      1: {zones: [{kind: sap, polygon: [[0, 0], [1100, 0], [1100, 65], [0, 65]]}]},
      2: {zones: [{kind: unseen, polygon: [[0, 25], [515, 25], [515, 225], [0, 225]]}]}}}
panels:
  - id: shelf
    role: shelf
    length: 900
    width: 200
    thickness: 20
    strips: [{id: A1, board: A, x: 50, y: 10, length: 930, width: 210, up: 1}]
`

// Hand-worked. Face 1: sapwood from y = 15 to 65 of the 200 that are left, a
// quarter. Face 2: the panel covers its y from 25 to 225 and x from 65 to 965,
// of which x up to 515 is not seen: half. The sapwood runs along the front
// edge, 55 mm measured from the strip's own edge at y = 10.
func TestCheckJSONByHand(t *testing.T) {
	code, out, errs := checkText(t, shelf, "--json")
	if code != Warnings || errs != "" {
		t.Fatalf("exit code %d, %s", code, errs)
	}
	var r reportJSON
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	p := r.Panels[0]
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	near("light share", p.Face.Light, 0.25)
	near("unwanted share", p.Face.Unwanted, 0.25)
	near("back, least", p.Back.LightRange[0], 0)
	near("back, most", p.Back.LightRange[1], 0.5)
	near("front sap width", p.Strips[0].SapWidths.Front[1], 55)
	near("back sap width", p.Strips[0].SapWidths.Back[1], 0)
	if len(p.Face.Bands) != 1 {
		t.Fatalf("bands: %+v", p.Face.Bands)
	}
	b := p.Face.Bands[0]
	near("band x", b.X, 0)
	near("band y", b.Y, 0)
	near("band length", b.Length, 900)
	near("band width", b.Width, 50)
	near("band area", b.Area, 45000)
	near("band share", b.Share, 0.25)
	if p.Face.Contrast == nil || !p.Face.ContrastAssumed {
		t.Error("contrast from the drawing colours is marked assumed")
	}
	if p.Back.Contrast != nil {
		t.Error("a face without both kinds has no contrast: null")
	}
}

// Every key that the README promises is there.
func TestCheckJSONKeys(t *testing.T) {
	_, out, _ := checkText(t, shelf, "--json")
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{
		"panels", "id", "face", "back", "light_share", "light_share_range", "unwanted_share", "contrast",
		"contrast_assumed", "contrast_coverage", "bands", "strips", "x_mm", "y_mm", "length_mm", "width_mm",
		"area_mm2", "share", "excuse", "edges", "ends", "back_light_share", "sap_widths_mm", "joints",
		"warnings", "kind", "text", "fixes",
	} {
		if !strings.Contains(out, `"`+key+`":`) {
			t.Errorf("no key %s in the output", key)
		}
		if !strings.Contains(string(readme), key) {
			t.Errorf("the README does not tell of %s", key)
		}
	}
}

func TestWantedMustBeStated(t *testing.T) {
	yaml := `heartside: 1
boards:
  - {id: A, species: walnut-black, length: 1000, width: 200, thickness: 20, faces: {1: {}}}
  - {id: M, species: maple-sugar-hard, length: 1000, width: 200, thickness: 20, wanted: sap, faces: {1: {base: sap}}}
panels:
  - id: top
    length: 900
    width: 300
    thickness: 20
    strips:
      - {id: A1, board: A, x: 30, y: 10, length: 930, width: 155, up: 1}
      - {id: M1, board: M, x: 30, y: 10, length: 930, width: 155, up: 1}
`
	code, _, errs := checkText(t, yaml)
	if code != Failed || !strings.Contains(errs, "top") || !strings.Contains(errs, "want") {
		t.Errorf("exit code %d, %q", code, errs)
	}
	if code, _, errs = checkText(t, strings.Replace(yaml, "    width: 300", "    width: 300\n    wanted: both", 1)); code == Failed {
		t.Errorf("stated, yet refused: %s", errs)
	}
}

// A panel with nothing placed is not judged.
func TestEmptyPanelHasNoWarnings(t *testing.T) {
	code, out, errs := checkText(t, `heartside: 1
panels:
  - {id: top, length: 900, width: 300, thickness: 20, strips: [{id: "1", length: 930, width: 155}, {id: "2", length: 930, width: 155}]}
`)
	if code != Done || !strings.Contains(out, "not ready to cut") {
		t.Errorf("exit code %d, %s%s", code, out, errs)
	}
}
