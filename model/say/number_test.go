package say

import (
	"math"
	"testing"
)

// Decimal signs: ISO 80000-1 (2009), 7.3.2, has the comma or the point, as the language
// uses them.
func TestNumbersAsTheLanguageWritesThem(t *testing.T) {
	t.Cleanup(func() { Use("", nil) })
	all := func() []string {
		return []string{
			Decimal("12.5"), Decimal("12"), Decimal("−0.5"), Print("%.1f %%", 2.25), Print("%6.2f|%-6.1f|%+.1f|%05.1f", 1.5, 2.5, 3.5, 4.5),
			Print("%g %v %.2e", 0.75, 0.125, 1234.5), Print("%d %s", 3, "1.5"), Print("%v %v", math.Inf(1), math.NaN()),
			F("%.1f mm", 7.25), Of("at %.1f years of age"), Errorf("a share of %g", 0.5).Error(),
		}
	}
	want := func(list ...string) {
		t.Helper()
		for i, got := range all() {
			if got != list[i] {
				t.Errorf("%d: %q, want %q", i, got, list[i])
			}
		}
	}
	want("12.5", "12", "−0.5", "2.2 %", "  1.50|2.5   |+3.5|004.5", "0.75 0.125 1.23e+03", "3 1.5", "+Inf NaN", "7.2 mm", "at %.1f years of age", "a share of 0.5")
	Use("de", map[string]string{". [decimal]": ",", "a share of %g": "ein Anteil von %g", "drawn after %g years": "nach %g Jahren"})
	want("12,5", "12", "−0,5", "2,2 %", "  1,50|2,5   |+3,5|004,5", "0,75 0,125 1,23e+03", "3 1.5", "+Inf NaN", "7,2 mm", "at %.1f years of age", "ein Anteil von 0,5")
	if got := Of("drawn after 2.5 years"); got != "nach 2,5 Jahren" {
		t.Error(got)
	}
}
