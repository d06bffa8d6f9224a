// Package order finds the cheapest orders of strips exactly, and proves bounds
// where that is too much. It knows no wood: a strip has four states, a price at
// every place, and a price for every pair of neighbours.
//
// The least cost to finish an order depends only on the set of strips used so
// far and on the last of them with its state. A table of it over all sets is
// filled backwards (R. Bellman, "Dynamic programming treatment of the travelling
// salesman problem", J. ACM 9, 1962; M. Held and R. M. Karp, "A dynamic
// programming approach to sequencing problems", J. SIAM 10, 1962). With the
// exact cost to go at hand, a best-first search gives complete orders one after
// the other in rising cost and never looks at a part that leads nowhere.
//
// The size of a set is the number of places filled, so prices that depend on
// the place cost nothing more. Pinned strips are no part of the sets. Costs are
// rounded to a fine grid first, so that sums are exact and equal orders come in
// a settled way: by strip, then by state, from the front.
package order
