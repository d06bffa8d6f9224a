package render

// arabicForms gives the first of the joined forms of an Arabic letter (the one
// that stands alone) and how many forms there are: 4 where it joins both its
// neighbours, 2 where only the one before it. From the Unicode chart of Arabic
// Presentation Forms-B, U+FE70 to U+FEFF.
func arabicForms(r rune) (first rune, forms int) {
	switch {
	case r == 0x621:
		return 0xFE80, 1
	case r >= 0x622 && r <= 0x64A:
		const table = "2222" + "4" + "2" + "4" + "2" + "44444" + "22" + "22" + "44444444"
		letters := []rune{0x622, 0x623, 0x624, 0x625, 0x626, 0x627, 0x628, 0x629, 0x62A, 0x62B, 0x62C, 0x62D, 0x62E, 0x62F, 0x630, 0x631, 0x632, 0x633, 0x634, 0x635, 0x636, 0x637, 0x638, 0x639, 0x63A}
		first = 0xFE81
		for i, l := range letters {
			if l == r {
				return first, int(table[i] - '0')
			}
			first += rune(table[i] - '0')
		}
		const rest = "4444444" + "2" + "2" + "4" // feh to yeh
		first = 0xFED1
		for i := range rest {
			if r == 0x641+rune(i) {
				return first, int(rest[i] - '0')
			}
			first += rune(rest[i] - '0')
		}
	}
	return 0, 0
}

// lamAlef are the forms of lam with the alef after it: alone, and joined to
// the letter before.
func lamAlef(r rune) (rune, bool) {
	switch r {
	case 0x622:
		return 0xFEF5, true
	case 0x623:
		return 0xFEF7, true
	case 0x625:
		return 0xFEF9, true
	case 0x627:
		return 0xFEFB, true
	}
	return 0, false
}

// joined replaces Arabic letters by the forms they take beside their
// neighbours, where the typeface holds them.
func joined(rs []rune, has func(rune) bool) []rune {
	out := make([]rune, 0, len(rs))
	open := false // the letter before joins to the next
	for i := 0; i < len(rs); i++ {
		first, forms := arabicForms(rs[i])
		if forms == 0 {
			out = append(out, rs[i])
			open = open && wayOf(rs[i]) == mark
			continue
		}
		if rs[i] == 0x644 && i+1 < len(rs) {
			if l, ok := lamAlef(rs[i+1]); ok && has(l) {
				if open {
					l++
				}
				out = append(out, l)
				open = false
				i++
				continue
			}
		}
		next := false
		if i+1 < len(rs) {
			_, n := arabicForms(rs[i+1])
			next = n > 1
		}
		form := first // alone, final, initial, medial
		if open && forms > 1 {
			form++
		}
		if next && forms == 4 {
			form += 2
		}
		if !has(form) {
			form = rs[i]
		}
		out = append(out, form)
		open = forms == 4
	}
	return out
}
