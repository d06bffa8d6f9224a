package file

import (
	"reflect"
	"strings"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

// Lines along the grain of a face that nobody has looked at for its heartwood
// and sapwood come back, and so does that nobody has.
func TestGrainOfAFaceNotLookedAt(t *testing.T) {
	p := read(t, "contract.yaml")
	lines := [][]geom.Point{{geom.Pt(0, 20), geom.Pt(900, 25.5)}}
	for i, known := range []bool{true, false} {
		b := *p.Boards[0]
		b.Faces[1] = model.Face{Grain: lines, Known: known}
		p.Boards[0] = &b
		q, text := there(t, p)
		if !reflect.DeepEqual(p, q) {
			t.Errorf("%d: read back it differs:\n%s", i, text)
		}
		if strings.Contains(string(text), "not-looked-at: true") == known {
			t.Errorf("%d: written as\n%s", i, text)
		}
	}
}
