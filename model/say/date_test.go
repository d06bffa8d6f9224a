package say

import (
	"testing"
	"time"
)

func TestDates(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	at := time.Date(2024, time.February, 29, 7, 5, 0, 0, time.UTC)
	check := func(want ...string) {
		t.Helper()
		for i, got := range []string{Day(at), Date(at), Moment(at), Stamp(at)} {
			if got != want[i] {
				t.Errorf("%q, want %q", got, want[i])
			}
		}
	}
	check("29 February", "29 February 2024", "07:05 on 29 February", "07:05 on 29 February 2024")
	Use("de", map[string]string{"%d %s [date]": "%d. %s", "February": "Februar", "%s on %s [date]": "%s am %s"})
	check("29. Februar", "29. Februar 2024", "07:05 am 29. Februar", "07:05 am 29. Februar 2024")
	for m := time.January; m <= time.December; m++ {
		if got := month(m); got != m.String() && m != time.February {
			t.Errorf("month %d is called %s", m, got)
		}
	}
}
