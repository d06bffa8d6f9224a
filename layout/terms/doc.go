// Package terms holds the terms of an order in the seller's form, such as 90/70:
// at least 90 % heartwood on the better face of a board and 70 % on the other. It
// tells which boards keep them, which do not, and by how much.
//
// Two things must be said with the figures, or they mean little. Whether they
// hold before ripping, of the faces of the board as bought, or after, of the
// faces of what is ripped from it: ripping takes the sapwood off the edges or
// leaves it all in one strip. And whether, where not all must keep them, the
// boards that do are counted by their area or by their number.
//
// Sapwood is no defect by the grading rules for cherry: a limit is a private term
// of the order (grading column of the trade, read). The form 90/0, 90/50 and
// 90/70 is that of wholesale cherry (questions and answers of a magazine,
// secondary). That the better face is chosen piece by piece is common practice, no
// source.
//
// Lengths are mm, areas mm2, shares 0 to 1. Knots, splits and wane are in no
// share: the share is that of the wood. Wood that was not seen gives a range.
package terms
