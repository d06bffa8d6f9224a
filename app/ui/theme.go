package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Look says how the window is coloured.
type Look string

// Looks of the window.
const (
	FollowSystem Look = "system"
	Light        Look = "light"
	Dark         Look = "dark"
)

// TextSizes are the sizes of text the View menu offers, per cent.
func TextSizes() []int { return []int{100, 125, 150, 200} }

// Theme is the workshop theme: warm paper or charcoal with one accent. It is a
// value; a change of look or text size is a new Theme.
type Theme struct {
	look Look
	text int // per cent
	font fonts
}

// fonts are the faces of the theme.
type fonts struct{ regular, bold fyne.Resource }

// NewTheme returns the theme for a look and a text size in per cent; sizes
// outside 100 to 200 are brought inside.
func NewTheme(look Look, textPercent int, regular, bold []byte) *Theme {
	t := &Theme{look: look, text: min(max(textPercent, 100), 200)}
	if len(regular) > 0 {
		t.font.regular = fyne.NewStaticResource("regular.ttf", regular)
	}
	if len(bold) > 0 {
		t.font.bold = fyne.NewStaticResource("bold.ttf", bold)
	}
	return t
}

// TextPercent returns the text size in per cent of the ordinary one.
func (t *Theme) TextPercent() int { return t.text }

// With returns the same theme with another look and text size.
func (t *Theme) With(look Look, textPercent int) *Theme {
	n := *t
	n.look, n.text = look, min(max(textPercent, 100), 200)
	return &n
}

// IsDark reports whether the theme is dark when the system asks for v.
func (t *Theme) IsDark(v fyne.ThemeVariant) bool {
	switch t.look {
	case Light:
		return false
	case Dark:
		return true
	}
	return v == theme.VariantDark
}

// Palette returns the colours for the variant the system asks for.
func (t *Theme) palette(v fyne.ThemeVariant) palette {
	if t.IsDark(v) {
		return charcoal()
	}
	return paper()
}

// Color implements fyne.Theme.
func (t *Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	p := t.palette(v)
	switch n {
	case theme.ColorNameBackground:
		return p.ground
	case theme.ColorNameButton:
		return p.button
	case theme.ColorNameDisabledButton:
		return p.ground
	case theme.ColorNameDisabled:
		return p.off
	case theme.ColorNameError:
		return p.fault
	case theme.ColorNameFocus:
		return p.glow
	case theme.ColorNameForeground:
		return p.ink
	case theme.ColorNameForegroundOnError, theme.ColorNameForegroundOnPrimary,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return p.onHue
	case theme.ColorNameHeaderBackground, theme.ColorNameInnerWindowBorder,
		theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return p.raised
	case theme.ColorNameHover:
		return p.hover
	case theme.ColorNameHyperlink, theme.ColorNamePrimary:
		return p.accent
	case theme.ColorNameInputBackground:
		return p.field
	case theme.ColorNameInputBorder:
		return p.border
	case theme.ColorNamePlaceHolder:
		return p.quiet
	case theme.ColorNamePressed:
		return p.press
	case theme.ColorNameScrollBar:
		return p.bar
	case theme.ColorNameScrollBarBackground:
		return p.hover
	case theme.ColorNameSelection:
		return p.chosen
	case theme.ColorNameSeparator:
		return p.line
	case theme.ColorNameShadow:
		return p.shade
	case theme.ColorNameSuccess:
		return p.good
	case theme.ColorNameWarning:
		return p.caution
	}
	if t.IsDark(v) {
		v = theme.VariantDark
	} else {
		v = theme.VariantLight
	}
	return theme.DefaultTheme().Color(n, v)
}

// Font implements fyne.Theme.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Symbol, s.Monospace:
		return theme.DefaultTheme().Font(s)
	case s.Bold && t.font.bold != nil:
		return t.font.bold
	case t.font.regular != nil:
		return t.font.regular
	}
	return theme.DefaultTheme().Font(s)
}

// Icon implements fyne.Theme.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size implements fyne.Theme. Text and what must fit it grow with the text
// size; gaps grow half as fast so that a window still holds its content.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	k := float32(t.text) / 100
	gap := (1 + k) / 2
	switch n {
	case theme.SizeNameText:
		return 13 * k
	case theme.SizeNameCaptionText:
		return 11.5 * k
	case theme.SizeNameSubHeadingText:
		return 15 * k
	case theme.SizeNameHeadingText:
		return 20 * k
	case theme.SizeNameInlineIcon:
		return 18 * k
	case theme.SizeNamePadding:
		return 4 * gap
	case theme.SizeNameInnerPadding:
		return 6 * gap
	case theme.SizeNameLineSpacing:
		return 3 * gap
	case theme.SizeNameScrollBar:
		return 12 * gap
	case theme.SizeNameScrollBarSmall:
		return 4 * gap
	case theme.SizeNameInputRadius, theme.SizeNameButtonRadius, theme.SizeNameSelectionRadius:
		return 4
	}
	return theme.DefaultTheme().Size(n)
}
