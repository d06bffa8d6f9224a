package face

// SkipCoverage leaves contrast coverage out of the readings that follow, as 0,
// or takes it in again. Everything else is read as ever. To find it, the
// colour of every cell is held against a median that moves with each strip, so
// it is most of the work where photographs are read; a search that reads many
// panels does without.
func (r *Reader) SkipCoverage(on bool) { r.uncovered = on }
