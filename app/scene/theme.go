package scene

import "image/color"

// Theme is the colours of a scene. Words stand on Chip or Ground with a
// contrast of 4.5:1 or more.
type Theme struct {
	Ground  color.NRGBA // of the panel's half
	Bench   color.NRGBA // of the boards' half
	Line    color.NRGBA // separators
	Ink     color.NRGBA // words on Ground and Bench
	Quiet   color.NRGBA // lesser words there
	Accent  color.NRGBA // what is in hand
	Hover   color.NRGBA
	Fault   color.NRGBA // severe warnings
	Caution color.NRGBA // other warnings
	Chip    color.NRGBA // behind words on wood
	ChipInk color.NRGBA
	Chalk   color.NRGBA
	Edge    color.NRGBA // outlines of wood
	Veil    color.NRGBA // over what will be trimmed off
}

// Paper is the light theme.
func Paper() Theme {
	return Theme{
		Ground: rgb(0xF1ECE3), Bench: rgb(0xE6DFD3), Line: rgb(0xC4B9A8),
		Ink: rgb(0x2A2520), Quiet: rgb(0x5C5349), Accent: rgb(0x1D6158), Hover: rgb(0x3C8A7F),
		Fault: rgb(0xA12A1E), Caution: rgb(0x865300),
		Chip: rgba(0x1E1A16, 0xD8), ChipInk: rgb(0xFBF6EE), Chalk: rgb(0xFFFFFF),
		Edge: rgb(0x3B322A), Veil: rgba(0xF1ECE3, 0xA8),
	}
}

// Charcoal is the dark theme.
func Charcoal() Theme {
	return Theme{
		Ground: rgb(0x221F1C), Bench: rgb(0x2B2723), Line: rgb(0x4C443D),
		Ink: rgb(0xEEE7DD), Quiet: rgb(0xB5AA9C), Accent: rgb(0x7CC9BC), Hover: rgb(0xA9DDD4),
		Fault: rgb(0xF2958A), Caution: rgb(0xE8B65C),
		Chip: rgba(0x14110F, 0xDC), ChipInk: rgb(0xFBF6EE), Chalk: rgb(0xFFFFFF),
		Edge: rgb(0x0F0D0B), Veil: rgba(0x221F1C, 0xA8),
	}
}

func rgb(v uint32) color.NRGBA { return rgba(v, 0xFF) }

func rgba(v uint32, a uint8) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: a}
}

// faint returns c at a share of its opacity.
func faint(c color.NRGBA, k float64) color.NRGBA {
	c.A = uint8(float64(c.A) * k)
	return c
}
