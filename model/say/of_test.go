package say

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"
)

func TestTextsOfTheComputations(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	if got := Of("board A: no size"); got != "board A: no size" {
		t.Error(got)
	}
	Use("de", map[string]string{
		"ring angle %g degrees: want 0 (flat-sawn) to 90": "Ringwinkel %g Grad: 0 (Fladerschnitt) bis 90",
		"strip %s: %w":                             "Lamelle %s: %w",
		"a blank of %g x %g mm from board %s":      "aus Brett %[3]s ein Rohling von %[1]g x %[2]g mm",
		"share of sapwood":                         "Splintanteil",
		"%d of at least %g x %g mm, %.1f %% of %s": "%d von mindestens %g x %g mm, %.1f %% von %s",
		"the wood": "dem Holz",
		"%s, %s":   "%s und %s",
	})
	for text, want := range map[string]string{
		"share of sapwood": "Splintanteil",
		"ring angle -3.5 degrees: want 0 (flat-sawn) to 90":            "Ringwinkel -3.5 Grad: 0 (Fladerschnitt) bis 90",
		"strip A1: ring angle 1e+06 degrees: want 0 (flat-sawn) to 90": "strip A1: ring angle 1e+06 degrees: want 0 (flat-sawn) to 90",
		"a blank of 900 x 80.5 mm from board B":                        "aus Brett B ein Rohling von 900 x 80.5 mm",
		"3 of at least 200 x 80 mm, 4.0 % of the wood":                 "3 von mindestens 200 x 80 mm, 4.0 % von dem Holz",
		"one, two": "one, two", // too little to go by
		"":         "",
	} {
		if got := Of(text); got != want {
			t.Errorf("%q is said as %q, want %q", text, got, want)
		}
	}
	inner := fmt.Errorf("a blank of 1 x 2 mm from board C: %w", fs.ErrExist)
	if got := Errorf("strip %s: %w", "A1", errors.New("share of sapwood")).Error(); got != "Lamelle A1: Splintanteil" {
		t.Error(got)
	}
	if err := Errorf("strip %s: %w", "A1", inner); !errors.Is(err, fs.ErrExist) {
		t.Error("what is wrapped cannot be found any more")
	}
	if got := Err(errors.New("share of sapwood")); got != "Splintanteil" {
		t.Error(got)
	}
}

func TestFirstLetters(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	for text, want := range map[string]string{"änderung": "Änderung", "": "", "a": "A", "1 x": "1 x"} {
		if got := Upper(text); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := Lower("The wood"); got != "the wood" {
		t.Error(got)
	}
	Use("de", map[string]string{"a": "b"})
	if got := Lower("Holz"); got != "Holz" {
		t.Error(got)
	}
}
