// Package arrange seeks the smallest change that ends a warning without making
// another: how strips lie, their order, where they are cut from.
//
// Every change is tried for real: the panel is read again and its blanks are
// checked again. Nothing that the making of a strip has passed is asked for: no
// place on the board once it is sawn, nothing at all once it is glued; pinned
// strips are left alone.
package arrange
