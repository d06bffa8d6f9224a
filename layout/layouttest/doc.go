// Package layouttest holds small helpers for the tests of every package:
// shapes written as text, file patterns that must match, and the walk over the
// source tree behind the policy tests.
//
// The policy tests themselves are in this package's test files. They are
// statements of policy: which package may import which, what stands at the top
// level, how long a file may be, what the pure packages must not touch. A
// deliberate change of policy changes their tables, with a reason beside it.
//
// Only test files may import this package.
package layouttest
