// Package faulty holds file systems for tests: one that fails at a chosen
// step, and one in memory that forgets at a power cut what was not brought to
// disk.
package faulty
