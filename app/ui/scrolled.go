package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// scrolled moves what a scroll holds by a key, and reports whether the key is one
// for that.
func scrolled(s *container.Scroll, k fyne.KeyName) bool {
	y, high := s.Offset.Y, s.Size().Height
	switch k {
	case fyne.KeyUp:
		y -= 60
	case fyne.KeyDown:
		y += 60
	case fyne.KeyPageUp:
		y -= 0.85 * high
	case fyne.KeyPageDown:
		y += 0.85 * high
	case fyne.KeyHome:
		y = 0
	case fyne.KeyEnd:
		y = s.Content.Size().Height
	default:
		return false
	}
	scrollTo(s, y)
	return true
}

// scrollTo brings y of what a scroll holds to its top, as far as it goes.
func scrollTo(s *container.Scroll, y float32) {
	s.ScrollToOffset(fyne.NewPos(0, max(min(y, s.Content.Size().Height-s.Size().Height), 0)))
}
