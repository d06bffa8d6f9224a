package together

import (
	"slices"

	"heartside/layout/face"
)

// Reader reads faces of several panels and remembers as a face.Reader does. The
// zero value is ready. A Reader is for one goroutine at a time.
type Reader struct {
	whole    face.Reader
	each     []*face.Reader
	out      face.Reading
	warnings []face.Warning
	bands    []face.Band
}

// Hold keeps warnings near their limits still while a strip is dragged.
func (r *Reader) Hold(on bool) { r.whole.Hold(on) }

// SkipCoverage leaves contrast coverage out of the readings that follow.
func (r *Reader) SkipCoverage(on bool) { r.whole.SkipCoverage(on) }

// Remember keeps what was read of up to n strips; see face.Reader.
func (r *Reader) Remember(n int) { r.whole.Remember(n) }

// Read returns everything read of f as one face. The reading belongs to r and
// holds until r reads again. That a strip does not reach over its place is left
// to the reading of its own panel, as here it never reaches over all. Streaks of
// panels end to end are judged by both lines that halve the face; see answer.go.
func (r *Reader) Read(f *Face) *face.Reading {
	got := r.whole.Read(f.Panel)
	r.out = *got
	r.warnings = r.warnings[:0]
	lone := false
	for _, w := range got.Warnings {
		if w.Kind == face.PanelTooSmall {
			continue
		}
		lone = lone || w.Kind == face.LoneStreak && w.Side == face.Show
		r.warnings = append(r.warnings, w)
	}
	r.out.Warnings = r.warnings
	if lone && f.layout.Way == Along {
		r.answer(f)
	}
	return &r.out
}

// answer finds which lone streaks of panels end to end are none, and takes
// their warnings away.
func (r *Reader) answer(f *Face) {
	rows := r.rows(f)
	r.bands = append(r.bands[:0], r.out.Show.Bands...)
	changed := false
	for i := range r.bands {
		b := &r.bands[i]
		if b.Lone {
			if why := rows.excuse(b); why != face.NoExcuse {
				b.Lone, b.Later, b.Excuse, changed = false, false, why, true
			}
		}
	}
	if !changed {
		return
	}
	r.out.Show.Bands = r.bands
	list := slices.Clone(r.out.Warnings)
	r.warnings = r.warnings[:0]
	for _, w := range list {
		if w.Kind != face.LoneStreak || w.Side != face.Show || r.stillLone(&w) {
			r.warnings = append(r.warnings, w)
			continue
		}
		r.warnings = append(r.warnings, w.Under...) // what was told with it is told still
	}
	r.out.Warnings = r.warnings
}

// stillLone reports whether a band that a warning is about stands alone.
func (r *Reader) stillLone(w *face.Warning) bool {
	place := w.Place.Inset(-1e-6)
	for i := range r.bands {
		if b := &r.bands[i]; b.Lone && (b.ID == w.Band || place.Contains(b.Place.Min) && place.Contains(b.Place.Max)) {
			return true
		}
	}
	return false
}
