// Package colour holds the colour arithmetic of the planner: sRGB, CIELAB and
// the CIEDE2000 colour difference.
//
// Colours are for a 2 degree observer under D65 throughout: sRGB by
// IEC 61966-2-1, CIELAB by CIE 15. Colours are averaged as light or as CIELAB,
// never as sRGB numbers. Products that are summed are rounded first, so that
// results do not depend on whether a processor fuses the two.
package colour

// Lab is a CIELAB colour (CIE 15), D65 white, L from 0 to 100.
type Lab struct{ L, A, B float64 }
