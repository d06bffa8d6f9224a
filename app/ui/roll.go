package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"heartside/app/scene"
	"heartside/layout/face"
)

// rollTime is how long a roll is seen.
const rollTime = 220 * time.Millisecond

// rolls is the strip that is seen to roll over or turn end for end.
type rolls struct {
	strip string
	was   face.Strip
	end   bool
	part  float64
	anim  *fyne.Animation
}

// now returns the roll under way for the scene, nil for none.
func (r *rolls) now() *scene.Roll {
	if r.strip == "" {
		return nil
	}
	return &scene.Roll{Strip: r.strip, Was: r.was, Part: r.part, End: r.end}
}

// startRoll lets a strip be seen to go from how it lay to how it lies now.
func (s *surface) startRoll(was face.Strip, end bool) {
	if s.roll.anim != nil {
		s.roll.anim.Stop()
	}
	s.roll = rolls{strip: was.ID, was: was, end: end}
	s.roll.anim = fyne.NewAnimation(rollTime, func(f float32) {
		s.roll.part = float64(f)
		if f >= 1 {
			s.roll = rolls{}
		}
		s.stale()
	})
	s.roll.anim.Curve = fyne.AnimationEaseInOut
	s.roll.anim.Start()
}
