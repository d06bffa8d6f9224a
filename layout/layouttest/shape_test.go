package layouttest

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"heartside/layout/geom"
)

func TestPolyReadsPoints(t *testing.T) {
	got := Poly(t, " 0,0  100,0\n100,50.5 -3,1e2 ")
	want := geom.Polygon{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 50.5}, {X: -3, Y: 100}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// failing runs f with a recorder in place of the test and reports whether it
// failed. Fatal ends a goroutine, so f gets its own.
func failing(f func(testing.TB)) bool {
	rec := &recorder{}
	done := make(chan struct{})
	go func() {
		defer close(done)
		f(rec)
	}()
	<-done
	return rec.failed
}

type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }
func (r *recorder) Fatal(...any)          { r.failed = true; runtime.Goexit() }
func (r *recorder) Fatalf(string, ...any) { r.failed = true; runtime.Goexit() }

func TestHelpersFailWhenTheyShould(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "one.yaml"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		name string
		want bool
		run  func(testing.TB)
	}{
		{"glob of nothing", true, func(t testing.TB) { Glob(t, filepath.Join(dir, "*.json")) }},
		{"bad glob", true, func(t testing.TB) { Glob(t, "[") }},
		{"glob of one", false, func(t testing.TB) { Glob(t, filepath.Join(dir, "*.yaml")) }},
		{"poly of two points", true, func(t testing.TB) { Poly(t, "0,0 1,1") }},
		{"poly of no number", true, func(t testing.TB) { Poly(t, "0,0 1,1 a,2") }},
		{"poly", false, func(t testing.TB) { Poly(t, "0,0 1,1 3,2") }},
		{"near", false, func(t testing.TB) { Near(t, "x", 1, 1.05, 0.1) }},
		{"not near", true, func(t testing.TB) { Near(t, "x", 1, 1.2, 0.1) }},
		{"not a number", true, func(t testing.TB) { Near(t, "x", math.NaN(), 1, 0.1) }},
	}
	for _, c := range cases {
		if got := failing(c.run); got != c.want {
			t.Errorf("%s: failed %v, want %v", c.name, got, c.want)
		}
	}
}
