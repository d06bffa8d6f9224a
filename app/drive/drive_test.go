package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// The same seed draws the same gestures, all within the window and below its
// bar, with no key that ends the program or leaves the project.
func TestGesturesKeepToTheWindow(t *testing.T) {
	s := size{1280, 760, 60}
	places := [][2]int{{5, 70}, {1275, 755}}
	draw := func() (all []string) {
		r := rand.New(rand.NewPCG(7, 0))
		for range 3000 {
			lines, what := gesture(r, s, places)
			if what == "" || len(lines) == 0 {
				t.Fatal("a gesture of nothing")
			}
			all = append(all, lines...)
		}
		return all
	}
	all := draw()
	if !slices.Equal(all, draw()) {
		t.Error("the same seed draws other gestures")
	}
	down := 0
	for _, l := range all {
		var x, y int
		if n, _ := fmt.Sscanf(l, "mousemove --window $window %d %d", &x, &y); n == 2 && (x < 1 || x >= 1279 || y < 60 || y >= 759) {
			t.Errorf("%s is outside", l)
		}
		switch l {
		case "mousedown 1":
			down++
		case "mouseup 1":
			down--
		}
		for _, bad := range []string{"ctrl+q", "ctrl+n", "ctrl+o", "ctrl+s", "ctrl+p", "ctrl+shift+s", "ctrl+shift+d", "ctrl+i", "ctrl+shift+e"} {
			if strings.HasSuffix(l, " "+bad) {
				t.Errorf("%s is pressed", bad)
			}
		}
	}
	if down != 0 {
		t.Error("a button stays down")
	}
}

func TestWhatTheProgramSaysIsRead(t *testing.T) {
	w := newWatch()
	for _, l := range []string{
		"2026/01/01 Fyne error: none of ours", "trace: ready", "trace: page other", "trace: asks guard",
		"trace: state panel=top light=0.1 lone=1 undo=3 redo=0 dirty=true preview=false mark=00ff00ff",
		"trace: place panel-strip t1 100 200", "trace: place warning 0 7 8", "trace: place panel-strip t2 1 2", "trace: place panel-strip t2 ",
		"trace: load goroutines=12 heap=3456",
	} {
		w.heard(l)
	}
	if !w.isReady() || w.get("undo") != "3" || w.get("mark") != "00ff00ff" || w.onPage() != "other" {
		t.Errorf("%+v", w)
	}
	if got := w.places(); !slices.Equal(got, [][2]int{{100, 200}, {7, 8}}) {
		t.Errorf("places %v", got)
	}
	if q := w.asked(); !slices.Equal(q, []string{"guard"}) || len(w.asked()) != 0 {
		t.Errorf("questions %v", q)
	}
	if g, h, n := w.level(); g != 12 || h != 3456 || n != 1 {
		t.Error(g, h, n)
	}
	if w.crash() != "" {
		t.Errorf("a crash where there is none: %s", w.crash())
	}
	w.heard("panic: runtime error: index out of range")
	w.heard("goroutine 1 [running]:")
	if c := w.crash(); !strings.Contains(c, "index out of range") || !strings.Contains(c, "goroutine 1") {
		t.Errorf("of a crash it keeps %q", c)
	}
}

func TestWhatGrowsIsTold(t *testing.T) {
	mb := func(n int) int { return n << 20 }
	begin := []level{{90, mb(10), 0}, {20, mb(60), 0}, {20, mb(100), 0}}
	for name, c := range map[string]struct {
		last level
		ok   bool
	}{
		"as it was":           {level{24, mb(120), 0}, true},
		"at the bounds":       {level{28, mb(157), 0}, true},
		"goroutines":          {level{29, mb(100), 0}, false},
		"a quarter and 33 MB": {level{20, mb(158), 0}, false},
	} {
		if err := steady(append(begin[:3:3], c.last)); (err == nil) != c.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	if steady(begin) != nil {
		t.Error("three rounds tell nothing yet")
	}
}
