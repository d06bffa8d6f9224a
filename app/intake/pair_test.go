package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func pictures(names ...string) []Picture {
	var out []Picture
	for _, n := range names {
		out = append(out, Picture{Path: "some/where/" + n})
	}
	return out
}

func told(list []Pairing) string {
	var out []string
	for _, p := range list {
		how := [...]string{"name", "group", "order", "?"}[p.How]
		out = append(out, fmt.Sprintf("%s: %v (%s)", strings.TrimPrefix(p.Picture.Path, "some/where/"), p.Place, how))
	}
	return strings.Join(out, "\n")
}

func TestPair(t *testing.T) {
	for _, c := range []struct {
		name   string
		files  []string
		wanted string
		want   []string
	}{
		{"names with letters, any order and style", []string{"B2.JPG", "a 1.jpg", "board-A_face2.png", "b-1.jpeg", "A-b.jpg", "board b marked end.jpg"}, "A B", []string{
			"a 1.jpg: board A, face 1 (name)",
			"A-b.jpg: board A, other end (name)",
			"b-1.jpeg: board B, face 1 (name)",
			"B2.JPG: board B, face 2 (name)",
			"board-A_face2.png: board A, face 2 (name)",
			"board b marked end.jpg: board B, marked end (name)",
		}},
		{"names that go together", []string{"oak-7-2.jpg", "oak-7-1.jpg", "oak-12-1.jpg", "oak-12-2.jpg"}, "C D", []string{
			"oak-7-1.jpg: board C, face 1 (group)",
			"oak-7-2.jpg: board C, face 2 (group)",
			"oak-12-1.jpg: board D, face 1 (group)",
			"oak-12-2.jpg: board D, face 2 (group)",
		}},
		{"a running number", []string{"IMG_0010.jpg", "IMG_0009.jpg", "IMG_0011.jpg", "IMG_0008.jpg"}, "A B", []string{
			"IMG_0008.jpg: board A, face 1 (order)",
			"IMG_0009.jpg: board A, face 2 (order)",
			"IMG_0010.jpg: board B, face 1 (order)",
			"IMG_0011.jpg: board B, face 2 (order)",
		}},
		{"a running number from 1", []string{"IMG_1.jpg", "IMG_2.jpg", "IMG_3.jpg"}, "A B", []string{
			"IMG_1.jpg: board A, face 1 (order)",
			"IMG_2.jpg: board A, face 2 (order)",
			"IMG_3.jpg: board B, face 1 (order)",
		}},
		{"more than there are boards, and an end of none", []string{"x.jpg", "y.jpg", "z.jpg", "q-a.jpg"}, "A", []string{
			"q-a.jpg: not used (?)",
			"x.jpg: board A, face 1 (order)",
			"y.jpg: board A, face 2 (order)",
			"z.jpg: not used (?)",
		}},
		{"a name twice", []string{"A1.jpg", "A1.png"}, "A", []string{
			"A1.jpg: board A, face 1 (name)",
			"A1.png: board A, face 2 (order)",
		}},
	} {
		got := told(Pair(pictures(c.files...), strings.Fields(c.wanted), nil))
		if want := strings.Join(c.want, "\n"); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

func TestPairInTheOrderTaken(t *testing.T) {
	at := time.Date(2031, 5, 1, 9, 0, 0, 0, time.UTC)
	list := pictures("p.jpg", "q.jpg", "r.jpg")
	for i, m := range []int{20, 10, 30} {
		list[i].Taken = at.Add(time.Duration(m) * time.Second)
	}
	if got, want := told(Pair(list, []string{"A", "B"}, nil)), "q.jpg: board A, face 1 (order)\np.jpg: board A, face 2 (order)\nr.jpg: board B, face 1 (order)"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestPairLeavesWhatIsTaken(t *testing.T) {
	taken := func(p Place) bool { return p == Place{"A", Face1} }
	got := Pair(pictures("A1.jpg", "z.jpg"), []string{"A"}, taken)
	if told(got) != "A1.jpg: board A, face 2 (order)\nz.jpg: not used (?)" {
		t.Errorf("got\n%s", told(got))
	}
}

// Whatever the names, no place is given twice and no picture is lost.
func TestPairGivesAPlaceOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfN(rapid.StringMatching(`[aAbB12 _-]{0,4}(face)?[12ab]?\.jpg`), 0, 12).Draw(t, "names")
		list := Pair(pictures(names...), []string{"A", "B", "12"}, nil)
		seen := map[Place]bool{}
		var back []string
		for _, p := range list {
			back = append(back, strings.TrimPrefix(p.Picture.Path, "some/where/"))
			if (p.How == Unknown) != (p.Place == Place{}) {
				t.Fatalf("%v by %v", p.Place, p.How)
			}
			if p.Place != (Place{}) && seen[p.Place] {
				t.Fatalf("%v given twice", p.Place)
			}
			seen[p.Place] = true
		}
		slices.Sort(back)
		slices.Sort(names)
		if !slices.Equal(back, names) {
			t.Fatalf("%q became %q", names, back)
		}
	})
}
