// Package seek searches for the best ways to lay the strips of a panel: their
// order, which face of each shows, which end lies left, and which of a pool of
// spares take a place.
//
// Points against an arrangement are those of single strips and of neighbours,
// which add up, and others that only add to them. So orders are taken by
// rising cost of the first kind (package order), each is read and judged in
// full, and once the cost reaches the best points found, that is the best there
// is: the search is exact wherever it comes so far. Before and after, a local
// search moves, swaps, turns and exchanges strips of good arrangements under the
// full points; a move whose first kind of cost alone is no better is left out
// unread, which loses nothing. Where there are too many strips for the exact
// table, arrangements are built by that cost from random ones, and a proved
// bound says how far off the best can be.
//
// Readings are counted, not timed: the same seed and the same readings give the
// same answers. The context ends a search early and what was found is kept.
//
// Several panels that are seen as one face are arranged at once in the same way
// (SearchSet): their places stand one behind another, with an empty place
// between two panels that no joint reaches over; what speaks against each by
// itself and against all as one face adds up. It begins from the panels
// arranged one after another.
package seek
