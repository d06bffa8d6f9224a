package scene

import (
	"strings"
	"testing"

	"heartside/layout/geom"
)

// Where nothing is drawn yet, what to do is read whole, at any size of text, inside
// the surface and no line over another.
func TestEmptySurfaceIsReadWhole(t *testing.T) {
	faces := typefaces(t)
	for _, size := range []geom.Point{{X: 1200, Y: 700}, {X: 520, Y: 420}, {X: 300, Y: 500}} {
		for _, text := range []float64{1, 2} {
			w := &words{probe: probe{faces: faces}}
			Build(Input{Size: size, Look: Look{Faces: faces, Text: text}}).Draw(w)
			all := ""
			for i, x := range w.text {
				all += x.s + " "
				if x.r.Min.X < 0 || x.r.Max.X > size.X || x.r.Min.Y < 0 || x.r.Max.Y > size.Y {
					t.Errorf("%v, text %g: %q lies at %v", size, text, x.s, x.r)
				}
				for _, before := range w.text[:i] {
					if !x.r.Intersect(before.r).Empty() {
						t.Errorf("%v, text %g: %q lies over %q", size, text, x.s, before.s)
					}
				}
			}
			for _, want := range []string{"No panel yet. Give one its finished size, and a list of strips is proposed.", "No boards yet. Enter one with a tape or from its photographs."} {
				if !strings.Contains(all, want) {
					t.Errorf("%v, text %g: %q says not all of %q", size, text, all, want)
				}
			}
		}
	}
}
