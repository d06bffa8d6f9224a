// Package scale measures a board in a photograph by what lies in it as a
// scale: a stretch between two marks of a tape or a folding rule whose length
// the maker reads off.
//
// The four corners of a rectangle tell how it lies before the camera, but not
// how large it is. They also tell the ratio of its sides where both pairs of
// its edges run together in the picture (Zhang and He, Whiteboard scanning and
// image enhancement, 2007; Hartley and Zisserman, Multiple View Geometry,
// 2004, chapter 8): the camera is taken as a pinhole with square pixels, its
// axis in the middle of the picture. What corners, marks and distances say is
// brought together by least squares, and the uncertainty follows from how well
// a mark can be clicked.
//
// Pixels, corners and the face are those of package photo.
package scale
