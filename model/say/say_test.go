package say

import (
	"errors"
	"io/fs"
	"testing"
)

func TestSaidInALanguage(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	if got := F("turn %s end for end", "A1"); got != "turn A1 end for end" {
		t.Error(got)
	}
	Use("xx", map[string]string{"turn %s end for end": "%s wenden", "from %s to %s": "bis %[2]s ab %[1]s", "no board": "kein Brett", "open %s: %w": "%s öffnen: %w"})
	for got, want := range map[string]string{
		F("turn %s end for end", "A1"):     "A1 wenden",
		F("from %s to %s", "3 mm", "9 mm"): "bis 9 mm ab 3 mm",
		T("no board"):                      "kein Brett",
		T("not known here"):                "not known here",
		Error("no board").Error():          "kein Brett",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if err := Errorf("open %s: %w", "x", fs.ErrNotExist); !errors.Is(err, fs.ErrNotExist) || err.Error() != "x öffnen: file does not exist" {
		t.Error(err)
	}
}
