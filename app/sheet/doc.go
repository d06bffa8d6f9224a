// Package sheet composes the layout sheet: the pages that replace memory at
// the bench. Each panel has a page drawn from its show side, each board a page
// with both faces and its cuts.
//
// Pages are measured in mm from the top left corner, y down. A page is a list
// of drawing calls on a render.Canvas, so paper, picture and test see the
// same. Everything is black and grey: shop printers are. Positions are
// computed from what is to be said; nothing is written smaller than 8 points,
// and what does not fit goes on to a further page.
package sheet
