// Package face reads the faces of a panel from its strips: shares, contrast,
// bands and their excuses, joints, lone streaks.
//
// Panels, boards and strips here are plain values with no file, clock or
// screen behind them. Coordinates are those of the project: a board's x from
// its marked end, y from its marked edge, each face in its own coordinates; a
// panel's X along the grain from the left and Y from the front edge.
//
// A Reader reads a panel in three steps. Every strip is read by itself, in
// place coordinates (u along, v across, as seen on the show face): its two
// faces are cut exactly into trapezoids of one kind, from which come areas,
// fragments of unwanted wood, flaws, cells of 10 mm with their colours, and
// the cut at the panel's edges and ends. Then every joint is read from its two
// strips. Both are kept while nothing they depend on changes. Last, what
// crosses strips is put together anew: sums, bands from fragments, excuses,
// warnings.
//
// A bevel or round-over takes the show face away and lays open what lies below,
// the board with more planed off it. Shares of the show face stay those of the
// whole face as seen from above: under a profile they count the wood that is seen
// there, cut at a few depths, by its area in plan. The surface itself, which is
// longer than its plan, is read apart, as Profiled: along the edge, the sap line
// is followed over the slope, between depths by how far a place lies in the
// sapwood of the one above and the one below. The edge under it is what stays
// upright.
//
// Where the panel wants both kinds of wood there is no unwanted wood, so no
// bands and no warnings about them; contrast coverage then takes all wood as
// wanted. What is hidden on the show face is still part of the back.
package face
