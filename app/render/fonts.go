package render

import (
	"fmt"
	"io/fs"
	"strings"
	"sync"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"

	"heartside/assets"
)

// cut is one of the typefaces text can be set in.
type cut int

const (
	regular cut = iota
	bold
	narrow
	narrowBold
	cuts
)

// files names the typefaces below the fonts folder, by cut.
func files() [cuts]string {
	return [cuts]string{"DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"}
}

// Faces are the typefaces of the drawings with their measures. They are safe
// for use by several goroutines.
type Faces struct {
	font [cuts]*truetype.Font
	data [cuts][]byte
	em   [cuts]float64 // font units in an em

	mu       sync.Mutex // guards the rest
	outlines map[outlineKey]outline
	masks    map[maskKey]*mask
	buf      truetype.GlyphBuf
}

// LoadFaces reads the typefaces built into the program.
func LoadFaces() (*Faces, error) {
	f, err := fs.Sub(assets.Fonts, "fonts")
	if err != nil {
		return nil, fmt.Errorf("typefaces: %w", err)
	}
	return NewFaces(f)
}

// NewFaces reads the four DejaVu typefaces from a folder.
func NewFaces(folder fs.FS) (*Faces, error) {
	f := &Faces{outlines: map[outlineKey]outline{}, masks: map[maskKey]*mask{}}
	for i, name := range files() {
		data, err := fs.ReadFile(folder, name)
		if err != nil {
			return nil, fmt.Errorf("typeface: %w", err)
		}
		t, err := truetype.Parse(data)
		if err != nil {
			return nil, fmt.Errorf("typeface %s: %w", name, err)
		}
		f.font[i], f.data[i], f.em[i] = t, data, float64(t.FUnitsPerEm())
	}
	return f, nil
}

// cut returns the typeface a style asks for.
func (st Style) cut() cut {
	c := regular
	if st.Bold {
		c = bold
	}
	if st.Narrow {
		c += narrow
	}
	return c
}

// has reports whether a typeface draws r; the PDF format takes no character
// beyond the first plane.
func (f *Faces) has(c cut, r rune) bool { return r <= 0xFFFF && f.font[c].Index(r) != 0 }

// Width returns how far s reaches, in the unit of st.Size. No pairs are
// kerned, so that widths are alike on screen and paper.
func (f *Faces) Width(s string, st Style) float64 {
	c := st.cut()
	var w float64
	for _, r := range f.Printable(s, st) {
		w += f.advance(c, f.font[c].Index(r))
	}
	return w * st.Size
}

// advance returns the step from one glyph to the next, in ems.
func (f *Faces) advance(c cut, i truetype.Index) float64 {
	return float64(f.font[c].HMetric(fixed.Int26_6(f.em[c]), i).AdvanceWidth) / f.em[c]
}

// The heights below are those the four typefaces state in common, in ems.

// Ascent returns how far letters with accents rise over the baseline.
func (f *Faces) Ascent(st Style) float64 { return 0.928 * st.Size }

// Descent returns how far letters reach below the baseline, positive.
func (f *Faces) Descent(st Style) float64 { return 0.236 * st.Size }

// CapHeight returns the height of capitals and figures.
func (f *Faces) CapHeight(st Style) float64 { return 0.729 * st.Size }

// Fit returns s, or where it is wider than w the longest beginning of it that
// fits with an ellipsis; "" where not even that fits.
func (f *Faces) Fit(s string, st Style, w float64) string {
	if f.Width(s, st) <= w {
		return s
	}
	rs := []rune(s)
	for n := len(rs) - 1; n > 0; n-- {
		t := strings.TrimRight(string(rs[:n]), " ") + "…"
		if f.Width(t, st) <= w {
			return t
		}
	}
	return ""
}

// start returns where text that is w wide begins, given its alignment point.
func (st Style) start(w float64) float64 {
	switch st.Align {
	case Middle:
		return -w / 2
	case Right:
		return -w
	}
	return 0
}
