package ui

import "image/color"

// palette is the set of colours one variant of the theme is made of. Text
// colours keep 4.5:1 and control borders and marks 3:1 against the ground they
// stand on (WCAG 2.2, 1.4.3 and 1.4.11); a test measures every pair.
type palette struct {
	ground  color.NRGBA // of the window
	raised  color.NRGBA // of cards, menus and dialogs
	field   color.NRGBA // of text fields
	button  color.NRGBA
	ink     color.NRGBA // text
	quiet   color.NRGBA // placeholders and units
	off     color.NRGBA // text of what cannot be used now
	line    color.NRGBA // separators
	border  color.NRGBA // of text fields and checks
	accent  color.NRGBA
	onHue   color.NRGBA // text on accent, error, success and warning
	fault   color.NRGBA
	caution color.NRGBA
	good    color.NRGBA
	glow    color.NRGBA // behind the focused control
	hover   color.NRGBA // laid over
	press   color.NRGBA // laid over
	chosen  color.NRGBA // behind selected text and rows
	bar     color.NRGBA // scroll bar
	shade   color.NRGBA // shadow
}

// paper is the light variant: warm paper, ink, and a spruce green that no wood
// on screen can be taken for.
func paper() palette {
	return palette{
		ground: hex(0xF1ECE3), raised: hex(0xFBF8F2), field: hex(0xFFFDF9), button: hex(0xE3DBCE),
		ink: hex(0x2A2520), quiet: hex(0x655C52), off: hex(0x6E655B), line: hex(0xCFC5B6), border: hex(0x80766A),
		accent: hex(0x1D6158), onHue: hex(0xFFFFFF),
		fault: hex(0xA12A1E), caution: hex(0x865300), good: hex(0x2B6537),
		glow: hexA(0x1D6158, 0x44), hover: hexA(0x2A2520, 0x16), press: hexA(0x2A2520, 0x30),
		chosen: hexA(0x1D6158, 0x38), bar: hexA(0x2A2520, 0x8C), shade: hexA(0x2A2520, 0x40),
	}
}

// charcoal is the dark variant.
func charcoal() palette {
	return palette{
		ground: hex(0x221F1C), raised: hex(0x2D2925), field: hex(0x1A1816), button: hex(0x3D3732),
		ink: hex(0xEEE7DD), quiet: hex(0xB5AA9C), off: hex(0x9C9286), line: hex(0x48413B), border: hex(0x948A7E),
		accent: hex(0x7CC9BC), onHue: hex(0x14211F),
		fault: hex(0xF2958A), caution: hex(0xE8B65C), good: hex(0x93CC97),
		glow: hexA(0x7CC9BC, 0x48), hover: hexA(0xFFFFFF, 0x18), press: hexA(0xFFFFFF, 0x30),
		chosen: hexA(0x7CC9BC, 0x40), bar: hexA(0xFFFFFF, 0x80), shade: hexA(0x000000, 0x80),
	}
}

// hex makes an opaque colour from 0xRRGGBB.
func hex(v uint32) color.NRGBA { return hexA(v, 0xFF) }

// hexA makes a colour from 0xRRGGBB and an opacity.
func hexA(v uint32, a uint8) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: a}
}
