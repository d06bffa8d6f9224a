package say

import "testing"

func TestLists(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	list := []string{"A1", "B2", "C1"}
	for n, want := range []string{"", "A1", "A1 and B2", "A1, B2 and C1"} {
		if got := List(list[:n]); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	Use("es", map[string]string{"%s and %s": "%s y %s"})
	if got := List(list); got != "A1, B2 y C1" {
		t.Error(got)
	}
}
