// Package colour holds the colour arithmetic of the planner: sRGB, CIELAB and
// the CIEDE2000 colour difference.
package colour

// Lab is a CIELAB colour (CIE 15), D65 white, L from 0 to 100.
type Lab struct{ L, A, B float64 }
