package unit

import "heartside/model/say"

// most is the thickest stock sold by quarters: 16/4, four inches.
const most = 16

// ParseThickness is Parse for the thickness of stock, and takes quarters
// besides: "4/4" to "16/4", in either system, are so many quarters of an inch.
// That is what the stock is sold as, sawn: 4/4 is nominally 25.4 mm; the board
// itself wants measuring. quarters is 0 where the text was a length, which must
// be more than 0.
func ParseThickness(text string, sys System) (mm float64, quarters int, err error) {
	if toks, bad := scan(text); bad == nil && len(toks) == 4 && toks[1].mark == slash {
		n, d := toks[0], toks[2]
		if n.mark == number && n.whole && n.value >= 4 && n.value <= most && d.mark == number && d.whole && d.value == 4 {
			return n.value * InchMM / 4, int(n.value), nil
		}
	}
	mm, err = Parse(text, sys)
	if err == nil && mm <= 0 {
		return 0, 0, &ParseError{text, 1, say.T("a thickness is more than 0"), say.T(`write a thickness such as 26 mm, 1 1/8" or 5/4`)}
	}
	return mm, 0, err
}
