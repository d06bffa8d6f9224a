// Package movement tells how wide strips and panels become as wood dries and
// takes up water, and what follows: slots, gaps, grooves, breadboard ends,
// joints between panels, and what a panel weighs.
//
// A panel lies with its front at 0; places across it are in mm from the front
// as it is now. Strips are listed front to back. Moisture content (MC) is in
// per cent. Movement away from a fixed line is positive.
//
// The numbers are averages over many boards. A board nobody knows the rings of
// is taken for flat-sawn, which moves most. Bounds hold what a board of the
// kind may do; fits are worked out for the bounds.
package movement
