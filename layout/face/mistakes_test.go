package face

import (
	"fmt"
	"testing"

	"heartside/layout/layouttest"
)

// The mistakes that are easily made when strips are laid, by their names. Those
// not here stand beside what they are about: the mark, the arrow, the sap widths,
// the drawn streaks.

// "The bark side mirrored wrongly": a board of 100 mm has 30 mm of sapwood along
// its marked edge on face 1, the heart side, and 45 on face 2, the bark side. Face
// 1 up it lies in front, rolled over it lies behind, and turned end for end as
// well in front again; a third of the way along a knot tells the ends apart.
func TestRolledOverTheMarkedEdgeLiesBehind(t *testing.T) {
	for _, c := range []struct {
		up          int
		turned      bool
		front, rear float64
		knot        float64 // X of its middle
	}{
		{1, false, 30, 0, 300}, {1, true, 0, 30, 600}, {2, false, 0, 45, 300}, {2, true, 45, 0, 600},
	} {
		t.Run(fmt.Sprintf("up %d turned %v", c.up, c.turned), func(t *testing.T) {
			p := block(30, 45)
			b := p.Strips[0].Board
			b.BarkFace = 2
			for f := range b.Faces {
				b.Faces[f].Zones = append(b.Faces[f].Zones, zones(Flaw, rect(290, 45, 310, 55))...)
			}
			p.Strips[0].Up, p.Strips[0].Turned = c.up, c.turned
			r := ReadFull(p)
			for k := range 3 {
				layouttest.Near(t, "front", r.Strips[0].Front[k], c.front, 1e-9)
				layouttest.Near(t, "rear", r.Strips[0].Rear[k], c.rear, 1e-9)
			}
			if len(r.Show.Flaws) != 1 {
				t.Fatalf("%d knots", len(r.Show.Flaws))
			}
			layouttest.Near(t, "knot", r.Show.Flaws[0].Place.Centre().X, c.knot, 1e-9)
			if got, want := b.SideName(p.Strips[0].UpFace()), map[int]string{1: "heart side", 2: "bark side"}[c.up]; got != want {
				t.Errorf("%s up, want %s", got, want)
			}
		})
	}
}

// "Wanted and unwanted swapped": a third of the face is sapwood. Of walnut that is
// what is not wanted; of maple the two thirds of heartwood are.
func TestWhatIsNotWantedFollowsTheWish(t *testing.T) {
	for wanted, want := range map[Wanted]float64{WantHeart: 0.3, WantSap: 0.7, WantBoth: 0} {
		p := block(30, 30)
		p.Wanted = wanted
		p.Limit[Show] = 0.5
		r := ReadFull(p)
		layouttest.Near(t, "light", r.Show.Light.Value, 0.3, 1e-9)
		layouttest.Near(t, "unwanted", r.Show.Unwanted.Value, want, 1e-9)
		if got := count(r, OverLimit); got != map[Wanted]int{WantSap: 1}[wanted] {
			t.Errorf("wanted %d: %d over a limit of half", wanted, got)
		}
	}
}

// "Thickness lost twice": of 26 mm planed to 20, 5 off face 1 and 1 off face 2,
// the edge shows what lies from 5 to 25 mm below face 1 and no more comes off. A
// line that goes from 40 at face 1 by 20 to face 2 passes a strip's edge cut at y
// at depth 26 (y - 40)/20; below it there is sapwood.
func TestTheEdgeIsPlanedOnce(t *testing.T) {
	for _, y := range []float64{45, 50, 55} {
		p, _ := wedgePanel()
		p.Width = 40
		p.Strips[0].Y, p.Strips[0].W, p.Strips[0].Off = y, 40, Off{true, [2]float64{5, 1}}
		at := 26 * (y - 40) / 20
		layouttest.Near(t, "front edge", ReadFull(p).Edges[0].Light.Value, (25-at)/20, 1e-6)
	}
}
