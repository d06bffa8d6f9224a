// Package ageing tells what colour heartwood and sapwood have after some years
// indoors: from what the maker measured, else from the direction a wood is
// known to take, drawn by an illustrated step, else as today with no data said.
//
// No published pair of measured changes for heartwood and sapwood was found for
// any wood of the tables. So a direction is a direction: its size on screen is
// an illustration, and every colour carries a spread, a radius in CIEDE2000,
// that grows with the years. Years are years in a lit room without direct sun.
package ageing
