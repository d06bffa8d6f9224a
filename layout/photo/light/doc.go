// Package light takes the light of the day out of squared faces: gradients and
// shadows, the tint of the lamp; and reads the colours of zones.
//
// All of it works on light, the linear values behind sRGB. A shadow is taken
// as a nearly neutral factor that crosses heartwood and sapwood alike, so that
// the step between the two stays. White balance is one factor a channel (the
// rule of von Kries 1902, here in the primaries of sRGB, which is near enough
// for photographs that are already about right).
package light
