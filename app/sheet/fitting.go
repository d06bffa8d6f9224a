package sheet

// emSteps are the sizes of type tried for a page, largest first, as multiples
// of the usual one.
var emSteps = [...]float64{1.3, 1.2, 1.1, 1}

// largest chooses the largest type in which what need measures takes at most
// room mm, and reports whether there is one; else it is the usual size.
func (b *builder) largest(need func() float64, room float64) bool {
	for _, k := range emSteps {
		b.em = body * k
		if need() <= room {
			return true
		}
	}
	return false
}

// openFitting begins the first page of a subject, lying or standing as is
// preferred, or the other way where only that holds everything: what need
// measures beside a drawing of the height the first of wishes gives, or one of
// the next. It chooses the type and reports whether all goes on the page; where
// it does not, the page is as preferred.
func (b *builder) openFitting(lying bool, h header, marks []mark, need func() float64, wishes ...func() float64) bool {
	for _, way := range [...]bool{lying, !lying} {
		b.open(way, h, marks)
		for _, wish := range wishes {
			if b.largest(need, b.left()-wish()) {
				return true
			}
		}
		b.drop()
	}
	b.open(lying, h, marks)
	return false
}

// drop takes back the last page.
func (b *builder) drop() { b.pages = b.pages[:len(b.pages)-1] }
