// Package moisture tells how damp wood becomes in a room, what a meter's
// reading is worth, and whether the strips of a stack go together.
//
// Moisture content (MC) is in per cent of the ovendry weight, relative
// humidity (RH) in per cent, temperature in degrees C. Every number comes with
// a Flag that says how it was obtained, and every result can show its Working.
package moisture
