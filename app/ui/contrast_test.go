package ui

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// contrastOf is the contrast ratio of WCAG 2.2, written down here from its
// definitions of relative luminance and contrast ratio.
func contrastOf(a, b color.NRGBA) float64 {
	lum := func(c color.NRGBA) float64 {
		lin := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	x, y := lum(a), lum(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// The known pairs of the standard's explanations: black on white is 21:1, and
// #767676 is the lightest grey that keeps 4.5:1 on white, with 4.54:1.
func TestContrastFormula(t *testing.T) {
	white := color.NRGBA{255, 255, 255, 255}
	for c, want := range map[color.NRGBA]float64{{0, 0, 0, 255}: 21, {0x76, 0x76, 0x76, 255}: 4.54, white: 1} {
		if got := contrastOf(c, white); math.Abs(got-want) > 0.005 {
			t.Errorf("%v on white: %.3f, want %.2f", c, got, want)
		}
	}
}

// themed is a colour of the theme as widgets get it.
func themed(th *Theme, n fyne.ThemeColorName) color.NRGBA {
	return color.NRGBAModel.Convert(th.Color(n, theme.VariantLight)).(color.NRGBA)
}

// Every text colour on every ground that widgets lay it on keeps 4.5:1 (WCAG
// 2.2, 1.4.3), and every border, focus and mark 3:1 (1.4.11), in both variants.
// What cannot be used now is exempt there and kept all the same.
func TestThemeKeepsContrast(t *testing.T) {
	for _, look := range []Look{Light, Dark} {
		th := NewTheme(look, 100, nil, nil)
		get := func(n fyne.ThemeColorName) color.NRGBA { return themed(th, n) }
		check := func(name string, a, b color.NRGBA, least float64) {
			t.Helper()
			if r := contrastOf(a, b); r < least {
				t.Errorf("%s: %s is %.2f:1, want %.1f:1", look, name, r, least)
			}
		}
		grounds := []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameButton, theme.ColorNameInputBackground,
			theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground}
		texts := []fyne.ThemeColorName{theme.ColorNameForeground, theme.ColorNameError, theme.ColorNameWarning,
			theme.ColorNameSuccess, theme.ColorNamePrimary, theme.ColorNameHyperlink, theme.ColorNamePlaceHolder}
		for _, g := range grounds {
			for _, x := range texts {
				check(fmt.Sprintf("%s on %s", x, g), get(x), get(g), 4.5)
			}
			for _, on := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus, theme.ColorNameSelection} {
				check(fmt.Sprintf("text on %s with %s", g, on), get(theme.ColorNameForeground), over(get(on), get(g)), 4.5)
			}
		}
		for _, g := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameDisabledButton, theme.ColorNameInputBackground,
			theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground} {
			check(fmt.Sprintf("not usable on %s", g), get(theme.ColorNameDisabled), get(g), 4.5)
		}
		for hue, on := range map[fyne.ThemeColorName]fyne.ThemeColorName{
			theme.ColorNamePrimary: theme.ColorNameForegroundOnPrimary, theme.ColorNameError: theme.ColorNameForegroundOnError,
			theme.ColorNameWarning: theme.ColorNameForegroundOnWarning, theme.ColorNameSuccess: theme.ColorNameForegroundOnSuccess} {
			check(fmt.Sprintf("%s on %s", on, hue), get(on), get(hue), 4.5)
			for _, lay := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus} {
				check(fmt.Sprintf("%s on %s with %s", on, hue, lay), get(on), over(get(lay), get(hue)), 4.5)
			}
		}
		for _, g := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameOverlayBackground, theme.ColorNameMenuBackground} {
			check(fmt.Sprintf("field border on %s", g), get(theme.ColorNameInputBorder), get(g), 3)
			check(fmt.Sprintf("border in hand on %s", g), get(theme.ColorNamePrimary), get(g), 3)
			check(fmt.Sprintf("scroll bar on %s", g), over(get(theme.ColorNameScrollBar), get(g)), get(g), 3)
		}
	}
}
