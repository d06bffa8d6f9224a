package geom

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParsePolygon reads a ring written as "0,0 100,0 100,50": points in mm, x and
// y joined by a comma, points apart by white space. It judges no more than the
// writing; Validate judges the shape.
func ParsePolygon(s string) (Polygon, error) {
	var p Polygon
	for i, word := range strings.Fields(s) {
		xs, ys, ok := strings.Cut(word, ",")
		if !ok {
			return nil, fmt.Errorf("point %d: %q: want x,y", i+1, word)
		}
		x, err := coordinate(xs)
		if err != nil {
			return nil, fmt.Errorf("point %d: %q: x: %w", i+1, word, err)
		}
		y, err := coordinate(ys)
		if err != nil {
			return nil, fmt.Errorf("point %d: %q: y: %w", i+1, word, err)
		}
		p = append(p, Point{x, y})
	}
	return p, nil
}

func coordinate(s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a finite number", s)
	}
	return v, nil
}

// String writes p as ParsePolygon reads it, exactly.
func (p Polygon) String() string {
	words := make([]string, len(p))
	for i, q := range p {
		words[i] = q.String()
	}
	return strings.Join(words, " ")
}

// String writes p as "x,y", exactly.
func (p Point) String() string {
	return strconv.FormatFloat(p.X, 'g', -1, 64) + "," + strconv.FormatFloat(p.Y, 'g', -1, 64)
}
