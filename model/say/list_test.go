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

// Spanish draws de and a together with el, not with él or a name.
func TestContractions(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	Use("es", map[string]string{"move %s to %s": "mover %s a %s", "%s from %s": "a %s de %s"})
	for got, want := range map[string]string{
		F("move %s to %s", "A1", "el canto delantero"): "mover A1 al canto delantero",
		F("%s from %s", "9 mm", "el canto trasero"):    "a 9 mm del canto trasero",
		F("%s from %s", "9 mm", "la contracara"):       "a 9 mm de la contracara",
		F("move %s to %s", "A1", "él mismo"):           "mover A1 a él mismo",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
