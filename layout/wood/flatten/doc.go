// Package flatten tells whether a blank sawn from a bent board will clean up:
// how thick and how wide it is once both faces are flat and parallel and both
// edges straight.
//
// A board's shape is given over the whole board and taken as even: cup and bow
// are parts of parabolas, crook is one within the face, twist a saddle. So cup
// falls with the square of the width, bow and crook with the square of the
// length, twist with both, and a blank's place on the board does not matter,
// only its size. Real boards bend more in some places than in others: that is
// why two figures are given.
//
// Lengths are mm.
package flatten
