// Package scene is what the workspace shows, as data: the panel at its own
// scale above, the board in hand unwrapped beneath it, the other boards as
// thin lanes at the foot. It lays that out in the units of the surface, draws
// it on a render.Canvas and tells what lies under a place.
//
// A board is shown as if a paper wrapped round it were opened along the marked
// edge: face 1 above with the marked edge at its bottom, then the edge itself,
// then face 2 with the marked edge at its top. Both faces keep the marked end
// at the left.
//
// Surface units run right and down; millimetres of a panel or a face run right
// and up. They meet in View and nowhere else.
//
//	s := scene.Build(in)       // cheap: once a change
//	s.Draw(canvas)             // everything
//	s.Hit(at)                  // what lies there
//	painter.Paint(s)           // pixels; only what differs from the last time
//	view := s.Zoomed(at, 1.2)  // the views to pass to the next Build
//
// A Scene is a value made from its input: it keeps no state, reads no clock
// and no files. Textures may come later than they are asked for; the caller
// builds the scene again when told that one is ready.
package scene
