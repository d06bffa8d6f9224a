package phone

import (
	"testing"
	"time"
)

func TestLimitsInWords(t *testing.T) {
	for n, want := range map[int64]string{60 << 20: "60 MB", 2 << 30: "2 GB", 1500: "1500 bytes", 3 << 29: "1536 MB"} {
		if got := size(n); got != want {
			t.Errorf("%d bytes are %q, want %q", n, got, want)
		}
	}
	for d, want := range map[time.Duration]string{10 * time.Minute: "10 minutes", time.Minute: "1 minute", 45 * time.Second: "45s"} {
		if got := (Limits{Idle: d}).IdleWords(); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
	if got := (Limits{Count: 7}).filled(); got.Count != 7 || got.Picture != DefaultLimits().Picture {
		t.Errorf("filled in as %+v", got)
	}
}
