package main

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"heartside/layout/geom"
)

// setCorners puts the corners of a photograph into the text of a project,
// where every photo has a line of its own: in its corners line, or in a new
// one below the photo. All else stays as it is.
func setCorners(text []byte, photo string, c [4]geom.Point) ([]byte, error) {
	lines := strings.Split(string(text), "\n")
	for i, l := range lines {
		if strings.TrimSpace(l) != "photo: "+photo {
			continue
		}
		indent := l[:len(l)-len(strings.TrimLeft(l, " "))]
		entry := indent + "corners: " + cornersText(c)
		if i+1 < len(lines) && strings.HasPrefix(strings.TrimSpace(lines[i+1]), "corners:") {
			lines[i+1] = entry
		} else {
			lines = append(lines[:i+1], append([]string{entry}, lines[i+1:]...)...)
		}
		return []byte(strings.Join(lines, "\n")), nil
	}
	return nil, fmt.Errorf("the project has no line \"photo: %s\" of its own: write it on one line", photo)
}

// cornersText writes corners to a tenth of a pixel.
func cornersText(c [4]geom.Point) string {
	var b bytes.Buffer
	for i, p := range c {
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "[%g, %g]", math.Round(p.X*10)/10, math.Round(p.Y*10)/10)
	}
	return "[" + b.String() + "]"
}
