package phone

import (
	"strings"
	"testing"

	"heartside/app/intake"
)

// Board A has face 1. Where a picture is for is offered by what was sent before:
// worked by hand from the rule.
func TestPlaces(t *testing.T) {
	s := open(t, Limits{})
	c := browser()
	s.get(c, s.URL())
	chosen := func(text string) string {
		var out []string
		for _, line := range strings.Split(text, "<option")[1:] {
			if strings.Contains(line, " selected>") {
				out = append(out, line[strings.Index(line, ">")+1:strings.Index(line, "</")])
			}
		}
		return strings.Join(out, ", ")
	}
	for _, f := range []struct {
		board, part, arrived, next string
		n                          int
	}{
		{"A", "marked end", "board A, other end", "board B, marked end", 2}, // an end is followed by an end
		{"", "face 2", "board A, face 2", "face 2", 1},                      // the next board once more
		{"B", "face 1", "board B, face 1", "board B, face 2", 1},
	} {
		_, text := s.send(c, nil, f.board, f.part, []sent{{"x", photo()}, {"y", photo()}}[:f.n]...)
		if !strings.Contains(text, "Arrived: "+f.arrived+".") {
			t.Errorf("%v: %s", f, text)
		}
		// The list of boards says beside the letter what there is.
		got := strings.ReplaceAll(strings.ReplaceAll(chosen(text), ", face 1 ✓", ""), ", face 2 ✓", "")
		if got != f.next {
			t.Errorf("after %s the form begins at %q, want %q", f.arrived, got, f.next)
		}
	}
	if len(s.got) != 4 || s.got[intake.Place{Board: "A", Part: intake.EndA}.String()] == nil {
		t.Errorf("%d pictures arrived, or elsewhere", len(s.got))
	}
}
