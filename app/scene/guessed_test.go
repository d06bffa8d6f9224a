package scene

import (
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// A face that was not looked at shows no widths, as none were measured, and
// claims no light share.
func TestGuessedFaceClaimsNothing(t *testing.T) {
	sap := []face.Zone{{Kind: face.Sap, Polygon: geom.R(0, 0, 2000, 40).Polygon()}}
	count := func(guessed bool) (ticks int, words string) {
		b := &face.Board{ID: "A", Length: 2000, Width: 200, Thickness: 26}
		b.Faces[0].Zones, b.Faces[1].Zones = sap, sap
		b.Faces[1].Guessed = guessed
		in := table(t)
		in.Boards.All, in.Boards.InHand, in.Boards.Laid = []*face.Board{b}, "A", nil
		s := Build(in)
		return len(s.ticks()), s.lightWords(b, 2)
	}
	both, _ := count(false)
	one, words := count(true)
	if both == 0 || one*2 != both {
		t.Errorf("%d widths shown with both faces measured, %d with one", both, one)
	}
	if words == "" || words[0] >= '0' && words[0] <= '9' {
		t.Errorf("a face not looked at says %q", words)
	}
}
