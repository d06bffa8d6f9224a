package picture

// turning maps a stored pixel to its place in the upright picture: the offset
// of (x, y) is at + x*dx + y*dy, in pixels of rows tight together.
type turning struct{ at, dx, dy int }

// turningOf returns the mapping of a stored picture of w x h pixels by its
// orientation, and the upright size. The numbers are those of EXIF 2.32, 4.6.4
// A: they say where the stored row 0 and column 0 belong.
func turningOf(orientation, w, h int) (t turning, uw, uh int) {
	switch orientation {
	case 2: // top, right
		return turning{w - 1, -1, w}, w, h
	case 3: // bottom, right
		return turning{w*h - 1, -1, -w}, w, h
	case 4: // bottom, left
		return turning{w * (h - 1), 1, -w}, w, h
	case 5: // left, top
		return turning{0, h, 1}, h, w
	case 6: // right, top
		return turning{h - 1, h, -1}, h, w
	case 7: // right, bottom
		return turning{w*h - 1, -h, -1}, h, w
	case 8: // left, bottom
		return turning{h * (w - 1), -h, 1}, h, w
	}
	return turning{0, 1, w}, w, h
}
