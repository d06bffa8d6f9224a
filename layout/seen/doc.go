// Package seen shows a picture of a panel as an eye takes it in: without its
// colour, out of focus, mirrored, from where one sits.
//
// A maker who has looked at boards for an hour no longer sees them. Each of
// these takes away what the eye has grown used to and leaves where the light
// and the dark lie. Common practice, no source.
//
// Pictures are not changed; each function returns a new one, row 0 at the top.
package seen
