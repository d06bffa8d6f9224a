package render

import "strings"

// slack keeps sums of widths from breaking a line that just fits.
const slack = 1e-6

// Wrap breaks s into lines of at most w. A word wider than a line is broken
// where it must.
func (f *Faces) Wrap(s string, st Style, w float64) []string {
	var out []string
	cur := ""
	for _, word := range strings.Fields(s) {
		try := word
		if cur != "" {
			try = cur + " " + word
		}
		if f.Width(try, st) <= w+slack {
			cur = try
			continue
		}
		if cur != "" {
			out = append(out, cur)
		}
		for cur = word; f.Width(cur, st) > w+slack; {
			n := f.longestStart(cur, st, w)
			out, cur = append(out, cur[:n]), cur[n:]
		}
	}
	if cur != "" {
		out = append(out, cur)
	}
	return out
}

// longestStart returns how many bytes of s go into w: at least one letter.
func (f *Faces) longestStart(s string, st Style, w float64) int {
	n := 0
	for i, r := range s {
		end := i + len(string(r))
		if n > 0 && f.Width(s[:end], st) > w+slack {
			break
		}
		n = end
	}
	return n
}
