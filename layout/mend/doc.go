// Package mend replaces strips whose board is spoiled by the least change that
// still works: every other strip stays where it is, and each lost one is
// replaced by a spare or by a free place on another board.
package mend
