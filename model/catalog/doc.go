// Package catalog holds what is known of the woods: shrinkage, movement,
// weight, stiffness and moisture, each value with a flag that says how it was
// obtained, and drawing colours that are illustrations. The numbers come from
// assets/tables and never change while the program runs.
package catalog
