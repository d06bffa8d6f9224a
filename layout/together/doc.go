// Package together makes one face of several panels that are seen at once, such
// as a pair of doors or drawer fronts one above another, so that they can be
// read, judged and arranged as one: a streak in the left door may be balanced
// by one in the right.
package together
