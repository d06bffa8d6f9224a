// Package keep sees to it that no work is lost.
//
// A Keeper writes what is on screen into a journal soon after each change, in
// the background: a hidden file beside the project, or in the user's state
// folder where the project has no file yet or its folder takes none. The
// journal holds the project with every digit, the states before it and their
// names. It goes when everything is saved or thrown away. What is found of a
// program that ended without that is offered by Find.
//
// A Lock is a hidden file beside the project that says which window has it.
//
// Nothing that cannot be read for sure is trusted, and none of it is deleted:
// it is put aside under another name, and told of.
package keep
