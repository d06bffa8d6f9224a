package main

import (
	"fmt"
	"math/rand/v2"
)

// Keys that do something to the project, the view or a page. None of them ends
// the program, opens another project or writes a file.
var keys = []string{
	"r", "t", "s", "p", "w", "h", "b", "v", "d", "g", "z", "c", "x", "n", "k", "comma", "period", "bracketleft", "bracketright",
	"0", "1", "8", "9", "plus", "minus", "Delete", "Insert", "Return", "space", "Tab", "Tab", "Escape", "Escape",
	"Up", "Down", "Left", "Right", "Home", "End", "Prior", "Next", "F1", "F2", "F3", "F4", "F5", "F7", "F8", "F9", "F9",
	"shift+r", "shift+d", "shift+n", "shift+s", "shift+h", "shift+u", "shift+f", "shift+t", "shift+g", "shift+Return", "shift+Delete",
	"shift+Up", "shift+Down", "shift+Left", "shift+Right", "shift+Tab", "shift+F1", "shift+F5", "shift+F10",
	"ctrl+Up", "ctrl+Down", "ctrl+Left", "ctrl+Right", "ctrl+Next", "ctrl+Prior",
	"ctrl+z", "ctrl+z", "ctrl+y", "ctrl+b", "ctrl+d", "ctrl+e", "ctrl+f", "ctrl+g", "ctrl+h", "ctrl+j", "ctrl+k", "ctrl+l", "ctrl+m", "ctrl+r", "ctrl+t", "ctrl+u",
	"ctrl+shift+c", "ctrl+shift+g", "ctrl+shift+w", "ctrl+shift+f", "ctrl+shift+j", "ctrl+shift+k", "ctrl+shift+o", "ctrl+shift+p", "ctrl+shift+t", "ctrl+shift+x", "ctrl+shift+y",
	"ctrl+shift+Up", "ctrl+shift+Down", "ctrl+shift+Left", "ctrl+shift+Right",
}

// Texts that a maker types, or does not.
var texts = []string{"12", "35", "0", "-3", "900", "1/2", "22/30/41", "walnut", "9999999", "abc", "7.5", "90/70", "  ", "12 %", "ß – 木"}

// size is that of the window, pixels. What lies above top is the bar of menus
// and of files.
type size struct{ width, height, top int }

// gesture draws one gesture: lines for xdotool, and a word for what it is.
// places are where strips, warnings and fixes are on screen.
func gesture(r *rand.Rand, s size, places [][2]int) (lines []string, what string) {
	any := func() (x, y int) {
		if len(places) > 0 && r.IntN(3) > 0 {
			p := places[r.IntN(len(places))]
			return clamp(p[0]+r.IntN(31)-15, 1, s.width-2), clamp(p[1]+r.IntN(31)-15, s.top, s.height-2)
		}
		return 1 + r.IntN(s.width-2), s.top + r.IntN(s.height-s.top-1)
	}
	move := func(x, y int) string { return fmt.Sprintf("mousemove --window $window %d %d", x, y) }
	switch n := r.IntN(100); {
	case n < 45:
		return []string{"key --clearmodifiers " + keys[r.IntN(len(keys))]}, "key"
	case n < 70:
		x, y := any()
		lines = []string{move(x, y), "mousedown 1"}
		for range 2 + r.IntN(8) {
			x, y = clamp(x+r.IntN(121)-60, 1, s.width-2), clamp(y+r.IntN(81)-40, s.top, s.height-2)
			lines = append(lines, move(x, y))
		}
		if r.IntN(8) == 0 {
			lines = append(lines, "key Escape")
		}
		return append(lines, "mouseup 1"), "drag"
	case n < 84:
		x, y := any()
		return []string{move(x, y), "click 1"}, "click"
	case n < 88:
		x, y := any()
		return []string{move(x, y), "click 3", "key Escape"}, "menu"
	case n < 94:
		x, y := any()
		return []string{move(x, y), fmt.Sprintf("click --repeat %d %d", 1+r.IntN(4), 4+r.IntN(2))}, "wheel"
	default:
		return []string{"type --delay 1 -- '" + texts[r.IntN(len(texts))] + "'"}, "text"
	}
}

func clamp(v, lo, hi int) int { return max(lo, min(hi, v)) }
