package ui

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"heartside/layout/colour"
)

// over lays a on b.
func over(a, b color.NRGBA) color.NRGBA {
	mix := func(x, y uint8) uint8 { return uint8((int(x)*int(a.A) + int(y)*(255-int(a.A))) / 255) }
	return color.NRGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 255}
}

func TestPalettesKeepContrast(t *testing.T) {
	type pair struct {
		name string
		a, b color.NRGBA
		min  float64
	}
	for name, p := range map[string]palette{"paper": paper(), "charcoal": charcoal()} {
		var pairs []pair
		for on, g := range map[string]color.NRGBA{"ground": p.ground, "raised": p.raised, "field": p.field} {
			pairs = append(pairs,
				pair{"ink on " + on, p.ink, g, 4.5}, pair{"quiet on " + on, p.quiet, g, 4.5},
				pair{"accent on " + on, p.accent, g, 4.5}, pair{"fault on " + on, p.fault, g, 4.5},
				pair{"caution on " + on, p.caution, g, 4.5}, pair{"good on " + on, p.good, g, 4.5},
				pair{"border on " + on, p.border, g, 3}, pair{"off on " + on, p.off, g, 4.5},
				pair{"ink on chosen " + on, p.ink, over(p.chosen, g), 4.5},
				pair{"ink on hovered " + on, p.ink, over(p.hover, g), 4.5},
				pair{"ink on focused " + on, p.ink, over(p.glow, g), 4.5},
				pair{"scroll bar on " + on, over(p.bar, g), g, 3},
			)
		}
		pairs = append(pairs,
			pair{"ink on button", p.ink, p.button, 4.5}, pair{"ink on pressed button", p.ink, over(p.press, p.button), 4.5},
			pair{"text on accent", p.onHue, p.accent, 4.5}, pair{"text on fault", p.onHue, p.fault, 4.5},
			pair{"text on caution", p.onHue, p.caution, 4.5}, pair{"text on good", p.onHue, p.good, 4.5},
			pair{"accent on button", p.accent, p.button, 3},
		)
		for _, q := range pairs {
			if r := colour.ContrastRatio(q.a, q.b); r < q.min {
				t.Errorf("%s: %s is %.2f:1, want %.1f:1", name, q.name, r, q.min)
			}
		}
	}
}

func TestLookOverridesSystem(t *testing.T) {
	for _, c := range []struct {
		look Look
		sys  fyne.ThemeVariant
		dark bool
	}{
		{FollowSystem, theme.VariantLight, false}, {FollowSystem, theme.VariantDark, true},
		{Light, theme.VariantDark, false}, {Dark, theme.VariantLight, true},
	} {
		th := NewTheme(c.look, 100, nil, nil)
		if got := th.IsDark(c.sys); got != c.dark {
			t.Errorf("look %s under system %v: dark %v, want %v", c.look, c.sys, got, c.dark)
		}
		want := paper().ground
		if c.dark {
			want = charcoal().ground
		}
		if got := th.Color(theme.ColorNameBackground, c.sys); got != want {
			t.Errorf("look %s under system %v: background %v", c.look, c.sys, got)
		}
	}
}

func TestTextSizeScales(t *testing.T) {
	small, big := NewTheme(Light, 100, nil, nil), NewTheme(Light, 200, nil, nil)
	for _, n := range []fyne.ThemeSizeName{theme.SizeNameText, theme.SizeNameCaptionText, theme.SizeNameHeadingText,
		theme.SizeNameSubHeadingText, theme.SizeNameInlineIcon} {
		if a, b := small.Size(n), big.Size(n); b != 2*a {
			t.Errorf("%s: %.1f at 100 %%, %.1f at 200 %%", n, a, b)
		}
	}
	if got := NewTheme(Light, 900, nil, nil).TextPercent(); got != 200 {
		t.Errorf("900 %% becomes %d %%, want 200 %%", got)
	}
}
