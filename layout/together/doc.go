// Package together makes one face of several panels that are seen at once, such
// as a pair of doors, drawer fronts one above another or drawer fronts in a
// row, so that they can be read, judged and arranged as one: a streak in the
// left door may be balanced by one in the right.
//
// Panels beside each other follow one another across the grain, their strips
// front to back over the gaps. Panels along each other follow one another along
// the grain: after the strips of each the next begins at the front again, by an
// empty place of a width below 0. Strips are trimmed to the finished size of
// their panel; shapes and what is hidden move with it.
package together
